package postgres

import (
	"context"
	"time"

	"github.com/jackc/pgx/v5"

	"wellshown/assessment"
	"wellshown/assessment/civil"
)

// Reminders keeps what an agency reminds of, and what was told to whom.
type Reminders struct{ scope }

// ReminderRule is what somebody set.
type ReminderRule struct {
	ID        string
	Off       bool
	AtClock   int
	Opens     bool
	Days      []int
	Lapsed    bool
	Unplanned int
	Rostered  bool
	SetBy     assessment.PersonID
	SetAt     time.Time
}

// Rules are what the core asks of it.
func (r ReminderRule) Rules() assessment.ReminderRules {
	return assessment.ReminderRules{Off: r.Off, At: civil.Clock(r.AtClock), Opens: r.Opens, Days: r.Days, Lapsed: r.Lapsed, Unplanned: r.Unplanned, Rostered: r.Rostered}
}

// Rule is the newest; not found where nobody has set any.
func (r Reminders) Rule(ctx context.Context) (ReminderRule, error) {
	return get[ReminderRule](ctx, r.scope, `
		select id, off, at_clock::int, opens, days::int[], lapsed, unplanned::int, rostered, set_by, set_at
		from reminder_rule order by set_at desc, id desc limit 1`)
}

// SetRule keeps a new one.
func (r Reminders) SetRule(ctx context.Context, n ReminderRule) error {
	return r.exec(ctx, `
		insert into reminder_rule (agency_id, id, off, at_clock, opens, days, lapsed, unplanned, rostered, set_by, set_at)
		values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11)`,
		r.agency, n.ID, n.Off, n.AtClock, n.Opens, n.Days, n.Lapsed, n.Unplanned, n.Rostered, n.SetBy, n.SetAt)
}

// Lock makes those who work out whom to remind take turns.
func (r Reminders) Lock(ctx context.Context) error { return r.turn(ctx, "reminders") }

// Worked reports whether it was worked out whom to remind on a day.
func (r Reminders) Worked(ctx context.Context, on civil.Date) (bool, error) {
	v, err := get[struct{ Worked bool }](ctx, r.scope, `select exists (select from reminder_day where falls_on = $1) as worked`, on)
	return v.Worked, err
}

// Work notes that it was.
func (r Reminders) Work(ctx context.Context, on civil.Date, at time.Time) error {
	return r.exec(ctx, `insert into reminder_day (agency_id, falls_on, made_at) values ($1, $2, $3)`, r.agency, on, at)
}

// Told are all notices of holdings that end on a day or later.
func (r Reminders) Told(ctx context.Context, from civil.Date) (map[assessment.Notice]bool, error) {
	rows, err := r.tx.Query(ctx, `select person_id, about_id, skill_id, client_key, stage, through_on from notice where through_on >= $1`, from)
	if err != nil {
		return nil, err
	}
	told := map[assessment.Notice]bool{}
	var n assessment.Notice
	_, err = pgx.ForEachRow(rows, []any{&n.To, &n.About.Person, &n.About.Skill, &n.About.Client, &n.Stage, &n.Through}, func() error {
		if n.About.Client == noClient {
			n.About.Client = ""
		}
		told[n] = true
		return nil
	})
	return told, err
}

// Tell notes what a letter tells.
func (r Reminders) Tell(ctx context.Context, letter assessment.DigestID, notices []assessment.Notice) error {
	batch := &pgx.Batch{}
	for _, n := range notices {
		client := n.About.Client
		if client == "" {
			client = noClient
		}
		batch.Queue(`insert into notice (agency_id, person_id, about_id, skill_id, client_key, stage, through_on, digest_id) values ($1, $2, $3, $4, $5, $6, $7, $8)`,
			r.agency, n.To, n.About.Person, n.About.Skill, client, n.Stage, n.Through, letter)
	}
	return r.tx.SendBatch(ctx, batch).Close()
}
