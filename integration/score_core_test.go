package integration

import (
	"bytes"
	"context"
	"encoding/json"
	"maps"
	"os/exec"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"wellshown/api"
	"wellshown/assessment"
	"wellshown/integration/browser"
)

// askDevice has the program of the devices answer tasks, each with one answer.
func askDevice[A, T any](t *testing.T, tasks []T) []A {
	t.Helper()
	var lines, stderr bytes.Buffer
	write := json.NewEncoder(&lines)
	for _, task := range tasks {
		if err := write.Encode(task); err != nil {
			t.Fatal(err)
		}
	}
	ctx, cancel := context.WithTimeout(t.Context(), 4*time.Minute)
	defer cancel()
	cmd := exec.CommandContext(ctx, browser.Found(t, "node"), filepath.Join("browser", "score.mjs"))
	cmd.Stdin, cmd.Stderr = &lines, &stderr
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("%v: %s", err, stderr.String())
	}
	var answers []A
	for read := json.NewDecoder(bytes.NewReader(out)); read.More(); {
		var a A
		if err := read.Decode(&a); err != nil {
			t.Fatal(err)
		}
		answers = append(answers, a)
	}
	if len(answers) != len(tasks) {
		t.Fatalf("%d answers to %d tasks", len(answers), len(tasks))
	}
	return answers
}

// sameAnswer holds what a device says of a task to what the core says.
func sameAnswer(t *testing.T, name string, task scoreTask, device scoreAnswer) {
	t.Helper()
	core := coreAnswer(task)
	if core.Refused != "" && device.Refused != "" {
		return
	}
	for i := range device.Ranges {
		if r := &device.Ranges[i]; r.Refused != "" {
			*r = scoreRange{Step: r.Step, Name: r.Name, Refused: "yes"}
		}
	}
	if got, want := canonical(t, device), canonical(t, core); got != want {
		sheet, _ := json.Marshal(task)
		t.Fatalf("%s: the device says\n%s, the core\n%s of\n%.4000s", name, got, want, sheet)
	}
}

// canonical is an answer as text in which no list is null.
func canonical(t *testing.T, a scoreAnswer) string {
	t.Helper()
	a.Reasons, a.Words, a.Open, a.StillOpen, a.Ranges = full(a.Reasons), full(a.Words), full(a.Open), full(a.StillOpen), full(a.Ranges)
	if a.Effective == nil {
		a.Effective = map[int]string{}
	}
	text, err := json.Marshal(a)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

func full[T any](list []T) []T { return append([]T{}, list...) }

func coreAnswer(task scoreTask) scoreAnswer {
	params, err := coreQuantities(task.Parameters)
	if err != nil {
		return scoreAnswer{Refused: err.Error()}
	}
	sheet := assessment.Sheet{Stopped: task.Sheet.Stopped}
	for _, m := range task.Sheet.Marks {
		values, err := coreQuantities(m.Readings)
		if err != nil {
			return scoreAnswer{Refused: err.Error()}
		}
		sheet.Entries = append(sheet.Entries, assessment.SheetEntry{No: m.Step, Mark: assessment.Mark(m.Mark), NotApplicable: m.NotApplicable, Reason: m.Reason, Values: values})
	}
	result, open, err := assessment.Score(task.list, params, sheet)
	if err != nil {
		return scoreAnswer{Refused: err.Error()}
	}
	a := scoreAnswer{Outcome: string(result.Outcome), Effective: map[int]string{}, Open: opens(open), Ranges: coreRanges(task, sheet)}
	if result.Score != nil {
		a.Score = new(result.Score.Fraction())
	}
	for _, r := range result.Reasons {
		a.Reasons = append(a.Reasons, scoreReason{string(r.Rule), r.Step, r.Of})
		a.Words = append(a.Words, r.InWords(task.list))
	}
	for no, m := range result.Effective {
		a.Effective[no] = string(m)
	}
	sheet.Stopped = false
	_, open, _ = assessment.Score(task.list, params, sheet)
	a.StillOpen = opens(open)
	return a
}

func opens(all []assessment.Open) []scoreOpen {
	var w []scoreOpen
	for _, o := range all {
		w = append(w, scoreOpen{o.Step, string(o.Why), o.Of})
	}
	return w
}

func coreQuantities(by map[string]api.Reading) (map[string]assessment.Quantity, error) {
	all := map[string]assessment.Quantity{}
	for name, r := range by {
		n, err := assessment.ParseNumber(r.Value)
		if err != nil {
			return nil, err
		}
		all[name] = assessment.Quantity{Value: n, Unit: r.Unit}
	}
	return all, nil
}

// coreRanges are the ranges of all values of a sheet, in its order.
func coreRanges(task scoreTask, sheet assessment.Sheet) []scoreRange {
	known := knownOf(task.list, task.Parameters)
	var all []scoreRange
	for _, e := range sheet.Entries {
		step, _ := task.list.Step(e.No)
		for _, name := range slices.Sorted(maps.Keys(e.Values)) {
			i := slices.IndexFunc(step.Measures, func(m assessment.Measure) bool { return m.Name == name })
			r := coreRange(step.Measures[i], known, e.Values)
			r.Step, r.Name = e.No, name
			all = append(all, r)
		}
	}
	return all
}

func coreRange(m assessment.Measure, known assessment.Parameters, values map[string]assessment.Quantity) scoreRange {
	for _, b := range []*assessment.Bound{m.Low, m.High} {
		if b != nil && b.Measure != "" {
			if _, given := values[b.Measure]; !given {
				return scoreRange{Unit: m.Unit}
			}
		}
	}
	a, missing, err := m.Accepted(known, values)
	if err != nil {
		return scoreRange{Refused: "yes"}
	}
	if missing != "" {
		return scoreRange{Unit: a.Unit, Missing: missing}
	}
	in, err := a.Holds(values[m.Name])
	if err != nil {
		return scoreRange{Refused: "yes"}
	}
	return scoreRange{Unit: a.Unit, Words: a.InWords(), Outside: !in}
}
