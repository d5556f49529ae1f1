package postgres

import (
	"context"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
)

// Plans keeps what a child needs before going home: criteria, evidence on them
// and the early shifts.
type Plans struct{ scope }

// Criterion is one line of a client's plan.
type Criterion struct {
	ID       assessment.CriterionID
	Client   assessment.ClientID
	Kind     assessment.CriterionKind
	Title    string
	Skills   []string
	People   int
	Hours    int
	Items    []string
	Position int

	Spanish      string // the title
	ItemsSpanish []string
	Says         assessment.Sayer
	Licence      string
	Source       string
	ByOn         civil.Date
	Responsible  string
}

// Rule is the criterion as the core knows it.
func (c Criterion) Rule() assessment.Criterion {
	return assessment.Criterion{ID: c.ID, Kind: c.Kind, Title: c.Title, Skills: c.Skills, Count: c.People, Hours: c.Hours, Items: c.Items,
		Spanish: c.Spanish, ItemsSpanish: c.ItemsSpanish, Says: c.Says, Licence: c.Licence, Source: c.Source, By: c.ByOn, Responsible: c.Responsible}
}

const criterionQuery = `
	select id, client_id as client, kind, title, skills, people, hours, items, position,
		coalesce(title_es, '') as spanish, coalesce(items_es, '{}') as items_spanish, coalesce(says, '') as says, coalesce(licence, '') as licence,
		coalesce(source, '') as source, by_on, coalesce(responsible, '') as responsible
	from criterion`

// Criteria lists the plans of some clients, each in order; removed lines are left out.
func (p Plans) Criteria(ctx context.Context, clients ...assessment.ClientID) ([]Criterion, error) {
	return list[Criterion](ctx, p.scope, criterionQuery+` where client_id = any($1::uuid[]) and removed_at is null order by position, id`, clients)
}

// Clients lists the clients that have a plan.
func (p Plans) Clients(ctx context.Context) ([]assessment.ClientID, error) {
	type row struct{ Client assessment.ClientID }
	rows, err := list[row](ctx, p.scope, `select distinct client_id as client from criterion where removed_at is null`)
	ids := make([]assessment.ClientID, len(rows))
	for i, r := range rows {
		ids[i] = r.Client
	}
	return ids, err
}

// Criterion is the line with this id, where it has not been removed.
func (p Plans) Criterion(ctx context.Context, id assessment.CriterionID) (Criterion, error) {
	return get[Criterion](ctx, p.scope, criterionQuery+` where id = $1 and removed_at is null`, id)
}

// Add adds a line.
func (p Plans) Add(ctx context.Context, n Criterion, by assessment.PersonID, at time.Time) error {
	return p.exec(ctx, `
		insert into criterion (agency_id, id, client_id, kind, title, skills, people, hours, items, position, added_at, added_by,
			title_es, items_es, says, licence, source, by_on, responsible)
		values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, nullif($13, ''), nullif($14, '{}'::text[]), nullif($15, ''), nullif($16, ''), nullif($17, ''), $18, nullif($19, ''))`,
		p.agency, n.ID, n.Client, n.Kind, n.Title, filled(n.Skills), n.People, n.Hours, filled(n.Items), n.Position, at, by,
		n.Spanish, filled(n.ItemsSpanish), n.Says, n.Licence, n.Source, n.ByOn, n.Responsible)
}

// filled is an empty list for none, since the columns are never null.
func filled(words []string) []string {
	if words == nil {
		return []string{}
	}
	return words
}

// Save changes a line; its kind and client stay.
func (p Plans) Save(ctx context.Context, n Criterion) error {
	return p.change(ctx, `
		update criterion set title = $2, skills = $3, people = $4, hours = $5, items = $6,
			title_es = nullif($7, ''), items_es = nullif($8, '{}'::text[]), says = nullif($9, ''), licence = nullif($10, ''), by_on = $11, responsible = nullif($12, '')
		where id = $1 and removed_at is null`, n.ID, n.Title, filled(n.Skills), n.People, n.Hours, filled(n.Items),
		n.Spanish, filled(n.ItemsSpanish), n.Says, n.Licence, n.ByOn, n.Responsible)
}

// Remove takes a line off the plan; its evidence stays.
func (p Plans) Remove(ctx context.Context, id assessment.CriterionID, at time.Time) error {
	return p.change(ctx, `update criterion set removed_at = $2 where id = $1 and removed_at is null`, id, at)
}

// Evidence is one dated statement as it is kept.
type Evidence struct {
	ID          assessment.RecordID
	Client      assessment.ClientID // as read; its criterion says it when it is added
	Criterion   assessment.CriterionID
	Word        assessment.EvidenceWord
	Item        string
	At          time.Time
	Note        string
	RecordedAt  time.Time
	SignedBy    assessment.PersonID
	PrintedName string
}

// Said is the evidence as the core knows it.
func (e Evidence) Said() assessment.Evidence {
	return assessment.Evidence{ID: e.ID, Criterion: e.Criterion, Word: e.Word, Item: e.Item, At: e.At, By: e.PrintedName, Note: e.Note}
}

// Evidence lists all that was said about the plans of some clients, oldest first; of
// two of one instant the one written down later comes last.
func (p Plans) Evidence(ctx context.Context, clients ...assessment.ClientID) ([]Evidence, error) {
	return list[Evidence](ctx, p.scope, `
		select e.id, c.client_id as client, e.criterion_id as criterion, e.word, e.item, e.at, e.note, e.recorded_at, e.signed_by, e.printed_name
		from evidence e
		join criterion c on c.agency_id = e.agency_id and c.id = e.criterion_id
		where c.client_id = any($1::uuid[]) and c.removed_at is null
		order by e.at, e.recorded_at, e.id`, clients)
}

// AddEvidence adds a statement.
func (p Plans) AddEvidence(ctx context.Context, n Evidence) error {
	return p.exec(ctx, `
		insert into evidence (agency_id, id, criterion_id, word, item, at, note, recorded_at, signed_by, printed_name)
		values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10)`,
		p.agency, n.ID, n.Criterion, n.Word, n.Item, n.At, n.Note, n.RecordedAt, n.SignedBy, n.PrintedName)
}
