package knowledge_test

import (
	"fmt"
	"slices"
	"testing"

	"wellshown/assessment/fault"
	"wellshown/assessment/knowledge"
)

func item(n, difficulty int, critical bool) knowledge.Item {
	return knowledge.Item{ID: fmt.Sprintf("i%02d", n), Kind: knowledge.Single, Difficulty: difficulty, Critical: critical, Right: []int{1}, Texts: map[string]knowledge.Text{"en": {Options: []string{"x", "y", "z"}}}}
}

func many() []knowledge.Item {
	var all []knowledge.Item
	for n := range 24 {
		all = append(all, item(n, n%3+1, n%4 == 0))
	}
	return all
}

// Every form of a bank has as many items of each difficulty, and as many critical ones,
// as every other: over two hundred seeds.
func TestFormsAreEquallyDifficult(t *testing.T) {
	bank := many()
	first, drawn := "", map[string]int{}
	for seed := range 200 {
		form, err := knowledge.Draw(bank, 10, fmt.Sprint("seed ", seed))
		if err != nil {
			t.Fatal(err)
		}
		sorts := map[string]int{}
		for _, i := range form {
			sorts[fmt.Sprint(i.Difficulty, i.Critical)]++
			drawn[i.ID]++
		}
		if got := fmt.Sprint(sorts); first == "" {
			first = got
		} else if got != first {
			t.Fatalf("seed %d draws %s, another %s", seed, got, first)
		}
		again, _ := knowledge.Draw(bank, 10, fmt.Sprint("seed ", seed))
		if !slices.EqualFunc(form, again, func(a, b knowledge.Item) bool { return a.ID == b.ID }) {
			t.Fatalf("seed %d draws two forms", seed)
		}
	}
	for _, i := range bank {
		if drawn[i.ID] == 0 || drawn[i.ID] == 200 {
			t.Errorf("%s is in %d of 200 forms", i.ID, drawn[i.ID])
		}
	}
}

// Hamilton's rule of largest remainders, worked by hand: 21, 15 and 12 of 48 share 10
// places by quotas 4.375, 3.125 and 2.5: whole parts 4, 3 and 2, and the place that is left
// goes to the largest remainder, .5.
func TestSharesGoByLargestRemainders(t *testing.T) {
	var bank []knowledge.Item
	for n := range 48 {
		difficulty := 1
		if n >= 21 {
			difficulty = 2
		}
		if n >= 36 {
			difficulty = 3
		}
		bank = append(bank, item(n, difficulty, false))
	}
	form, err := knowledge.Draw(bank, 10, "seed")
	if err != nil {
		t.Fatal(err)
	}
	var got [4]int
	for _, i := range form {
		got[i.Difficulty]++
	}
	if got != [4]int{0, 4, 3, 3} {
		t.Errorf("the places are %v", got)
	}
}

func TestALaterFormPrefersWhatWasNotAsked(t *testing.T) {
	bank := many()
	first, _ := knowledge.Draw(bank, 8, "one")
	var before []string
	for _, i := range first {
		before = append(before, i.ID)
	}
	second, _ := knowledge.Draw(bank, 8, "two", before...)
	for _, i := range second {
		if slices.Contains(before, i.ID) {
			t.Errorf("%s is asked again while others were not", i.ID)
		}
	}
	for _, length := range []int{0, -1, 25} {
		if _, err := knowledge.Draw(bank, length, "x"); fault.KindOf(err) != fault.Invalid {
			t.Errorf("a form of %d: %v", length, err)
		}
	}
}

// What is to be put in order, or matched, is never shown as it is right.
func TestOptionsAreShuffled(t *testing.T) {
	right := []int{1, 2, 3}
	for _, kind := range []knowledge.Kind{knowledge.Order, knowledge.Match, knowledge.Single} {
		i, seen := item(1, 1, false), map[string]bool{}
		i.Kind = kind
		for seed := range 300 {
			shown := i.Shown(fmt.Sprint(seed))
			seen[fmt.Sprint(shown)] = true
			if kind != knowledge.Single && slices.Equal(shown, right) {
				t.Fatalf("%s with seed %d is shown as it is right", kind, seed)
			}
			slices.Sort(shown)
			if !slices.Equal(shown, right) {
				t.Fatalf("%s with seed %d shows %v", kind, seed, shown)
			}
		}
		if want := map[bool]int{true: 6, false: 5}[kind == knowledge.Single]; len(seen) != want {
			t.Errorf("%s is shown in %d orders, not %d", kind, len(seen), want)
		}
	}
}
