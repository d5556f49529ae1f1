package office

import (
	"bytes"
	"context"
	"fmt"
	"strconv"

	"wellshown/assessment/ledger"
	"wellshown/assessment/postgres"
)

// records hashes every row anew and compares it with the newest entry about it.
func (a *audit) records(ctx context.Context, tx *postgres.Tx) error {
	tables, missing, err := tx.Audit.Tables(ctx)
	if err != nil {
		return fmt.Errorf("list what the ledger keeps: %w", err)
	}
	for _, name := range missing {
		a.note(name, "", "the ledger does not see what is written here: its trigger is gone or off, or it is no table any more")
	}
	acts, err := tx.Audit.Acts(ctx)
	if err != nil {
		return fmt.Errorf("count the entries by what was done: %w", err)
	}
	if err := a.erasures(ctx, tx, acts); err != nil {
		return err
	}
	for _, t := range tables {
		if err := a.rows(ctx, tx, t); err != nil {
			return fmt.Errorf("compare %s: %w", t.Name, err)
		}
	}
	return a.nobodys(ctx, tx, acts)
}

// nobodys looks at entries that no deed of the program made: of rows that were there
// before their table was kept, and those written outside.
func (a *audit) nobodys(ctx context.Context, tx *postgres.Tx, acts map[string]int64) error {
	if a.found.Begun += acts[before]; acts[before] > 0 {
		late, err := tx.Audit.BegunLate(ctx, before, mostFindings)
		if err != nil {
			return fmt.Errorf("look for rows that were there before: %w", err)
		}
		for _, e := range late {
			a.note(e.Kind, e.Subject, "said to have been there before its table was kept, and the table was kept already")
		}
	}
	if acts[outside] == 0 {
		return nil
	}
	found, err := tx.Audit.By(ctx, outside, mostFindings)
	if err != nil {
		return fmt.Errorf("look for what was written outside: %w", err)
	}
	for _, e := range found {
		a.note(e.Kind, e.Subject, "written outside the program, %s", e.At.UTC().Format("2006-01-02 15:04:05 MST"))
	}
	return nil
}

func (a *audit) rows(ctx context.Context, tx *postgres.Tx, t postgres.KeptTable) error {
	err := tx.Audit.Compare(ctx, t, func(c postgres.Compared) error {
		a.found.Records++
		return a.row(t, c)
	})
	if err != nil || !t.Once() {
		return err
	}
	again, err := tx.Audit.Repeated(ctx, t.Name, mostFindings)
	for _, subject := range again {
		a.note(t.Name, subject, "a row that never changes was written more than once")
	}
	return err
}

func (a *audit) row(t postgres.KeptTable, c postgres.Compared) error {
	switch {
	case !c.Entered:
		a.note(t.Name, c.Subject, "this row has no entry in the ledger")
	case c.Row == nil && c.Entry != nil:
		a.note(t.Name, c.Subject, "this row is gone")
	case c.Row != nil && c.Entry == nil:
		a.note(t.Name, c.Subject, "this row was deleted and is there again")
	case c.Row != nil:
		hash, err := ledger.RecordHash(c.Row)
		if err != nil {
			return fmt.Errorf("hash %s: %w", strconv.Quote(c.Subject), err)
		}
		if !bytes.Equal(hash, c.Entry) {
			a.note(t.Name, c.Subject, "this row is not as it was when it was written")
		}
		a.looksErased(t, c)
	}
	return nil
}
