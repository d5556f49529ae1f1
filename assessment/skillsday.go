package assessment

import (
	"cmp"
	"slices"

	"wellshown/assessment/civil"
)

// Station is one table of a skills day: a skill, who observes it, and the child whose
// values it is judged by.
type Station struct {
	No       int // on the table; 1 and up
	Skill    Need
	Title    string
	Observer PersonID
	First    []Need // what comes before it
	Closed   string // why nothing that is shown here can count; empty: it can
}

// Stand is how somebody stands in a skill on the day, and whether they must hold it.
type Stand struct {
	Standing
	Title    string
	Required bool
	Can      bool // competent demonstrations at this day's stations make it current on the day
}

// Comer is somebody who comes to a skills day.
type Comer struct {
	Person PersonID
	Gone   string         // why nothing of theirs can count; empty: it can
	Stands map[Need]Stand // in what the stations show and in what comes before that
}

// Asking is whether somebody should go to a station.
type Asking string

// The answers. Free is never shown and not required: nobody asks for it.
const (
	AskedNow Asking = "due"
	Free     Asking = "free"
	Held     Asking = "held"
	Excused  Asking = "excused"
)

// Visit is one station for one learner.
type Visit struct {
	Station Station
	Stand   Stand
	Asking  Asking
	First   []int    // stations that come before it for them
	Leads   bool     // asked for because it comes before another that is due
	Cannot  []string // why what they show here would make nobody current; empty: it could
}

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

// asking tells whether a standing asks for a demonstration.
func (s Stand) asking() Asking {
	switch s.Word {
	case Current:
		return Held
	case Waived:
		return Excused
	case NotStarted:
		if !s.Required {
			return Free
		}
	}
	return AskedNow
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

// Onward is where a learner goes next.
type Onward struct {
	Station  int   // 0: nowhere
	Again    bool  // they were there, and it was not competent
	Unsigned []int // what was shown there must be signed first
}

// GoOn tells where a learner goes next, who showed some stations already, competently
// or not. A station that waits for another one is no place to go.
func GoOn(round []Visit, passed, tried map[int]bool) Onward {
	var again int
	var unsigned []int
	for _, v := range round {
		no := v.Station.No
		if v.Asking != AskedNow || len(v.Cannot) > 0 || passed[no] {
			continue
		}
		waits := false
		for _, before := range v.First {
			waits = true
			if passed[before] && !slices.Contains(unsigned, before) {
				unsigned = append(unsigned, before)
			}
		}
		switch {
		case waits:
		case !tried[no]:
			return Onward{Station: no}
		case again == 0:
			again = no
		}
	}
	return Onward{Station: again, Again: again != 0, Unsigned: unsigned}
}

// WhyAsked says in words why somebody should show a skill, or why not; day writes a
// day as the reader writes days.
func (v Visit) WhyAsked(day func(civil.Date) string) string {
	why := v.Stand.inWords(day)
	if v.Leads {
		return why + "; it comes before another that is due"
	}
	return why
}

func (s Stand) inWords(day func(civil.Date) string) string {
	switch s.Word {
	case Due:
		return "ends on " + day(s.Through)
	case Lapsed:
		if s.Through.IsZero() || !s.Through.Before(s.On) {
			return "lapsed"
		}
		return "lapsed after " + day(s.Through)
	case Withdrawn:
		return "withdrawn"
	case Learning:
		return "begun, not yet held"
	case Current:
		return "current through " + day(s.Through)
	case Waived:
		return "waived"
	}
	if s.Required {
		return "required, never shown"
	}
	return "never shown, not required"
}
