package office

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"maps"
	"slices"
	"strconv"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// ErrRecorded answers whoever goes on with a sheet of theirs that has become a
// record meanwhile.
var ErrRecorded = fault.Of(fault.Conflict, "This demonstration has been recorded already. Nothing on it changes any more.")

// orRecorded turns "there is no such sheet" into ErrRecorded where the observer
// has recorded it.
func orRecorded(ctx context.Context, tx *postgres.Tx, by assessment.Actor, id assessment.DemonstrationID, err error) error {
	if fault.KindOf(err) != fault.NotFound {
		return err
	}
	kept, gone := tx.Demonstrations.Get(ctx, id)
	switch {
	case gone == nil && kept.ObserverID == by.Person:
		return ErrRecorded
	case gone != nil && fault.KindOf(gone) != fault.NotFound:
		return gone
	}
	return err
}

// ErrOpen answers an observer who looks for the record of a sheet of theirs that is
// still being marked.
var ErrOpen = fault.Of(fault.Conflict, "This demonstration is still being marked.")

func orOpen(ctx context.Context, tx *postgres.Tx, by assessment.Actor, id assessment.DemonstrationID, err error) error {
	if fault.KindOf(err) != fault.NotFound {
		return err
	}
	s, none := tx.Sheets.Get(ctx, id)
	switch {
	case none == nil && s.ObserverID == by.Person:
		return ErrOpen
	case none != nil && fault.KindOf(none) != fault.NotFound:
		return none
	}
	return err
}

// Stands tells one state of a step from another; it is never empty.
func (v SheetView) Stands(step int) string {
	m, marked := v.Marks[step]
	if !marked {
		return "0"
	}
	return strconv.FormatInt(m.MarkedAt.UnixMicro(), 36)
}

func sameMark(a, b postgres.SheetMark) bool {
	return a.Mark == b.Mark && a.NotApplicable == b.NotApplicable && a.Reason == b.Reason && a.Note == b.Note && maps.Equal(a.Readings, b.Readings)
}

// ReviewView is a sheet with what the rules would make of it.
type ReviewView struct {
	SheetView
	Result     assessment.Result // without an outcome while steps are open
	Version    string            // of everything on the sheet
	TextMark   string            // of the revision, where it is typed in from paper: what the paper must say
	MayDiscard bool              // it can be thrown away
}

// Review looks a sheet over before it is recorded.
func (o *Office) Review(ctx context.Context, by assessment.Actor, id assessment.DemonstrationID) (ReviewView, error) {
	var v ReviewView
	err := o.as(ctx, by, assessment.Observe, func(tx *postgres.Tx, now Moment) error {
		s, err := tx.Sheets.Get(ctx, id)
		if err != nil {
			return orRecorded(ctx, tx, by, id, err)
		}
		if s.ObserverID != by.Person {
			return notFound()
		}
		if v, err = o.review(ctx, tx, now, s); err != nil {
			return err
		}
		err = mayDiscard(ctx, tx, s)
		if v.MayDiscard = err == nil; fault.KindOf(err) == fault.Refused {
			return nil
		}
		return err
	})
	return v, err
}

func (o *Office) review(ctx context.Context, tx *postgres.Tx, now Moment, s postgres.Sheet) (ReviewView, error) {
	sheet, err := o.viewSheet(ctx, tx, now, s)
	if err != nil {
		return ReviewView{}, err
	}
	v := ReviewView{SheetView: sheet}
	if v.Version, err = sheet.version(); err != nil {
		return v, err
	}
	if s.FromPaper {
		revision, err := tx.Checklists.Revision(ctx, s.RevisionID)
		if err != nil {
			return v, err
		}
		v.TextMark = TextMark(hex.EncodeToString(revision.SHA256))
	}
	marks, err := coreSheet(s, marksOf(sheet))
	if err != nil {
		return v, err
	}
	v.Result, _, err = assessment.Score(v.Checklist, v.Parameters, marks)
	return v, err
}

// version is the same for the same sheet and another for every other.
func (v SheetView) version() (string, error) {
	marks := marksOf(v)
	slices.SortFunc(marks, func(a, b postgres.SheetMark) int { return a.Step - b.Step })
	var text bytes.Buffer
	for _, part := range []any{marks, v.Stopped, v.StopReason, bodyParameters(v.Parameters), v.Pages} {
		if err := json.NewEncoder(&text).Encode(part); err != nil {
			return "", fmt.Errorf("tell the version of a sheet: %w", err)
		}
	}
	hash := sha256.Sum256(text.Bytes())
	return hex.EncodeToString(hash[:12]), nil
}

// RecordReviewed is Record for whoever has looked the sheet over: it refuses a
// sheet that has changed since, and one that was stopped without a word on why.
func (o *Office) RecordReviewed(ctx context.Context, by assessment.Actor, id assessment.DemonstrationID, version string) error {
	return o.as(ctx, by, assessment.Observe, func(tx *postgres.Tx, now Moment) error {
		s, err := o.lockOwn(ctx, tx, by, id)
		if errors.Is(err, ErrRecorded) {
			return nil
		}
		if err != nil {
			return err
		}
		v, err := o.review(ctx, tx, now, s)
		switch {
		case err != nil:
			return err
		case v.Version != version:
			return fault.Of(fault.Conflict, "The sheet has changed since you looked it over.")
		case s.Stopped && s.StopReason == "":
			return faultAt("reason", "Say what happened: it stays with the record.")
		}
		if err := o.record(ctx, tx, now, by, s); err != nil {
			return err
		}
		return o.note(ctx, tx, now, by, assessment.Observe, "demonstration", string(id))
	})
}
