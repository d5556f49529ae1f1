package office

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/intake"
	"wellshown/assessment/postgres"
)

// MostImportBytes is how large a list may be as it is sent.
const MostImportBytes = intake.MostBytes

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
		var err error
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

// ImportForm brings a file in as its preview showed it.
type ImportForm struct {
	ID           assessment.RecordID
	Version      string         // of the preview that was read
	Answers      map[int]string // by the row that asks: the id of who is meant, or AnotherPerson
	LettersRight bool           // where the file does not say in which letters it is: the names read right
}

// Imported says what an import did.
type Imported struct {
	Kind       intake.Kind
	New, There int
}

// CarryOutImport brings a file in, all of it or nothing. Where a row has a fault or asks something, the
// refusal comes with the preview as it is now.
func (o *Office) CarryOutImport(ctx context.Context, by assessment.Actor, f ImportForm) (Imported, ImportView, error) {
	d, t, err := o.listSent(ctx, by, f.ID)
	if err != nil {
		return Imported{}, ImportView{}, err
	}
	var v ImportView
	var done Imported
	err = o.as(ctx, by, assessment.BringIn, func(tx *postgres.Tx, now Moment) error {
		if err := tx.ImportDrafts.Lock(ctx); err != nil {
			return fmt.Errorf("have imports take turns: %w", err)
		}
		if t.Kind == intake.Shifts {
			if err := tx.Roster.Lock(ctx); err != nil {
				return fmt.Errorf("lock the roster: %w", err)
			}
		}
		p, err := o.planImport(ctx, tx, now, by, d, t, f.Answers)
		if err != nil {
			return err
		}
		v = p.ImportView
		if err := v.ready(f); err != nil {
			return err
		}
		for _, keep := range p.keep {
			if err := keep(); err != nil {
				return err
			}
		}
		done = Imported{v.Kind, v.New, v.There}
		if err := tx.ImportDrafts.Remove(ctx, d.ID); err != nil {
			return err
		}
		return o.note(ctx, tx, now, by, assessment.BringIn, string(v.Kind)+" brought in", string(d.ID))
	})
	return done, v, err
}

// ready refuses to bring in what has faults, asks something, or is not what was read.
func (v ImportView) ready(f ImportForm) error {
	switch {
	case f.Version != v.Version:
		return ErrOtherImport
	case len(v.Faults) > 0:
		return fault.Of(fault.Refused, "%s to be mended in the file first. Nothing was brought in.", thingsNeed(len(v.Faults)+v.More))
	case slices.ContainsFunc(v.Rows, func(r ImportRow) bool { return r.Ask != nil && r.Ask.Answer == "" }):
		return fault.Of(fault.Refused, "Say of each name that is like another whether it is the same person. Nothing was brought in.")
	case v.Guessed && !f.LettersRight:
		return faultAt("letters", "Look at the names and say that they read right. If not, save the file as CSV in UTF-8 and send it again.")
	}
	return nil
}

func thingsNeed(n int) string {
	if n == 1 {
		return "One thing needs"
	}
	return fmt.Sprintf("%d things need", n)
}
