package assessment

import (
	"cmp"
	"slices"
)

// tell writes a draft out as a plan.
func (p *planning) tell(d *draft, b visitBounds) VisitPlan {
	plan := VisitPlan{Met: d.met, MostMet: b.most, FewestVisits: b.fewest, Proven: d.met == b.most && d.count == b.fewest, Apart: StabHomes(p.windows), Unmet: slices.Clone(p.lost)}
	made := map[dayOf]int{}
	for at, visits := range d.at {
		if len(visits) == 0 {
			continue
		}
		s := p.slots[at]
		educator := p.v.Educators[s.educator]
		w := d.shortest(at, visits)
		day := EducatorDay{Educator: educator.Person, On: s.on, Minutes: d.minutesOf(at, w)}
		for _, v := range w {
			home := p.homes[d.visits[v].home]
			visit := HomeVisit{Home: home, Educator: educator.Person, On: s.on}
			for _, i := range d.visits[v].windows {
				visit.Windows = append(visit.Windows, p.windows[i])
			}
			slices.SortFunc(visit.Windows, byDeadline)
			plan.Visits = append(plan.Visits, visit)
			day.Homes = append(day.Homes, home)
		}
		made[dayOf{educator.Person, s.on}] += len(w)
		plan.Days = append(plan.Days, day)
		plan.Minutes += day.Minutes
	}
	for i, w := range p.windows {
		if d.of[i] < 0 {
			plan.Unmet = append(plan.Unmet, p.v.cannot(w, made))
		}
	}
	slices.SortFunc(plan.Visits, inPlanOrder)
	slices.SortFunc(plan.Days, func(a, b EducatorDay) int {
		return cmp.Or(a.On.Compare(b.On), cmp.Compare(a.Educator, b.Educator))
	})
	slices.SortFunc(plan.Unmet, func(a, b Unmet) int { return byDeadline(a.Window, b.Window) })
	return plan
}

func inPlanOrder(a, b HomeVisit) int {
	return cmp.Or(a.On.Compare(b.On), cmp.Compare(a.Educator, b.Educator), cmp.Compare(a.Home, b.Home))
}
