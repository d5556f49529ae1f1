package office

import (
	"context"
	"encoding/json"
	"fmt"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/postgres"
)

// HeldView is what is held about somebody, part by part.
type HeldView struct {
	Parts []postgres.HeldRows
}

// exportMade begins what the journal calls a file that leaves: alone it is a
// download of what is held about somebody.
const exportMade = "export made"

// HeldAbout is what is held about whoever asks.
func (o *Office) HeldAbout(ctx context.Context, by assessment.Actor) (HeldView, error) {
	var v HeldView
	err := o.as(ctx, by, assessment.OwnAccount, func(tx *postgres.Tx, _ Moment) (err error) {
		v.Parts, err = tx.Held.About(ctx, by.Person)
		return err
	})
	return v, err
}

// Export is what is held about whoever asks as one JSON text. That it was made
// goes into the journal, and so into the next one.
func (o *Office) Export(ctx context.Context, by assessment.Actor) ([]byte, error) {
	var text []byte
	err := o.as(ctx, by, assessment.OwnAccount, func(tx *postgres.Tx, now Moment) error {
		parts, err := tx.Held.About(ctx, by.Person)
		if err != nil {
			return err
		}
		if text, err = exported(parts, now.At); err != nil {
			return err
		}
		return o.noteExport(ctx, tx, now, by, Export{Act: assessment.OwnAccount, Subject: string(by.Person)})
	})
	return text, err
}

// exported writes the parts down, each with what it is in plain words.
func exported(parts []postgres.HeldRows, at time.Time) ([]byte, error) {
	type part struct {
		Says    string          `json:"says"`
		Entries json.RawMessage `json:"entries"`
	}
	all := map[string]part{}
	for _, p := range parts {
		all[p.Name] = part{p.Says, p.Entries}
	}
	text, err := json.MarshalIndent(map[string]any{"made_at": at, "held": all}, "", "  ")
	if err != nil {
		return nil, fmt.Errorf("write down what is held: %w", err)
	}
	return append(text, '\n'), nil
}
