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

// DemonstrationView is a record as people read it.
type DemonstrationView struct {
	postgres.Demonstration
	Agency      AgencyView
	Zone        *time.Location
	Checklist   assessment.Checklist
	Entries     map[int]assessment.SheetEntry
	Effective   map[int]assessment.Mark
	MarkedAt    map[int]string // as kept, RFC 3339 in UTC
	Parameters  assessment.Parameters
	Words       map[string]string
	Stopped     bool
	StopReason  string
	Result      assessment.Result
	Signatures  []postgres.Signature
	Certificate *postgres.Certificate // without its bytes; nil: none was issued
}

// SignedBy is the signature of a part, nil while it is missing.
func (v DemonstrationView) SignedBy(part string) *postgres.Signature {
	for i, s := range v.Signatures {
		if s.Part == part {
			return &v.Signatures[i]
		}
	}
	return nil
}

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
	if err := o.record(ctx, tx, now, s); err != nil {
		return err
	}
	return o.note(ctx, tx, now, by, assessment.Observe, "demonstration", string(id))
}

func (o *Office) record(ctx context.Context, tx *postgres.Tx, now Moment, s postgres.Sheet) error {
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
	kept, err := o.kept(ctx, tx, now, v, result)
	if err != nil {
		return err
	}
	if err := tx.Demonstrations.Add(ctx, kept); err != nil {
		return err
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

// kept is the record to be kept.
func (o *Office) kept(ctx context.Context, tx *postgres.Tx, now Moment, v SheetView, r assessment.Result) (postgres.Demonstration, error) {
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
		Marks: bodyMarks(v, r), Outcome: r.Outcome, Reasons: bodyReasons(r)}
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

// viewDemonstration reads a record back and scores it again: what is shown is
// what the rules say of what was kept.
func (o *Office) viewDemonstration(ctx context.Context, tx *postgres.Tx, now Moment, d postgres.Demonstration) (DemonstrationView, error) {
	v := DemonstrationView{Demonstration: d, Agency: viewAgency(now.Agency), Zone: now.Zone,
		Entries: map[int]assessment.SheetEntry{}, MarkedAt: map[int]string{}, Parameters: assessment.Parameters{}}
	revision, err := tx.Checklists.Revision(ctx, d.RevisionID)
	if err != nil {
		return v, err
	}
	list, err := o.listOf(ctx, tx, revision)
	if err != nil {
		return v, err
	}
	v.Checklist = *list
	b, err := readBody(d.Body)
	if err != nil {
		return v, err
	}
	if err := v.fill(b); err != nil {
		return v, err
	}
	if v.Signatures, err = tx.SignOffs.Of(ctx, d.ID); err != nil {
		return v, err
	}
	issued, err := tx.Certificates.OfDemonstration(ctx, d.ID)
	if err != nil {
		return v, err
	}
	if len(issued) > 0 {
		v.Certificate = &issued[0]
	}
	return v, nil
}

func (v *DemonstrationView) fill(b body) error {
	v.Words, v.Stopped, v.StopReason = b.Words, b.Stopped, b.StopReason
	for name, r := range b.Parameters {
		n, err := assessment.ParseNumber(r.Value)
		if err != nil {
			return fmt.Errorf("read a kept value of the child: %w", err)
		}
		v.Parameters[name] = assessment.Quantity{Value: n, Unit: r.Unit}
	}
	var marks []postgres.SheetMark
	for _, m := range b.Marks {
		marks = append(marks, postgres.SheetMark{Step: m.Step, Mark: m.Mark, NotApplicable: m.NotApplicable, Reason: m.Reason, Readings: m.Readings, Note: m.Note})
		v.MarkedAt[m.Step] = m.MarkedAt
	}
	sheet, err := coreSheet(postgres.Sheet{Stopped: b.Stopped}, marks)
	if err != nil {
		return err
	}
	for _, e := range sheet.Entries {
		v.Entries[e.No] = e
	}
	v.Result, _, err = assessment.Score(v.Checklist, v.Parameters, sheet)
	v.Effective = v.Result.Effective
	return err
}

// Demonstration is one record.
func (o *Office) Demonstration(ctx context.Context, by assessment.Actor, id assessment.DemonstrationID) (DemonstrationView, error) {
	var v DemonstrationView
	err := o.as(ctx, by, assessment.ReadRecords, func(tx *postgres.Tx, now Moment) error {
		d, err := tx.Demonstrations.Get(ctx, id)
		if err != nil {
			return err
		}
		if err := by.MayFor(assessment.ReadRecords, d.LearnerID, false); err != nil {
			return err
		}
		v, err = o.viewDemonstration(ctx, tx, now, d)
		return err
	})
	return v, err
}

// Demonstrations lists records. Whoever may only read their own sees only those.
func (o *Office) Demonstrations(ctx context.Context, by assessment.Actor, f postgres.DemonstrationFilter) ([]postgres.Demonstration, error) {
	var found []postgres.Demonstration
	err := o.as(ctx, by, assessment.ReadRecords, func(tx *postgres.Tx, now Moment) error {
		if by.Reach(assessment.ReadRecords) == assessment.Own {
			f.Learner = by.Person
		}
		var err error
		found, err = tx.Demonstrations.List(ctx, f)
		return err
	})
	return found, err
}

// AwaitingMe lists records that the actor still has to sign, as observer or learner.
func (o *Office) AwaitingMe(ctx context.Context, by assessment.Actor) ([]postgres.Demonstration, error) {
	var found []postgres.Demonstration
	err := o.as(ctx, by, assessment.SignRecord, func(tx *postgres.Tx, now Moment) error {
		var err error
		found, err = tx.Demonstrations.List(ctx, postgres.DemonstrationFilter{Awaits: by.Person})
		return err
	})
	return found, err
}
