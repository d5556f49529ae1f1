package assessment

import (
	"slices"

	"wellshown/assessment/civil"
)

// Demands answers what a caregiver of a kind must hold for a client on any day, as
// Needed does, and works it out once for each run of days on which nothing changes.
// It is for one goroutine at a time.
type Demands struct {
	rules    []Requirement
	scope    func(skill string) Scope
	fittings map[ClientID][]Fitting
	changes  []civil.Date // days on which some requirement begins or has ended, in order
	known    map[demand][]Need
}

// demand is a run of days of one kind and client.
type demand struct {
	kind   CaregiverKind
	client ClientID
	rules  int // runs between changes of requirements
	fitted int // and of the client's equipment
}

// NewDemands takes the requirements, which skills are held per client, and each client's
// equipment over time, in order of From.
func NewDemands(requirements []Requirement, scope func(skill string) Scope, fittings map[ClientID][]Fitting) *Demands {
	d := &Demands{rules: requirements, scope: scope, fittings: fittings, known: map[demand][]Need{}}
	for _, r := range requirements {
		d.changes = append(d.changes, r.From)
		if !r.Through.IsZero() {
			d.changes = append(d.changes, r.Through.AddDays(1))
		}
	}
	slices.SortFunc(d.changes, civil.Date.Compare)
	d.changes = slices.Compact(d.changes)
	return d
}

// On lists what is needed on a day; nobody may change the list.
func (d *Demands) On(on civil.Date, kind CaregiverKind, client ClientID) []Need {
	rules, fits := runOf(d.changes, on, same), d.fittings[client]
	fitted := runOf(fits, on, func(f Fitting) civil.Date { return f.From })
	key := demand{kind, client, rules, fitted}
	needs, known := d.known[key]
	if known {
		return needs
	}
	c := Cared{ID: client}
	if fitted >= 0 {
		for equipment, of := range fits[fitted].Has {
			if of != "" {
				c.Equipment = append(c.Equipment, equipment)
			}
		}
	}
	needs = Needed(on, kind, []Cared{c}, d.rules, d.scope)
	d.known[key] = needs
	return needs
}

func same(d civil.Date) civil.Date { return d }

// runOf is the index of the last of a list in order of days that begins by a day; -1
// before all of them.
func runOf[T any](list []T, on civil.Date, from func(T) civil.Date) int {
	low, high := 0, len(list)
	for low < high {
		if mid := (low + high) / 2; from(list[mid]).After(on) {
			high = mid
		} else {
			low = mid + 1
		}
	}
	return low - 1
}

// StandingLines are the index of standings: the segments of each person in each need, in
// order of days, as Timeline makes them. A line that is not there is one of somebody who
// has not started.
type StandingLines map[PersonID]map[Need][]Segment

// On is the segment that holds a day; "not started" before the first.
func (l StandingLines) On(p PersonID, n Need, day civil.Date) Segment {
	line := l[p][n]
	if i := runOf(line, day, func(s Segment) civil.Date { return s.From }); i >= 0 {
		return line[i]
	}
	return Segment{Word: NotStarted}
}
