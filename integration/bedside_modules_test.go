package integration

import (
	"bytes"
	"encoding/json"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
	"time"

	"wellshown/integration/browser"
)

// A device says of nobody that they are current where it knows better: what ended before
// today by the agency's clocks has lapsed, and what went wrong on the device after the
// pack was made is told (the stricter reading, no source).
func TestThePackMakesNobodyCurrent(t *testing.T) {
	pack := map[string]any{"zone": "America/New_York", "made_at": "2026-03-07T17:00:00Z"}
	skill := func(word, client string) map[string]any {
		return map[string]any{"skill": "bagging", "word": word, "client": client, "through": "2026-03-07"}
	}
	sheet := func(state, outcome, finished string, formal bool) map[string]any {
		return map[string]any{"state": state, "formal": formal, "finished_at": finished, "learner": map[string]any{"id": "nan"}, "skill": map[string]any{"code": "bagging"},
			"client": map[string]any{"id": "mira"}, "answer": map[string]any{"demonstration": map[string]any{"outcome": outcome}}}
	}
	late := sheet("sent", "not yet competent", "2026-03-07T16:00:00Z", true) // finished without a network before the pack was made, and taken in after it
	late["answer"].(map[string]any)["received_at"] = "2026-03-07T17:00:05Z"
	const before, after, day, next = "2026-03-07T16:00:00Z", "2026-03-07T18:00:00Z", "2026-03-08T04:59:59Z", "2026-03-08T05:00:00Z"
	type given = map[string]any
	cases := []struct {
		given       given
		word, since string
	}{
		{given{"skill": skill("current", "mira"), "now": day, "sheets": []any{}}, "current", ""}, // 23:59:59 there
		{given{"skill": skill("current", "mira"), "now": next, "sheets": []any{}}, "lapsed", ""},
		{given{"skill": skill("due", ""), "now": next, "sheets": []any{}}, "lapsed", ""},
		{given{"skill": skill("withdrawn", ""), "now": next, "sheets": []any{}}, "withdrawn", ""},
		{given{"skill": skill("current", "mira"), "now": day, "sheets": []any{sheet("finished", "not yet competent", before, true)}}, "current", "not yet competent"},
		{given{"skill": skill("current", ""), "now": day, "sheets": []any{sheet("sent", "competent", after, true), sheet("sent", "stopped for safety", after, true)}}, "current", "stopped for safety"},
		{given{"skill": skill("current", "mira"), "now": day, "sheets": []any{sheet("refused", "not yet competent", before, true)}}, "current", "not yet competent"},
		{given{"skill": skill("current", "mira"), "now": day, "sheets": []any{sheet("sent", "not yet competent", before, true)}}, "current", ""}, // the pack knows it
		{given{"skill": skill("current", "mira"), "now": day, "sheets": []any{late}}, "current", "not yet competent"},
		{given{"skill": skill("current", "mira"), "now": day, "sheets": []any{sheet("sent", "not yet competent", after, false)}}, "current", ""}, // practice
		{given{"skill": skill("current", "odo"), "now": day, "sheets": []any{sheet("sent", "not yet competent", after, true)}}, "current", ""},   // another child
		{given{"skill": skill("current", "mira"), "now": day, "sheets": []any{sheet("sent", "competent", after, true)}}, "current", ""},
	}
	var calls []moduleCall
	for _, c := range cases {
		now, err := time.Parse(time.RFC3339, c.given["now"].(string))
		if err != nil {
			t.Fatal(err)
		}
		calls = append(calls, moduleCall{"standing", "standing", []any{pack, given{"id": "nan"}, c.given["skill"], c.given["sheets"], now.UnixMilli()}})
	}
	var said []struct{ Word, Since string }
	byNode(t, "call.mjs", calls, &said)
	for i, c := range cases {
		if said[i].Word != c.word || said[i].Since != c.since {
			t.Errorf("%v: %s since %q, want %s since %q", c.given, said[i].Word, said[i].Since, c.word, c.since)
		}
	}
}

