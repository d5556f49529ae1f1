package assessment_test

import (
	"slices"
	"testing"

	"wellshown/assessment"
	"wellshown/assessment/fault"
)

var letters = []string{"A", "B", "C", "D", "E"}

// graph is n skills of which edges say what comes before what: bit f of before[s].
func graph(before []int) []assessment.ToLearn {
	skills := make([]assessment.ToLearn, len(before))
	for s, first := range before {
		skills[s] = assessment.ToLearn{Skill: letters[s], Title: letters[s], Days: 1}
		for f := range before {
			if first&(1<<f) != 0 {
				skills[s].First = append(skills[s].First, letters[f])
			}
		}
	}
	return skills
}

// permutations lists the orders of n things, the first in dictionary order first.
func permutations(n int) [][]int {
	if n == 0 {
		return [][]int{{}}
	}
	var all [][]int
	var grow func(chosen []int)
	grow = func(chosen []int) {
		if len(chosen) == n {
			all = append(all, slices.Clone(chosen))
			return
		}
		for i := range n {
			if !slices.Contains(chosen, i) {
				grow(append(chosen, i))
			}
		}
	}
	grow(nil)
	return all
}

// firstOrder is the first permutation in which nothing comes too early: what the order of
// learning has to be, found by trying each. None where there is a circle.
func firstOrder(before []int, tries [][]int) []int {
	for _, try := range tries {
		placed, fits := 0, true
		for _, s := range try {
			if fits = before[s]&^placed == 0; !fits {
				break
			}
			placed |= 1 << s
		}
		if fits {
			return try
		}
	}
	return nil
}

// isCircle reads the sentence of a refusal back: each named comes before the next.
func isCircle(t *testing.T, before []int, says string) bool {
	t.Helper()
	var round []int
	for _, r := range says {
		if at := slices.Index(letters, string(r)); at >= 0 {
			round = append(round, at)
		}
		if r == '.' {
			break
		}
	}
	if len(round) == 1 { // "A comes before itself"
		return before[round[0]]&(1<<round[0]) != 0
	}
	for i := 1; i < len(round); i++ {
		if before[round[i]]&(1<<round[i-1]) == 0 {
			return false
		}
	}
	return len(round) > 2 && round[0] == round[len(round)-1]
}

func holdToBruteForce(t *testing.T, before []int, tries [][]int) {
	t.Helper()
	want := firstOrder(before, tries)
	order, err := assessment.LearningOrder(graph(before))
	if want == nil {
		f, refused := fault.As(err)
		if !refused || f.Kind != fault.Refused || !isCircle(t, before, f.Message) {
			t.Fatalf("before %b: no order fits, and the answer is %v, %v", before, order, err)
		}
		return
	}
	if err != nil || len(order) != len(want) {
		t.Fatalf("before %b: %v, %v; the order %v fits", before, order, err, want)
	}
	for i, s := range want {
		if order[i].Skill != letters[s] {
			t.Fatalf("before %b: the order is %v; by trying each it is %v", before, order, want)
		}
	}
}

// Every directed graph of up to four skills, also those in which one comes before itself,
// held to every permutation.
func TestTheOrderOfLearningIsTheFirstOfAllThatFit(t *testing.T) {
	for n := range 5 {
		tries := permutations(n)
		for g := range 1 << (n * n) {
			before := make([]int, n)
			for s := range n {
				before[s] = g >> (s * n) & (1<<n - 1)
			}
			holdToBruteForce(t, before, tries)
		}
	}
}

// Every directed graph of five skills in which none comes before itself: 2^20 of them.
func TestTheOrderOfFiveSkills(t *testing.T) {
	if testing.Short() {
		t.Skip("tries a million graphs")
	}
	tries, before := permutations(5), make([]int, 5)
	for g := range 1 << 20 {
		for s := range 5 {
			four := g >> (s * 4) & 15
			before[s] = four&(1<<s-1) | four>>s<<(s+1) // leaves out the bit of itself
		}
		holdToBruteForce(t, before, tries)
	}
}

func TestACircleIsNamedByItsTitles(t *testing.T) {
	skills := []assessment.ToLearn{
		{Skill: "suction", Title: "Suctioning", First: []string{"tube-change"}},
		{Skill: "bagging", Title: "Bagging"},
		{Skill: "tube-change", Title: "Changing the tube", First: []string{"bagging", "suction"}},
	}
	_, err := assessment.LearningOrder(skills)
	f, _ := fault.As(err)
	if f == nil || f.Message != "Suctioning comes before Changing the tube, which comes before Suctioning. None of them can be learnt first: take one out of the prerequisites of another." {
		t.Error(err)
	}
	_, err = assessment.LearningOrder([]assessment.ToLearn{{Skill: "x", Title: "Bagging", First: []string{"x"}}})
	if f, _ := fault.As(err); f == nil || f.Message != "Bagging comes before itself, so it can never be learnt. Take it out of its own prerequisites." {
		t.Error(err)
	}
}

// What must come first is learnt too, though nobody requires it; what is held is not, and
// neither is what comes before that alone. Common practice, no source.
func TestWhatIsStillToBeLearnt(t *testing.T) {
	all := []assessment.ToLearn{{Skill: "a"}, {Skill: "b", First: []string{"a"}}, {Skill: "c", First: []string{"b", "unknown"}}, {Skill: "d"}, {Skill: "e", First: []string{"d"}}}
	held := map[string]bool{"e": true}
	left := assessment.Unlearnt(all, []string{"e", "c", "nothing"}, func(s string) bool { return held[s] })
	if got := codes(left); !slices.Equal(got, []string{"a", "b", "c"}) {
		t.Error(got)
	}
	held["b"] = true
	if got := codes(assessment.Unlearnt(all, []string{"c"}, func(s string) bool { return held[s] })); !slices.Equal(got, []string{"c"}) {
		t.Error(got)
	}
}

func codes(skills []assessment.ToLearn) []string {
	var all []string
	for _, s := range skills {
		all = append(all, s.Skill)
	}
	return all
}

func TestStagesOfLearning(t *testing.T) {
	for _, c := range []struct {
		known assessment.Learnt
		want  assessment.LearningStage
	}{
		{assessment.Learnt{}, assessment.NotBegun},
		{assessment.Learnt{Word: assessment.Learning}, assessment.NotBegun},
		{assessment.Learnt{Taught: true}, assessment.Taught},
		{assessment.Learnt{Taught: true, Runs: 2}, assessment.Practised},
		{assessment.Learnt{Runs: 2, Checked: true}, assessment.CheckPassed},
		{assessment.Learnt{Checked: true, Shown: 1, Of: 2, Word: assessment.Learning}, assessment.Shown},
		{assessment.Learnt{Taught: true, Runs: 99, Checked: true, Shown: 2, Of: 2, Word: assessment.Withdrawn}, assessment.Shown},
		{assessment.Learnt{Word: assessment.Waived}, assessment.NotBegun},
		{assessment.Learnt{Word: assessment.Current}, assessment.LearntByThen},
		{assessment.Learnt{Word: assessment.Due}, assessment.LearntByThen},
	} {
		if got := c.known.Stage(); got != c.want {
			t.Errorf("%+v: %s, want %s", c.known, got, c.want)
		}
	}
}
