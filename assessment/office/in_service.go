package office

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/postgres"
)

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
	Taught      bool // a teaching session of learning plans, by whose id: it is corrected there
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
	taught, err := tx.Teaching.InService(ctx, now.Today.AddMonths(-30))
	if err != nil {
		return v, fmt.Errorf("read what was taught: %w", err)
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
	for _, s := range taught {
		for _, p := range s.LearnerIDs {
			took[p] = append(took[p], assessment.InServiceSession{On: s.HeldOn, Minutes: s.Minutes, Counts: true})
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
	return v, v.tellTaught(ctx, tx, taught, refs, person)
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

// tellTaught adds the teaching sessions that count toward in-service hours.
func (v *InServiceView) tellTaught(ctx context.Context, tx *postgres.Tx, taught []postgres.TeachingSession, refs map[assessment.PersonID]PersonRef, person assessment.PersonID) error {
	if len(taught) == 0 {
		return nil
	}
	skills, err := tx.Checklists.Skills(ctx)
	if err != nil {
		return fmt.Errorf("read skills: %w", err)
	}
	for _, s := range taught {
		if person != "" && !slices.Contains(s.LearnerIDs, person) {
			continue
		}
		t := viewTeaching(s, names{people: refs}, skills)
		one := InServiceSessionView{ID: s.ID, HeldOn: s.HeldOn, Minutes: s.Minutes, Trainer: t.Teacher.Name, Counts: true, Taught: true}
		for i, k := range t.Taught {
			if i > 0 {
				one.Topic += ", "
			}
			one.Topic += k.Title
		}
		for _, w := range t.Who {
			one.People = append(one.People, w.Person)
		}
		v.Sessions = append(v.Sessions, one)
	}
	slices.SortStableFunc(v.Sessions, func(a, b InServiceSessionView) int { return b.HeldOn.Compare(a.HeldOn) })
	return nil
}
