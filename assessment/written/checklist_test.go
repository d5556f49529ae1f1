package written_test

import (
	"errors"
	"reflect"
	"strings"
	"testing"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/written"
)

// short is a whole checklist by hand, with one step of each kind.
const short = `code: wash-hands
title: Wash hands
scope: general
safety:
  - Orders come first.
parameters:
  - name: wash_min
    says: shortest wash
    unit: s
    default: 40
policy:
  pass_mark: 95/100
  cue_limit: null
  award: {count: 2, days: 1, span_days: 30}
  validity: {months: 12, anchor: month end, renewal_days: 30, notice_days: 14, lapse_months: null}
sections:
  - title: Before
    steps:
      - no: 1
        text: Say why
        kind: said aloud
      - no: 2
        text: Take rings off
        kind: done
        may_not_apply: No rings are worn.
  - title: Wash
    steps:
      - no: 3
        text: Wash, at least {wash_min}
        kind: timed
        critical: Infection
        least: cued
        weight: 2
        measures:
          - {name: time, unit: s, low: {parameter: wash_min}}
      - no: 4
        text: Read the water's temperature
        kind: measured
        note: Any value will do.
        measures:
          - {name: water, unit: degC, record_only: true}
`

func TestReadsAChecklistByHandWithItsDefaults(t *testing.T) {
	c, err := written.DecodeYAML("short.yaml", []byte(short))
	if err != nil {
		t.Fatal(err)
	}
	p := c.Policy
	if p.Scoring.CueLimit != nil || p.Scoring.PassMark.Cmp(assessment.MustNumber("0.95")) != 0 {
		t.Errorf("scoring was read as %+v", p.Scoring)
	}
	if !reflect.DeepEqual(p.Scoring.Credits, assessment.DefaultCredits()) {
		t.Errorf("credits that are left out are %v, not the default", p.Scoring.Credits)
	}
	if want := (assessment.Award{Count: 2, Days: 1, Observers: 1, SpanDays: 30, Consecutive: true}); p.Award != want {
		t.Errorf("the award is %+v, not %+v", p.Award, want)
	}
	if want := (assessment.Validity{Months: 12, Anchor: assessment.MonthEnd, RenewalDays: 30, NoticeDays: 14}); p.Validity != want {
		t.Errorf("the validity is %+v, not %+v", p.Validity, want)
	}
	first, _ := c.Step(1)
	third, _ := c.Step(3)
	if first.Critical || first.Weight != 1 || first.MayNotApply != "" {
		t.Errorf("step 1 is %+v", first)
	}
	if !third.Critical || third.Because != "Infection" || third.Least != assessment.Cued || third.Weight != 2 {
		t.Errorf("step 3 is %+v", third)
	}
	if d := c.Parameters[0].Default; d == nil || d.String() != "40 s" {
		t.Errorf("the default is %v", d)
	}
}

func TestACriticalStepAsksForIndependentUnlessItSaysOtherwise(t *testing.T) {
	c, err := written.DecodeYAML("", []byte(strings.Replace(short, "        least: cued\n", "", 1)))
	if err != nil {
		t.Fatal(err)
	}
	if s, _ := c.Step(3); s.Least != assessment.Independent {
		t.Errorf("the least mark is %q", s.Least)
	}
}

func TestOneLineSetsTheCardForSkillAndValidity(t *testing.T) {
	c, err := written.DecodeYAML("", []byte(strings.Replace(short, "scope: general\n", "scope: general\ncard_needed: true\n", 1)))
	if err != nil {
		t.Fatal(err)
	}
	if !c.CardNeeded || !c.Policy.Validity.CardNeeded {
		t.Errorf("card needed: skill %t, validity %t", c.CardNeeded, c.Policy.Validity.CardNeeded)
	}
	c.Policy.Validity.CardNeeded = false
	if _, err := written.EncodeJSON(c); fault.KindOf(err) != fault.Invalid {
		t.Errorf("a checklist at odds with itself was written: %v", err)
	}
}

