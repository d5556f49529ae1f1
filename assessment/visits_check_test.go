package assessment_test

import (
	"slices"
	"testing"

	"wellshown/assessment"
	"wellshown/assessment/civil"
)

// checkPlan holds a plan to what was asked, whether it is the best or not.
func checkPlan(t *testing.T, v assessment.Visiting, plan assessment.VisitPlan) {
	t.Helper()
	educators, made, left := map[assessment.PersonID]assessment.VisitEducator{}, map[string]int{}, map[assessment.Window]int{}
	for _, e := range v.Educators {
		educators[e.Person] = e
	}
	for _, w := range v.Windows {
		left[w]++
	}
	met, twice := 0, map[string]bool{}
	for _, visit := range plan.Visits {
		e := educators[visit.Educator]
		if there := string(visit.Home+"/") + string(e.Person) + visit.On.String(); twice[there] {
			t.Fatalf("twice on one day: %v", visit)
		} else {
			twice[there] = true
		}
		key := string(e.Person) + visit.On.String()
		made[key]++
		if len(visit.Windows) == 0 || visit.On.Before(v.From) || made[key] > e.PerDay-e.Taken[visit.On] {
			t.Fatalf("too much, too early or for nothing: %v", visit)
		}
		if slices.ContainsFunc(e.Off, func(s assessment.DaySpan) bool { return s.Holds(visit.On) }) || slices.Contains(e.DaysOff, visit.On.Weekday()) {
			t.Fatalf("%s is off: %v", e.Name, visit)
		}
		for _, w := range visit.Windows {
			left[w]--
			met++
			if w.Home != visit.Home || !w.Holds(visit.On) || w.Person == e.Person || !slices.ContainsFunc(e.Observes[w.Need.Skill], func(s assessment.DaySpan) bool { return s.Holds(visit.On) }) {
				t.Fatalf("%v is not met by %v", w, visit)
			}
		}
	}
	for _, u := range plan.Unmet {
		left[u.Window]--
		checkUnmet(t, v, u, made)
	}
	for w, n := range left {
		if n != 0 {
			t.Fatalf("%v is met or told of %d times too few", w, n)
		}
	}
	if met != plan.Met || met > plan.MostMet || len(plan.Visits) < plan.FewestVisits {
		t.Fatalf("%d met by %d visits; said: %d, at most %d, at least %d", met, len(plan.Visits), plan.Met, plan.MostMet, plan.FewestVisits)
	}
	minutes := 0
	for _, d := range plan.Days {
		minutes += d.Minutes
		sum, at := 0, educators[d.Educator].Base
		for _, h := range d.Homes {
			sum, at = sum+v.Distances.Between(at, string(h)), string(h)
		}
		if sum += v.Distances.Between(at, educators[d.Educator].Base); sum != d.Minutes || len(d.Homes) != made[string(d.Educator)+d.On.String()] {
			t.Fatalf("%d minutes, not %d: %v", sum, d.Minutes, d)
		}
	}
	if minutes != plan.Minutes {
		t.Fatalf("%d minutes in all, not %d", minutes, plan.Minutes)
	}
}

// checkUnmet holds the reason to what is so: every educator on every day of the window.
func checkUnmet(t *testing.T, v assessment.Visiting, u assessment.Unmet, made map[string]int) {
	t.Helper()
	want, named := assessment.NobodyObserves, map[string]bool{}
	for _, f := range u.Educators {
		for _, d := range f.Off {
			named[string(f.Person)+d.String()+"off"] = true
		}
		for _, d := range f.Full {
			named[string(f.Person)+d.String()+"full"] = true
		}
	}
	from := civil.Later(u.Window.Opens, v.From)
	for d := from; !d.After(u.Window.Through); d = d.AddDays(1) {
		for _, e := range v.Educators {
			if e.Person == u.Window.Person || !slices.ContainsFunc(e.Observes[u.Window.Need.Skill], func(s assessment.DaySpan) bool { return s.Holds(d) }) {
				continue
			}
			want = assessment.OffOrFull
			key := string(e.Person) + d.String()
			off := slices.ContainsFunc(e.Off, func(s assessment.DaySpan) bool { return s.Holds(d) }) || slices.Contains(e.DaysOff, d.Weekday())
			if full := made[key]+e.Taken[d] >= e.PerDay; !off && !full || off && !named[key+"off"] || !off && !named[key+"full"] {
				t.Fatalf("%s on %s: off %t, full %t; said: %v", e.Name, d, off, full, u)
			}
			delete(named, key+"off")
			delete(named, key+"full")
		}
	}
	if u.Window.Through.Before(from) {
		want = assessment.WindowOver
	}
	if u.Why != want || len(named) > 0 {
		t.Fatalf("%s, and not %s: %v; %v too many", want, u.Why, u, named)
	}
}
