package postgres

import (
	"context"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
)

// Happening is one thing other than a demonstration that was written down about a
// person: a withdrawal, a reinstatement, a waiver, teaching or practice.
type Happening struct {
	ID         assessment.RecordID
	Kind       assessment.EntryKind
	Skill      assessment.SkillID
	Client     assessment.ClientID // empty: every client, or a general skill
	At         time.Time           // from when it acts; or when it was made or written down
	Signed     time.Time           // when it was signed or written down
	Incident   string              // withdrawal: the incident that made it; empty: none
	FromOn     civil.Date          // waiver: first day; teaching, practice: the day
	ThroughOn  civil.Date          // waiver: last day
	Until      assessment.Until    // withdrawal
	Related    bool                // withdrawal: related skills were asked for with it
	Of         string              // reinstatement: the withdrawal
	Reason     string
	By         string // name
	TakenBack  *time.Time
	Correction string // the reason
}

// Happenings lists what was written down about a person, newest first.
func (e Exceptions) Happenings(ctx context.Context, person assessment.PersonID) ([]Happening, error) {
	return list[Happening](ctx, e.scope, `
		select x.id, x.kind, x.skill, x.client, x.at, x.signed, x.incident, x.from_on, x.through_on, x.until, x.related, x.of, x.reason, x.by,
			k.at as taken_back, coalesce(k.reason, '') as correction
		from (
			select agency_id, id, 'withdrawal' as kind, skill_id as skill, coalesce(client_id::text, '') as client, at,
				null::date as from_on, null::date as through_on, until, related, '' as of, reason, printed_name as by, coalesce(recorded_at, at), coalesce(incident_id::text, '')
			from withdrawal where person_id = $1
			union all
			select i.agency_id, i.id, 'reinstatement', w.skill_id, coalesce(w.client_id::text, ''), i.at,
				null, null, '', false, w.id::text, i.reason, i.printed_name, i.at, ''
			from reinstatement i join withdrawal w on w.agency_id = i.agency_id and w.id = i.withdrawal_id
			where w.person_id = $1
			union all
			select agency_id, id, 'waiver', skill_id, coalesce(client_id::text, ''), at,
				from_on, through_on, '', false, '', reason, printed_name, at, ''
			from waiver where person_id = $1
			union all
			select x.agency_id, x.id, x.kind, x.skill_id, coalesce(x.client_id::text, ''), x.recorded_at,
				x.on_day, null, '', false, '', x.note, coalesce(p.name, ''), x.recorded_at, ''
			from exposure x left join person p on p.agency_id = x.agency_id and p.id = x.recorded_by
			where x.person_id = $1
		) x (agency, id, kind, skill, client, at, from_on, through_on, until, related, of, reason, by, signed, incident)
		left join correction k on k.agency_id = x.agency and k.of_id = x.id
		order by x.at desc, x.id desc`, person)
}
