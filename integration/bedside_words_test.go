package integration

import (
	"slices"
	"strings"
	"testing"

	"wellshown/api"
	"wellshown/assessment/catalog"
)

// What the office says of a field is read at the bedside too, word for word: a refusal
// without it tells nobody what to do (RFC 9457, section 3.1.4, and its extension errors
// of section 3).
func TestARefusalIsReadWhole(t *testing.T) {
	refusals := []*api.Problem{
		{Status: 422, Detail: "One thing needs mending.", Errors: []api.FieldFault{{Location: "password", Detail: "This is not the password."}}},
		{Status: 422, Detail: "Two things need mending.", Errors: []api.FieldFault{{Location: "place", Detail: "Write down the place."}, {Detail: "Nothing was marked."}}},
		{Status: 409, Detail: "It is signed already."},
	}
	var calls []moduleCall
	for _, p := range refusals {
		calls = append(calls, moduleCall{"office", "why", []any{map[string]any{"status": p.Status, "data": p}}})
	}
	var said []string
	byNode(t, "call.mjs", calls, &said)
	for i, p := range refusals {
		want := []string{p.Detail}
		for _, e := range p.Errors {
			want = append(want, e.Detail)
		}
		if said[i] != strings.Join(want, " ") {
			t.Errorf("%q, want %q", said[i], want)
		}
	}
}

// A reading that is out of range is named where it was taken, also of a step that was
// marked before: the mark is worth nothing then (the limits are an example, no source).
func TestAReadingOutOfRangeIsNamed(t *testing.T) {
	measure := func(name string, low string) map[string]any {
		return map[string]any{"name": name, "unit": "s", "low": map[string]string{"value": low}, "exclusive": false, "magnitude": false, "either": "way"}
	}
	step := map[string]any{"no": 3, "text": "Clean hands", "kind": "timed", "critical": true, "least": "independent", "weight": 1, "may_not_apply": "", "measures": []any{measure("rub", "20"), measure("wash", "40")}}
	rules := map[string]any{"credits": map[string]string{"independent": "1", "cued": "1/2", "assisted": "0", "not met": "0", "unsafe": "0"}, "pass_mark": "1", "cue_limit": nil, "parameters": []any{}, "steps": []any{step}}
	read := func(value string) map[string]string { return map[string]string{"value": value, "unit": "s"} }
	cases := []struct {
		readings map[string]any
		want     []string
	}{
		{map[string]any{}, nil},
		{map[string]any{"rub": read("20")}, nil},
		{map[string]any{"rub": read("19.9")}, []string{"rub"}},
		{map[string]any{"rub": read("25"), "wash": read("25")}, []string{"wash"}},
	}
	var calls []moduleCall
	for _, c := range cases {
		calls = append(calls, moduleCall{"ranges", "outsideOf", []any{rules, map[string]any{}, 3, c.readings}})
	}
	var said [][]string
	byNode(t, "call.mjs", calls, &said)
	for i, c := range cases {
		if !slices.Equal(said[i], c.want) {
			t.Errorf("%v: %q, want %q", c.readings, said[i], c.want)
		}
	}
}

// The bedside begins no sheet that could never be finished: over the catalogue it misses
// the same values as the office does where it refuses to open one, and none that a child's
// record has, in numbers or in words.
func TestTheBedsideMissesWhatTheOfficeMisses(t *testing.T) {
	lists, err := catalog.All()
	if err != nil {
		t.Fatal(err)
	}
	var calls []moduleCall
	var want [][]string
	some := 0
	for _, c := range lists {
		names, numbers, words := []map[string]string{}, map[string]any{}, map[string]string{}
		var all, first []string
		for _, p := range c.Parameters {
			names = append(names, map[string]string{"name": p.Name, "says": p.Says})
			if p.Default != nil || p.Unit == "" || !c.Judges(p.Name) {
				continue
			}
			if all = append(all, p.Says); len(all) == 1 {
				first, words[p.Name] = all, "as ordered"
			} else {
				numbers[p.Name] = map[string]string{"value": "1", "unit": p.Unit}
			}
		}
		some += len(first)
		skill := map[string]any{"rules": api.RulesOf(c), "checklist": map[string]any{"parameters": names}}
		for client, misses := range map[*map[string]any][]string{nil: all, {"parameters": numbers, "words": words}: nil, {"parameters": numbers, "words": map[string]string{}}: first} {
			calls, want = append(calls, moduleCall{"ordered", "lacking", []any{skill, client}}), append(want, misses)
		}
	}
	var said [][]string
	byNode(t, "call.mjs", calls, &said)
	for i := range calls {
		if !slices.Equal(said[i], want[i]) {
			t.Errorf("%v: %q is missing, want %q", calls[i].Args[1], said[i], want[i])
		}
	}
	if some == 0 {
		t.Error("no checklist of the catalogue needs a child's values")
	}
}

// What stands beside an outcome until it counts: a pass counts when both have signed, what
// is no pass as soon as the observer has (the rule of the house, no source).
func TestAnOutcomeIsNotMoreThanItIs(t *testing.T) {
	sheet := func(outcome string, formal bool, parts ...string) map[string]any {
		signed := []map[string]string{}
		for _, part := range parts {
			signed = append(signed, map[string]string{"part": part})
		}
		return map[string]any{"formal": formal, "signed": signed, "answer": map[string]any{"demonstration": map[string]any{"outcome": outcome}}}
	}
	cases := []struct {
		sheet map[string]any
		want  string
	}{
		{sheet("competent", true), ", not signed by both yet"},
		{sheet("competent", true, "observer"), ", not signed by both yet"},
		{sheet("competent", true, "learner"), ", not signed by both yet"},
		{sheet("competent", true, "learner", "observer"), ""},
		{sheet("unsafe", true), ", not signed yet"},
		{sheet("not yet competent", true, "learner"), ", not signed yet"},
		{sheet("stopped for safety", true, "observer"), ""},
		{sheet("competent", false), ", practice only"},
	}
	var calls []moduleCall
	for _, c := range cases {
		calls = append(calls, moduleCall{"standing", "unfinished", []any{c.sheet}})
	}
	var said []string
	byNode(t, "call.mjs", calls, &said)
	for i, c := range cases {
		if said[i] != c.want {
			t.Errorf("%v: %q, want %q", c.sheet, said[i], c.want)
		}
	}
}
