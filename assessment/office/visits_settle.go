package office

import (
	"slices"

	"wellshown/assessment"
	"wellshown/assessment/civil"
)

// visiting is what the core plans from: all windows, and educators with all their room.
func (b *visitBook) visiting() assessment.Visiting {
	return assessment.Visiting{From: b.table.on, Until: b.horizon, Windows: b.windows, Educators: b.educators, Distances: b.distances}
}

// settleKept says what each planned visit meets, and what keeps one from being made: such a
// one meets nothing.
func (b *visitBook) settleKept() {
	v := b.visiting()
	for _, k := range b.kept {
		b.visits = append(b.visits, assessment.HomeVisit{Home: k.Client, Educator: k.Person, On: k.FallsOn})
	}
	var sound []int
	for i, visit := range b.visits {
		m, _ := v.Move(b.visits, i, visit.On, visit.Educator) // to where it is
		m.Faults = append(m.Faults, b.noHome(visit.Home, visit.On)...)
		if b.faults = append(b.faults, m.Faults); len(m.Faults) == 0 {
			sound = append(sound, i)
		}
	}
	if len(sound) == 0 {
		return
	}
	some := b.only(sound)
	m, _ := v.Move(some, 0, some[0].On, some[0].Educator)
	for n, i := range sound {
		b.visits[i].Windows = m.Visits[n].Windows
	}
}

// noHome is what keeps a visit from a child who has left by then.
func (b *visitBook) noHome(child assessment.ClientID, on civil.Date) []assessment.MoveFault {
	if gone(b.table.left[child], on) {
		return []assessment.MoveFault{assessment.MovedToNoHome}
	}
	return nil
}

// only are some of the planned visits by number.
func (b *visitBook) only(numbers []int) []assessment.HomeVisit {
	var some []assessment.HomeVisit
	for _, i := range numbers {
		some = append(some, b.visits[i])
	}
	return some
}

// plan proposes visits for what the kept ones do not meet, with the room that they leave.
func (b *visitBook) plan() assessment.VisitPlan {
	v := b.visiting()
	met := map[assessment.Window]bool{}
	taken := map[assessment.PersonID]map[civil.Date]int{}
	for _, k := range b.visits {
		if taken[k.Educator] == nil {
			taken[k.Educator] = map[civil.Date]int{}
		}
		taken[k.Educator][k.On]++
		for _, w := range k.Windows {
			met[w] = true
		}
	}
	v.Windows = slices.DeleteFunc(slices.Clone(v.Windows), func(w assessment.Window) bool { return met[w] })
	v.Educators = slices.Clone(v.Educators)
	for i, e := range v.Educators {
		v.Educators[i].Taken = taken[e.Person]
	}
	return v.Plan()
}
