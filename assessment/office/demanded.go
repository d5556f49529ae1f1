package office

import (
	"cmp"
	"slices"

	"wellshown/assessment"
)

// demanded is something that somebody must hold, with how they stand: small, for there may be
// tens of thousands that are counted and put in order, and only then named.
type demanded struct {
	stood
	person int32 // their place in the table
}

// noSuch is the number of a skill or a child that the table does not have: nobody holds it.
const noSuch = -1

// missing counts what is required and hands on all that belongs in the report.
func (t *table) missing(q OverdueQuery, team map[assessment.PersonID]bool, line func(demanded)) OverdueCounts {
	var counts OverdueCounts
	for i, p := range t.people {
		if !t.shows(p, GridQuery{On: q.On, Kind: q.Kind, Client: q.Client}, team) {
			continue
		}
		asked, held := false, t.held[p.ID]
		for _, need := range t.needs[p.ID] {
			if q.Client != "" && need.Client != "" && need.Client != q.Client {
				continue
			}
			asked = true
			d := demanded{t.stands(held, need), int32(i)}
			if counts.add(d.word(), t.daysLeft(d.stood), q.Within) {
				line(d)
			}
		}
		if asked {
			counts.Caregivers++
		}
	}
	return counts
}

// stands is how somebody who holds this stands in what they need.
func (t *table) stands(held []stood, n assessment.Need) stood {
	skill, known := t.byCode[n.Skill]
	client, there := t.numbers[n.Client]
	if !known || !there {
		return notStarted(noSuch, noSuch)
	}
	return among(held, skill, client)
}

// daysLeft is negative where it has ended, and 0 where nothing was ever held.
func (t *table) daysLeft(s stood) int {
	if s.through.IsZero() {
		return 0
	}
	return s.through.Sub(t.on)
}

// lines name what was found, in its order.
func (t *table) lines(found []demanded) []OverdueLine {
	if len(found) == 0 {
		return nil
	}
	lines := make([]OverdueLine, len(found))
	for i, d := range found {
		l := &lines[i]
		l.Person, l.Word, l.Through, l.DaysLeft = t.names.people[t.people[d.person].ID], d.word(), d.through, t.daysLeft(d.stood)
		if d.skill != noSuch {
			s := t.skills[d.skill]
			l.Skill, l.Client = SkillRef{s.ID, s.Code, s.Title}, t.clients[d.client]
		}
	}
	return lines
}

// order runs by group, worst first within it.
func (t *table) order(bySkill bool) func(a, b demanded) int {
	people := places(len(t.people), func(a, b int) int {
		return cmp.Or(cmp.Compare(t.people[a].Name, t.people[b].Name), cmp.Compare(t.people[a].ID, t.people[b].ID))
	})
	clients := places(len(t.clients), func(a, b int) int { return cmp.Compare(t.clients[a].Code, t.clients[b].Code) })
	return func(a, b demanded) int {
		who, what, worst, when := int(people[a.person]-people[b.person]), int(a.skill)-int(b.skill), int(a.rank)-int(b.rank), a.through.Compare(b.through)
		whose := 0
		if a.client != b.client && a.client != noSuch && b.client != noSuch {
			whose = int(clients[a.client] - clients[b.client])
		}
		if bySkill {
			return cmp.Or(what, worst, when, who, whose)
		}
		return cmp.Or(who, worst, when, what, whose)
	}
}

// places says of each of n things which place it has in order.
func places(n int, order func(a, b int) int) []int32 {
	all := make([]int, n)
	for i := range all {
		all[i] = i
	}
	slices.SortFunc(all, order)
	at := make([]int32, n)
	for place, i := range all {
		at[i] = int32(place)
	}
	return at
}
