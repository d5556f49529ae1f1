package office

import (
	"bytes"
	"context"
	"fmt"

	"wellshown/assessment"
	"wellshown/assessment/postgres"
)

// erasures checks every row that was erased: an erasure says so that one person
// asked for and another carried out, the ledger has the hash that the row had until
// then, and nothing was written into it since. What only looks erased is named.
func (a *audit) erasures(ctx context.Context, tx *postgres.Tx, acts map[string]int64) error {
	a.erased = map[postgres.RowKey]bool{}
	rows, err := tx.Audit.Erased(ctx, string(assessment.EraseHeld))
	if err != nil {
		return fmt.Errorf("read what was erased: %w", err)
	}
	for _, r := range rows {
		a.found.Erased++
		a.erased[postgres.RowKey{Kind: r.Kind, Subject: r.Subject}] = true
		if says := unfounded(r); says != "" {
			a.note(r.Kind, r.Subject, "%s", says)
		}
	}
	for _, look := range []struct {
		find  func(context.Context, string, int) ([]postgres.Entry, error)
		needs bool // entries of erasures to look at
		says  string
	}{
		{tx.Audit.ErasedUnsaid, true, "written as by an erasure, and no erasure says so"},
		{tx.Audit.CarriedOutInVain, false, "an erasure is said to be carried out, and what it was about was not erased"},
	} {
		if look.needs && acts[string(assessment.EraseHeld)] == 0 {
			continue // it would read all of the ledger for nothing
		}
		found, err := look.find(ctx, string(assessment.EraseHeld), mostFindings)
		if err != nil {
			return fmt.Errorf("look for what only looks erased: %w", err)
		}
		for _, e := range found {
			a.note(e.Kind, e.Subject, "%s", look.says)
		}
	}
	return nil
}

// unfounded says why a row was not rightly erased; nothing where it was.
func unfounded(r postgres.ErasedRow) string {
	switch {
	case r.Verdict != assessment.CarriedOut:
		return "this row is said to be erased by an erasure that was not carried out"
	case r.AskedBy == r.EndedBy:
		return "this row was erased by one person alone"
	case !r.Entered:
		return "this row is said to be erased, and the ledger has no entry of it"
	case !bytes.Equal(r.Before, r.Was):
		return "this row was not as it was written when it was erased"
	case r.Newest != string(assessment.EraseHeld):
		return "this row was erased, and something was written into it since"
	}
	return ""
}

// looksErased names a row that is marked as erased where no erasure was.
func (a *audit) looksErased(t postgres.KeptTable, c postgres.Compared) {
	if bytes.Contains(c.Row, []byte(`"erased_at": "`)) && !a.erased[postgres.RowKey{Kind: t.Name, Subject: c.Subject}] {
		a.note(t.Name, c.Subject, "this row is marked as erased, and no erasure says so")
	}
}
