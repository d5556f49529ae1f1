package integration

import (
	"slices"
	"strings"
	"testing"

	"wellshown/api"
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
