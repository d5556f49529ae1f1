package assessment_test

import (
	"fmt"
	"testing"

	"wellshown/assessment"
)

// A seed draws the same scenario each time, and over all seeds of a byte each comes as
// often, give or take one (arithmetic; 256 seeds).
func TestAScenarioIsDrawnByItsSeed(t *testing.T) {
	for n := 1; n <= 6; n++ {
		var all []assessment.Scenario
		for i := range n {
			all = append(all, assessment.Scenario{ID: fmt.Sprint(i)})
		}
		drawn := map[string]int{}
		for seed := range 256 {
			s, err := assessment.DrawScenario(all, fmt.Sprintf("%02x", seed))
			if err != nil || s.ID != fmt.Sprint(seed%n) {
				t.Fatalf("seed %d of %d draws %q, %v", seed, n, s.ID, err)
			}
			drawn[s.ID]++
		}
		for id, times := range drawn {
			if times < 256/n || times > 256/n+1 {
				t.Errorf("of %d, %s is drawn %d times in 256", n, id, times)
			}
		}
	}
	for _, seed := range []string{"", "no", "-1"} {
		if _, err := assessment.DrawScenario([]assessment.Scenario{{}}, seed); err == nil {
			t.Errorf("the seed %q draws one", seed)
		}
	}
	if _, err := assessment.DrawScenario(nil, "00"); err == nil {
		t.Error("one of none is drawn")
	}
}

func TestTimesOfADrill(t *testing.T) {
	for _, good := range []assessment.DrillTimes{{0, 0, 0}, {4, 9, 30}, {5, 3, assessment.NotInDrill}, {3600, 3600, 3600}} {
		if err := good.Check(); err != nil {
			t.Errorf("%+v: %v", good, err)
		}
	}
	for _, bad := range []assessment.DrillTimes{{-2, 0, 0}, {0, 3601, 0}, {0, 0, -9}} {
		if bad.Check() == nil {
			t.Errorf("%+v is taken", bad)
		}
	}
}
