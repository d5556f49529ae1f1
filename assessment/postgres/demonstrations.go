package postgres

import (
	"context"
	"fmt"
	"strings"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
)

// Demonstrations keeps recorded return demonstrations. Nothing of them changes.
type Demonstrations struct{ scope }

// Demonstration is one record, with what has been said of it since.
type Demonstration struct {
	ID          assessment.DemonstrationID
	LearnerID   assessment.PersonID
	Learner     string
	ObserverID  assessment.PersonID
	Observer    string
	SkillID     assessment.SkillID
	Code        string
	Scope       assessment.Scope
	Title       string
	RevisionID  assessment.RevisionID
	Revision    int
	ClientID    assessment.ClientID
	Client      string
	Place       string
	RealClient  bool
	Formal      bool
	Equipment   string
	PerformedAt time.Time
	RecordedAt  time.Time
	Outcome     assessment.Outcome
	Score       *string
	Body        string
	BodySHA256  []byte
	CorrectedAt *time.Time
	Correction  string // the reason
	CorrectedBy string
}

const demonstrationHead = `
	select d.id, d.learner_id, l.name as learner, d.observer_id, o.name as observer, d.skill_id, s.code, s.scope, r.title,
		d.revision_id, d.revision, coalesce(d.client_id::text, '') as client_id,
		coalesce(c.first_name || ', ' || c.code, '') as client, d.place, d.real_client, d.formal, d.equipment,
		d.performed_at, d.recorded_at, d.outcome, d.score, d.body_sha256,
		k.at as corrected_at, coalesce(k.reason, '') as correction, coalesce(k.printed_name, '') as corrected_by`

const demonstrationColumns = demonstrationHead + `, d.body`

const demonstrationFrom = `
	from demonstration d
	join person l on l.agency_id = d.agency_id and l.id = d.learner_id
	join person o on o.agency_id = d.agency_id and o.id = d.observer_id
	join skill s on s.agency_id = d.agency_id and s.id = d.skill_id
	join revision r on r.agency_id = d.agency_id and r.id = d.revision_id
	left join client c on c.agency_id = d.agency_id and c.id = d.client_id
	left join correction k on k.agency_id = d.agency_id and k.of_id = d.id`

const demonstrationQuery = demonstrationColumns + demonstrationFrom

// Get is the record with this id.
func (d Demonstrations) Get(ctx context.Context, id assessment.DemonstrationID) (Demonstration, error) {
	return get[Demonstration](ctx, d.scope, demonstrationQuery+` where d.id = $1`, id)
}

// Corrected reports whether a record has been taken back.
func (d Demonstrations) Corrected(ctx context.Context, id assessment.DemonstrationID) (bool, error) {
	k, err := get[struct{ Corrected bool }](ctx, d.scope, `select exists (select from correction where of_id = $1) as corrected`, id)
	return k.Corrected, err
}

// DemonstrationFilter narrows a list; empty fields are no condition.
type DemonstrationFilter struct {
	Learner  assessment.PersonID
	Seen     *assessment.Survey // only what may be seen by it; nil: no condition
	Observer assessment.PersonID
	Skill    assessment.SkillID
	Awaits   assessment.PersonID // records that this person still has to sign
	Unsigned bool                // records that lack any signature
	From     civil.Date          // performed on or after, UTC
	After    string              // of a page: where the one before said that this begins
	Limit    int                 // of a page; 0: 200
}

// waits reports whether the list is of records that lack a signature.
func (f DemonstrationFilter) waits() bool { return f.Awaits != "" || f.Unsigned }

// idle is 0 for records that would act against somebody and do not yet, because
// their observer has not signed: they must not be overlooked. It is 1 for others.
const idle = `(d.outcome = 'competent' or exists (
	select from signature g where g.agency_id = d.agency_id and g.demonstration_id = d.id and g.part = 'observer'))::int`

// order is how the list runs, and the condition that keeps what comes after a
// place: records that wait with what is idle first and then the oldest first,
// others with the newest performance first.
func (f DemonstrationFilter) order() (rank, order, after string) {
	if f.waits() {
		return idle, " order by rank, d.performed_at, d.id", "(" + idle + ", d.performed_at, d.id) > ($%d::int, $%d::timestamptz, $%d::uuid)"
	}
	return "0", " order by d.performed_at desc, d.id desc", "(0, d.performed_at, d.id) < ($%d::int, $%d::timestamptz, $%d::uuid)"
}

// Page lists one page of records.
func (d Demonstrations) Page(ctx context.Context, f DemonstrationFilter) (Page[Demonstration], error) {
	if f.Limit <= 0 {
		f.Limit = usualPage
	}
	found, err := d.ranked(ctx, f, f.Limit+1)
	if err != nil {
		return Page[Demonstration]{}, err
	}
	page := paged(found, f.Limit, func(r ranked) string { return place{r.Rank, r.PerformedAt, r.ID}.String() })
	return Page[Demonstration]{unranked(page.Items), page.Next}, nil
}

// All lists every record, in the order of the pages.
func (d Demonstrations) All(ctx context.Context, f DemonstrationFilter) ([]Demonstration, error) {
	f.After = ""
	found, err := d.ranked(ctx, f, 0)
	return unranked(found), err
}

// Count is how many records there are, on whichever page.
func (d Demonstrations) Count(ctx context.Context, f DemonstrationFilter) (int, error) {
	where, args := f.conditions()
	n, err := get[struct{ N int }](ctx, d.scope, `select count(*)::int as n from demonstration d
		left join correction k on k.agency_id = d.agency_id and k.of_id = d.id`+where, args...)
	return n.N, err
}

