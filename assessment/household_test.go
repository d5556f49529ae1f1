package assessment_test

import (
	"errors"
	"testing"

	"wellshown/assessment"
)

// The rule is that of the American Thoracic Society 2016, recommendation 3b: two family
// caregivers, each trained in all; two who hold half each are none.
func TestWhoOfAFamilyCanDoAll(t *testing.T) {
	word := func(holds map[string]assessment.StandingWord) func(assessment.PersonID, string) (assessment.Standing, error) {
		return func(p assessment.PersonID, code string) (assessment.Standing, error) {
			return assessment.Standing{Word: holds[string(p)+" "+code]}, nil
		}
	}
	members := func() []assessment.HouseholdMember {
		return []assessment.HouseholdMember{{Person: "lan"}, {Person: "minh"}}
	}
	skills := func() []assessment.HouseholdSkill {
		return []assessment.HouseholdSkill{{Code: "suction"}, {Code: "bagging"}}
	}
	for _, c := range []struct {
		name  string
		holds map[string]assessment.StandingWord
		able  int
	}{
		{"nobody yet", nil, 0},
		{"half each", map[string]assessment.StandingWord{"lan suction": assessment.Current, "minh bagging": assessment.Current}, 0},
		{"one", map[string]assessment.StandingWord{"lan suction": assessment.Current, "lan bagging": assessment.Due, "minh bagging": assessment.Current}, 1},
		{"both", map[string]assessment.StandingWord{"lan suction": assessment.Current, "lan bagging": assessment.Due, "minh suction": assessment.Current, "minh bagging": assessment.Current}, 2},
		{"waived is not held", map[string]assessment.StandingWord{"lan suction": assessment.Waived, "lan bagging": assessment.Current}, 0},
		{"lapsed and withdrawn are not", map[string]assessment.StandingWord{"lan suction": assessment.Lapsed, "lan bagging": assessment.Withdrawn}, 0},
	} {
		h, err := assessment.NewHousehold(members(), skills(), word(c.holds))
		if err != nil || h.Able() != c.able {
			t.Errorf("%s: %d able, %v", c.name, h.Able(), err)
		}
	}
	none, err := assessment.NewHousehold(members(), nil, word(nil))
	if err != nil || none.Able() != 0 {
		t.Errorf("nothing asked: %d able, %v", none.Able(), err)
	}
	lost := errors.New("no answer")
	if _, err := assessment.NewHousehold(members(), skills(), func(assessment.PersonID, string) (assessment.Standing, error) { return assessment.Standing{}, lost }); !errors.Is(err, lost) {
		t.Errorf("what failed is told as %v", err)
	}
}