// Scripts that run modules of the bedside in Node run them as the oldest one does that
// package.json allows, which has no navigator (Node.js 21 changelog: added there).
func TestModulesRunInTheOldestNode(t *testing.T) {
	names, err := filepath.Glob(filepath.Join("browser", "*.mjs"))
	if err != nil {
		t.Fatal(err)
	}
	found := 0
	for _, name := range names {
		body, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		first, _, runs := bytes.Cut(body, []byte("static/bedside/"))
		if !runs {
			continue
		}
		found++
		if !bytes.Contains(first, []byte("oldest-node.mjs")) {
			t.Errorf("%s runs modules of the bedside with what only a newer Node.js has", name)
		}
	}
	if found < 4 {
		t.Errorf("%d scripts run modules of the bedside", found)
	}
}

// moduleCall is a call of a function of the bedside's modules.
type moduleCall struct {
	Module string `json:"module"`
	Name   string `json:"name"`
	Args   []any  `json:"args"`
}

// byNode asks a script that runs modules of the bedside in Node.
func byNode(t *testing.T, script string, asked, answer any) {
	t.Helper()
	src, err := json.Marshal(asked)
	if err != nil {
		t.Fatal(err)
	}
	var stderr bytes.Buffer
	cmd := exec.CommandContext(t.Context(), browser.Found(t, "node"), filepath.Join("browser", script))
	cmd.Stdin, cmd.Stderr = bytes.NewReader(src), &stderr
	out, err := cmd.Output()
	if err == nil {
		err = json.Unmarshal(out, answer)
	}
	if err != nil {
		t.Fatalf("%s: %v: %s%s", script, err, stderr.String(), out)
	}
}

// One sheet over which the office breaks, or whose answer the device has no room for,
// keeps no other from it, so that nothing unsafe waits behind it; where nobody is signed
// in, or too much was asked, all wait (RFC 9110, section 15.6, and RFC 6585, section 4). So
// they do where the office refuses a session that another one followed: that says nothing
// of the sheet (common practice, no source).
func TestOneSheetKeepsNoOtherBack(t *testing.T) {
	for _, c := range []struct {
		answers map[string]int
		full    []string
		csrf    string // of the session that is open; the page knows "word"
		states  map[string]string
		asked   string
	}{
		{map[string]int{"a": 500, "b": 200, "c": 422, "d": 200}, nil, "word", map[string]string{"a": "finished", "b": "sent", "c": "refused", "d": "sent"}, "abcd"},
		{map[string]int{"a": 200, "b": 401, "c": 200}, nil, "word", map[string]string{"a": "sent", "b": "finished", "c": "finished"}, "ab"},
		{map[string]int{"a": 403, "b": 200}, nil, "word", map[string]string{"a": "refused", "b": "sent"}, "ab"},
		{map[string]int{"a": 403, "b": 200}, nil, "another", map[string]string{"a": "finished", "b": "finished"}, "a"},
		{map[string]int{"a": 429, "b": 200}, nil, "word", map[string]string{"a": "finished", "b": "finished"}, "a"},
		{map[string]int{"a": 200, "b": 200, "c": 422}, []string{"a", "c"}, "word", map[string]string{"a": "finished", "b": "sent", "c": "finished"}, "abc"},
	} {
		var came struct {
			States map[string]string
			Asked  []string
			Full   bool
		}
		byNode(t, "outbox.mjs", map[string]any{"answers": c.answers, "full": c.full, "csrf": c.csrf}, &came)
		if !maps.Equal(came.States, c.states) || strings.Join(came.Asked, "") != c.asked || came.Full != (c.full != nil) {
			t.Errorf("answered %v without room for %v: %+v, want %v and %s asked", c.answers, c.full, came, c.states, c.asked)
		}
	}
}

