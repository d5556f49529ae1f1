package office

import (
	"context"
	"fmt"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// TeamForm says that somebody looks after a child from a day through a day.
type TeamForm struct {
	Person  assessment.PersonID
	From    string // YYYY-MM-DD
	Through string // YYYY-MM-DD; empty: until further notice
}

// TeamView is somebody who looks after a child for some days, past and planned
// ones too.
type TeamView struct {
	ID       assessment.RecordID // of this stretch of days
	Person   assessment.PersonID
	Name     string
	Kind     assessment.CaregiverKind
	Relation string
	From     civil.Date
	Through  civil.Date // zero: until further notice
	Here     bool       // today
}

// hereOn reports whether on a day somebody is on the team and still with the
// agency, and the child still looked after by it.
func hereOn(m postgres.Member, d civil.Date) bool {
	t := assessment.OnTeam{Person: m.Person, Client: m.Client, From: m.FromOn, Through: m.ThroughOn}
	return t.CoversOn(d) && !gone(m.PersonLeft, d) && !gone(m.ClientLeft, d)
}

func team(ctx context.Context, tx *postgres.Tx, today civil.Date, client assessment.ClientID) ([]TeamView, error) {
	members, err := tx.Teams.List(ctx, postgres.TeamFilter{Client: client})
	if err != nil {
		return nil, fmt.Errorf("read a child's team: %w", err)
	}
	var views []TeamView
	for _, m := range members {
		views = append(views, TeamView{ID: m.ID, Person: m.Person, Name: m.Name, Kind: m.Kind, Relation: m.Relation,
			From: m.FromOn, Through: m.ThroughOn, Here: hereOn(m, today)})
	}
	return views, nil
}

// AddToTeam puts somebody on a child's team.
func (o *Office) AddToTeam(ctx context.Context, by assessment.Actor, client assessment.ClientID, t TeamForm) (ClientView, error) {
	return o.changeClient(ctx, by, assessment.EditClients, client, "team", func(tx *postgres.Tx, now Moment, _ *postgres.Client) error {
		m, err := t.read(client)
		if err != nil {
			return err
		}
		members, err := tx.Teams.List(ctx, postgres.TeamFilter{Client: client, Person: t.Person})
		if err != nil {
			return err
		}
		for _, known := range members {
			if overlap(known, m) {
				return fault.Of(fault.Conflict, "%s is on this child's team on some of these days already.", known.Name)
			}
		}
		if m.ID, err = newID[assessment.RecordID](o, now.At); err != nil {
			return err
		}
		return tx.Teams.Add(ctx, m, by.Person, now.At)
	})
}

func (t TeamForm) read(client assessment.ClientID) (postgres.Member, error) {
	var f form
	m := postgres.Member{Client: client, Person: t.Person}
	if t.Person == "" {
		f.Add("person", "Choose who is to look after the child.")
	}
	m.FromOn, m.ThroughOn = f.span(t.From, t.Through)
	return m, f.Err()
}

func overlap(a, b postgres.Member) bool {
	return (a.ThroughOn.IsZero() || !b.FromOn.After(a.ThroughOn)) && (b.ThroughOn.IsZero() || !a.FromOn.After(b.ThroughOn))
}

// EndOnTeam sets the last day of somebody's stretch on a child's team.
func (o *Office) EndOnTeam(ctx context.Context, by assessment.Actor, client assessment.ClientID, stretch assessment.RecordID, through string) (ClientView, error) {
	return o.changeClient(ctx, by, assessment.EditClients, client, "team", func(tx *postgres.Tx, _ Moment, _ *postgres.Client) error {
		var f form
		last := f.day("through", through)
		if err := f.Err(); err != nil {
			return err
		}
		m, err := tx.Teams.Get(ctx, stretch)
		if err != nil {
			return err
		}
		if m.Client != client {
			return notFound()
		}
		if last.Before(m.FromOn) {
			return faultAt("through", "The last day is before the first.")
		}
		if !m.ThroughOn.IsZero() && last.After(m.ThroughOn) {
			return faultAt("through", "They were on the team through "+m.ThroughOn.String()+" only. Add them again for later days.")
		}
		return tx.Teams.End(ctx, stretch, last)
	})
}
