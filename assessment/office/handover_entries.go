package office

import (
	"encoding/hex"
	"fmt"
	"slices"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/handover"
	"wellshown/assessment/postgres"
)

func (h *handing) demonstrations(person assessment.PersonID) error {
	records, err := h.tx.Demonstrations.All(h.ctx, postgres.DemonstrationFilter{Learner: person})
	if err != nil {
		return fmt.Errorf("read the records that are handed over: %w", err)
	}
	slices.Reverse(records)
	signed, err := signaturesOn(h.ctx, h.tx, records)
	if err != nil {
		return err
	}
	for _, d := range records {
		list, err := h.checklist(d.RevisionID)
		if err != nil {
			return err
		}
		e := handover.Entry{Kind: handover.Demonstration, ID: string(d.ID), Skill: d.Code, Title: d.Title, Child: h.child(d.ClientID), On: h.day(d.PerformedAt), Written: instantText(d.RecordedAt),
			Checklist: &handover.Checklist{Revision: d.Revision, SHA256: list}, Outcome: string(d.Outcome), Setting: handover.InSimulation, Formal: d.Formal, By: handover.Who{Name: d.Observer},
			Text: hex.EncodeToString(d.BodySHA256)}
		if d.RealClient {
			e.Setting = handover.WithTheChild
		}
		if d.Score != nil {
			e.Score = *d.Score
		}
		for _, s := range signed[d.ID] {
			e.Signed = append(e.Signed, handover.Signed{Part: s.Part, Name: s.PrintedName, Licence: s.Licence, At: instantText(s.SignedAt), Text: hex.EncodeToString(s.BodySHA256)})
			if s.Part == PartObserver {
				e.By = handover.Who{Name: s.PrintedName, Licence: s.Licence}
			}
		}
		e.Taken = h.correction(string(d.ID), d.CorrectedAt)
		h.body.Entries = append(h.body.Entries, e)
	}
	return nil
}

func (h *handing) correction(of string, at *time.Time) *handover.Correction {
	if at == nil {
		return nil
	}
	return &handover.Correction{ID: string(h.taken[of]), On: h.day(*at)}
}

// checklist is the hash of a revision.
func (h *handing) checklist(id assessment.RevisionID) (string, error) {
	if h.lists[id] == "" {
		r, err := h.tx.Checklists.Revision(h.ctx, id)
		if err != nil {
			return "", fmt.Errorf("read the checklist that something was shown by: %w", err)
		}
		h.lists[id] = hex.EncodeToString(r.SHA256)
	}
	return h.lists[id], nil
}

// decisions are withdrawals, reinstatements and waivers. Their reasons may name others, so
// they stay in the agency's records.
func (h *handing) decisions(person assessment.PersonID) error {
	found, err := h.tx.Exceptions.Happenings(h.ctx, person)
	if err != nil {
		return fmt.Errorf("read what else is handed over: %w", err)
	}
	skills, err := h.tx.Checklists.Skills(h.ctx)
	if err != nil {
		return err
	}
	slices.Reverse(found)
	for _, d := range found {
		switch d.Kind {
		case assessment.WithdrawalEntry, assessment.ReinstatementEntry, assessment.WaiverEntry:
		default:
			continue // teaching and practice decide nothing
		}
		e := handover.Entry{Kind: string(d.Kind), ID: string(d.ID), Child: h.child(d.Client), On: h.day(d.At), Written: instantText(d.Signed), By: handover.Who{Name: d.By},
			Through: dayText(d.ThroughOn), Until: string(d.Until), Of: d.Of}
		if !d.FromOn.IsZero() {
			e.On = d.FromOn.String()
		}
		if i := slices.IndexFunc(skills, func(s postgres.Skill) bool { return s.ID == d.Skill }); i >= 0 {
			e.Skill, e.Title = skills[i].Code, skills[i].Title
		}
		e.Taken = h.correction(string(d.ID), d.TakenBack)
		h.body.Entries = append(h.body.Entries, e)
	}
	return nil
}
