package postgres

import (
	"context"
	"time"

	"wellshown/assessment"
)

// Surveys keeps who was let in as a surveyor, to what and until when.
type Surveys struct{ scope }

// SurveyAccess is one access with the names of who gave and ended it.
type SurveyAccess struct {
	ID       string
	PersonID assessment.PersonID
	Person   string
	Whole    bool
	People   []assessment.PersonID
	Clients  []assessment.ClientID
	Reason   string
	FromAt   time.Time // open from this instant
	ToAt     time.Time // up to, not including, this one
	GivenBy  assessment.PersonID
	Giver    string
	GivenAt  time.Time
	EndedAt  *time.Time
	Ender    string
}

// Rule is the access as the rules see it.
func (a SurveyAccess) Rule() assessment.SurveyAccess {
	return assessment.SurveyAccess{Whole: a.Whole, People: a.People, Clients: a.Clients, From: a.FromAt, To: a.ToAt, EndedAt: a.EndedAt}
}

const surveyAccesses = `
	select a.id::text, a.person_id, p.name as person, a.whole, a.people, a.clients, a.reason, a.from_at, a.to_at, a.given_by, g.name as giver, a.given_at,
		e.ended_at, coalesce(x.name, '') as ender
	from survey_access a
		join person p on p.agency_id = a.agency_id and p.id = a.person_id
		join person g on g.agency_id = a.agency_id and g.id = a.given_by
		left join survey_access_end e on e.agency_id = a.agency_id and e.access_id = a.id
		left join person x on x.agency_id = e.agency_id and x.id = e.ended_by`

// Add keeps an access.
func (s Surveys) Add(ctx context.Context, n SurveyAccess) error {
	return s.exec(ctx, `
		insert into survey_access (agency_id, id, person_id, whole, people, clients, reason, from_at, to_at, given_by, given_at)
		values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11)`,
		s.agency, n.ID, n.PersonID, n.Whole, n.People, n.Clients, n.Reason, n.FromAt, n.ToAt, n.GivenBy, n.GivenAt)
}

// End ends an access early.
func (s Surveys) End(ctx context.Context, id string, by assessment.PersonID, at time.Time) error {
	return s.exec(ctx, `insert into survey_access_end (agency_id, access_id, ended_by, ended_at) values ($1, $2, $3, $4)`, s.agency, id, by, at)
}

// List lists all accesses, the newest first.
func (s Surveys) List(ctx context.Context) ([]SurveyAccess, error) {
	return list[SurveyAccess](ctx, s.scope, surveyAccesses+` order by a.given_at desc, a.id`)
}

// Get is one access.
func (s Surveys) Get(ctx context.Context, id string) (SurveyAccess, error) {
	return get[SurveyAccess](ctx, s.scope, surveyAccesses+` where a.id = $1`, id)
}

// Of lists all accesses of a person, the newest first.
func (s Surveys) Of(ctx context.Context, person assessment.PersonID) ([]SurveyAccess, error) {
	return list[SurveyAccess](ctx, s.scope, surveyAccesses+` where a.person_id = $1 order by a.given_at desc, a.id`, person)
}
