package office

import (
	"context"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// ShiftDesk is one shift, with everybody who could take it and why the others cannot.
type ShiftDesk struct {
	CoverLine
	Agency  AgencyView
	At      time.Time
	Version string // of the shift as it is read here
	Over    bool   // it has ended: nobody is put on it any more
	Pattern assessment.PatternID
	Able    []StandInView
	Not     []NotAbleView // where nobody is able, the proof of it
	Rest    time.Duration
}

// StandInView is somebody who could take it.
type StandInView struct {
	Person PersonRef
	Hours  time.Duration // on shifts already in that week, Monday through Sunday
}

// NotAbleView is somebody who cannot, with the first reason.
type NotAbleView struct {
	Person PersonRef
	Lack
	AskFor bool // they could, were a reason given for too little rest
}

// ShiftDesk answers for one shift: a single one, one of a pattern on a day, or an early one
// of a way home.
func (o *Office) ShiftDesk(ctx context.Context, by assessment.Actor, id assessment.ShiftID) (ShiftDesk, error) {
	var v ShiftDesk
	err := o.as(ctx, by, assessment.ReadReports, func(tx *postgres.Tx, now Moment) error {
		b, s, err := o.bookOf(ctx, tx, now, id)
		if err != nil {
			return err
		}
		c, err := b.judge(ctx, tx, now, []assessment.Shift{s}, b.concerned(s, now), true)
		if err != nil {
			return err
		}
		v = ShiftDesk{CoverLine: b.line(now, c.Of(s), b.clashes(now.Zone)[id]), Agency: viewAgency(now.Agency), At: now.At.In(now.Zone), Version: b.version(s), Over: !s.Ends.After(now.At), Rest: b.rest}
		v.Pattern, _, _ = patternDay(id)
		able, not := c.StandIns(s)
		for _, a := range able {
			v.Able = append(v.Able, StandInView{b.person(a.Person), a.Hours})
		}
		for _, n := range not {
			if n.Why != assessment.OnIt {
				v.Not = append(v.Not, NotAbleView{b.person(n.Person), b.lack(now, n.Obstacle), n.Why == assessment.TooSoon})
			}
		}
		return nil
	})
	return v, err
}

// bookOf reads what one shift is judged by. What its id says of a day is where it is
// looked for; nothing else of the roster is read.
func (o *Office) bookOf(ctx context.Context, tx *postgres.Tx, now Moment, id assessment.ShiftID) (*coverBook, assessment.Shift, error) {
	on, err := dayOfShift(ctx, tx, now, id)
	if err != nil {
		return nil, assessment.Shift{}, err
	}
	b, err := o.coverBook(ctx, tx, now, on.AddDays(-besideWeek), on.AddDays(besideWeek), postgres.RosterFilter{})
	if err != nil {
		return nil, assessment.Shift{}, err
	}
	s, err := b.oneShift(id)
	return b, s, err
}

// dayOfShift is the day on which a shift begins.
func dayOfShift(ctx context.Context, tx *postgres.Tx, now Moment, id assessment.ShiftID) (civil.Date, error) {
	if _, day, of := patternDay(id); of {
		return day, nil
	}
	if _, err := assessment.ParseID[assessment.ShiftID](string(id)); err != nil {
		return civil.Date{}, err
	}
	single, err := tx.Roster.Shift(ctx, id)
	if err == nil {
		return civil.DayOf(single.StartsAt, now.Zone), nil
	}
	if fault.KindOf(err) != fault.NotFound {
		return civil.Date{}, err
	}
	early, err := tx.Plans.Shift(ctx, assessment.RecordID(id))
	return civil.DayOf(early.StartsAt, now.Zone), err
}

// concerned are all who might be on a shift, and whoever is.
func (b *coverBook) concerned(s assessment.Shift, now Moment) []assessment.PersonID {
	all := b.caregivers(civil.DayOf(s.Starts, now.Zone))
	for _, id := range on([]assessment.Shift{s}) {
		known := false
		for _, a := range all {
			known = known || a == id
		}
		if !known {
			all = append(all, id)
		}
	}
	return all
}

// version is a hash of a shift as it is.
func (b *coverBook) version(s assessment.Shift) string {
	return hashed(s.ID, s.Person, s.Kind, s.Starts.UnixMicro(), s.Ends.UnixMicro(), b.told[s.ID].shortRest)
}

// MostShared is how many shifts are shared out at once: what one can look over.
const MostShared = 50

// Sharing is a proposal: each of several shifts for another person. Nothing is changed by it.
type Sharing struct {
	Agency AgencyView
	Takes  []SharedShift
	None   []CoverLine // for which nobody is left
}

// SharedShift is one shift with who would take it.
type SharedShift struct {
	CoverLine
	Version string
	Takes   PersonRef
}

// ShareOut proposes who takes which of some shifts: as many as can be filled at once, by
// the people with the fewest hours in the week.
func (o *Office) ShareOut(ctx context.Context, by assessment.Actor, ids []assessment.ShiftID) (Sharing, error) {
	var v Sharing
	err := o.as(ctx, by, assessment.ReadReports, func(tx *postgres.Tx, now Moment) error {
		v = Sharing{Agency: viewAgency(now.Agency)}
		b, shifts, err := o.bookOfSome(ctx, tx, now, ids)
		if err != nil {
			return err
		}
		last := civil.Date{}
		for _, s := range shifts {
			if day := civil.DayOf(s.Starts, now.Zone); last.IsZero() || day.Before(last) {
				last = day
			}
		}
		people := b.caregivers(last)
		for _, id := range on(shifts) {
			if p := b.people[id]; p.Kind == "" || gone(p.LeftOn, last) {
				people = append(people, id)
			}
		}
		c, err := b.judge(ctx, tx, now, shifts, people, true)
		if err != nil {
			return err
		}
		shared, clashes := c.ShareOut(shifts), b.clashes(now.Zone)
		for _, s := range shifts {
			line := b.line(now, c.Of(s), clashes[s.ID])
			if h, takes := shared.Takes[s.ID]; takes {
				v.Takes = append(v.Takes, SharedShift{line, b.version(s), b.person(h.Person)})
			} else {
				v.None = append(v.None, line)
			}
		}
		return nil
	})
	return v, err
}

// bookOfSome is bookOf for several shifts, in order of start and each once.
func (o *Office) bookOfSome(ctx context.Context, tx *postgres.Tx, now Moment, ids []assessment.ShiftID) (*coverBook, []assessment.Shift, error) {
	ids = distinct(ids)
	switch {
	case len(ids) == 0:
		return nil, nil, fault.Of(fault.Invalid, "Choose at least one shift.")
	case len(ids) > MostShared:
		return nil, nil, fault.Of(fault.Invalid, "At most %d shifts are shared out at once. Choose fewer.", MostShared)
	}
	var first, last civil.Date
	wanted := map[assessment.ShiftID]bool{}
	for _, id := range ids {
		day, err := dayOfShift(ctx, tx, now, id)
		if err != nil {
			return nil, nil, err
		}
		if first.IsZero() || day.Before(first) {
			first = day
		}
		last, wanted[id] = civil.Later(last, day), true
	}
	if last.Sub(first) > MostCoverageDays {
		return nil, nil, fault.Of(fault.Invalid, "These shifts lie more than %d days apart. Choose fewer.", MostCoverageDays)
	}
	b, err := o.coverBook(ctx, tx, now, first.AddDays(-besideWeek), last.AddDays(besideWeek), postgres.RosterFilter{})
	if err != nil {
		return nil, nil, err
	}
	var shifts []assessment.Shift
	for _, s := range b.shifts {
		if wanted[s.ID] {
			if !s.Ends.After(now.At) {
				return nil, nil, fault.Of(fault.Refused, "A shift among these is over. Leave it out.")
			}
			shifts = append(shifts, s)
		}
	}
	if len(shifts) != len(ids) {
		return nil, nil, notFound()
	}
	return b, shifts, nil
}
