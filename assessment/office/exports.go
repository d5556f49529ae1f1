package office

import (
	"context"
	"fmt"

	"wellshown/assessment"
	"wellshown/assessment/postgres"
)

// Export is a paper or a list that leaves as a file.
type Export struct {
	Act     assessment.Act // by which it was read
	Paper   string         // which one, such as transcript
	Subject string         // id of whom or what it is about; empty: the whole agency
}

type headOnlyKey struct{}

// HeadOnly says that only the head of an answer is asked for (HEAD): nothing leaves.
func HeadOnly(ctx context.Context) context.Context {
	return context.WithValue(ctx, headOnlyKey{}, true)
}

// Exported writes down that somebody takes a paper away, before they have it: where
// this fails, it must not leave. It is no change to what is held, so whoever may only
// read may take away what they read.
func (o *Office) Exported(ctx context.Context, by assessment.Actor, e Export) error {
	if err := by.May(e.Act); err != nil {
		return err
	}
	err := o.writing(ctx, by.Agency, o.withMoment(ctx, by.Person, string(e.Act), func(tx *postgres.Tx, now Moment) error {
		return o.noteExport(ctx, tx, now, by, e)
	}))
	if err != nil {
		return fmt.Errorf("write down who takes a paper away: %w", err)
	}
	return nil
}

func (o *Office) noteExport(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, e Export) error {
	if headOnly, _ := ctx.Value(headOnlyKey{}).(bool); headOnly {
		return nil
	}
	kind := exportMade
	if e.Paper != "" {
		kind += ": " + e.Paper
	}
	return o.note(ctx, tx, now, by, e.Act, kind, e.Subject)
}
