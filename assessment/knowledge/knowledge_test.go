package knowledge_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/knowledge"
)

const bank = `
skill: suction
items:
  - {id: a, kind: single, critical: true, difficulty: 1, source: s, right: [2], en: {ask: q, options: [x, y, z], teach: t}, es: {ask: q, options: [x, y, z], teach: t}}
  - {id: b, kind: multiple, difficulty: 2, source: s, right: [1, 3], en: {ask: q, options: [x, y, z], teach: t}}
  - {id: c, kind: order, difficulty: 3, source: s, en: {ask: q, options: [w, x, y, z], teach: t}}
  - {id: d, kind: match, difficulty: 1, source: s, en: {ask: q, left: [w, x, y], right: [1, 2, 3], teach: t}}
  - {id: e, kind: numeric, difficulty: 1, source: s, unit: s, units: [s, min], low: "10", high: "15.5", en: {ask: q, teach: t}}
`

func read(t *testing.T) []knowledge.Item {
	t.Helper()
	b, err := knowledge.Read([]byte(bank))
	if err != nil || b.Skill != "suction" || len(b.Items) != 5 {
		t.Fatalf("%+v, %v", b, err)
	}
	return b.Items
}

// An answer is right as a whole or not at all (common practice, no source).
func TestAnswers(t *testing.T) {
	items := map[string]knowledge.Item{}
	for _, i := range read(t) {
		items[i.ID] = i
	}
	for _, c := range []struct {
		answer knowledge.Answer
		right  bool
	}{
		{knowledge.Answer{Item: "a", Chosen: []int{2}}, true},
		{knowledge.Answer{Item: "a", Chosen: []int{1}}, false},
		{knowledge.Answer{Item: "a", Chosen: []int{2, 3}}, false},
		{knowledge.Answer{Item: "a"}, false},
		{knowledge.Answer{Item: "a", Chosen: []int{9}}, false},
		{knowledge.Answer{Item: "b", Chosen: []int{2}}, false},
		{knowledge.Answer{Item: "b", Chosen: []int{3, 1}}, true},
		{knowledge.Answer{Item: "b", Chosen: []int{1}}, false},
		{knowledge.Answer{Item: "b", Chosen: []int{1, 1}}, false},
		{knowledge.Answer{Item: "b", Chosen: []int{1, 2, 3}}, false},
		{knowledge.Answer{Item: "c", Chosen: []int{1, 2, 3, 4}}, true},
		{knowledge.Answer{Item: "c", Chosen: []int{1, 2, 4, 3}}, false},
		{knowledge.Answer{Item: "c", Chosen: []int{1, 2, 3}}, false},
		{knowledge.Answer{Item: "d", Chosen: []int{1, 2, 3}}, true},
		{knowledge.Answer{Item: "d", Chosen: []int{1, 1, 3}}, false},
		{knowledge.Answer{Item: "e", Value: "10", Unit: "s"}, true},
		{knowledge.Answer{Item: "e", Value: " 15,5 ", Unit: "s"}, true},
		{knowledge.Answer{Item: "e", Value: "15.51", Unit: "s"}, false},
		{knowledge.Answer{Item: "e", Value: "9.9", Unit: "s"}, false},
		{knowledge.Answer{Item: "e", Value: "0.2", Unit: "min"}, false}, // 12 s, but asked for in s: nothing is converted
		{knowledge.Answer{Item: "e", Value: "12"}, false},
		{knowledge.Answer{Item: "e", Value: "twelve", Unit: "s"}, false},
		{knowledge.Answer{Item: "e", Value: "1,2.5", Unit: "s"}, false},
	} {
		if got := items[c.answer.Item].Correct(c.answer); got != c.right {
			t.Errorf("%+v is right: %v", c.answer, got)
		}
	}
	if items["a"].Correct(knowledge.Answer{Item: "b", Chosen: []int{2}}) {
		t.Error("an answer to another item was taken")
	}
}

