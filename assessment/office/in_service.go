package office

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// InServiceForm writes down training at work that was held.
type InServiceForm struct {
	ID          string // made by whoever sends it, so that sending twice adds one; empty: made here
	HeldOn      string
	Hours       string // such as 1.5 or 1:30
	Topic       string
	Trainer     string
	Counts      bool // toward in-service
	Orientation bool
	People      []assessment.PersonID // who took part
}

// InServiceView is how far everybody who must is, and what was held.
type InServiceView struct {
	Agency   AgencyView
	Today    civil.Date
	On       bool // the agency counts them
	Rule     assessment.InServiceRule
	Lines    []InServiceLine        // aides, those who are short first, by the day until when
	Sessions []InServiceSessionView // of the last two years, with those taken back; the newest first
	People   []PersonRef            // who can take part
}

// InServiceLine is how far one aide is.
type InServiceLine struct {
	Person  PersonRef
	HiredOn civil.Date // zero: not known
	Counted bool       // false: there is no period of 12 months, for the day of hire is not known or to come
	Asked   int        // minutes in 12 months
	assessment.InService
	Ends   bool // short, and the period ends within 90 days
	Missed int  // minutes that were missing at the end of the period before; only where the day of hire is known
}

// inServiceSoon is how many days before its end a period that is short is told as ending. Common
// practice, no source.
const inServiceSoon = 90

// InServiceSessionView is a session by the names of who took part.
type InServiceSessionView struct {
	ID          assessment.RecordID
	HeldOn      civil.Date
	Minutes     int
	Topic       string
	Trainer     string
	Counts      bool
	Orientation bool
	People      []PersonRef
	TakenBack   bool
	Why         string
}

// InService answers for today. A person narrows it to them; empty: everybody.
func (o *Office) InService(ctx context.Context, by assessment.Actor, person assessment.PersonID) (InServiceView, error) {
	var v InServiceView
	err := o.as(ctx, by, assessment.ReadReports, func(tx *postgres.Tx, now Moment) (err error) {
		v, err = o.inService(ctx, tx, now, person)
		return err
	})
	return v, err
}

func (o *Office) inService(ctx context.Context, tx *postgres.Tx, now Moment, person assessment.PersonID) (InServiceView, error) {
	v := InServiceView{Agency: viewAgency(now.Agency), Today: now.Today}
	rules, err := practice(ctx, tx)
	if err != nil {
		return v, err
	}
	v.On, v.Rule = rules.InService, rules.InServiceRule
	sessions, err := tx.Practice.Sessions(ctx, now.Today.AddMonths(-30))
	if err != nil {
		return v, fmt.Errorf("read sessions: %w", err)
	}
	hired, err := tx.Practice.Hired(ctx)
	if err != nil {
		return v, fmt.Errorf("read days of hire: %w", err)
	}
	people, err := tx.People.List(ctx, postgres.PeopleFilter{IncludeLeft: true})
	if err != nil {
		return v, fmt.Errorf("read people: %w", err)
	}
	since, refs := map[assessment.PersonID]civil.Date{}, map[assessment.PersonID]PersonRef{}
	for _, h := range hired {
		since[h.Person] = h.HiredOn
	}
	took := map[assessment.PersonID][]assessment.InServiceSession{}
	for _, s := range sessions {
		for _, p := range s.People {
			if s.TakenBackAt == nil && !s.HeldOn.After(now.Today) {
				took[p] = append(took[p], assessment.InServiceSession{On: s.HeldOn, Minutes: s.Minutes, Counts: s.Counts, Orientation: s.Orientation})
			}
		}
	}
	for _, p := range people {
		refs[p.ID] = PersonRef{p.ID, p.Name, p.Kind, p.Relation}
		if gone(p.LeftOn, now.Today) || p.Kind == "" || p.Kind == assessment.Family {
			continue
		}
		v.People = append(v.People, refs[p.ID])
		if p.Kind == assessment.Aide && (person == "" || person == p.ID) {
			v.Lines = append(v.Lines, inServiceLine(v.Rule, refs[p.ID], since[p.ID], now.Today, took[p.ID]))
		}
	}
	slices.SortStableFunc(v.Lines, inServiceOrder)
	v.tellSessions(sessions, refs, person)
	return v, nil
}

func inServiceLine(rule assessment.InServiceRule, p PersonRef, hired, today civil.Date, took []assessment.InServiceSession) InServiceLine {
	l := InServiceLine{Person: p, HiredOn: hired, Asked: rule.Minutes}
	if l.InService, l.Counted = rule.InService(hired, today, took); !l.Counted {
		return l
	}
	l.Ends = l.Short > 0 && l.Through.Sub(today) < inServiceSoon
	if before, there := rule.InService(hired, l.From.AddDays(-1), took); there && !hired.IsZero() {
		l.Missed = before.Short
	}
	return l
}

// inServiceOrder: of whom it is not known first, then who is short, by the end of the period.
func inServiceOrder(x, y InServiceLine) int {
	rank := func(l InServiceLine) int {
		switch {
		case !l.Counted:
			return 0
		case l.Short > 0:
			return 1
		}
		return 2
	}
	return cmp.Or(rank(x)-rank(y), x.Through.Compare(y.Through), cmp.Compare(strings.ToLower(x.Person.Name), strings.ToLower(y.Person.Name)))
}

