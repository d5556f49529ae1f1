package api

import (
	"encoding/json"
	"fmt"
	"reflect"
	"slices"
	"testing"

	"wellshown/assessment"
)

// notScored is what a checklist holds that no outcome depends on. Whatever else there
// is must show in the rules: a field that is added to the core and forgotten here would
// let a device score by other rules than the office.
var notScored = map[string][]string{
	"Checklist": {"Code", "Title", "Scope", "ManikinOnly", "CardNeeded", "Purpose", "Safety", "Equipment", "Fitted", "Prerequisites", "Related", "Sources"},
	"Policy":    {"Award", "Validity"}, // what follows from outcomes
	"Section":   {"Title"},
	"Step":      {"Because", "Note"},
	"Parameter": {"Says"},
}

// TestNothingThatIsScoredIsLost changes one field after the other, all the way down,
// and wants other rules each time; and the same ones for what is not scored. (The
// project's own rule.)
func TestNothingThatIsScoredIsLost(t *testing.T) {
	list := everything()
	before := rulesText(t, list)
	changed := 0
	vary(reflect.ValueOf(&list).Elem(), "checklist", true, func(path string, scored bool) {
		if same := rulesText(t, list) == before; same == scored {
			t.Errorf("%s is scored: %t, and the rules stay the same with another one: %t", path, scored, same)
		}
		changed++
	})
	if changed < 50 {
		t.Errorf("only %d fields were changed", changed)
	}
	if rulesText(t, list) != before {
		t.Error("a field was not put back")
	}
}

func rulesText(t *testing.T, c assessment.Checklist) string {
	t.Helper()
	text, err := json.Marshal(RulesOf(c))
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// everything is a checklist in which every field is set.
func everything() assessment.Checklist {
	number := func(s string) *assessment.Number { return new(assessment.MustNumber(s)) }
	bound := func(b assessment.Bound) *assessment.Bound {
		b.Times, b.Plus, b.Minus = number("1/3"), "c", "d"
		return &b
	}
	measures := []assessment.Measure{
		{Name: "one", Unit: "s", Low: bound(assessment.Bound{Value: assessment.MustNumber("1/7")}), High: bound(assessment.Bound{Parameter: "a"}), Exclusive: true, Magnitude: true, Either: "way"},
		{Name: "two", Unit: "s", Low: bound(assessment.Bound{Measure: "one"})},
	}
	step := assessment.Step{No: 1, Text: "Text", Kind: assessment.Timed, Critical: true, Because: "Because", Weight: 2, Least: assessment.Cued, MayNotApply: "Never", Note: "Note", Measures: measures}
	return assessment.Checklist{
		Code: "code", Title: "Title", Scope: assessment.General, ManikinOnly: true, CardNeeded: true, Purpose: "Purpose",
		Safety: []string{"a"}, Equipment: []string{"b"}, Fitted: []string{"c"}, Prerequisites: []string{"d"}, Related: []string{"e"}, Sources: []string{"f"},
		Parameters: []assessment.Parameter{{Name: "a", Says: "says", Unit: "s", Default: &assessment.Quantity{Value: assessment.MustNumber("1"), Unit: "s"}}},
		Sections:   []assessment.Section{{Title: "First", Steps: []assessment.Step{step}}, {Title: "Second", Steps: []assessment.Step{step}}},
		Policy: assessment.Policy{Scoring: assessment.Scoring{Credits: assessment.DefaultCredits(), PassMark: assessment.MustNumber("95/100"), CueLimit: new(2)},
			Award: assessment.Award{Count: 3}, Validity: assessment.Validity{Months: 12, Anchor: assessment.Anniversary}},
	}
}

// vary sets each value below v to another one, calls look, and puts it back.
func vary(v reflect.Value, path string, scored bool, look func(string, bool)) {
	if n, ok := v.Interface().(assessment.Number); ok {
		instead(v, n.Plus(assessment.MustNumber("1/11")), path, scored, look)
		return
	}
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			name := v.Type().Field(i).Name
			vary(v.Field(i), path+"."+name, scored && !unscored(v, name), look)
		}
	case reflect.Pointer:
		if !v.IsNil() {
			vary(v.Elem(), path, scored, look)
			instead(v, reflect.Zero(v.Type()).Interface(), path+" gone", scored, look)
		}
	case reflect.Slice:
		for i := range v.Len() {
			vary(v.Index(i), fmt.Sprint(path, "[", i, "]"), scored, look)
		}
		if v.Len() > 0 {
			instead(v, v.Slice(0, v.Len()-1).Interface(), path+" shorter", scored, look)
		}
	case reflect.Map:
		for _, key := range v.MapKeys() {
			was := v.MapIndex(key)
			v.SetMapIndex(key, reflect.ValueOf(assessment.MustNumber("1/11")))
			look(fmt.Sprint(path, "[", key, "]"), scored)
			v.SetMapIndex(key, was)
		}
	case reflect.String:
		instead(v, v.String()+" other", path, scored, look)
	case reflect.Bool:
		instead(v, !v.Bool(), path, scored, look)
	case reflect.Int:
		instead(v, v.Int()+1, path, scored, look)
	default:
		panic("no other value is known for " + path)
	}
}

// unscored: a field that no outcome depends on. A bound that is a parameter or another
// value has no value of its own, and one that is a parameter is nothing else.
func unscored(v reflect.Value, field string) bool {
	if b, ok := v.Interface().(assessment.Bound); ok && (field == "Value" || field == "Measure") {
		return b.Parameter != "" || field == "Value" && b.Measure != ""
	}
	return slices.Contains(notScored[v.Type().Name()], field)
}

func instead(v reflect.Value, other any, path string, scored bool, look func(string, bool)) {
	was := reflect.New(v.Type()).Elem()
	was.Set(v)
	v.Set(reflect.ValueOf(other).Convert(v.Type()))
	look(path, scored)
	v.Set(was)
}
