package catalog_test

import (
	"strings"
	"testing"

	"wellshown/assessment/catalog"
	"wellshown/assessment/knowledge"
	"wellshown/assessment/reading"
	"wellshown/assessment/wording"
)

// Every skill has items enough for forms that differ, of several kinds, each with where
// it comes from, in both languages, and in words that families can read.
func TestEverySkillHasItems(t *testing.T) {
	seen := map[string]string{}
	for _, code := range catalog.Codes() {
		b, err := catalog.Items(code)
		if err != nil {
			t.Errorf("%s: %v", code, err)
			continue
		}
		kinds, sorts, critical := map[knowledge.Kind]int{}, map[int]int{}, 0
		said := map[string][]string{}
		for _, i := range b.Items {
			if before := seen[i.ID]; before != "" || !strings.HasPrefix(i.ID, code+"-") {
				t.Errorf("%s: the id %s is also in %q, or of another skill", code, i.ID, before)
			}
			seen[i.ID] = code
			kinds[i.Kind]++
			sorts[i.Difficulty]++
			if i.Critical {
				critical++
			}
			for _, in := range wording.Languages {
				words, ok := i.Texts[string(in)]
				if !ok {
					t.Errorf("%s is not asked in %s", i.ID, in.Own())
				}
				said[string(in)] = append(said[string(in)], passages(words)...)
			}
		}
		t.Logf("%-15s %d items, %d critical, kinds %v, difficulties %v", code, len(b.Items), critical, kinds, sorts)
		if b.Skill != code || len(b.Items) < 8 || len(kinds) < 4 || critical < 2 || critical > len(b.Items)/2 || len(sorts) < 3 {
			t.Errorf("%s has %d items of skill %q, %d critical, kinds %v, difficulties %v", code, len(b.Items), b.Skill, critical, kinds, sorts)
		}
		for in, words := range said {
			level := reading.Measure(in, words...)
			t.Logf("%-15s %s grade %4.1f ease %5.1f", code, in, level.Grade, level.Ease)
			if !level.Within() {
				t.Errorf("the items of %s in %s ask for grade %.1f; the hardest sentence is %q", code, in, level.Grade, level.Hardest)
			}
		}
	}
}

func passages(t knowledge.Text) []string {
	all := append([]string{t.Ask, t.Teach}, t.Options...)
	return append(append(all, t.Left...), t.Right...)
}

// The right option of single items stands in every place about equally often, so that
// nobody passes by its place (and options are shuffled besides).
func TestTheRightOptionHasNoPlace(t *testing.T) {
	places, all := map[int]int{}, 0
	for _, code := range catalog.Codes() {
		b, err := catalog.Items(code)
		if err != nil {
			t.Fatal(err)
		}
		for _, i := range b.Items {
			if i.Kind == knowledge.Single {
				places[i.Right[0]]++
				all++
			}
		}
	}
	for place, n := range places {
		if 2*n > all {
			t.Errorf("%d of %d right options stand in place %d", n, all, place)
		}
	}
}

// Every starter item can be typed into a form: what the form shows of it reads back as the
// same item, word for word.
func TestEveryItemCanBeTyped(t *testing.T) {
	for _, code := range catalog.Codes() {
		b, err := catalog.Items(code)
		if err != nil {
			t.Fatal(err)
		}
		for _, i := range b.Items {
			again, err := knowledge.TypedOf(i).Item()
			before, _ := i.JSON()
			after, errAfter := again.JSON()
			if err != nil || errAfter != nil || string(before) != string(after) {
				t.Errorf("%s reads back as %s, %v, not as %s", i.ID, after, err, before)
			}
			if err := knowledge.CheckID(i.ID); err != nil {
				t.Errorf("%s: %v", i.ID, err)
			}
		}
	}
}
