package written_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"strings"
	"testing"
	_ "time/tzdata" // the same zones on every machine

	"wellshown/assessment/written"
)

const standingCase = `{"zone": "America/Denver",
 "policy": {"award": {"count": 1, "days": 1, "observers": 1, "real": 0, "span_days": 180, "consecutive": true},
            "validity": {"months": 12, "anchor": "anniversary", "renewal_days": 60, "notice_days": 30, "lapse_months": 24, "absence_days": 0}},
 "history": [
  {"kind": "demonstration", "id": "d1", "performed_at": "2026-01-05T10:00:00-07:00", "outcome": "competent", "observer": "o1", "real": true,
   "formal": true, "revision": 1, "observer_signed_at": "2026-01-05T10:20:00-07:00", "learner_signed_at": "2026-01-06T08:00:00-07:00"},
  {"kind": "withdrawal", "id": "w1", "at": "2026-03-01T09:00:00-07:00", "until": "redemonstrated"},
  {"kind": "reinstatement", "id": "r1", "of": "w1", "at": "2026-03-05T09:00:00-07:00"},
  {"kind": "waiver", "id": "v1", "from": "2026-01-01", "through": "2026-02-01"},
  {"kind": "recheck", "id": "k1", "revision": 2, "by": "2026-06-30", "at": "2026-05-10T09:00:00-07:00"},
  {"kind": "practice", "id": "p1", "on": "2026-04-01"}, {"kind": "teaching", "id": "t1", "on": "2026-01-02"},
  {"kind": "correction", "id": "c1", "of": "d1", "at": "2026-05-01T09:00:00-07:00"}],
 "on": ["2026-01-06", "2026-05-01"]}`

const scoreCase = `{"policy": {"credits": {"independent": "1", "cued": "1/2", "assisted": "0", "not met": "0"}, "pass_mark": "95/100", "cue_limit": 2},
 "parameters": {"suction_high": {"value": "120", "unit": "mmHg"}},
 "steps": [
  {"no": 1, "weight": 1, "critical": true, "least": "independent"},
  {"no": 2, "weight": 1, "measures": [{"name": "time", "unit": "s", "high": "15"}]},
  {"no": 3, "weight": 2, "critical": true, "least": "cued", "measures": [{"name": "pressure", "unit": "mmHg", "low": "80", "high": {"parameter": "suction_high"}, "magnitude": true}]},
  {"no": 4, "weight": 1, "may_not_apply": true}],
 "sheet": {"stopped": false, "marks": [
  {"no": 1, "mark": "independent"}, {"no": 2, "mark": "cued", "values": {"time": {"value": "14.9", "unit": "s"}}},
  {"no": 3, "mark": "independent", "values": {"pressure": {"value": "-13.3", "unit": "kPa"}}}, {"no": 4, "not_applicable": "no probe on this circuit"}]}}`

func TestScoreAnswer(t *testing.T) {
	got, err := written.AnswerScore([]byte(scoreCase))
	if want := `{"outcome":"not yet competent","score":"7/8","reasons":[{"rule":"score"}]}`; err != nil || string(got) != want {
		t.Errorf("%s, %v", got, err)
	}
	unmarked := strings.Replace(scoreCase, `{"no": 1, "mark": "independent"}, `, "", 1)
	got, err = written.AnswerScore([]byte(unmarked))
	if want := `{"open":[{"step":1,"why":"mark"}]}`; err != nil || string(got) != want {
		t.Errorf("%s, %v", got, err)
	}
}

func TestStandingAnswer(t *testing.T) {
	got, err := written.AnswerStanding([]byte(standingCase))
	want := `[{"on":"2026-01-06","standing":"current","through":"2027-01-05","since":"2026-01-06","because":["d1"]},` +
		`{"on":"2026-05-01","standing":"withdrawn","through":null,"since":"2026-03-01","because":["w1"]}]`
	if err != nil || string(got) != want {
		t.Errorf("%s, %v", got, err)
	}
	none := `{"zone":"UTC","policy":` + policyOf(standingCase) + `,"history":[],"on":[]}`
	if got, err := written.AnswerStanding([]byte(none)); err != nil || string(got) != "[]" {
		t.Errorf("no day asked about: %s, %v", got, err)
	}
}

func policyOf(text string) string {
	var c struct{ Policy json.RawMessage }
	if err := json.Unmarshal([]byte(text), &c); err != nil {
		panic(err)
	}
	return string(c.Policy)
}

