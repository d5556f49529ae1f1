package knowledge_test

import (
	"reflect"
	"testing"
	"time"

	"wellshown/assessment/civil"
	"wellshown/assessment/knowledge"
)

// What is written reads back as the same, in both written forms.
func TestWrittenItemsReadBack(t *testing.T) {
	items := read(t)
	for _, i := range items {
		body, err := i.JSON()
		if err != nil {
			t.Fatal(err)
		}
		again, err := knowledge.ReadItem(body)
		if err != nil || !sameItem(i, again) {
			t.Errorf("%s reads back as %+v, %v", body, again, err)
		}
	}
	body, err := knowledge.Bank{Skill: "suction", Items: items}.YAML()
	if err != nil {
		t.Fatal(err)
	}
	b, err := knowledge.Read(body)
	if err != nil || b.Skill != "suction" || len(b.Items) != len(items) {
		t.Fatalf("%s: %v", body, err)
	}
	for n, i := range b.Items {
		if !sameItem(items[n], i) {
			t.Errorf("%s reads back as %+v", items[n].ID, i)
		}
	}
	for _, odd := range []string{``, `[]`, `{"id":"a","surprise":1}`, `{"id":"a","kind":"single"}`} {
		if _, err := knowledge.ReadItem([]byte(odd)); err == nil {
			t.Errorf("%q is taken", odd)
		}
	}
}

func sameItem(a, b knowledge.Item) bool {
	numbers := (a.Low == nil) == (b.Low == nil) && (a.Low == nil || a.Low.Cmp(*b.Low) == 0 && a.High.Cmp(*b.High) == 0)
	a.Low, a.High, b.Low, b.High = nil, nil, nil, nil
	return numbers && reflect.DeepEqual(a, b)
}

// A pass of a day counts for what is shown later on it, and not for what was shown before
// (the stricter reading, no source); its last day is counted on the agency's clocks.
func TestAPassCountsFromItsInstant(t *testing.T) {
	zone, err := time.LoadLocation("America/Denver")
	if err != nil {
		t.Fatal(err)
	}
	at := func(day string, hour int) time.Time {
		return civil.MustParse(day).In(zone).Add(time.Duration(hour) * time.Hour)
	}
	rule := knowledge.Rule{Months: 12}
	passed := []time.Time{at("2025-06-10", 20)}
	for _, c := range []struct {
		at    time.Time
		holds bool
	}{{at("2025-06-10", 19), false}, {at("2025-06-10", 20), true}, {at("2026-06-10", 23), true}, {at("2026-06-11", 0), false}} {
		if got := rule.HeldAt(passed, c.at, zone); got != c.holds {
			t.Errorf("at %s it holds: %v", c.at, got)
		}
	}
	if rule.HeldAt(nil, at("2025-06-10", 1), zone) {
		t.Error("nobody passed, and it holds")
	}
}