// What names a known parameter need not describe it.
func TestKnownParametersMayBeNamedBare(t *testing.T) {
	known := written.Known{{Name: "wash_min", Says: "shortest wash", Unit: "s"}}
	src := strings.Replace(short, "  - name: wash_min\n    says: shortest wash\n    unit: s\n    default: 40\n", "  - wash_min\n", 1)
	c, err := known.DecodeYAML("", []byte(src))
	if err != nil {
		t.Fatal(err)
	}
	if c.Parameters[0] != known[0] {
		t.Errorf("the parameter is %+v", c.Parameters[0])
	}
	_, err = written.DecodeYAML("", []byte(src))
	if err == nil || !strings.Contains(err.Error(), `"wash_min" is no known parameter`) {
		t.Errorf("without a table the answer is %v", err)
	}
}

func TestWrittenAndReadAgainIsTheSame(t *testing.T) {
	c, err := written.DecodeYAML("", []byte(short))
	if err != nil {
		t.Fatal(err)
	}
	asJSON, err := written.EncodeJSON(c)
	if err != nil {
		t.Fatal(err)
	}
	asYAML, err := written.EncodeYAML(c)
	if err != nil {
		t.Fatal(err)
	}
	fromJSON, err := written.DecodeJSON(asJSON)
	if err != nil {
		t.Fatal(err)
	}
	fromYAML, err := written.DecodeYAML("", asYAML)
	if err != nil {
		t.Fatal(err)
	}
	if !reflect.DeepEqual(c, fromJSON) || !reflect.DeepEqual(c, fromYAML) {
		t.Errorf("it came back as\n%+v\nand\n%+v\nnot\n%+v", fromJSON, fromYAML, c)
	}
}

// The bytes are what a signature or a digest is made over: they are spelled out
// so that no change of them goes unseen.
func TestTheBytesOfTheStoredFormAreFixed(t *testing.T) {
	c, err := written.DecodeYAML("", []byte(short))
	if err != nil {
		t.Fatal(err)
	}
	got, err := written.EncodeJSON(c)
	if err != nil {
		t.Fatal(err)
	}
	want := `{"code":"wash-hands","title":"Wash hands","scope":"general","safety":["Orders come first."],` +
		`"parameters":[{"name":"wash_min","says":"shortest wash","unit":"s","default":"40"}],` +
		`"policy":{"credits":{"independent":"1","cued":"0.5","assisted":"0","not met":"0","unsafe":"0"},"pass_mark":"0.95","cue_limit":null,` +
		`"award":{"count":2,"days":1,"observers":1,"real":0,"span_days":30,"consecutive":true},` +
		`"validity":{"months":12,"anchor":"month end","renewal_days":30,"notice_days":14,"lapse_months":null,"absence_days":0}},` +
		`"sections":[{"title":"Before","steps":[{"no":1,"text":"Say why","kind":"said aloud"},` +
		`{"no":2,"text":"Take rings off","kind":"done","may_not_apply":"No rings are worn."}]},` +
		`{"title":"Wash","steps":[{"no":3,"text":"Wash, at least {wash_min}","kind":"timed","critical":"Infection","weight":2,"least":"cued",` +
		`"measures":[{"name":"time","unit":"s","low":{"parameter":"wash_min"}}]},` +
		`{"no":4,"text":"Read the water's temperature","kind":"measured","note":"Any value will do.",` +
		`"measures":[{"name":"water","unit":"degC","record_only":true}]}]}]}`
	if string(got) != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

func TestWhatCannotBeUsedIsNotWritten(t *testing.T) {
	c, err := written.DecodeYAML("", []byte(short))
	if err != nil {
		t.Fatal(err)
	}
	c.Sections[0].Steps[0].Text = "beep \a"
	if out, err := written.EncodeJSON(c); err == nil {
		t.Errorf("text that nothing can print was written: %s", out)
	}
	c.Sections[0].Steps[0].Text = ""
	if out, err := written.EncodeYAML(c); err == nil {
		t.Errorf("a step without text was written: %s", out)
	}
}

func TestFaultsAreRefusalsWithFields(t *testing.T) {
	_, err := written.DecodeYAML("x.yaml", []byte(strings.Replace(short, "kind: timed", "kind: slow", 1)))
	f, ok := fault.As(err)
	if !ok || f.Kind != fault.Invalid || !strings.HasPrefix(f.Fields["sections[1].steps[0].kind"], "line 30, step 3: ") {
		t.Errorf("as a refusal: %+v", f)
	}
	var all *written.Faults
	if !errors.As(err, &all) || all.Name != "x.yaml" || len(all.List) != 1 {
		t.Errorf("as faults: %+v", all)
	}
}
