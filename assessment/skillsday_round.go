package assessment

import (
	"cmp"
	"slices"
)

// Round is where a learner goes, in order: first what is due, each station after those
// that must come before it, then what is due and cannot count, then the rest.
func Round(who Comer, stations []Station) []Visit {
	r := round{who: who, stations: stations, known: map[int]*Visit{}}
	for _, s := range stations {
		r.visit(s)
	}
	var all []Visit
	for _, s := range stations {
		if v := r.known[s.No]; v.Asking == AskedNow && len(v.Cannot) == 0 {
			r.lead(v)
		}
	}
	for _, s := range stations {
		all = append(all, *r.known[s.No])
	}
	depth := map[int]int{}
	for _, v := range all {
		depth[v.Station.No] = r.depth(v.Station.No)
	}
	slices.SortStableFunc(all, func(a, b Visit) int {
		return cmp.Or(a.rank()-b.rank(), depth[a.Station.No]-depth[b.Station.No], a.Station.No-b.Station.No)
	})
	return all
}

// lead asks for what comes before a station that is due, all the way down.
func (r *round) lead(v *Visit) {
	for _, no := range v.First {
		before := r.known[no]
		if before.Asking != AskedNow {
			before.Asking, before.Leads = AskedNow, true
		}
		r.lead(before)
	}
}

func (v Visit) rank() int {
	switch {
	case v.Asking == AskedNow && len(v.Cannot) == 0:
		return 0
	case v.Asking == AskedNow:
		return 1
	case v.Asking == Free:
		return 2
	}
	return 3
}

// round is being worked out for one learner.
type round struct {
	who      Comer
	stations []Station
	known    map[int]*Visit // by number; nil while it is being worked out
}

// visit works out a station and, before it, those that come first.
func (r *round) visit(s Station) *Visit {
	if v, begun := r.known[s.No]; begun {
		return v
	}
	r.known[s.No] = nil
	stand := r.who.Stands[s.Skill]
	v := &Visit{Station: s, Stand: stand, Asking: stand.asking(), Cannot: r.plain(s, stand)}
	for _, need := range s.First {
		before := r.who.Stands[need]
		if before.Word.Holds() {
			continue
		}
		if no := r.before(need, before, s); no != 0 {
			v.First = append(v.First, no)
			continue
		}
		v.Cannot = append(v.Cannot, before.Title+" comes first, is not current, and does not become so at this skills day.")
	}
	r.known[s.No] = v
	return v
}

// plain is why nothing can count at a station whatever is shown before it.
func (r *round) plain(s Station, stand Stand) []string {
	var no []string
	if r.who.Gone != "" {
		no = append(no, r.who.Gone)
	}
	if s.Observer == r.who.Person {
		no = append(no, "Nobody observes themselves: somebody else must see this.")
	}
	if s.Closed != "" {
		no = append(no, s.Closed)
	}
	if stand.Check != "" {
		no = append(no, stand.Check)
	}
	if stand.Next.Reinstatement {
		no = append(no, "It was withdrawn: somebody entitled must reinstate it first.")
	}
	if stand.Next.LaterDay {
		no = append(no, "It was withdrawn on this day: only what is shown on a later day lifts that.")
	}
	return no
}

// before is the first station at which what is needed can become current on the day,
// or 0.
func (r *round) before(need Need, stand Stand, than Station) int {
	if !stand.Can {
		return 0
	}
	for _, s := range r.stations {
		if s.Skill != need || s.No == than.No {
			continue
		}
		if v := r.visit(s); v != nil && len(v.Cannot) == 0 { // nil: each comes before the other
			return s.No
		}
	}
	return 0
}

// depth is how many stations stand one behind the other before this one.
func (r *round) depth(no int) int {
	deepest := 0
	if v := r.known[no]; v != nil {
		for _, before := range v.First {
			deepest = max(deepest, r.depth(before)+1)
		}
	}
	return deepest
}
