package assessment_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"wellshown/assessment"
)

// TestWhatAMovedVisitBreaks: by hand.
func TestWhatAMovedVisitBreaks(t *testing.T) {
	v := assessment.Visiting{From: planned, Until: dayNo(30), Educators: []assessment.VisitEducator{
		{Person: "e", Name: "E", PerDay: 1, Observes: always("s", "t"), DaysOff: []time.Weekday{time.Sunday}, Base: "office"},
		{Person: "f", Name: "F", PerDay: 2, Observes: always("s"), Base: "office"}}}
	a, b := windowOf("p", "s", "home", 1, 5), windowOf("q", "t", "home", 3, 9)
	v.Windows = []assessment.Window{a, b, windowOf("r", "s", "away", 2, 2)}
	v.Distances.Set("office", "home", 10)
	v.Distances.Set("office", "away", 30)
	v.Distances.Set("away", "home", 25)
	visits := []assessment.HomeVisit{
		{Home: "away", Educator: "e", On: dayNo(2), Windows: v.Windows[2:]},
		{Home: "home", Educator: "e", On: dayNo(4), Windows: []assessment.Window{a, b}}}
	for _, c := range []struct {
		name, educator string
		day            int
		want           string
	}{
		{"where it is", "e", 4, "[] [] [] 80 0"},
		{"another day of both", "e", 5, "[] [] [] 80 0"},
		{"past the deadline of one", "e", 6, "[] [p] [] 80 0"},
		{"before the other opens", "e", 1, "[] [q] [] 80 0"},
		{"a Sunday", "e", 7, "[they are off on that day] [p q] [] 60 -20"},
		{"one too many", "e", 2, "[they have as many visits on that day as they can make] [p q] [] 60 -20"},
		{"who may not see one", "f", 4, "[] [q] [] 80 0"},
		{"nobody", "x", 4, "[there is no such educator] [p q] [] 60 -20"},
		{"before the plan", "f", 0, "[that day is not planned] [p q] [] 60 -20"},
		{"after the plan", "f", 31, "[that day is not planned] [p q] [] 60 -20"},
	} {
		m, ok := v.Move(visits, 1, dayNo(c.day), assessment.PersonID(c.educator))
		var breaks []assessment.PersonID
		for _, w := range m.Breaks {
			breaks = append(breaks, w.Person)
		}
		if got := fmt.Sprint(m.Faults, breaks, m.Gains, m.Minutes, m.Longer); !ok || got != c.want {
			t.Errorf("%s: %s, not %s", c.name, got, c.want)
		}
	}
	if visits[1].On != dayNo(4) || len(visits[1].Windows) != 2 {
		t.Error("what was moved in thought has moved")
	}
	for _, n := range []int{-1, 2} {
		if _, ok := v.Move(visits, n, dayNo(4), "e"); ok {
			t.Errorf("visit %d was moved", n)
		}
	}
}

// TestMovedPlansAreWhatTheySay: on invented plans, what a moved visit breaks and gains is
// what the plan then leaves unmet, and it keeps to all that a plan must where there is no
// fault.
func TestMovedPlansAreWhatTheySay(t *testing.T) {
	broke, gained, faults := 0, 0, 0
	for seed := range uint64(1000) {
		v := inventVisiting(seed)
		plan := v.Plan()
		if len(plan.Visits) == 0 {
			continue
		}
		rng := rand.New(rand.NewPCG(seed, 4))
		visits, met, minutes := plan.Visits, plan.Met, plan.Minutes
		for range 5 {
			n := rng.IntN(len(visits))
			m, _ := v.Move(visits, n, dayNo(rng.IntN(7)), v.Educators[rng.IntN(len(v.Educators))].Person)
			checkMoved(t, v, m, n)
			after := 0
			for _, visit := range m.Visits {
				after += len(visit.Windows)
			}
			if after != met-len(m.Breaks)+len(m.Gains) || m.Minutes-m.Longer != minutes {
				t.Fatalf("seed %d: %d met after %d, %d broken and %d gained; %d minutes after %d, %d longer", seed, after, met, len(m.Breaks), len(m.Gains), m.Minutes, minutes, m.Longer)
			}
			back, _ := v.Move(m.Visits, n, visits[n].On, visits[n].Educator)
			if len(m.Faults) == 0 && (back.Minutes != minutes || len(back.Faults) > 0 || len(back.Gains) != len(m.Breaks) || len(back.Breaks) != len(m.Gains)) {
				t.Fatalf("seed %d: moved back it is another plan: %v", seed, back)
			}
			broke, gained, faults = broke+len(m.Breaks), gained+len(m.Gains), faults+len(m.Faults)
			if len(m.Faults) == 0 {
				visits, met, minutes = m.Visits, after, m.Minutes
			}
		}
	}
	if broke < 100 || gained < 100 || faults < 100 {
		t.Errorf("%d broken, %d gained, %d faults: too few to show anything", broke, gained, faults)
	}
}

// checkMoved holds moved visits to the days and the room of their educators, and to the
// windows they meet; one that cannot be made meets nothing.
func checkMoved(t *testing.T, v assessment.Visiting, m assessment.Moved, n int) {
	t.Helper()
	made := map[string]int{}
	for i, visit := range m.Visits {
		if len(m.Faults) > 0 && i == n && len(visit.Windows) > 0 {
			t.Fatalf("a visit that cannot be made meets %v", visit.Windows)
		}
		for _, w := range visit.Windows {
			if w.Home != visit.Home || !w.Holds(visit.On) || w.Person == visit.Educator {
				t.Fatalf("%v is not met by %v", w, visit)
			}
		}
		e := v.Educators[slices.IndexFunc(v.Educators, func(e assessment.VisitEducator) bool { return e.Person == visit.Educator })]
		made[string(visit.Educator)+visit.On.String()]++
		if len(m.Faults) == 0 && (made[string(visit.Educator)+visit.On.String()] > e.PerDay-e.Taken[visit.On] || slices.ContainsFunc(e.Off, func(s assessment.DaySpan) bool { return s.Holds(visit.On) })) {
			t.Fatalf("%v cannot be made", visit)
		}
	}
}
