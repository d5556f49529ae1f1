package office

import (
	"context"
	"slices"
	"strings"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/postgres"
)

// AccessView is one access with how it stands.
type AccessView struct {
	postgres.SurveyAccess
	Named []NamedView // the people and children it is for, by name; none: the whole agency
	Open  bool        // now
	Over  bool        // ended, or its last day is past
	Wider bool        // they may look at the whole agency too, by another access
}

// NamedView is somebody that an access names: a person or a child.
type NamedView struct {
	Person PersonRef
	Client ClientRef
}

// AccessDesk is what the page about letting surveyors in asks for.
type AccessDesk struct {
	Zone      *time.Location
	Today     string       // YYYY-MM-DD
	Given     []AccessView // the newest first
	Surveyors []PersonRef
	People    []PersonView // also those who left
	Clients   []ClientView // also those who left
}

// Access lists who was let in, and who could be and for what.
func (o *Office) Access(ctx context.Context, by assessment.Actor) (AccessDesk, error) {
	var d AccessDesk
	err := o.as(ctx, by, assessment.GiveRoles, func(tx *postgres.Tx, now Moment) error {
		d = AccessDesk{Zone: now.Zone, Today: now.Today.String()}
		given, err := tx.Surveys.List(ctx)
		if err != nil {
			return err
		}
		if d.Given, err = o.viewAccesses(ctx, tx, now, given); err != nil {
			return err
		}
		people, err := tx.People.List(ctx, postgres.PeopleFilter{On: now.Today, IncludeLeft: true})
		if err != nil {
			return err
		}
		for _, p := range people {
			switch surveys := slices.Contains(p.Roles, assessment.Surveyor); {
			case !surveys:
				d.People = append(d.People, viewPerson(p))
			case !gone(p.LeftOn, now.Today) && p.ID != by.Person:
				d.Surveyors = append(d.Surveyors, PersonRef{ID: p.ID, Name: p.Name, Kind: p.Kind, Relation: p.Relation})
			}
		}
		clients, err := tx.Clients.List(ctx, postgres.ClientFilter{On: now.Today, IncludeLeft: true})
		for _, c := range clients {
			d.Clients = append(d.Clients, shortClient(c))
		}
		return err
	})
	return d, err
}

// SurveyDesk is what a surveyor sees of their own access.
type SurveyDesk struct {
	Zone   *time.Location
	Given  []AccessView // theirs, the newest first
	Survey *assessment.Survey
	Wait   string // why nothing is open, in words; empty: something is
}

// MySurvey tells somebody what they were let in for.
func (o *Office) MySurvey(ctx context.Context, by assessment.Actor) (SurveyDesk, error) {
	var d SurveyDesk
	err := o.as(ctx, by, assessment.OwnAccount, func(tx *postgres.Tx, now Moment) error {
		p, err := tx.People.Get(ctx, by.Person)
		if err != nil {
			return err
		}
		d = SurveyDesk{Zone: now.Zone}
		if d.Survey, err = surveyOf(ctx, tx, now, p); err != nil || d.Survey == nil {
			return err
		}
		if !d.Survey.Open() {
			d.Wait = d.Survey.Refuse().Error()
		}
		given, err := tx.Surveys.Of(ctx, by.Person)
		if err != nil {
			return err
		}
		d.Given, err = o.viewAccesses(ctx, tx, now, given)
		return err
	})
	return d, err
}

func (o *Office) viewAccesses(ctx context.Context, tx *postgres.Tx, now Moment, given []postgres.SurveyAccess) ([]AccessView, error) {
	n, err := o.names(ctx, tx)
	if err != nil {
		return nil, err
	}
	var views []AccessView
	for _, a := range given {
		v := AccessView{SurveyAccess: a, Open: a.Rule().OpenAt(now.At), Over: overBy(a, now)}
		for _, id := range a.People {
			v.Named = append(v.Named, NamedView{Person: n.people[id]})
		}
		for _, id := range a.Clients {
			v.Named = append(v.Named, NamedView{Client: n.clients[id]})
		}
		slices.SortFunc(v.Named, func(a, b NamedView) int { return strings.Compare(strings.ToLower(a.name()), strings.ToLower(b.name())) })
		views = append(views, v)
	}
	return views, nil
}

func (v NamedView) name() string { return v.Person.Name + v.Client.FirstName }