func (v *InServiceView) tellSessions(sessions []postgres.InServiceSession, refs map[assessment.PersonID]PersonRef, person assessment.PersonID) {
	for _, s := range sessions {
		if person != "" && !slices.Contains(s.People, person) {
			continue
		}
		one := InServiceSessionView{ID: s.ID, HeldOn: s.HeldOn, Minutes: s.Minutes, Topic: s.Topic, Trainer: s.Trainer, Counts: s.Counts, Orientation: s.Orientation, TakenBack: s.TakenBackAt != nil, Why: s.Why}
		for _, p := range s.People {
			one.People = append(one.People, refs[p])
		}
		slices.SortFunc(one.People, func(a, b PersonRef) int { return cmp.Compare(strings.ToLower(a.Name), strings.ToLower(b.Name)) })
		v.Sessions = append(v.Sessions, one)
	}
}

// AddSession writes down training that was held.
func (o *Office) AddSession(ctx context.Context, by assessment.Actor, f InServiceForm) (assessment.RecordID, error) {
	var id assessment.RecordID
	err := o.as(ctx, by, assessment.LogPractice, func(tx *postgres.Tx, now Moment) error {
		s, err := f.read(now)
		if err != nil {
			return err
		}
		if s.ID, err = idOr[assessment.RecordID](o, f.ID, now.At); err != nil {
			return err
		}
		id = s.ID
		if known, err := tx.Practice.Session(ctx, s.ID); err == nil {
			if known.HeldOn == s.HeldOn && known.Minutes == s.Minutes && known.Topic == s.Topic && slices.Equal(known.People, s.People) {
				return nil
			}
			return fault.Of(fault.Conflict, "There is another record under this id.")
		} else if fault.KindOf(err) != fault.NotFound {
			return err
		}
		for _, p := range s.People {
			if err := tookPart(ctx, tx, s.HeldOn, p); err != nil {
				return err
			}
		}
		s.WrittenBy, s.WrittenAt = by.Person, now.At
		if err := tx.Practice.AddSession(ctx, s); err != nil {
			return fmt.Errorf("keep a session: %w", err)
		}
		return o.note(ctx, tx, now, by, assessment.LogPractice, "in_service_session", string(s.ID))
	})
	return id, err
}

func (f InServiceForm) read(now Moment) (postgres.InServiceSession, error) {
	var faults form
	s := postgres.InServiceSession{HeldOn: faults.day("held_on", f.HeldOn), Minutes: faults.minutes("hours", f.Hours, 24*60), Topic: faults.line("topic", f.Topic, 200, "Say what it was about."),
		Trainer: faults.line("trainer", f.Trainer, 200, "Say who gave it."), Counts: f.Counts, Orientation: f.Orientation, People: slices.Clone(f.People)}
	if s.HeldOn.After(now.Today) {
		faults.Add("held_on", "This day is to come. Write it down once it was held.")
	}
	slices.Sort(s.People)
	if s.People = slices.Compact(s.People); len(s.People) == 0 {
		faults.Add("people", "Choose who took part.")
	}
	return s, faults.Err()
}

// tookPart refuses whoever was no longer here.
func tookPart(ctx context.Context, tx *postgres.Tx, on civil.Date, id assessment.PersonID) error {
	p, err := tx.People.Get(ctx, id)
	switch {
	case err != nil:
		return err
	case p.Kind != assessment.Aide && p.Kind != assessment.Nurse:
		return faultAt("people", p.Name+" is neither an aide nor a nurse here.")
	case gone(p.LeftOn, on):
		return faultAt("people", p.Name+" was no longer with the agency on that day.")
	}
	return nil
}

// TakeSessionBack has training that was written down by mistake count for nothing. It stays
// readable with the reason.
func (o *Office) TakeSessionBack(ctx context.Context, by assessment.Actor, id assessment.RecordID, reason string) error {
	return o.as(ctx, by, assessment.LogPractice, func(tx *postgres.Tx, now Moment) error {
		var f form
		why := f.words("reason", reason, 2000)
		if !assessment.Says(why) {
			f.Add("reason", "Say what is wrong with it. It stays readable.")
		}
		if err := f.Err(); err != nil {
			return err
		}
		s, err := tx.Practice.Session(ctx, id)
		switch {
		case err != nil:
			return err
		case s.TakenBackAt != nil:
			return fault.Of(fault.Conflict, "This was taken back already.")
		}
		if err := tx.Practice.TakeBackSession(ctx, id, by.Person, now.At, why); err != nil {
			return err
		}
		return o.note(ctx, tx, now, by, assessment.LogPractice, "in_service_session", string(id))
	})
}

// SetHired says since when somebody works for the agency: in-service hours by the anniversary
// count from it.
func (o *Office) SetHired(ctx context.Context, by assessment.Actor, person assessment.PersonID, on string) error {
	return o.as(ctx, by, assessment.EditPeople, func(tx *postgres.Tx, now Moment) error {
		var f form
		h := postgres.Hired{Person: person, HiredOn: f.day("on", on), SetBy: by.Person, SetAt: now.At}
		p, err := tx.People.Get(ctx, person)
		if err != nil {
			return err
		}
		if !p.LeftOn.IsZero() && !h.HiredOn.Before(p.LeftOn) {
			f.Add("on", "They left on %s, before this day.", p.LeftOn)
		}
		if err := f.Err(); err != nil {
			return err
		}
		if err := tx.Practice.SetHired(ctx, h); err != nil {
			return err
		}
		return o.note(ctx, tx, now, by, assessment.EditPeople, "employment", string(person))
	})
}
