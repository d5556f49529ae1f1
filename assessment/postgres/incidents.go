package postgres

import (
	"context"
	"time"

	"wellshown/assessment"
)

// Incidents keeps what was seen to go wrong, and how it was closed.
type Incidents struct{ scope }

// Incident is something that was seen to go wrong in a skill. Client is empty for a
// general skill.
type Incident struct {
	ID          assessment.RecordID
	Person      assessment.PersonID
	Skill       assessment.SkillID
	Client      assessment.ClientID
	HappenedAt  time.Time
	Seen        string // in words
	Withdraws   assessment.IncidentScope
	At          time.Time // when it was signed
	SignedBy    assessment.PersonID
	PrintedName string

	TakenBackAt   *time.Time
	TakenBackBy   string // name
	TakenBackWhy  string
	ClosedAt      *time.Time
	ClosedBy      string // name
	Note          string // with which it was closed
	Demonstration assessment.DemonstrationID
}

// Open reports whether it waits for somebody to close it.
func (i Incident) Open() bool { return i.ClosedAt == nil && i.TakenBackAt == nil }

// Key is whose standing in what it was seen in.
func (i Incident) Key() assessment.CaseKey {
	return assessment.CaseKey{Person: i.Person, Skill: i.Skill, Client: i.Client}
}

// IncidentFilter narrows a list; empty fields are no condition.
type IncidentFilter struct {
	Person assessment.PersonID
	From   time.Time // that happened then or later
	Before time.Time // that happened before
}

const incidentQuery = `
	select i.id, i.person_id as person, i.skill_id as skill, coalesce(i.client_id::text, '') as client, i.happened_at, i.seen, i.withdraws, i.at, i.signed_by, i.printed_name,
		k.at as taken_back_at, coalesce(k.printed_name, '') as taken_back_by, coalesce(k.reason, '') as taken_back_why,
		c.at as closed_at, coalesce(c.printed_name, '') as closed_by, coalesce(c.note, '') as note, coalesce(c.demonstration_id::text, '') as demonstration
	from incident i
	left join correction k on k.agency_id = i.agency_id and k.of_id = i.id and k.of_kind = 'incident'
	left join incident_closing c on c.agency_id = i.agency_id and c.incident_id = i.id`

// List lists incidents, those that are open first, then the newest first.
func (n Incidents) List(ctx context.Context, f IncidentFilter) ([]Incident, error) {
	return list[Incident](ctx, n.scope, incidentQuery+`
		where ($1 = '' or i.person_id = nullif($1, '')::uuid)
			and ($2::timestamptz is null or i.happened_at >= $2) and ($3::timestamptz is null or i.happened_at < $3)
		order by (c.incident_id is null and k.id is null) desc, i.happened_at desc, i.id desc`, string(f.Person), maybe(f.From), maybe(f.Before))
}

func maybe(at time.Time) *time.Time {
	if at.IsZero() {
		return nil
	}
	return &at
}

// Open counts those that wait for somebody to close them.
func (n Incidents) Open(ctx context.Context) (int, error) {
	type row struct{ Open int }
	r, err := get[row](ctx, n.scope, `
		select count(*)::int as open from incident i
		where not exists (select from incident_closing c where c.agency_id = i.agency_id and c.incident_id = i.id)
			and not exists (select from correction k where k.agency_id = i.agency_id and k.of_id = i.id and k.of_kind = 'incident')`)
	return r.Open, err
}

// Get is the incident with this id.
func (n Incidents) Get(ctx context.Context, id assessment.RecordID) (Incident, error) {
	return get[Incident](ctx, n.scope, incidentQuery+` where i.id = $1`, id)
}

// Add records one.
func (n Incidents) Add(ctx context.Context, i Incident) error {
	return n.exec(ctx, `
		insert into incident (agency_id, id, person_id, skill_id, client_id, happened_at, seen, withdraws, at, signed_by, printed_name)
		values ($1, $2, $3, $4, nullif($5, '')::uuid, $6, $7, $8, $9, $10, $11)`,
		n.agency, i.ID, i.Person, i.Skill, string(i.Client), i.HappenedAt, i.Seen, i.Withdraws, i.At, i.SignedBy, i.PrintedName)
}

// Close closes one by the record that evaluated it again.
func (n Incidents) Close(ctx context.Context, id assessment.RecordID, by assessment.DemonstrationID, s Signed) error {
	return n.exec(ctx, `
		insert into incident_closing (agency_id, incident_id, demonstration_id, note, at, signed_by, printed_name)
		values ($1, $2, $3, $4, $5, $6, $7)`, n.agency, id, by, s.Reason, s.At, s.SignedBy, s.PrintedName)
}

// IncidentWithdrawal is one of the withdrawals that an incident made.
type IncidentWithdrawal struct {
	ID        assessment.RecordID
	Skill     assessment.SkillID
	Client    assessment.ClientID
	At        time.Time // from when it acts
	TakenBack bool
}

// Withdrawals lists those that an incident made, in order of skill and instant.
func (n Incidents) Withdrawals(ctx context.Context, id assessment.RecordID) ([]IncidentWithdrawal, error) {
	return list[IncidentWithdrawal](ctx, n.scope, `
		select w.id, w.skill_id as skill, coalesce(w.client_id::text, '') as client, w.at,
			exists (select from correction k where k.agency_id = w.agency_id and k.of_id = w.id and k.of_kind = 'withdrawal') as taken_back
		from withdrawal w where w.incident_id = $1 order by w.skill_id, w.client_id nulls first, w.at, w.id`, id)
}
