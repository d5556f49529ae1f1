package office

import (
	"context"
	"fmt"
	"strings"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/intake"
	"wellshown/assessment/postgres"
)

// MostImportBytes is how large a list may be as it is sent.
const MostImportBytes = intake.MostBytes

// MostDrafts is how many files of one person wait for their import (common practice, no source).
const MostDrafts = 20

// draftsKept is how long a file waits for its import (common practice, no source).
const draftsKept = 24 * time.Hour

// ErrOtherImport refuses to bring in what is not what was read.
var ErrOtherImport = fault.Of(fault.Conflict, "Something has changed since this preview was made, and it would do something else now. Nothing was brought in. Look at it again.")

// importAct is what a list of a kind takes beside the act of bringing in.
func importAct(k intake.Kind) assessment.Act {
	switch k {
	case intake.Clients:
		return assessment.EditClients
	case intake.Shifts:
		return assessment.EditRoster
	}
	return assessment.EditPeople
}

// ImportDraftView is a file that waits for its import.
type ImportDraftView struct {
	ID       assessment.RecordID
	Kind     intake.Kind
	FileName string
	At       time.Time
}

// ImportDesk is what somebody has sent and not yet brought in.
type ImportDesk struct {
	Zone   *time.Location
	Drafts []ImportDraftView // the newest first
}

// Imports lists what whoever asks has sent and not yet brought in.
func (o *Office) Imports(ctx context.Context, by assessment.Actor) (ImportDesk, error) {
	var d ImportDesk
	err := o.as(ctx, by, assessment.BringIn, func(tx *postgres.Tx, now Moment) error {
		drafts, err := tx.ImportDrafts.Of(ctx, by.Person)
		if err != nil {
			return err
		}
		d = ImportDesk{Zone: now.Zone}
		for _, n := range drafts {
			d.Drafts = append(d.Drafts, ImportDraftView{n.ID, intake.Kind(n.Kind), n.FileName, n.BroughtAt})
		}
		return nil
	})
	return d, err
}

// SendList keeps a file until it is brought in. One that cannot be read at all is refused, and
// nothing of it is kept.
func (o *Office) SendList(ctx context.Context, by assessment.Actor, kind intake.Kind, fileName string, content []byte) (assessment.RecordID, error) {
	if err := mayBring(by, kind); err != nil {
		return "", err
	}
	if _, err := o.readList(ctx, kind, content); err != nil {
		return "", err
	}
	var id assessment.RecordID
	err := o.as(ctx, by, assessment.BringIn, func(tx *postgres.Tx, now Moment) error {
		waiting, err := tx.ImportDrafts.Of(ctx, by.Person)
		if err != nil {
			return err
		}
		if len(waiting) >= MostDrafts {
			return fault.Of(fault.Refused, "%d files that you sent wait already, and this one was not kept. Bring one of them in, or throw one away, and send it again.", len(waiting))
		}
		if id, err = newID[assessment.RecordID](o, now.At); err != nil {
			return err
		}
		n := postgres.ImportDraft{ID: id, Kind: string(kind), FileName: fileNamed(fileName), Content: content, BroughtBy: by.Person, BroughtAt: now.At}
		if err := tx.ImportDrafts.Add(ctx, n); err != nil {
			return fmt.Errorf("keep a file before its import: %w", err)
		}
		return o.note(ctx, tx, now, by, assessment.BringIn, "file sent", string(id))
	})
	return id, err
}

func mayBring(by assessment.Actor, kind intake.Kind) error {
	if _, err := intake.ParseKind(string(kind)); err != nil {
		return err
	}
	if err := by.May(assessment.BringIn); err != nil {
		return err
	}
	return by.May(importAct(kind))
}

// fileNamed is the name of a file as it can be shown: its last part, without what cannot be seen.
func fileNamed(s string) string {
	s = s[strings.LastIndexAny(s, `/\`)+1:]
	s = strings.Join(strings.Fields(strings.Map(func(r rune) rune {
		if unprintable(r) || unseen(r) || r == '\ufffd' {
			return -1
		}
		return r
	}, strings.ToValidUTF8(s, ""))), " ")
	if runes := []rune(s); len(runes) > 100 {
		s = string(runes[:100])
	}
	if s == "" {
		return "a file without a name"
	}
	return s
}

// readList reads a file, in its turn: a workbook unfolds.
func (o *Office) readList(ctx context.Context, kind intake.Kind, content []byte) (intake.Table, error) {
	select {
	case o.developing <- struct{}{}:
		defer func() { <-o.developing }()
		return intake.Read(kind, content, time.LoadLocation)
	case <-ctx.Done():
		return intake.Table{}, fault.Of(fault.Busy, "Too many files are being read just now, and yours was not kept. Send it again in a minute.")
	}
}

// DropList throws a file away that was not brought in.
func (o *Office) DropList(ctx context.Context, by assessment.Actor, id assessment.RecordID) error {
	return o.as(ctx, by, assessment.BringIn, func(tx *postgres.Tx, now Moment) error {
		if _, err := ownDraft(ctx, tx, by, id); err != nil {
			return err
		}
		if err := tx.ImportDrafts.Remove(ctx, id); err != nil {
			return err
		}
		return o.note(ctx, tx, now, by, assessment.BringIn, "file thrown away", string(id))
	})
}

// ownDraft is a file that whoever asks has sent; nobody else's was ever there.
func ownDraft(ctx context.Context, tx *postgres.Tx, by assessment.Actor, id assessment.RecordID) (postgres.ImportDraft, error) {
	if _, err := assessment.ParseID[assessment.RecordID](string(id)); err != nil {
		return postgres.ImportDraft{}, err
	}
	d, err := tx.ImportDrafts.Get(ctx, id)
	switch {
	case err != nil:
		return d, err
	case d.BroughtBy != by.Person:
		return d, notFound()
	}
	return d, by.May(importAct(intake.Kind(d.Kind)))
}

// Import is the preview of a file: what each row will do, or why nothing will be done.
func (o *Office) Import(ctx context.Context, by assessment.Actor, id assessment.RecordID, answers map[int]string) (ImportView, error) {
	d, t, err := o.listSent(ctx, by, id)
	if err != nil {
		return ImportView{}, err
	}
	var v ImportView
	err = o.as(ctx, by, assessment.BringIn, func(tx *postgres.Tx, now Moment) error {
		p, err := o.planImport(ctx, tx, now, by, d, t, answers)
		v = p.ImportView
		return err
	})
	return v, err
}

// listSent is a file that was sent, and what stands in it. It is read while no connection is held.
func (o *Office) listSent(ctx context.Context, by assessment.Actor, id assessment.RecordID) (postgres.ImportDraft, intake.Table, error) {
	var d postgres.ImportDraft
	err := o.as(ctx, by, assessment.BringIn, func(tx *postgres.Tx, _ Moment) error {
		var err error
		d, err = ownDraft(ctx, tx, by, id)
		return err
	})
	if err != nil {
		return d, intake.Table{}, err
	}
	t, err := o.readList(ctx, intake.Kind(d.Kind), d.Content)
	return d, t, err
}
