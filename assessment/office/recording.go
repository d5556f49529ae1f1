package office

import (
	"context"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// Record closes a sheet: the rules decide, and what stands on it never changes
// again. Recording it twice is harmless.
func (o *Office) Record(ctx context.Context, by assessment.Actor, id assessment.DemonstrationID) (DemonstrationView, error) {
	var v DemonstrationView
	err := o.as(ctx, by, assessment.Observe, func(tx *postgres.Tx, now Moment) error {
		if kept, err := tx.Demonstrations.Get(ctx, id); err == nil && kept.ObserverID == by.Person {
			v, err = o.viewDemonstration(ctx, tx, now, kept)
			return err
		}
		if err := o.recordOnce(ctx, tx, now, by, id); err != nil {
			return err
		}
		kept, err := tx.Demonstrations.Get(ctx, id)
		if err != nil {
			return err
		}
		v, err = o.viewDemonstration(ctx, tx, now, kept)
		return err
	})
	return v, err
}

// recordOnce finds nothing to do where the same was sent at once and the other
// came first.
func (o *Office) recordOnce(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, id assessment.DemonstrationID) error {
	s, err := o.lockOwn(ctx, tx, by, id)
	if errors.Is(err, ErrRecorded) {
		return nil
	}
	if err != nil {
		return err
	}
	if err := o.record(ctx, tx, now, by, s); err != nil {
		return err
	}
	return o.note(ctx, tx, now, by, assessment.Observe, "demonstration", string(id))
}

func (o *Office) record(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, s postgres.Sheet) error {
	v, err := o.viewSheet(ctx, tx, now, s)
	if err != nil {
		return err
	}
	sheet, err := coreSheet(s, marksOf(v))
	if err != nil {
		return err
	}
	result, open, err := assessment.Score(v.Checklist, v.Parameters, sheet)
	if err != nil {
		return err
	}
	if len(open) > 0 {
		return openSteps(open)
	}
	if err := o.mayRecord(ctx, tx, now, s, result.Outcome); err != nil {
		return err
	}
	if err := mayStandOnPaper(v, result.Outcome); err != nil {
		return err
	}
	if v.drill, err = drillOf(ctx, tx, s); err != nil {
		return err
	}
	undone, err := tx.Sheets.Undone(ctx, v.ID)
	if err != nil {
		return fmt.Errorf("read what was taken back: %w", err)
	}
	kept, err := o.kept(ctx, tx, now, v, result, undone, nil)
	if err != nil {
		return err
	}
	if err := o.incidentsReach(ctx, tx, now, by, caseOfSheet(s), s.PerformedAt); err != nil {
		return err
	}
	if err := tx.Demonstrations.Add(ctx, kept); err != nil {
		return err
	}
	if err := keepDrill(ctx, tx, s.ID, v.drill); err != nil {
		return err
	}
	if err := tx.Demonstrations.KeepPages(ctx, s.ID); err != nil {
		return fmt.Errorf("keep the pages of a paper: %w", err)
	}
	return tx.Sheets.Remove(ctx, s.ID)
}

// mayRecord asks once more whether the observer's word counts, for a pass. What
// went wrong is recorded whatever has become of the observer since.
func (o *Office) mayRecord(ctx context.Context, tx *postgres.Tx, now Moment, s postgres.Sheet, outcome assessment.Outcome) error {
	if outcome != assessment.Competent {
		return nil
	}
	return o.mayObserve(ctx, tx, now, s.ObserverID, s.LearnerID, s.SkillID, civil.DayOf(s.PerformedAt, now.Zone))
}

func marksOf(v SheetView) []postgres.SheetMark {
	var marks []postgres.SheetMark
	for _, m := range v.Marks {
		marks = append(marks, m)
	}
	return marks
}

func openSteps(open []assessment.Open) error {
	steps := map[int]bool{}
	for _, gap := range open {
		steps[gap.Step] = true
	}
	if len(steps) == 1 {
		return fault.Of(fault.Refused, "Step %d is still open. Mark it first.", open[0].Step)
	}
	return fault.Of(fault.Refused, "%d steps are still open, the first is step %d. Mark them first.", len(steps), open[0].Step)
}

// kept is the record to be kept; device is what it was filled in on, nil where it was
// marked here.
func (o *Office) kept(ctx context.Context, tx *postgres.Tx, now Moment, v SheetView, r assessment.Result, undone []postgres.Undone, device *bodyDevice) (postgres.Demonstration, error) {
	revision, err := tx.Checklists.Revision(ctx, v.RevisionID)
	if err != nil {
		return postgres.Demonstration{}, err
	}
	changes, err := tx.History.Equipment(ctx)
	if err != nil {
		return postgres.Demonstration{}, err
	}
	fitted := fittedAt(changes, v.ClientID, v.PerformedAt, now.Zone)
	equipment, err := json.Marshal(fitted)
	if err != nil {
		return postgres.Demonstration{}, fmt.Errorf("write down the equipment: %w", err)
	}
	b := body{Version: 1, ID: v.ID, Learner: bodyPerson{v.LearnerID, v.Learner}, Observer: bodyPerson{v.ObserverID, v.Observer},
		Skill: v.Checklist.Code, Title: v.Title, Revision: v.Revision, Checklist: hex.EncodeToString(revision.SHA256),
		Place: v.Place, Real: v.RealClient, Formal: v.Formal, Performed: v.PerformedAt.UTC().Format(instantForm),
		Equipment: fitted, Parameters: bodyParameters(v.Parameters), Words: v.Words, Stopped: v.Stopped, StopReason: v.StopReason,
		Marks: bodyMarks(v, r), Undone: bodyUndones(undone), Outcome: r.Outcome, Reasons: bodyReasons(r), Paper: paperOf(v), Device: device, Drill: v.drill}
	if v.ClientID != "" {
		b.Client = &bodyClient{v.ClientID, v.Client}
	}
	if r.Score != nil {
		score := r.Score.Fraction()
		b.Score = &score
	}
	text, err := json.Marshal(b)
	if err != nil {
		return postgres.Demonstration{}, fmt.Errorf("write down the record: %w", err)
	}
	return postgres.Demonstration{ID: v.ID, LearnerID: v.LearnerID, ObserverID: v.ObserverID, SkillID: v.SkillID, RevisionID: v.RevisionID,
		Revision: v.Revision, ClientID: v.ClientID, Place: v.Place, RealClient: v.RealClient, Formal: v.Formal, Equipment: string(equipment),
		PerformedAt: v.PerformedAt, RecordedAt: now.At, Outcome: r.Outcome, Score: b.Score, Body: string(text)}, nil
}

// fittedAt is what a client had at an instant. A change of that very day that was
// written down only later came after it.
func fittedAt(changes []postgres.EquipmentChange, client assessment.ClientID, at time.Time, zone *time.Location) assessment.Fitted {
	fitted, day := assessment.Fitted{}, civil.DayOf(at, zone)
	for _, c := range changes {
		if c.Client == client && (c.From.Before(day) || c.From == day && !c.RecordedAt.After(at)) {
			fitted[c.Kind] = c.Type
		}
	}
	return fitted
}
