package office

import (
	"context"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/postgres"
)

// IncidentQuery asks for incidents. Zero fields are no condition.
type IncidentQuery struct {
	Person  assessment.PersonID
	From    civil.Date // the first day on which it happened
	Through civil.Date // the last
}

// IncidentView is an incident by the names of what it is about.
type IncidentView struct {
	ID        assessment.RecordID
	Person    PersonRef
	Skill     SkillRef
	Client    ClientRef // empty: a skill that is held for every child
	Happened  time.Time // on the agency's clocks, as all instants here
	Seen      string
	Withdraws assessment.IncidentScope
	Recorded  time.Time
	By        string // name as signed
	Open      bool   // waits for somebody to close it
	Closed    time.Time
	ClosedBy  string
	Note      string
	Record    assessment.DemonstrationID // that evaluated it again
	TakenBack time.Time
	BackBy    string
	BackWhy   string
}

func (v IncidentView) of() assessment.ClientID { return v.Client.ID }

// Incidents lists what was recorded, as far as the actor may read it: open ones first, then the
// newest.
func (o *Office) Incidents(ctx context.Context, by assessment.Actor, q IncidentQuery) ([]IncidentView, error) {
	var views []IncidentView
	err := o.as(ctx, by, assessment.ReadRecords, func(tx *postgres.Tx, now Moment) (err error) {
		views, err = o.incidents(ctx, tx, now, by, q)
		return err
	})
	return views, err
}

// incidents is Incidents within a transaction.
func (o *Office) incidents(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, q IncidentQuery) ([]IncidentView, error) {
	f := postgres.IncidentFilter{Person: q.Person}
	if !q.From.IsZero() {
		f.From = q.From.In(now.Zone)
	}
	if !q.Through.IsZero() {
		if q.Through.Before(q.From) {
			return nil, faultAt("through", "The last day is before the first.")
		}
		f.Before = q.Through.AddDays(1).In(now.Zone)
	}
	kept, err := tx.Incidents.List(ctx, f)
	if err != nil || len(kept) == 0 {
		return nil, err
	}
	n, err := o.names(ctx, tx)
	if err != nil {
		return nil, err
	}
	skills, err := tx.Checklists.Skills(ctx)
	if err != nil {
		return nil, err
	}
	var views []IncidentView
	for _, i := range kept {
		if by.MayForCase(assessment.ReadRecords, i.Person, i.Client) == nil {
			views = append(views, viewIncident(i, n, skillRefs(skills), now.Zone))
		}
	}
	return views, nil
}

// skillRefs finds skills by id.
func skillRefs(skills []postgres.Skill) map[assessment.SkillID]SkillRef {
	refs := map[assessment.SkillID]SkillRef{}
	for _, s := range skills {
		refs[s.ID] = SkillRef{s.ID, s.Code, s.Title}
	}
	return refs
}

func viewIncident(i postgres.Incident, n names, skills map[assessment.SkillID]SkillRef, zone *time.Location) IncidentView {
	v := IncidentView{ID: i.ID, Person: n.people[i.Person], Skill: skills[i.Skill], Client: n.clients[i.Client], Happened: i.HappenedAt.In(zone), Seen: i.Seen, Withdraws: i.Withdraws,
		Recorded: i.At.In(zone), By: i.PrintedName, Open: i.Open(), ClosedBy: i.ClosedBy, Note: i.Note, Record: i.Demonstration, BackBy: i.TakenBackBy, BackWhy: i.TakenBackWhy}
	if i.ClosedAt != nil {
		v.Closed = i.ClosedAt.In(zone)
	}
	if i.TakenBackAt != nil {
		v.TakenBack = i.TakenBackAt.In(zone)
	}
	return v
}

// BeforeIncident is what an incident can be recorded of, and what it would withdraw.
type BeforeIncident struct {
	Now     time.Time // on the agency's clocks
	People  []PersonRef
	Skills  []SkillChoice
	Clients []ClientRef
	Rules   Practice
}

// SkillChoice is a skill, and whether it is held per child.
type SkillChoice struct {
	SkillRef
	PerChild bool
}

// BeforeIncident answers for whoever records one. Who and what is no longer here can be chosen
// too: it may have happened while it was.
func (o *Office) BeforeIncident(ctx context.Context, by assessment.Actor) (BeforeIncident, error) {
	var v BeforeIncident
	err := o.as(ctx, by, assessment.RecordIncident, func(tx *postgres.Tx, now Moment) (err error) {
		v.Now = now.At.In(now.Zone)
		if v.Rules, err = practice(ctx, tx); err != nil {
			return err
		}
		people, err := tx.People.List(ctx, postgres.PeopleFilter{IncludeLeft: true})
		if err != nil {
			return err
		}
		for _, p := range people {
			if p.Kind != "" {
				v.People = append(v.People, PersonRef{p.ID, p.Name, p.Kind, p.Relation})
			}
		}
		skills, err := tx.Checklists.Skills(ctx)
		if err != nil {
			return err
		}
		for _, s := range skills {
			v.Skills = append(v.Skills, SkillChoice{SkillRef{s.ID, s.Code, s.Title}, s.Scope == assessment.ClientSpecific})
		}
		clients, err := tx.Clients.List(ctx, postgres.ClientFilter{IncludeLeft: true})
		if err != nil {
			return err
		}
		for _, c := range clients {
			v.Clients = append(v.Clients, ClientRef{c.ID, c.Code, c.FirstName})
		}
		return nil
	})
	return v, err
}
