package office

import (
	"bytes"
	"context"
	"crypto/sha256"
	"fmt"
	"slices"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
	"wellshown/assessment/scan"
)

// MostPageBytes is how large a photo or scan may be as it is sent.
const MostPageBytes = scan.MostBytes

// MostPages is how many photos or scans may belong to one paper.
const MostPages = 10

// PageTooLarge is the refusal of a photo or scan that is larger.
func PageTooLarge() error { return scan.TooLarge() }

// AttachPage puts a photo or a scan to a sheet that is typed in from paper, as the page
// of this number, or as the next one for 0; one that has the number is replaced. What
// is kept is made anew from what was sent. Sending the same once more is harmless.
func (o *Office) AttachPage(ctx context.Context, by assessment.Actor, id assessment.DemonstrationID, number int, sent []byte) (SheetView, error) {
	// Whoever may not is told so before anything is decoded for them.
	if _, err := o.onSheet(ctx, by, id, mayAttach); err != nil {
		return SheetView{}, err
	}
	page, err := o.develop(ctx, sent)
	if err != nil {
		return SheetView{}, err
	}
	return o.onSheet(ctx, by, id, func(tx *postgres.Tx, now Moment, s postgres.Sheet) error {
		if err := mayAttach(tx, now, s); err != nil {
			return err
		}
		there, err := tx.Sheets.Pages(ctx, id)
		if err != nil {
			return err
		}
		number, again, err := placeOf(there, number, page.Content)
		if err != nil || again {
			return err
		}
		if err := tx.Sheets.SavePage(ctx, id, postgres.PaperPage{Number: number, MediaType: page.Type, Content: page.Content, Sheets: page.Sheets, AttachedAt: now.At}); err != nil {
			return fmt.Errorf("keep a page of a paper: %w", err)
		}
		return o.note(ctx, tx, now, by, assessment.Observe, "page of a paper", string(id))
	})
}

func mayAttach(_ *postgres.Tx, _ Moment, s postgres.Sheet) error {
	if !s.FromPaper {
		return fault.Of(fault.Refused, "This demonstration is marked here, not on paper: no page belongs to it. Begin it anew as marked on paper.")
	}
	return nil
}

// develop makes one page harmless, in its turn.
func (o *Office) develop(ctx context.Context, sent []byte) (scan.Page, error) {
	select {
	case o.developing <- struct{}{}:
		defer func() { <-o.developing }()
		return scan.Clean(sent)
	case <-ctx.Done():
		return scan.Page{}, fault.Of(fault.Busy, "Too many photos are being looked at just now, and yours was not kept. Send it again in a minute.")
	}
}

// placeOf is the number that a page gets, or that the same page is there already.
func placeOf(there []postgres.PaperPage, number int, content []byte) (_ int, again bool, _ error) {
	hash := sha256.Sum256(content)
	next := 1
	for _, p := range there {
		next = max(next, p.Number+1)
		if !bytes.Equal(p.SHA256, hash[:]) {
			continue
		}
		if number == 0 || number == p.Number {
			return p.Number, true, nil
		}
		return 0, false, fault.Of(fault.Conflict, "This page is attached already, as number %d.", p.Number)
	}
	if number == 0 {
		number = next
		for free := 1; number > MostPages && free <= MostPages; free++ {
			if !slices.ContainsFunc(there, func(p postgres.PaperPage) bool { return p.Number == free }) {
				number = free
			}
		}
	}
	if number < 1 || number > MostPages {
		return 0, false, fault.Of(fault.Refused, "A paper has at most %d photos or scans here. Scan several pages into one PDF.", MostPages)
	}
	return number, false, nil
}

// DropPage takes a page from a sheet again. One that is not there is gone already.
func (o *Office) DropPage(ctx context.Context, by assessment.Actor, id assessment.DemonstrationID, number int) (SheetView, error) {
	return o.onSheet(ctx, by, id, func(tx *postgres.Tx, now Moment, s postgres.Sheet) error {
		if err := tx.Sheets.RemovePage(ctx, id, number); err != nil {
			return err
		}
		return o.note(ctx, tx, now, by, assessment.Observe, "page of a paper taken off", string(id))
	})
}

// PaperPage is a page with its content: of a record for whoever may read the record, of
// an open sheet for its observer alone.
func (o *Office) PaperPage(ctx context.Context, by assessment.Actor, id assessment.DemonstrationID, number int) (postgres.PaperPage, error) {
	var page postgres.PaperPage
	err := o.as(ctx, by, assessment.ReadRecords, func(tx *postgres.Tx, now Moment) error {
		d, err := tx.Demonstrations.Get(ctx, id)
		if fault.KindOf(err) == fault.NotFound {
			s, err := tx.Sheets.Get(ctx, id)
			if err != nil {
				return err
			}
			if s.ObserverID != by.Person || by.May(assessment.Observe) != nil {
				return notFound()
			}
			page, err = tx.Sheets.Page(ctx, id, number)
			return err
		}
		if err != nil {
			return err
		}
		if err := by.MayForCase(assessment.ReadRecords, d.LearnerID, d.ClientID); err != nil {
			return err
		}
		if page, err = tx.Demonstrations.PaperPage(ctx, id, number); err == nil && page.ErasedAt != nil {
			return fault.Of(fault.Refused, "This page was erased on %s. The record still has its hash.", page.ErasedAt.In(now.Zone).Format("2 January 2006"))
		}
		return err
	})
	return page, err
}
