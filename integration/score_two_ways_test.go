package integration

import (
	"encoding/json"
	"fmt"
	"maps"
	"math/rand/v2"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"testing"

	"wellshown/api"
	"wellshown/assessment"
	"wellshown/assessment/catalog"
	"wellshown/assessment/written"
)

// The rules of scoring are written twice: in Go, and in the modules that a device
// runs where the office cannot be reached (web/static/bedside). These tests hold
// the second to the first, and both to the vectors of assessment/testdata/score,
// which are the rules as no implementation owns them.

// scoreAnswer is what one way of scoring makes of a sheet.
type scoreAnswer struct {
	Outcome   string         `json:"outcome"`
	Score     *string        `json:"score"` // exact, such as 7/8
	Reasons   []scoreReason  `json:"reasons"`
	Words     []string       `json:"words"` // the reasons, for people
	Effective map[int]string `json:"effective"`
	Open      []scoreOpen    `json:"open"`
	StillOpen []scoreOpen    `json:"stillOpen"` // also where it was stopped
	Ranges    []scoreRange   `json:"ranges"`
	Refused   string         `json:"refused"`
	Broken    string         `json:"broken"` // a mistake of the program itself
}

type scoreReason struct {
	Rule string `json:"rule"`
	Step int    `json:"step"`
	Of   string `json:"of"`
}

type scoreOpen struct {
	Step int    `json:"step"`
	Why  string `json:"why"`
	Of   string `json:"of"`
}

// scoreRange is what a value on the sheet is held against.
type scoreRange struct {
	Step    int    `json:"step"`
	Name    string `json:"name"`
	Unit    string `json:"unit"`
	Words   string `json:"words"`
	Missing string `json:"missing"`
	Outside bool   `json:"outside"`
	Refused string `json:"refused"`
	Broken  string `json:"broken"`
}

func TestADeviceScoresTheVectors(t *testing.T) {
	files, err := filepath.Glob(filepath.Join("..", "assessment", "testdata", "score", "*.json"))
	if err != nil || len(files) < 75 {
		t.Fatalf("%d vectors of at least 75: %v", len(files), err)
	}
	var tasks []scoreTask
	var wanted []json.RawMessage
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		var v struct{ Case, Want json.RawMessage }
		if err := json.Unmarshal(text, &v); err != nil {
			t.Fatal(err)
		}
		c, err := written.DecodeScoreCase(v.Case)
		if err != nil {
			t.Fatal(err)
		}
		tasks, wanted = append(tasks, taskOf(c)), append(wanted, v.Want)
	}
	for i, device := range askDevice[scoreAnswer](t, tasks) {
		sameAnswer(t, files[i], tasks[i], device)
		asVector(t, files[i], device, wanted[i])
	}
	t.Logf("%d vectors", len(tasks))
}

// taskOf is a vector as a device would hold it.
func taskOf(c written.ScoreCase) scoreTask {
	rules := api.RulesOf(c.Checklist)
	readings := func(by map[string]assessment.Quantity) map[string]api.Reading {
		all := map[string]api.Reading{}
		for name, q := range by {
			all[name] = api.Reading{Value: q.Value.String(), Unit: q.Unit}
		}
		return all
	}
	t := scoreTask{list: c.Checklist, Rules: &rules, Parameters: readings(c.Parameters), Sheet: deviceSheet{Stopped: c.Sheet.Stopped, Marks: []api.StepMark{}}}
	for _, e := range c.Sheet.Entries {
		t.Sheet.Marks = append(t.Sheet.Marks, api.StepMark{Step: e.No, MarkForm: api.MarkForm{Mark: string(e.Mark), NotApplicable: e.NotApplicable, Reason: e.Reason, Readings: readings(e.Values)}})
	}
	return t
}

// asVector holds a device's answer to the one that the vector wants, in its words.
func asVector(t *testing.T, file string, device scoreAnswer, want []byte) {
	t.Helper()
	a := written.ScoreAnswer{Outcome: assessment.Outcome(device.Outcome)}
	if device.Score != nil {
		a.Score = new(assessment.MustNumber(*device.Score))
	}
	for _, r := range device.Reasons {
		a.Reasons = append(a.Reasons, assessment.Reason{Rule: assessment.Rule(r.Rule), Step: r.Step})
	}
	for _, o := range device.Open {
		a.Open = append(a.Open, assessment.Open{Step: o.Step, Why: assessment.Why(o.Why)})
	}
	text, err := json.Marshal(a)
	if err != nil {
		t.Fatal(err)
	}
	var got, wants any
	if json.Unmarshal(text, &got) != nil || json.Unmarshal(want, &wants) != nil || !reflect.DeepEqual(got, wants) {
		t.Errorf("%s: the device says %s, wanted %s", file, text, want)
	}
}

// TestADeviceScoresAsTheOffice: on 10,000 random sheets over the catalogue and over
// checklists with odd ranges both say the same of everything.
func TestADeviceScoresAsTheOffice(t *testing.T) {
	const ofCatalogue, ofOdd = 500, 4000 // 12 × 500 + 4000
	lists, err := catalog.All()
	if err != nil {
		t.Fatal(err)
	}
	g := &sheetMaker{Rand: rand.New(rand.NewPCG(4, 2026))}
	var tasks []scoreTask
	add := func(c assessment.Checklist, sheets int) {
		rules := api.RulesOf(c)
		for i := range sheets {
			task := g.task(c)
			if i == 0 {
				task.Rules = &rules
			}
			tasks = append(tasks, task)
		}
	}
	for _, c := range lists {
		add(c, ofCatalogue)
	}
	for range ofOdd {
		add(g.oddList(), 1)
	}
	seen := map[string]int{}
	for i, device := range askDevice[scoreAnswer](t, tasks) {
		sameAnswer(t, fmt.Sprint("sheet ", i), tasks[i], device)
		count(seen, device)
	}
	tell(t, len(tasks), seen)
}

// count notes what an answer shows.
func count(seen map[string]int, a scoreAnswer) {
	switch {
	case a.Refused != "":
		seen["refused"]++
	case len(a.Open) > 0:
		seen["open"]++
	default:
		seen[a.Outcome]++
	}
	for _, r := range a.Reasons {
		seen["rule: "+r.Rule]++
	}
	for _, o := range a.Open {
		seen["open for: "+o.Why]++
	}
	for _, r := range a.Ranges {
		if r.Outside {
			seen["values outside"]++
		}
	}
}

// tell says what was tried, and that nothing was tried too seldom to show anything.
func tell(t *testing.T, sheets int, seen map[string]int) {
	t.Helper()
	t.Logf("%d sheets", sheets)
	for _, what := range slices.Sorted(maps.Keys(seen)) {
		t.Logf("%6d %s", seen[what], what)
	}
	for _, what := range []string{"refused", "open", "competent", "not yet competent", "stopped for safety", "rule: unsafe", "rule: critical", "rule: value", "rule: cues",
		"rule: score", "rule: nothing shown", "open for: mark", "open for: value", "open for: reason", "open for: not allowed", "open for: parameter", "values outside"} {
		if seen[what] < 40 {
			t.Errorf("only %d times %s: too few to show anything", seen[what], what)
		}
	}
}