func TestItemsThatCannotBeAsked(t *testing.T) {
	for _, c := range [][2]string{
		{"right: [2], en: {ask: q, options: [x, y, z]", "right: [4], en: {ask: q, options: [x, y, z]"},
		{"right: [2], en", "right: [], en"}, {"right: [2], en", "right: [1, 2], en"}, {"right: [1, 3], en", "right: [1, 2, 3], en"}, {"right: [1, 3], en", "right: [1, 1], en"},
		{"kind: order", "kind: sorted"}, {"difficulty: 3", "difficulty: 4"}, {"id: c", "id: b"}, {`id: c`, `id: ""`}, {"id: b, kind: multiple, difficulty: 2, source: s", "id: b, kind: multiple, difficulty: 2"},
		{"es: {ask: q, options: [x, y, z]", "es: {ask: q, options: [x, y]"}, {"en: {ask: q, options: [w, x, y, z]", "en: {ask: q, options: [w, x, x, z]"}, {"options: [w, x, y, z], teach: t", "options: [w, x, y, z]"},
		{"left: [w, x, y]", "left: [w, x]"}, {`low: "10"`, `low: "16"`}, {`low: "10"`, `low: ten`}, {"units: [s, min]", "units: [min]"}, {"unit: s, ", ""}, {"kind: order", "kind: order, right: [1]"},
		{"source: s, en", "source: s, surprise: 1, en"}, {"en: {ask: q, options: [w, x, y, z], teach: t}", "es: {ask: q, options: [w, x, y, z], teach: t}"},
	} {
		changed := strings.Replace(bank, c[0], c[1], 1)
		if changed == bank {
			t.Fatalf("%q is not in the bank", c[0])
		}
		if _, err := knowledge.Read([]byte(changed)); fault.KindOf(err) != fault.Invalid {
			t.Errorf("%q is taken: %v", c[1], err)
		}
	}
	if _, err := knowledge.Read([]byte(bank + "\n---\nskill: x\n")); fault.KindOf(err) != fault.Invalid {
		t.Errorf("two documents: %v", err)
	}
}

// A score meets a mark exactly or not: 18 of 20 is 90.0 and passes 90, 17 of 19 is 89.47
// and does not (Clear Communication Index of the Centers for Disease Control, on its own
// pass mark: nothing is rounded up).
func TestPassMark(t *testing.T) {
	ninety := knowledge.Rule{PassMark: assessment.MustNumber("0.9")}
	for _, c := range []struct {
		right, all int
		passed     bool
	}{{18, 20, true}, {17, 19, false}, {9, 10, true}, {0, 0, false}, {20, 20, true}} {
		var form []knowledge.Item
		var answers []knowledge.Answer
		for n := range c.all {
			i := knowledge.Item{ID: fmt.Sprint(n), Kind: knowledge.Single, Right: []int{1}, Texts: map[string]knowledge.Text{"en": {Options: []string{"x", "y"}}}}
			form = append(form, i)
			chosen := 2
			if n < c.right {
				chosen = 1
			}
			answers = append(answers, knowledge.Answer{Item: i.ID, Chosen: []int{chosen}})
		}
		if got := ninety.Judge(form, answers, time.Time{}, time.Time{}); got.Passed != c.passed || got.Right != c.right {
			t.Errorf("%d of %d: %+v", c.right, c.all, got)
		}
	}
}

