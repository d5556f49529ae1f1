package postgres

import (
	"context"
	"encoding/json"
	"fmt"
	"time"

	"wellshown/assessment"
)

// Sheets keeps demonstrations that are being marked. They are working paper: a
// sheet is gone once it has become a record or was discarded.
type Sheets struct{ scope }

// Sheet is one demonstration being marked.
type Sheet struct {
	ID          assessment.DemonstrationID
	LearnerID   assessment.PersonID
	Learner     string
	ObserverID  assessment.PersonID
	Observer    string
	SkillID     assessment.SkillID
	RevisionID  assessment.RevisionID
	Revision    int
	Title       string
	ClientID    assessment.ClientID // empty: none
	Client      string              // code and first name
	Place       string
	RealClient  bool
	Formal      bool
	Stopped     bool
	StopReason  string
	PerformedAt time.Time
	OpenedAt    time.Time
	Marked      int  // steps with a mark or not applicable
	FromPaper   bool // marked on paper before and typed in
	Undone      int  // what stood against the learner and was taken back
	Drill       bool // by a scenario, with a clock
}

const sheetQuery = `
	select d.id, d.learner_id, l.name as learner, d.observer_id, o.name as observer, d.skill_id, d.revision_id,
		r.number as revision, r.title, coalesce(d.client_id::text, '') as client_id,
		coalesce(c.first_name || ', ' || c.code, '') as client, d.place, d.real_client, d.formal,
		d.stopped, d.stop_reason, d.performed_at, d.opened_at, d.from_paper,
		(select count(*) from sheet_mark m
			where m.agency_id = d.agency_id and m.sheet_id = d.id and (m.mark <> '' or m.not_applicable))::int as marked,
		(select count(*) from sheet_undone u where u.agency_id = d.agency_id and u.sheet_id = d.id)::int as undone,
		exists (select from sheet_drill x where x.agency_id = d.agency_id and x.sheet_id = d.id) as drill
	from sheet d
	join person l on l.agency_id = d.agency_id and l.id = d.learner_id
	join person o on o.agency_id = d.agency_id and o.id = d.observer_id
	join revision r on r.agency_id = d.agency_id and r.id = d.revision_id
	left join client c on c.agency_id = d.agency_id and c.id = d.client_id`

// Get is the sheet with this id.
func (s Sheets) Get(ctx context.Context, id assessment.DemonstrationID) (Sheet, error) {
	return get[Sheet](ctx, s.scope, sheetQuery+` where d.id = $1`, id)
}

// Lock is Get, with everybody else kept from changing the sheet until the end of
// the transaction.
func (s Sheets) Lock(ctx context.Context, id assessment.DemonstrationID) (Sheet, error) {
	return get[Sheet](ctx, s.scope, sheetQuery+` where d.id = $1 for update of d`, id)
}

// List lists the open sheets of an observer, or of everybody for the empty id.
func (s Sheets) List(ctx context.Context, observer assessment.PersonID) ([]Sheet, error) {
	return list[Sheet](ctx, s.scope, sheetQuery+`
		where ($1 = '' or d.observer_id = nullif($1, '')::uuid)
		order by d.performed_at desc, d.id`, string(observer))
}

// Add opens a sheet.
func (s Sheets) Add(ctx context.Context, n Sheet) error {
	return s.exec(ctx, `
		insert into sheet (agency_id, id, learner_id, observer_id, skill_id, revision_id, client_id, place,
			real_client, formal, performed_at, opened_at, from_paper)
		values ($1, $2, $3, $4, $5, $6, nullif($7, '')::uuid, $8, $9, $10, $11, $12, $13)`,
		s.agency, n.ID, n.LearnerID, n.ObserverID, n.SkillID, n.RevisionID, n.ClientID, n.Place,
		n.RealClient, n.Formal, n.PerformedAt, n.OpenedAt, n.FromPaper)
}

// Stop notes that the performance was ended for safety, or that it goes on.
func (s Sheets) Stop(ctx context.Context, id assessment.DemonstrationID, stopped bool, reason string) error {
	return s.exec(ctx, `update sheet set stopped = $2, stop_reason = $3 where id = $1`, id, stopped, reason)
}

// Remove takes away a sheet with its marks.
func (s Sheets) Remove(ctx context.Context, id assessment.DemonstrationID) error {
	return s.exec(ctx, `delete from sheet where id = $1`, id)
}

// SheetMark is what stands at one step.
type SheetMark struct {
	Step          int
	Mark          assessment.Mark
	NotApplicable bool
	Reason        string
	Readings      map[string]Reading
	Note          string
	MarkedAt      time.Time
}

// Reading is a value as it was read: an exact number and its unit.
type Reading struct {
	Value string `json:"value"`
	Unit  string `json:"unit"`
}

// Marks lists what stands on a sheet, by step.
func (s Sheets) Marks(ctx context.Context, id assessment.DemonstrationID) ([]SheetMark, error) {
	return list[SheetMark](ctx, s.scope, `
		select step, mark, not_applicable, reason, readings, note, marked_at
		from sheet_mark where sheet_id = $1 order by step`, id)
}

// SaveMarks puts down what stands at some steps, each named once; the newest word
// counts.
func (s Sheets) SaveMarks(ctx context.Context, id assessment.DemonstrationID, marks ...SheetMark) error {
	var c markColumns
	for _, m := range marks {
		if err := c.add(m); err != nil {
			return err
		}
	}
	return s.exec(ctx, `
		insert into sheet_mark (agency_id, sheet_id, step, mark, not_applicable, reason, readings, note, marked_at)
		select $1, $2, * from unnest($3::int[], $4::text[], $5::bool[], $6::text[], $7::text[]::jsonb[], $8::text[], $9::timestamptz[])
		on conflict (agency_id, sheet_id, step) do update
		set mark = excluded.mark, not_applicable = excluded.not_applicable, reason = excluded.reason,
			readings = excluded.readings, note = excluded.note, marked_at = excluded.marked_at`,
		s.agency, id, c.steps, c.marks, c.out, c.reasons, c.readings, c.notes, c.at)
}

// markColumns are marks by column, so that all go in one statement.
type markColumns struct {
	steps                           []int
	marks, reasons, readings, notes []string
	out                             []bool
	at                              []time.Time
}

func (c *markColumns) add(m SheetMark) error {
	if m.Readings == nil {
		m.Readings = map[string]Reading{}
	}
	readings, err := json.Marshal(m.Readings)
	if err != nil {
		return fmt.Errorf("write down the readings of step %d: %w", m.Step, err)
	}
	c.steps, c.marks, c.out = append(c.steps, m.Step), append(c.marks, string(m.Mark)), append(c.out, m.NotApplicable)
	c.reasons, c.readings = append(c.reasons, m.Reason), append(c.readings, string(readings))
	c.notes, c.at = append(c.notes, m.Note), append(c.at, m.MarkedAt)
	return nil
}
