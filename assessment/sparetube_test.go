package assessment_test

import (
	"slices"
	"testing"

	"wellshown/assessment"
)

// SickKids' emergency kit list: a tube of the same size and a smaller one, and another plan
// where the smallest tube made, about 2.5 mm, is in use.
func TestWhatAKitOfTubesLacks(t *testing.T) {
	const plan = "Bag over mouth and nose, stoma covered, and call."
	same, smaller, noPlan := assessment.LacksSameTube, assessment.LacksSmallerTube, assessment.LacksPlan
	for _, c := range []struct {
		worn   string
		spares []string
		plan   string
		want   []assessment.TubeLack
	}{
		{"3.5", []string{"3.5", "3.0"}, "", nil},
		{"3.5", []string{"3.5", "3.5"}, "", []assessment.TubeLack{smaller}},
		{"3.5", []string{"3.5"}, plan, []assessment.TubeLack{smaller}}, // a smaller one is made
		{"3.5", []string{"3.0"}, "", []assessment.TubeLack{same}},
		{"3.5", nil, "", []assessment.TubeLack{same, smaller}},
		{"3.5", []string{"3.5", "4.0"}, "", []assessment.TubeLack{smaller}},
		{"3.5", []string{"3.5", "0"}, "", []assessment.TubeLack{smaller}}, // 0 is no tube
		{"2.5", []string{"2.5"}, plan, nil},
		{"2.5", []string{"2.5"}, "", []assessment.TubeLack{noPlan}},
		{"2.5", []string{"2.5"}, "Not needed.", []assessment.TubeLack{noPlan}},
		{"2.5", []string{"2.5"}, " – ", []assessment.TubeLack{noPlan}},
		{"2.5", []string{"2.5", "2.0"}, "", nil}, // whoever has a smaller one after all
	} {
		kit := assessment.TubeKit{Worn: num(c.worn), Plan: c.plan}
		for _, s := range c.spares {
			kit.Spares = append(kit.Spares, num(s))
		}
		if got := kit.Lacks(); !slices.Equal(got, c.want) {
			t.Errorf("%s with %v, plan %q lacks %v, want %v", c.worn, c.spares, c.plan, got, c.want)
		}
	}
}