func TestACriticalItemMustBeRight(t *testing.T) {
	items := read(t)
	answers := []knowledge.Answer{{Item: "b", Chosen: []int{1, 3}}, {Item: "c", Chosen: []int{1, 2, 3, 4}}, {Item: "d", Chosen: []int{1, 2, 3}}, {Item: "e", Value: "12", Unit: "s"}}
	rule := knowledge.Rule{PassMark: assessment.MustNumber("0.8")}
	v := rule.Judge(items, append(answers, knowledge.Answer{Item: "a", Chosen: []int{1}}), time.Time{}, time.Time{})
	if v.Passed || v.Right != 4 || !slices.Equal(v.Critical, []string{"a"}) || !slices.Equal(v.Missed, []string{"a"}) {
		t.Errorf("four of five, and not the critical one: %+v", v)
	}
	if v := rule.Judge(items, append(answers[:3:3], knowledge.Answer{Item: "a", Chosen: []int{2}}), time.Time{}, time.Time{}); !v.Passed {
		t.Errorf("four of five with the critical one: %+v", v)
	}
	// Answering twice does not help: the first answer stands.
	if v := rule.Judge(items[:1], []knowledge.Answer{{Item: "a", Chosen: []int{1}}, {Item: "a", Chosen: []int{2}}}, time.Time{}, time.Time{}); v.Passed {
		t.Error("a second answer to the same item counted")
	}
}

// Dated prerequisites as a published programme has them: awareness within the previous
// 12 months (Nottinghamshire Healthcare, emergency management for a child with a
// tracheostomy); on 2025-06-10, for a session on 2026-06-10 it holds, a day later not.
func TestHowLongAPassHolds(t *testing.T) {
	year := knowledge.Rule{Months: 12}
	passed := []civil.Date{civil.MustParse("2025-06-10")}
	for on, want := range map[string]bool{"2025-06-09": false, "2025-06-10": true, "2026-06-10": true, "2026-06-11": false} {
		if got := year.Holds(passed, civil.MustParse(on)); got != want {
			t.Errorf("on %s it holds: %v", on, got)
		}
	}
	if !(knowledge.Rule{}).Holds(passed, civil.MustParse("2126-06-10")) {
		t.Error("without an end it ended")
	}
	if year.Holds(nil, passed[0]) || year.Holds([]civil.Date{{}}, passed[0]) {
		t.Error("nobody passed, and it holds")
	}
}

// When somebody may try again (common practice, no source).
func TestTryingAgain(t *testing.T) {
	at := func(day, hour int) time.Time { return time.Date(2026, 3, day, hour, 0, 0, 0, time.UTC) }
	rule := knowledge.Rule{Wait: 24 * time.Hour, Tries: 2}
	fails := func(days ...int) (all []knowledge.Sitting) {
		for _, d := range days {
			all = append(all, knowledge.Sitting{Ended: at(d, 9), Told: at(d, 9)})
		}
		return all
	}
	for _, c := range []struct {
		name     string
		sittings []knowledge.Sitting
		taught   []time.Time
		from     time.Time
		teach    bool
	}{
		{"never tried", nil, nil, time.Time{}, false},
		{"once", fails(2), nil, at(3, 9), false},
		{"twice", fails(2, 4), nil, at(5, 9), true},
		{"twice, and taught since", fails(2, 4), []time.Time{at(4, 12)}, at(5, 9), false},
		{"twice, taught between", fails(2, 4), []time.Time{at(3, 12)}, at(5, 9), false},
		{"twice, taught before", fails(2, 4), []time.Time{at(1, 12)}, at(5, 9), true},
		{"taught, and twice more", fails(2, 4, 6, 8), []time.Time{at(5, 1)}, at(9, 9), true},
		{"passed in the end", append(fails(2), knowledge.Sitting{Ended: at(4, 9), Told: at(4, 9), Passed: true}), nil, time.Time{}, false},
		{"its time went by, then it was handed in", []knowledge.Sitting{{Ended: at(1, 9), Told: at(9, 9)}}, nil, at(10, 9), false},
		{"taught after its time, then handed in", append(fails(1), knowledge.Sitting{Ended: at(2, 9), Told: at(9, 9)}), []time.Time{at(8, 9)}, at(10, 9), false},
		{"passed, then not", append([]knowledge.Sitting{{Ended: at(1, 9), Told: at(1, 9), Passed: true}}, fails(4)...), nil, at(5, 9), false},
	} {
		from, teach := rule.Next(c.sittings, c.taught)
		if !from.Equal(c.from) || teach != c.teach {
			t.Errorf("%s: from %s, taught before %v", c.name, from, teach)
		}
	}
}
