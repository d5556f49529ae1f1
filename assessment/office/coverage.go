package office

import (
	"cmp"
	"context"
	"slices"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// CoverageQuery asks which shifts are covered. Empty fields are no condition.
type CoverageQuery struct {
	From    civil.Date // zero: today
	Through civil.Date // zero: 13 days after From
	Client  assessment.ClientID
	Person  assessment.PersonID
	State   string // "covered", "breaks", "open", "clash", or "trouble" for all but the first
}

// What coverage looks at: unless told otherwise, and at most; days. Common practice, no
// source.
const (
	CoverageDays     = 14
	MostCoverageDays = 92
)

// CoverageStates are the states that can be asked for.
var CoverageStates = []string{"trouble", "breaks", "open", "clash", "covered"}

// Coverage is shifts against standings.
type Coverage struct {
	Agency  AgencyView
	At      time.Time
	Today   civil.Date
	From    civil.Date
	Through civil.Date
	Counts  CoverageCounts // of all that the child and the person allow
	Lines   []CoverLine    // in order of start
	First   []CoverLine    // of each child the first that breaks, in order of start
	Clients []ClientRef    // that can be chosen, by code
	Rest    time.Duration  // that is asked between two shifts of one person
}

// CoverageCounts sums it up. A shift that clashes is counted as what it is besides too.
type CoverageCounts struct{ Shifts, Covered, Breaks, Open, Clashes int }

// CoverLine is one shift with the answer for it.
type CoverLine struct {
	ID        assessment.ShiftID
	Source    ShiftSource
	Client    ClientRef
	Person    PersonRef // empty: nobody is on it
	Kind      assessment.CaregiverKind
	Starts    time.Time // on the agency's clocks
	Ends      time.Time
	ShortRest string // why there is less rest than is asked
	Word      assessment.CoverWord
	Lacks     []Lack
	Clashes   []ShiftClash
}

// Lack is one thing that stands in the way.
type Lack struct {
	Why   assessment.Hindrance
	On    civil.Date
	Skill SkillRef // what is not held
	With  ClientRef
	Word  assessment.StandingWord
	Asks  assessment.CaregiverKind // which kind is asked for
	Other ShiftRef                 // the other shift
	Rest  time.Duration
}

// ShiftRef is a shift by its times and whose it is.
type ShiftRef struct {
	ID     assessment.ShiftID
	Client ClientRef
	Starts time.Time
	Ends   time.Time
}

// ShiftClash is another shift of the same person that leaves no time or no rest.
type ShiftClash struct {
	Other   ShiftRef
	Overlap bool
	Rest    time.Duration
}

// Coverage answers from the index of standings. Of today it tells what is not over yet.
func (o *Office) Coverage(ctx context.Context, by assessment.Actor, q CoverageQuery) (Coverage, error) {
	var v Coverage
	err := o.as(ctx, by, assessment.ReadReports, func(tx *postgres.Tx, now Moment) error {
		var err error
		v, err = o.coverage(ctx, tx, now, q)
		return err
	})
	return v, err
}

func (o *Office) coverage(ctx context.Context, tx *postgres.Tx, now Moment, q CoverageQuery) (Coverage, error) {
	if err := q.settle(now.Today); err != nil {
		return Coverage{}, err
	}
	v := Coverage{Agency: viewAgency(now.Agency), At: now.At.In(now.Zone), Today: now.Today, From: q.From, Through: q.Through}
	b, err := o.coverBook(ctx, tx, now, q.From.AddDays(-besideRest), q.Through.AddDays(besideRest), postgres.RosterFilter{Person: q.Person})
	if err != nil {
		return v, err
	}
	v.Rest = b.rest
	shifts := slices.DeleteFunc(b.touching(q.From, q.Through, now.Zone), func(s assessment.Shift) bool {
		return q.Client != "" && s.Client != q.Client || q.Person != "" && s.Person != q.Person || q.From == now.Today && !s.Ends.After(now.At)
	})
	c, err := b.judge(ctx, tx, now, shifts, on(shifts), false)
	if err != nil {
		return v, err
	}
	v.tell(b, now, q, c.All(shifts))
	for _, client := range b.clients {
		if !gone(client.LeftOn, q.From) {
			v.Clients = append(v.Clients, b.client(client.ID))
		}
	}
	slices.SortFunc(v.Clients, func(a, b ClientRef) int { return cmp.Compare(a.Code, b.Code) })
	return v, nil
}

func (q *CoverageQuery) settle(today civil.Date) error {
	if q.From.IsZero() {
		q.From = today
	}
	if q.Through.IsZero() {
		q.Through = q.From.AddDays(CoverageDays - 1)
	}
	var f form
	switch days := q.Through.Sub(q.From) + 1; {
	case days < 1:
		f.Add("through", "The last day is before the first.")
	case days > MostCoverageDays:
		f.Add("through", "This is more than %d days. Ask for fewer.", MostCoverageDays)
	}
	if q.State != "" && !slices.Contains(CoverageStates, q.State) {
		f.Add("state", "Choose one of the states in the list.")
	}
	return f.Err()
}

// tell counts all answers, and lists those that are asked for.
func (v *Coverage) tell(b *coverBook, now Moment, q CoverageQuery, answers []assessment.ShiftCover) {
	clashes := b.clashes(now.Zone)
	for _, a := range answers {
		clash := clashes[a.Shift.ID]
		v.Counts.Shifts++
		switch a.Word {
		case assessment.Covered:
			v.Counts.Covered++
		case assessment.Breaks:
			v.Counts.Breaks++
		case assessment.OpenYet:
			v.Counts.Open++
		}
		if len(clash) > 0 {
			v.Counts.Clashes++
		}
		trouble := a.Word != assessment.Covered || len(clash) > 0
		if q.State == "" || q.State == string(a.Word) || q.State == "clash" && len(clash) > 0 || q.State == "trouble" && trouble {
			v.Lines = append(v.Lines, b.line(now, a, clash))
		}
	}
	for _, a := range assessment.FirstBreaks(answers) {
		v.First = append(v.First, b.line(now, a, clashes[a.Shift.ID]))
	}
	slices.SortFunc(v.First, func(a, b CoverLine) int {
		return cmp.Or(a.Starts.Compare(b.Starts), cmp.Compare(a.Client.Code, b.Client.Code))
	})
}

// clashes are by shift the others of the same person that leave no time or no rest. Too
// little rest for which somebody gave a reason is none.
func (b *coverBook) clashes(zone *time.Location) map[assessment.ShiftID][]ShiftClash {
	all := map[assessment.ShiftID][]ShiftClash{}
	for _, c := range assessment.Clashes(b.shifts, b.rest) {
		if !c.Overlap && (b.told[c.First.ID].shortRest != "" || b.told[c.Second.ID].shortRest != "") {
			continue
		}
		all[c.First.ID] = append(all[c.First.ID], ShiftClash{b.shiftRef(c.Second, zone), c.Overlap, c.Rest})
		all[c.Second.ID] = append(all[c.Second.ID], ShiftClash{b.shiftRef(c.First, zone), c.Overlap, c.Rest})
	}
	return all
}

func (b *coverBook) shiftRef(s assessment.Shift, zone *time.Location) ShiftRef {
	if s.ID == "" {
		return ShiftRef{}
	}
	return ShiftRef{s.ID, b.client(s.Client), s.Starts.In(zone), s.Ends.In(zone)}
}

func (b *coverBook) line(now Moment, a assessment.ShiftCover, clashes []ShiftClash) CoverLine {
	s, told := a.Shift, b.told[a.Shift.ID]
	l := CoverLine{ID: s.ID, Source: told.source, Client: b.client(s.Client), Kind: s.Kind, Starts: s.Starts.In(now.Zone), Ends: s.Ends.In(now.Zone), ShortRest: told.shortRest, Word: a.Word, Clashes: clashes}
	if !s.Open() {
		l.Person = b.person(s.Person)
	}
	for _, o := range a.Obstacles {
		l.Lacks = append(l.Lacks, b.lack(now, o))
	}
	return l
}

func (b *coverBook) lack(now Moment, o assessment.Obstacle) Lack {
	l := Lack{Why: o.Why, On: o.On, Word: o.Word, Asks: o.Asks, Other: b.shiftRef(o.Other, now.Zone), Rest: o.Rest}
	if o.Why == assessment.NotHeld {
		l.Skill = SkillRef{Code: o.Need.Skill, Title: o.Need.Skill}
		if s, known := b.skills[o.Need.Skill]; known {
			l.Skill = SkillRef{s.ID, s.Code, s.Title}
		}
		if o.Need.Client != "" {
			l.With = b.client(o.Need.Client)
		}
	}
	return l
}

// oneShift finds a shift by its id, whatever it comes of; a pattern's on the day it
// names. One that there is not is not found.
func (b *coverBook) oneShift(id assessment.ShiftID) (assessment.Shift, error) {
	for _, s := range b.shifts {
		if s.ID == id {
			return s, nil
		}
	}
	return assessment.Shift{}, fault.Of(fault.NotFound, "There is no such record.")
}