func TestAPolicyAtItsLimits(t *testing.T) {
	for _, c := range []struct{ old, new string }{
		{`"span_days": 180`, `"span_days": 366`}, {`"renewal_days": 60`, `"renewal_days": 335`}, {`"lapse_months": 24`, `"lapse_months": 0`},
		{`"lapse_months": 24`, `"lapse_months": null`}, {`"lapse_months": 24, `, ``}, {`, "consecutive": true`, ``},
		{`"America/Denver"`, `"UTC"`}, {`"America/Denver"`, `"Etc/GMT+7"`}, {`"America/Denver"`, `"MST7MDT"`},
		{`"learner_signed_at": "2026-01-06T08:00:00-07:00"`, `"learner_signed_at": null`}, {`, "learner_signed_at": "2026-01-06T08:00:00-07:00"`, ``},
		{`"2026-05-01"]`, `"9999-12-31", "0001-01-01"]`}, {`10:00:00-07:00`, `10:00:00.123456789Z`},
	} {
		if !strings.Contains(standingCase, c.old) {
			t.Fatalf("the case does not hold %s", c.old)
		}
		if _, err := written.AnswerStanding([]byte(strings.Replace(standingCase, c.old, c.new, 1))); err != nil {
			t.Errorf("%s → %s is refused: %v", c.old, c.new, err)
		}
	}
	// 28 × (months + lapse_months) is the longest span where there is a lapse limit
	short := strings.NewReplacer(`"months": 12`, `"months": 1`, `"renewal_days": 60`, `"renewal_days": 7`, `"lapse_months": 24`, `"lapse_months": 1`)
	for span, ok := range map[int]bool{56: true, 57: false} {
		text := strings.Replace(short.Replace(standingCase), `"span_days": 180`, fmt.Sprintf(`"span_days": %d`, span), 1)
		if _, err := written.AnswerStanding([]byte(text)); (err == nil) != ok {
			t.Errorf("a span of %d days with one month and a limit of one: %v", span, err)
		}
	}
}

func TestScoreDefaults(t *testing.T) {
	for _, c := range []struct{ old, new string }{
		{`, "cue_limit": 2`, ``}, {`"cue_limit": 2`, `"cue_limit": null`}, {`{"no": 1, "weight": 1, "critical": true, "least": "independent"}`, `{"no": 1}`},
		{`"credits": {"independent": "1", "cued": "1/2", "assisted": "0", "not met": "0"}, `, ``}, {`, "assisted": "0", "not met": "0"`, ``},
	} {
		if !strings.Contains(scoreCase, c.old) {
			t.Fatalf("the case does not hold %s", c.old)
		}
		got, err := written.AnswerScore([]byte(strings.Replace(scoreCase, c.old, c.new, 1)))
		if want := `{"outcome":"not yet competent","score":"7/8","reasons":[{"rule":"score"}]}`; err != nil || string(got) != want {
			t.Errorf("%s → %s: %s, %v", c.old, c.new, got, err)
		}
	}
	got, err := written.AnswerScore([]byte(strings.Replace(scoreCase, `"parameters": {"suction_high": {"value": "120", "unit": "mmHg"}},`, ``, 1)))
	if want := `{"open":[{"step":3,"why":"parameter"}]}`; err != nil || string(got) != want {
		t.Errorf("a child without values: %s, %v", got, err)
	}
}

func TestCaseLimits(t *testing.T) {
	long := strings.Replace(standingCase, `"history": [`, `"history": [`+strings.Repeat(" ", written.MaxCaseBytes), 1)
	if _, err := written.AnswerStanding([]byte(long)); err == nil || !strings.Contains(err.Error(), "longer than 1 MiB") {
		t.Errorf("a case of more than 1 MiB: %v", err)
	}
	var many []string
	for i := range 1001 {
		many = append(many, fmt.Sprintf(`{"kind":"teaching","id":"x%d","on":"2026-01-02"}`, i))
	}
	crowded := strings.Replace(standingCase, `"history": [`, `"history": [`+strings.Join(many, ",")+",", 1)
	if _, err := written.AnswerStanding([]byte(crowded)); err == nil || !strings.Contains(err.Error(), "history: the list has 1009 elements: at most 1000") {
		t.Errorf("a history of more than 1000 entries: %v", err)
	}
	deep := strings.Repeat(`{"a":`, 5000) + "1" + strings.Repeat("}", 5000)
	if _, err := written.AnswerScore([]byte(deep)); err == nil || !strings.Contains(err.Error(), "brackets go deeper than") {
		t.Errorf("brackets 5000 deep: %v", err)
	}
}

// TestCasesAreWrittenAsTheyAreRead: what a case writes is read back as the same
// case with the same answer.
func TestCasesAreWrittenAsTheyAreRead(t *testing.T) {
	score, err := written.DecodeScoreCase([]byte(scoreCase))
	if err != nil {
		t.Fatal(err)
	}
	sameAgain(t, score, scoreCase, written.AnswerScore)
	standing, err := written.DecodeStandingCase([]byte(standingCase))
	if err != nil {
		t.Fatal(err)
	}
	sameAgain(t, standing, standingCase, written.AnswerStanding)
}

func sameAgain(t *testing.T, c any, text string, answer func([]byte) ([]byte, error)) {
	t.Helper()
	once, err := json.Marshal(c)
	if err != nil {
		t.Fatal(err)
	}
	want, err := answer([]byte(text))
	if err != nil {
		t.Fatal(err)
	}
	if got, err := answer(once); err != nil || !bytes.Equal(got, want) {
		t.Errorf("written as %s it is answered with %s (%v), not %s", once, got, err, want)
	}
}
