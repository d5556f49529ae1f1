package office

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// surveyOf is what somebody may look at as a surveyor now; nil where they are none.
func surveyOf(ctx context.Context, tx *postgres.Tx, now Moment, p postgres.Person) (*assessment.Survey, error) {
	if !slices.Contains(p.Roles, assessment.Surveyor) {
		return nil, nil
	}
	given, err := tx.Surveys.Of(ctx, p.ID)
	if err != nil {
		return nil, fmt.Errorf("read what a surveyor may look at: %w", err)
	}
	var rules []assessment.SurveyAccess
	for _, a := range given {
		rules = append(rules, a.Rule())
	}
	s := assessment.SurveyAt(rules, now.At)
	s.Begins, s.Over = s.Begins.In(now.Zone), s.Over.In(now.Zone)
	if s.Whole || len(s.Clients) == 0 {
		return s, nil
	}
	if s.Team, err = tx.Teams.PeopleOf(ctx, s.Clients); err != nil {
		return nil, fmt.Errorf("read who looks after the children: %w", err)
	}
	return s, nil
}

// AccessForm is what a surveyor is to be let in for.
type AccessForm struct {
	Person  assessment.PersonID
	Whole   bool
	People  []assessment.PersonID
	Clients []assessment.ClientID
	Reason  string
	From    string // first day, YYYY-MM-DD; empty: today
	Through string // last day, YYYY-MM-DD; at most LongestSurvey days with the first
}

// most is how many people and children one access may name.
const most = 200

// GiveAccess lets a surveyor in. Those who left may be named: what they signed is
// what a survey may be about.
func (o *Office) GiveAccess(ctx context.Context, by assessment.Actor, f AccessForm) (AccessView, error) {
	var given AccessView
	err := o.as(ctx, by, assessment.GiveRoles, func(tx *postgres.Tx, now Moment) error {
		from, through, err := f.read(now.Today)
		if err != nil {
			return err
		}
		p, err := tx.People.Lock(ctx, f.Person)
		if err != nil {
			return err
		}
		if err := mayBeLetIn(by, p, now); err != nil {
			return err
		}
		if err := areThere(ctx, tx, f); err != nil {
			return err
		}
		id, err := newID[string](o, now.At)
		if err != nil {
			return err
		}
		n := postgres.SurveyAccess{ID: id, PersonID: p.ID, Whole: f.Whole, People: f.People, Clients: f.Clients, Reason: f.Reason,
			FromAt: from.In(now.Zone), ToAt: through.AddDays(1).In(now.Zone), GivenBy: by.Person, GivenAt: now.At}
		if n.FromAt.Before(now.At) {
			n.FromAt = now.At
		}
		if err := tx.Surveys.Add(ctx, n); err != nil {
			return fmt.Errorf("let a surveyor in: %w", err)
		}
		kept, err := tx.Surveys.Get(ctx, id)
		if err != nil {
			return err
		}
		views, err := o.viewAccesses(ctx, tx, now, []postgres.SurveyAccess{kept})
		if err != nil {
			return err
		}
		given = views[0]
		seen, err := surveyOf(ctx, tx, now, p)
		if err != nil {
			return err
		}
		given.Wider = seen.Whole && !f.Whole
		return o.note(ctx, tx, now, by, assessment.GiveRoles, "survey access", id)
	})
	return given, err
}

// read checks and completes what was filled in, and gives the first and last day.
func (f *AccessForm) read(today civil.Date) (from, through civil.Date, err error) {
	var faults form
	f.Reason = faults.line("reason", f.Reason, 400, "Say why they are let in: which survey, asked for by whom.")
	if f.Person == "" {
		faults.Add("person", "Say who is let in.")
	}
	f.People, f.Clients = distinct(f.People), distinct(f.Clients)
	switch named := len(f.People) + len(f.Clients); {
	case f.Whole && named > 0:
		faults.Add("whole", "It is the whole agency, or those who are named: choose one.")
	case !f.Whole && named == 0:
		faults.Add("people", "Name the people or the children, or say that it is the whole agency.")
	case named > most:
		faults.Add("people", "Name at most %d people and children at once.", most)
	}
	if strings.TrimSpace(f.From) == "" {
		f.From = today.String()
	}
	from, through = faults.day("from", f.From), faults.day("through", f.Through)
	if from.IsZero() || through.IsZero() {
		return from, through, faults.Err()
	}
	switch {
	case from.Before(today):
		faults.Add("from", "The first day is over already. Begin today or later.")
	case through.Before(from):
		faults.Add("through", "The last day is before the first.")
	case through.After(from.AddDays(assessment.LongestSurvey - 1)):
		faults.Add("through", "A surveyor is let in for at most %d days. Let them in again where that is not enough.", assessment.LongestSurvey)
	}
	return from, through, faults.Err()
}

// distinct is each once, and never nil.
func distinct[T ~string](all []T) []T {
	sorted := append([]T{}, all...)
	slices.Sort(sorted)
	return slices.Compact(sorted)
}

func mayBeLetIn(by assessment.Actor, p postgres.Person, now Moment) error {
	switch {
	case p.ID == by.Person:
		return fault.Of(fault.Refused, "Nobody lets themselves in. Ask another administrator.")
	case gone(p.LeftOn, now.Today):
		return fault.Of(fault.Refused, "They are no longer with the agency.")
	case !slices.Contains(p.Roles, assessment.Surveyor):
		return faultAt("person", "They are no surveyor here. Give them that role first.")
	}
	return nil
}

// areThere refuses people and children that the agency does not have.
func areThere(ctx context.Context, tx *postgres.Tx, f AccessForm) error {
	for _, id := range f.People {
		if _, err := tx.People.Get(ctx, id); err != nil {
			return err
		}
	}
	for _, id := range f.Clients {
		if _, err := tx.Clients.Get(ctx, id); err != nil {
			return err
		}
	}
	return nil
}

// EndAccess ends a surveyor's access at once, also one that has not begun.
func (o *Office) EndAccess(ctx context.Context, by assessment.Actor, id string) error {
	return o.as(ctx, by, assessment.GiveRoles, func(tx *postgres.Tx, now Moment) error {
		a, err := tx.Surveys.Get(ctx, id)
		if err != nil {
			return err
		}
		if _, err := tx.People.Lock(ctx, a.PersonID); err != nil { // one at a time
			return err
		}
		if a, err = tx.Surveys.Get(ctx, id); err != nil {
			return err
		}
		if overBy(a, now) {
			return fault.Of(fault.Conflict, "This access is over already.")
		}
		return o.endAccess(ctx, tx, now, by, a)
	})
}

func overBy(a postgres.SurveyAccess, now Moment) bool {
	return a.EndedAt != nil || !now.At.Before(a.ToAt)
}

func (o *Office) endAccess(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, a postgres.SurveyAccess) error {
	if err := tx.Surveys.End(ctx, a.ID, by.Person, now.At); err != nil {
		return fmt.Errorf("end a surveyor's access: %w", err)
	}
	return o.note(ctx, tx, now, by, assessment.GiveRoles, "survey access end", a.ID)
}

// endAllAccess ends what somebody was let in for who is no surveyor any more, so that
// it does not open again with the role.
func (o *Office) endAllAccess(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, id assessment.PersonID) error {
	given, err := tx.Surveys.Of(ctx, id)
	if err != nil {
		return err
	}
	for _, a := range given {
		if overBy(a, now) {
			continue
		}
		if err := o.endAccess(ctx, tx, now, by, a); err != nil {
			return err
		}
	}
	return nil
}
