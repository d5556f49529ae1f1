package postgres

import (
	"context"
	"fmt"
	"time"

	"github.com/jackc/pgx/v5"

	"wellshown/assessment"
	"wellshown/assessment/civil"
)

// History reads what standings are folded from: rows only, no rule.
type History struct{ scope }

// HistoryFilter narrows a history; empty fields are no condition.
type HistoryFilter struct {
	People []assessment.PersonID
	Skill  assessment.SkillID
	Client assessment.ClientID // leaves general skills out
}

// HistoryRow is one entry with whose it is. An empty Person is everybody's (a
// recheck) and an empty Skill every skill's (a card). Client is empty for general
// skills only: the schema refuses what does not name the child of another.
type HistoryRow struct {
	Key   assessment.CaseKey
	Entry assessment.Entry
}

// Lock makes changes to one person's history take turns, so that each sees what
// the other did. They wait for whoever holds LockAll.
func (h History) Lock(ctx context.Context, person assessment.PersonID) error {
	if err := h.exec(ctx, `select pg_advisory_xact_lock_shared(hashtextextended($1::text || ' histories', 0))`, string(h.agency)); err != nil {
		return err
	}
	return h.turn(ctx, "history "+string(person))
}

// LockAll is Lock for everybody, also for those of whom nothing is known yet.
func (h History) LockAll(ctx context.Context) error { return h.turn(ctx, histories) }

// histories is what everybody's take turns over.
const histories = "histories"

// Known is what standings are folded from.
type Known struct {
	Skills    []Skill    // in teaching order
	Revisions []Revision // that are or were in force, by skill and number, without the names of people
	Equipment []EquipmentChange
	Rows      []HistoryRow // in no order
}

// Load reads all that is known, in one go.
func (h History) Load(ctx context.Context, f HistoryFilter) (Known, error) {
	batch := &pgx.Batch{}
	batch.Queue(allSkills)
	batch.Queue(everInForce)
	batch.Queue(equipmentQuery)
	for _, q := range historyQueries {
		sql, args := q.narrowed(f)
		batch.Queue(sql, args...)
	}
	batch.Queue(correctionQuery)
	answers := h.tx.SendBatch(ctx, batch)
	known, err := readKnown(answers)
	if closed := answers.Close(); err == nil {
		err = closed
	}
	return known, err
}

func readKnown(answers pgx.BatchResults) (Known, error) {
	var k Known
	var err error
	if k.Skills, err = next(answers, pgx.RowToStructByName[Skill]); err != nil {
		return k, fmt.Errorf("read skills: %w", err)
	}
	if k.Revisions, err = next(answers, pgx.RowToStructByNameLax[Revision]); err != nil {
		return k, fmt.Errorf("read revisions: %w", err)
	}
	if k.Equipment, err = next(answers, pgx.RowToStructByName[EquipmentChange]); err != nil {
		return k, fmt.Errorf("read equipment: %w", err)
	}
	for _, q := range historyQueries {
		entries, err := next(answers, pgx.RowToStructByNameLax[entryRow])
		if err != nil {
			return k, fmt.Errorf("read entries of kind %s: %w", q.kind, err)
		}
		for _, e := range entries {
			row, err := e.row(q.kind)
			if err != nil {
				return k, err
			}
			k.Rows = append(k.Rows, row)
		}
	}
	k.Rows, err = withCorrections(answers, k.Rows)
	return k, err
}

// next collects the next answer of a batch.
func next[T any](answers pgx.BatchResults, scan pgx.RowToFunc[T]) ([]T, error) {
	rows, err := answers.Query()
	if err != nil {
		return nil, err
	}
	return pgx.CollectRows(rows, scan)
}

// EquipmentChange says which type of a kind of equipment a client has from a day
// on; an empty type is none.
type EquipmentChange struct {
	Client     assessment.ClientID
	Kind       string
	Type       string
	From       civil.Date
	RecordedAt time.Time
}

const equipmentQuery = `
	select client_id as client, kind, type, from_on as "from", recorded_at
	from client_equipment order by from_on, recorded_at, id`

// Equipment lists every change, oldest first; of two for one day the one written
// down later comes last.
func (h History) Equipment(ctx context.Context) ([]EquipmentChange, error) {
	return list[EquipmentChange](ctx, h.scope, equipmentQuery)
}
