package office

import (
	"context"
	"fmt"
	"slices"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// amongPeople are whom a surveyor was let in for, and they themselves.
func amongPeople(by assessment.Actor) []assessment.PersonID {
	return append([]assessment.PersonID{by.Person}, by.Survey.People...)
}

// surveyOf is what somebody may look at as a surveyor now; nil for nothing. With a
// child come the people who look after it today.
func surveyOf(ctx context.Context, tx *postgres.Tx, now Moment, p postgres.Person) (*assessment.Survey, error) {
	if !slices.Contains(p.Roles, assessment.Surveyor) {
		return nil, nil
	}
	given, err := tx.Surveys.Of(ctx, p.ID, now.At)
	if err != nil {
		return nil, fmt.Errorf("read what a surveyor may look at: %w", err)
	}
	var rules []assessment.SurveyAccess
	for _, a := range given {
		rules = append(rules, a.Rule())
	}
	s := assessment.SurveyAt(rules, now.At)
	if s == nil || s.Whole || len(s.Clients) == 0 {
		return s, nil
	}
	members, err := tx.Teams.List(ctx, postgres.TeamFilter{})
	if err != nil {
		return nil, fmt.Errorf("read who looks after the children: %w", err)
	}
	for _, m := range members {
		if s.MaySee(m.Client) && hereOn(m, now.Today) {
			s.People = append(s.People, m.Person)
		}
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
	Days    int // from now on; 1 to 30
}

// GiveAccess lets a surveyor in.
func (o *Office) GiveAccess(ctx context.Context, by assessment.Actor, f AccessForm) (postgres.SurveyAccess, error) {
	var given postgres.SurveyAccess
	if err := f.read(); err != nil {
		return given, err
	}
	err := o.as(ctx, by, assessment.GiveRoles, func(tx *postgres.Tx, now Moment) error {
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
		err = tx.Surveys.Add(ctx, postgres.SurveyAccess{ID: id, PersonID: p.ID, Whole: f.Whole, People: f.People, Clients: f.Clients, Reason: f.Reason,
			FromAt: now.At, ThroughAt: now.At.Add(time.Duration(f.Days) * 24 * time.Hour), GivenBy: by.Person, GivenAt: now.At})
		if err != nil {
			return fmt.Errorf("let a surveyor in: %w", err)
		}
		if given, err = tx.Surveys.Get(ctx, id); err != nil {
			return err
		}
		return o.note(ctx, tx, now, by, assessment.GiveRoles, "survey access", id)
	})
	return given, err
}

func (f *AccessForm) read() error {
	var faults form
	f.Reason = faults.line("reason", f.Reason, 400, "Say why they are let in: which survey, asked for by whom.")
	if f.Days < 1 || f.Days > int(assessment.LongestSurvey/(24*time.Hour)) {
		faults.Add("days", "A surveyor is let in for 1 to %d days. Let them in again where that is not enough.", int(assessment.LongestSurvey/(24*time.Hour)))
	}
	if f.Person == "" {
		faults.Add("person", "Say who is let in.")
	}
	named := len(f.People)+len(f.Clients) > 0
	if f.Whole && named {
		faults.Add("whole", "It is the whole agency, or those who are named: choose one.")
	}
	if !f.Whole && !named {
		faults.Add("people", "Name the people or the children, or say that it is the whole agency.")
	}
	if f.People == nil {
		f.People = []assessment.PersonID{}
	}
	if f.Clients == nil {
		f.Clients = []assessment.ClientID{}
	}
	return faults.Err()
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

// EndAccess ends a surveyor's access at once.
func (o *Office) EndAccess(ctx context.Context, by assessment.Actor, id string) error {
	return o.as(ctx, by, assessment.GiveRoles, func(tx *postgres.Tx, now Moment) error {
		a, err := tx.Surveys.Get(ctx, id)
		if err != nil {
			return err
		}
		if !a.Rule().OpenAt(now.At) {
			return fault.Of(fault.Conflict, "This access is over already.")
		}
		if err := tx.Surveys.End(ctx, id, by.Person, now.At); err != nil {
			return fmt.Errorf("end a surveyor's access: %w", err)
		}
		return o.note(ctx, tx, now, by, assessment.GiveRoles, "survey access end", id)
	})
}

// AccessDesk is what the page about surveyors asks for.
type AccessDesk struct {
	At        time.Time
	Given     []postgres.SurveyAccess // the newest first
	Surveyors []PersonRef
	People    []PersonRef
	Clients   []ClientView
}

// Access lists who was let in, and who could be and for what.
func (o *Office) Access(ctx context.Context, by assessment.Actor) (AccessDesk, error) {
	var d AccessDesk
	err := o.as(ctx, by, assessment.GiveRoles, func(tx *postgres.Tx, now Moment) (err error) {
		d = AccessDesk{At: now.At}
		if d.Given, err = tx.Surveys.List(ctx); err != nil {
			return err
		}
		people, err := tx.People.List(ctx, postgres.PeopleFilter{On: now.Today})
		if err != nil {
			return err
		}
		for _, p := range people {
			ref := PersonRef{ID: p.ID, Name: p.Name, Kind: p.Kind, Relation: p.Relation}
			if slices.Contains(p.Roles, assessment.Surveyor) {
				d.Surveyors = append(d.Surveyors, ref)
			} else {
				d.People = append(d.People, ref)
			}
		}
		clients, err := tx.Clients.List(ctx, postgres.ClientFilter{On: now.Today})
		for _, c := range clients {
			d.Clients = append(d.Clients, shortClient(c))
		}
		return err
	})
	return d, err
}
