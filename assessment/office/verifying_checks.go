package office

import (
	"context"
	"fmt"
	"slices"

	"wellshown/assessment/postgres"
)

// checks judges every knowledge check that was handed in once more, from the items that
// were asked and the answers as they were given.
func (a *audit) checks(ctx context.Context, tx *postgres.Tx) error {
	all, err := tx.Knowledge.Sittings(ctx, "", "")
	if err != nil {
		return fmt.Errorf("list the knowledge checks: %w", err)
	}
	for _, s := range all {
		if s.HandedInAt == nil {
			continue
		}
		a.found.Checks++
		r, err := judgeSitting(ctx, tx, s, *s.HandedInAt)
		switch {
		case err != nil:
			a.note("knowledge_result", string(s.ID), "it cannot be judged again: %s", err)
		case r.RightCount != *s.RightCount || r.Passed != *s.Passed || !slices.Equal(r.Missed, s.Missed) || !slices.Equal(r.Critical, s.Critical):
			a.note("knowledge_result", string(s.ID), "judged again, its answers come to something else")
		}
		a.openAsRuled(s)
		if err := a.answeredInTime(ctx, tx, s); err != nil {
			return err
		}
		if s.PresentBy != nil && *s.PresentBy == s.PersonID {
			a.note("knowledge_presence", string(s.ID), "that a trainer was there is said by whoever took the check")
		}
	}
	return nil
}

// openAsRuled holds the time by which a check was judged to its rule. A rule from before
// checks had an end says none: what is handed in since then has the usual time.
func (a *audit) openAsRuled(s postgres.KnowledgeSitting) {
	if s.OpenMinutes != nil && s.Open() != s.Ruled() || s.OpenMinutes == nil && s.RuleMinutes != nil {
		a.note("knowledge_result", string(s.ID), "it was judged by another time than its rule says")
	}
}

// answeredInTime looks for answers from after the handing in.
func (a *audit) answeredInTime(ctx context.Context, tx *postgres.Tx, s postgres.KnowledgeSitting) error {
	answers, err := tx.Knowledge.Answers(ctx, true, string(s.ID))
	if err != nil {
		return fmt.Errorf("read the answers of a knowledge check: %w", err)
	}
	for _, g := range answers {
		if g.GivenAt.After(*s.HandedInAt) {
			a.note("knowledge_answer", string(s.ID), "an answer to question %d was given after the check was handed in", g.Place)
		}
	}
	return nil
}
