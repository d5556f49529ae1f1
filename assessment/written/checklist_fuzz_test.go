package written_test

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"reflect"
	"testing"

	"wellshown/assessment"
	"wellshown/assessment/written"
)

func FuzzChecklistYAML(f *testing.F) {
	f.Add([]byte(short))
	for _, row := range brokenLines {
		f.Add(bytes.Replace([]byte(short), []byte(row.old), []byte(row.new), 1))
	}
	starters, err := filepath.Glob("../catalog/*.yaml")
	if err != nil || len(starters) == 0 {
		f.Fatalf("no starter checklists to begin with: %v", err)
	}
	for _, name := range starters {
		src, err := os.ReadFile(name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(src)
	}
	f.Fuzz(func(t *testing.T, src []byte) {
		c, err := written.DecodeYAML("f.yaml", src)
		settle(t, c, err)
	})
}

func FuzzChecklistJSON(f *testing.F) {
	c, err := written.DecodeYAML("", []byte(short))
	if err != nil {
		f.Fatal(err)
	}
	good, err := written.EncodeJSON(c)
	if err != nil {
		f.Fatal(err)
	}
	f.Add(good)
	f.Add([]byte(`{"code":"a","safety":["\ud800"],"sections":[{"steps":[{"measures":[{"low":{"times":"1/0"}}]}]}]}`))
	f.Fuzz(func(t *testing.T, src []byte) {
		c, err := written.DecodeJSON(src)
		settle(t, c, err)
	})
}

// Whatever words and numbers a checklist holds, both written forms say the same.
func FuzzChecklistWords(f *testing.F) {
	f.Add("yes", "on # two lines\n- and: more", "{time}", "1/3")
	f.Add("2026-01-02", "'\u2028\u0085\ufeff", "0x1F", "-0.5")
	f.Add("~", "& * ! | > @ ` %", "<&>", "12")
	f.Fuzz(func(t *testing.T, title, note, name, low string) {
		c, err := written.DecodeYAML("", []byte(short))
		if err != nil {
			t.Fatal(err)
		}
		c.Title, c.Safety = title, []string{note, title}
		last := &c.Sections[1].Steps[1]
		last.Note, last.Measures[0].Name = note, name
		if n, err := assessment.ParseNumber(low); err == nil {
			last.Measures[0].Low = &assessment.Bound{Value: n}
		}
		asJSON, err := written.EncodeJSON(c)
		if err != nil {
			return
		}
		fromJSON, err := written.DecodeJSON(asJSON)
		if err != nil {
			t.Fatal(err)
		}
		settle(t, fromJSON, nil)
	})
}

// settle holds what must be true of any input: it is refused with named faults,
// or it is a checklist without problems that keeps through both written forms
// and can be scored.
func settle(t *testing.T, c assessment.Checklist, err error) {
	t.Helper()
	if err != nil {
		var all *written.Faults
		if !errors.As(err, &all) || len(all.List) == 0 || all.List[0].Says == "" {
			t.Fatalf("refused without faults: %v", err)
		}
		return
	}
	if problems := c.Check(); len(problems) > 0 {
		t.Fatalf("read with problems: %v", problems)
	}
	first, err := written.EncodeJSON(c)
	if err != nil {
		t.Fatalf("what was read cannot be written: %v", err)
	}
	again, err := written.DecodeJSON(first)
	if err != nil || !reflect.DeepEqual(c, again) {
		t.Fatalf("JSON changed it: %v\n%+v\n%+v", err, c, again)
	}
	if second, err := written.EncodeJSON(again); err != nil || !bytes.Equal(first, second) {
		t.Fatalf("the bytes differ: %v\n%s\n%s", err, first, second)
	}
	asYAML, err := written.EncodeYAML(c)
	if err != nil {
		t.Fatalf("what was read cannot be written as YAML: %v", err)
	}
	if again, err = written.DecodeYAML("", asYAML); err != nil || !reflect.DeepEqual(c, again) {
		t.Fatalf("YAML changed it: %v\n%s", err, asYAML)
	}
	if changes := assessment.Diff(c, again); len(changes) > 0 {
		t.Fatalf("a difference where there is none: %v", changes)
	}
	if _, open, err := assessment.Score(c, nil, assessment.Sheet{}); err != nil || len(open) != len(c.Steps()) {
		t.Fatalf("a blank sheet leaves %d of %d steps open: %v", len(open), len(c.Steps()), err)
	}
}
