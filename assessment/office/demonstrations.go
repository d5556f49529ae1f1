package office

import (
	"context"
	"fmt"
	"time"

	"wellshown/assessment"
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
	Paper       *PaperView     // what it was typed in from; nil: it was marked here
	Bedside     *BedsideView   // the device it was filled in on; nil: it was marked here
	Drill       *RecordedDrill // nil: it was no drill
	TakenBack   []TakenBack    // while the sheet was open, oldest first
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

// viewDemonstration reads a record back and scores it again: what is shown is
// what the rules say of what was kept.
func (o *Office) viewDemonstration(ctx context.Context, tx *postgres.Tx, now Moment, d postgres.Demonstration) (DemonstrationView, error) {
	v := DemonstrationView{Demonstration: d, Agency: viewAgency(now.Agency), Zone: now.Zone,
		Entries: map[int]assessment.SheetEntry{}, MarkedAt: map[int]string{}, Parameters: assessment.Parameters{}}
	list, err := o.listFor(ctx, tx, d.RevisionID)
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
	if err := v.debrief(ctx, tx, b.Drill); err != nil {
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
	var err error
	if v.Paper, err = b.Paper.view(); err != nil {
		return err
	}
	if v.Bedside, err = b.Device.view(b.Marks); err != nil {
		return err
	}
	if v.TakenBack, err = takenBackOf(b.Undone); err != nil {
		return err
	}
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
		if err := by.MayForCase(assessment.ReadRecords, d.LearnerID, d.ClientID); err != nil {
			return err
		}
		v, err = o.viewDemonstration(ctx, tx, now, d)
		return err
	})
	return v, err
}

// Demonstrations lists a page of records. Whoever may only read their own sees
// only those.
func (o *Office) Demonstrations(ctx context.Context, by assessment.Actor, f postgres.DemonstrationFilter) (postgres.Page[postgres.Demonstration], error) {
	var found postgres.Page[postgres.Demonstration]
	err := o.as(ctx, by, assessment.ReadRecords, func(tx *postgres.Tx, now Moment) error {
		switch by.Reach(assessment.ReadRecords) {
		case assessment.Own:
			f.Learner = by.Person
		case assessment.Named:
			f.Seen = seenBy(by)
		}
		var err error
		found, err = tx.Demonstrations.Page(ctx, f)
		return err
	})
	return found, err
}

// AwaitingMe lists a page of the records that the actor still has to sign, as
// observer or learner: up to limit, 200 for 0, after the place that the page
// before gave.
func (o *Office) AwaitingMe(ctx context.Context, by assessment.Actor, after string, limit int) (postgres.Page[postgres.Demonstration], error) {
	var found postgres.Page[postgres.Demonstration]
	err := o.as(ctx, by, assessment.SignRecord, func(tx *postgres.Tx, now Moment) error {
		var err error
		found, err = tx.Demonstrations.Page(ctx, postgres.DemonstrationFilter{Awaits: by.Person, After: after, Limit: limit})
		return err
	})
	return found, err
}