type ranked struct {
	Demonstration
	Rank int
}

func unranked(found []ranked) []Demonstration {
	var all []Demonstration
	for _, r := range found {
		all = append(all, r.Demonstration)
	}
	return all
}

// ranked lists up to so many records, 0 for all of them.
func (d Demonstrations) ranked(ctx context.Context, f DemonstrationFilter, limit int) ([]ranked, error) {
	where, args := f.conditions()
	rank, order, after := f.order()
	if f.After != "" {
		at, err := readPlace(f.After)
		if err != nil {
			return nil, err
		}
		n := len(args)
		where, args = where+" and "+fmt.Sprintf(after, n+1, n+2, n+3), append(args, at.rank, at.at, at.id)
	}
	// Which ones comes first: what they say is long, and is read of those alone.
	which := `select d.id, d.performed_at, ` + rank + ` as rank from demonstration d
		left join correction k on k.agency_id = d.agency_id and k.of_id = d.id` + where + order
	if limit > 0 {
		args = append(args, limit)
		which += fmt.Sprintf(` limit $%d`, len(args))
	}
	sql := `with which as materialized (` + which + `)` + demonstrationColumns + `, w.rank` + demonstrationFrom + ` join which w on w.id = d.id` + order
	return list[ranked](ctx, d.scope, sql, args...)
}

// waits finds records by the signatures that they lack.
const waits = `d.id in (select w.demonstration_id from awaited_signature w where true%s)`

// conditions are only those that are wanted, so that the planner can go by an index.
func (f DemonstrationFilter) conditions() (string, []any) {
	where, args := " where true", []any(nil)
	and := func(sql string, arg any) {
		args = append(args, arg)
		where += " and " + strings.ReplaceAll(sql, "?", fmt.Sprintf("$%d", len(args)))
	}
	if f.Seen != nil && !f.Seen.Whole {
		args = append(args, f.Seen.People, f.Seen.Clients, f.Seen.Team)
		where += ` and (d.learner_id = any($1::uuid[]) or d.client_id = any($2::uuid[]) or d.client_id is null and d.learner_id = any($3::uuid[]))`
	}
	if f.Learner != "" {
		and(`d.learner_id = ?::uuid`, f.Learner)
	}
	if f.Observer != "" {
		and(`d.observer_id = ?::uuid`, f.Observer)
	}
	if f.Skill != "" {
		and(`d.skill_id = ?::uuid`, f.Skill)
	}
	if f.waits() {
		where += ` and k.of_id is null and ` + fmt.Sprintf(waits, "")
	}
	if f.Awaits != "" {
		and(`((d.learner_id = ?::uuid and `+fmt.Sprintf(waits, ` and w.part = 'learner'`)+`)
			or (d.observer_id = ?::uuid and `+fmt.Sprintf(waits, ` and w.part = 'observer'`)+`))`, f.Awaits)
	}
	if !f.From.IsZero() {
		and(`d.performed_at >= ?::date`, f.From)
	}
	return where, args
}

// DemonstrationMark is a record by what it is and whose, without what it says.
type DemonstrationMark struct {
	ID          assessment.DemonstrationID
	LearnerID   assessment.PersonID
	SkillID     assessment.SkillID
	ClientID    assessment.ClientID // empty for a general skill
	Title       string
	PerformedAt time.Time
	RecordedAt  time.Time
}

// MarksOf lists the records of some people, the newest performance first.
func (d Demonstrations) MarksOf(ctx context.Context, people []assessment.PersonID) ([]DemonstrationMark, error) {
	return list[DemonstrationMark](ctx, d.scope, `
		select d.id, d.learner_id, d.skill_id, case when s.scope = 'general' then '' else coalesce(d.client_id::text, '') end as client_id,
			r.title, d.performed_at, d.recorded_at
		from demonstration d
		join skill s on s.agency_id = d.agency_id and s.id = d.skill_id
		join revision r on r.agency_id = d.agency_id and r.id = d.revision_id
		where d.learner_id = any($1::uuid[])
		order by d.performed_at desc, d.id desc`, people)
}

// Add records a demonstration.
func (d Demonstrations) Add(ctx context.Context, n Demonstration) error {
	return d.exec(ctx, `
		insert into demonstration (agency_id, id, learner_id, observer_id, skill_id, revision_id, revision, client_id, place,
			real_client, formal, equipment, performed_at, recorded_at, outcome, score, body, body_sha256)
		values ($1, $2, $3, $4, $5, $6, $7, nullif($8, '')::uuid, $9, $10, $11, $12, $13, $14, $15, $16, $17,
			sha256(convert_to($17, 'UTF8')))`,
		d.agency, n.ID, n.LearnerID, n.ObserverID, n.SkillID, n.RevisionID, n.Revision, n.ClientID, n.Place,
		n.RealClient, n.Formal, n.Equipment, n.PerformedAt, n.RecordedAt, n.Outcome, n.Score, n.Body)
}

// LastObservedBy lists everybody whose latest demonstration before an instant somebody
// observed.
func (d Demonstrations) LastObservedBy(ctx context.Context, observer assessment.PersonID, before time.Time) ([]assessment.PersonID, error) {
	rows, err := list[struct{ ID assessment.PersonID }](ctx, d.scope, `
		select p.id
		from person p, lateral (select d.observer_id from demonstration d
			where d.agency_id = p.agency_id and d.learner_id = p.id and d.performed_at < $2
			order by d.performed_at desc, d.id desc limit 1) last
		where last.observer_id = $1`, observer, before)
	people := make([]assessment.PersonID, len(rows))
	for i, r := range rows {
		people[i] = r.ID
	}
	return people, err
}