// A finished sheet that the office refused may be thrown away where it is a pass or
// practice; what counts against the learner stays (the stricter reading, no source).
func TestWhatCountsAgainstALearnerIsNotThrownAway(t *testing.T) {
	step := map[string]any{"no": 1, "text": "Looks", "kind": "done", "critical": false, "least": "cued", "weight": 1, "may_not_apply": "", "measures": []any{}}
	rules := map[string]any{"credits": map[string]string{"independent": "1", "cued": "1/2", "assisted": "0", "not met": "0", "unsafe": "0"}, "pass_mark": "1", "cue_limit": nil, "parameters": []any{}, "steps": []any{step}}
	sheet := func(mark string, formal, stopped bool, back ...any) []any {
		return []any{map[string]any{"formal": formal, "stopped": stopped, "taken_back": append([]any{}, back...), "rules": rules, "parameters": map[string]any{}, "marks": map[string]any{"1": map[string]any{"mark": mark}},
			"checklist": map[string]any{"sections": []any{map[string]any{"steps": []any{step}}}}}}
	}
	var calls []moduleCall
	for _, args := range [][]any{
		sheet("independent", true, false), sheet("cued", false, false),
		sheet("cued", true, false), sheet("not met", true, false), sheet("unsafe", false, false), sheet("independent", false, true), sheet("independent", true, false, map[string]any{"step": 1}),
	} {
		calls = append(calls, moduleCall{"filling", "mayGo", args})
	}
	var may []bool
	byNode(t, "call.mjs", calls, &may)
	if want := []bool{true, true, false, false, false, false, false}; !reflect.DeepEqual(may, want) {
		t.Errorf("may be thrown away: %v, want %v", may, want)
	}
}

// A device's clock that is set while a step is timed shortens no reading and draws none
// out: while the page is in sight the browser's steady clock counts, and where that may
// have slept, a clock that was set back gives nothing (W3C High Resolution Time, section
// 1: system clocks are set).
func TestAClockThatIsSetTimesNothingWrong(t *testing.T) {
	type steady map[string]any
	var calls []moduleCall
	for _, c := range []struct {
		now    int
		steady steady
	}{
		{100_000, nil}, {112_340, nil}, {99_999, nil}, {0, nil},
		{112_340, steady{"ms": 12_340, "inSight": true}},
		{100_500, steady{"ms": 12_340, "inSight": true}}, {90_000, steady{"ms": 12_340, "inSight": true}}, {160_000, steady{"ms": 12_340, "inSight": true}},
		{160_000, steady{"ms": 12_340, "inSight": false}}, // the device slept
		{112_000, steady{"ms": 12_340, "inSight": false}}, {105_000, steady{"ms": 12_340, "inSight": false}}, {90_000, steady{"ms": 12_340, "inSight": false}},
	} {
		calls = append(calls, moduleCall{"clock", "ran", []any{100_000, c.now, c.steady}})
	}
	var said []*int
	byNode(t, "call.mjs", calls, &said)
	const unknown = -1
	for i, want := range []int{0, 12_340, unknown, unknown, 12_340, 12_340, 12_340, 12_340, 60_000, 12_000, unknown, unknown} {
		got := unknown
		if said[i] != nil {
			got = *said[i]
		}
		if got != want {
			t.Errorf("%v: %d ms, want %d", calls[i].Args, got, want)
		}
	}
}

// Seconds are rounded up, so that no limit is kept by rounding (ours, no source).
func TestTimedSecondsAreRoundedUp(t *testing.T) {
	var calls []moduleCall
	for _, ms := range []any{0, 1, 12_340, 12_400, 12_401, nil} {
		calls = append(calls, moduleCall{"clock", "seconds", []any{ms}})
	}
	var said []*string
	byNode(t, "call.mjs", calls, &said)
	for i, want := range []string{"0.0", "0.1", "12.4", "12.4", "12.5", ""} {
		if got := said[i]; (got == nil) != (want == "") || got != nil && *got != want {
			t.Errorf("%v: %v, want %q", calls[i].Args, got, want)
		}
	}
}
