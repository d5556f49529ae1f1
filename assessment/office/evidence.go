package office

import (
	"context"
	"slices"
	"strings"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// EvidenceForm is one dated statement about a line of a child's plan.
type EvidenceForm struct {
	ID        string // made by whoever sends it, so that sending twice is harmless; empty: made here
	Criterion assessment.CriterionID
	Word      string // which ones fit depends on how the line is judged: EvidenceWords
	Item      string // for equipment: one of the line's items
	At        string // YYYY-MM-DDTHH:MM on the agency's clocks; empty: now
	Note      string
}

// EvidenceWords lists what can be said about a line that is judged in a certain
// way. What is worked out from standings and cards cannot be said.
func EvidenceWords(kind assessment.CriterionKind) []assessment.EvidenceWord {
	switch kind {
	case assessment.Attested:
		return []assessment.EvidenceWord{assessment.EvidenceMet, assessment.EvidenceNotMet}
	case assessment.IndependentStay, assessment.EquipmentTrial:
		return []assessment.EvidenceWord{assessment.EvidenceStarted, assessment.EvidenceEnded, assessment.EvidenceNotMet}
	case assessment.EquipmentHome:
		return []assessment.EvidenceWord{assessment.EvidenceDelivered, assessment.EvidenceMet, assessment.EvidenceNotMet}
	}
	return nil
}

// AddEvidence keeps a statement, signed with the actor's name.
func (o *Office) AddEvidence(ctx context.Context, by assessment.Actor, e EvidenceForm) error {
	return o.as(ctx, by, assessment.EditReadiness, func(tx *postgres.Tx, now Moment) error {
		c, err := heldCriterion(ctx, tx, e.Criterion)
		if err != nil {
			return err
		}
		n, err := e.read(c, now)
		if err != nil {
			return err
		}
		if err := maySay(ctx, tx, now, by, c.Rule()); err != nil {
			return err
		}
		return o.addEvidence(ctx, tx, now, by, assessment.EditReadiness, c, e.ID, n)
	})
}

func (e EvidenceForm) read(c postgres.Criterion, now Moment) (postgres.Evidence, error) {
	var f form
	n := postgres.Evidence{Word: assessment.EvidenceWord(e.Word), Item: strings.TrimSpace(e.Item), At: now.At, Note: f.words("note", e.Note, 1000)}
	words := EvidenceWords(c.Kind)
	switch {
	case len(words) == 0:
		f.Add("word", "This is worked out from what is on file. Nothing can be added by hand.")
	case !slices.Contains(words, n.Word):
		f.Add("word", "Choose one of: %s.", listed(words))
	}
	if c.Kind == assessment.EquipmentHome && !slices.Contains(c.Items, n.Item) {
		f.Add("item", "Choose one of the items on the list.")
	}
	if c.Kind != assessment.EquipmentHome && n.Item != "" {
		f.Add("item", "This line has no items.")
	}
	if strings.TrimSpace(e.At) != "" {
		n.At = f.instant("at", e.At, now)
	}
	if n.At.After(now.At) {
		f.Add("at", "This lies in the future. Check the day and time.")
	}
	return n, f.Err()
}

func listed(words []assessment.EvidenceWord) string {
	s := make([]string, len(words))
	for i, w := range words {
		s[i] = string(w)
	}
	return strings.Join(s, ", ")
}

// addEvidence keeps a statement on a line that is held. The same one, sent again or within a minute, is
// kept once. (The minute: ours, no source; long enough for a second tap.)
func (o *Office) addEvidence(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, act assessment.Act, c postgres.Criterion, sent string, n postgres.Evidence) error {
	said, err := tx.Plans.Evidence(ctx, c.Client)
	if err != nil {
		return err
	}
	if n.ID, err = idOr[assessment.RecordID](o, sent, now.At); err != nil {
		return err
	}
	n.Criterion, n.RecordedAt, n.SignedBy, n.PrintedName = c.ID, now.At, by.Person, by.Name
	if sentAgain(said, n) {
		return nil
	}
	if err := tx.Plans.AddEvidence(ctx, n); err != nil {
		return err
	}
	return o.note(ctx, tx, now, by, act, "evidence "+string(n.Word), string(n.ID))
}

// sentAgain compares with the last word on the line or item only: met, not met and
// met again are three statements, however fast they follow each other.
func sentAgain(said []postgres.Evidence, n postgres.Evidence) bool {
	var last postgres.Evidence
	for _, k := range said {
		if k.ID == n.ID {
			return true
		}
		if k.Criterion == n.Criterion && k.Item == n.Item && !k.RecordedAt.Before(last.RecordedAt) {
			last = k
		}
	}
	return last.Word == n.Word && last.Note == n.Note && last.SignedBy == n.SignedBy &&
		n.At.Sub(last.At).Abs() < time.Minute && n.RecordedAt.Sub(last.RecordedAt) < time.Minute
}

// WaiveCriterion excuses a child from a line, or from one item of it, by name and
// with the reason. The report still shows it.
func (o *Office) WaiveCriterion(ctx context.Context, by assessment.Actor, id assessment.CriterionID, item, reason string) error {
	return o.waive(ctx, by, id, item, assessment.EvidenceWaived, reason)
}

// EndWaiver takes a waiver back: the line counts again.
func (o *Office) EndWaiver(ctx context.Context, by assessment.Actor, id assessment.CriterionID, item, reason string) error {
	return o.waive(ctx, by, id, item, assessment.EvidenceUnwaived, reason)
}

func (o *Office) waive(ctx context.Context, by assessment.Actor, id assessment.CriterionID, item string, word assessment.EvidenceWord, reason string) error {
	return o.as(ctx, by, assessment.WaiveCriterion, func(tx *postgres.Tx, now Moment) error {
		c, err := heldCriterion(ctx, tx, id)
		if err != nil {
			return err
		}
		var f form
		n := postgres.Evidence{Word: word, Item: strings.TrimSpace(item), At: now.At, Note: f.words("reason", reason, 1000)}
		if !assessment.Says(n.Note) {
			f.Add("reason", "Say why. It stays with the plan.")
		}
		if n.Item != "" && !slices.Contains(c.Items, n.Item) {
			f.Add("item", "Choose one of the items on the list, or none for the whole line.")
		}
		if err := f.Err(); err != nil {
			return err
		}
		if word == assessment.EvidenceWaived {
			if err := mayChange(ctx, tx, now, by, c.Rule()); err != nil {
				return err
			}
		}
		if word == assessment.EvidenceUnwaived {
			if err := o.isWaived(ctx, tx, c, n.Item); err != nil {
				return err
			}
		}
		return o.addEvidence(ctx, tx, now, by, assessment.WaiveCriterion, c, "", n)
	})
}

func (o *Office) isWaived(ctx context.Context, tx *postgres.Tx, c postgres.Criterion, item string) error {
	said, err := tx.Plans.Evidence(ctx, c.Client)
	if err != nil {
		return err
	}
	waived := false
	for _, e := range said {
		if e.Criterion == c.ID && e.Item == item && (e.Word == assessment.EvidenceWaived || e.Word == assessment.EvidenceUnwaived) {
			waived = e.Word == assessment.EvidenceWaived
		}
	}
	if !waived {
		return fault.Of(fault.Refused, "This is not waived.")
	}
	return nil
}
