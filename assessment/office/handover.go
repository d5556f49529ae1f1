package office

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/handover"
	"wellshown/assessment/postgres"
)

// HandoverMade is a file that somebody takes along to another agency.
type HandoverMade struct {
	Person PersonRef
	Day    civil.Date
	File   []byte
}

// HandoverDesk says whose file can be made.
func (o *Office) HandoverDesk(ctx context.Context, by assessment.Actor, person assessment.PersonID) (PersonRef, error) {
	var who PersonRef
	err := o.as(ctx, by, assessment.HandOver, func(tx *postgres.Tx, _ Moment) error {
		if err := by.MayFor(assessment.HandOver, person, false); err != nil {
			return err
		}
		p, err := tx.People.Get(ctx, person)
		who = PersonRef{p.ID, p.Name, p.Kind, p.Relation}
		return err
	})
	return who, err
}

// Handover makes the file of all that is written down of a caregiver, signed by the house.
// Nothing is left out that speaks against them, so nobody has it who may see a part only.
func (o *Office) Handover(ctx context.Context, by assessment.Actor, person assessment.PersonID) (HandoverMade, error) {
	var made HandoverMade
	if o.opt.Ledger == nil {
		return made, errNoLedgerKeys
	}
	waiting := false
	look := func(tx *postgres.Tx, now Moment) (err error) {
		if err := by.MayFor(assessment.HandOver, person, false); err != nil {
			return err
		}
		made, waiting, err = o.handover(ctx, tx, now, person)
		return err
	}
	err := o.as(ctx, by, assessment.HandOver, look)
	if err != nil || !waiting {
		return made, err
	}
	if err := o.sealNow(ctx, by, assessment.HandOver); err != nil {
		return made, err
	}
	if err := o.as(ctx, by, assessment.HandOver, look); err != nil {
		return made, err
	}
	if waiting {
		return made, fault.Of(fault.Conflict, "The ledger is being sealed at this moment. Ask for the file again in a minute.")
	}
	return made, nil
}

// handover is Handover in a transaction; waiting: something of it has no place in the tree yet.
func (o *Office) handover(ctx context.Context, tx *postgres.Tx, now Moment, person assessment.PersonID) (made HandoverMade, waiting bool, err error) {
	kept, err := tx.People.Get(ctx, person)
	if err != nil {
		return made, false, err
	}
	h := &handing{ctx: ctx, tx: tx, now: now, children: map[assessment.ClientID]int{}, lists: map[assessment.RevisionID]string{}}
	h.body.About = handover.About{Agency: handover.Named{ID: string(now.Agency.ID), Name: now.Agency.Name}, Person: handover.Named{ID: string(person), Name: kept.Name},
		Day: now.Today.String(), MadeAt: instantText(now.At), Zone: now.Zone.String(), Demo: now.Agency.Demo}
	if err := h.all(o, viewPerson(kept)); err != nil {
		return made, false, err
	}
	waiting, err = h.prove(o)
	if err != nil || waiting {
		return made, waiting, err
	}
	made = HandoverMade{Person: PersonRef{kept.ID, kept.Name, kept.Kind, kept.Relation}, Day: now.Today}
	if made.File, err = handover.Write(h.body, o.opt.Ledger); errors.Is(err, handover.ErrTooLarge) {
		return made, false, fault.Of(fault.Refused, "More is written down of %s than such a file can hold. Take the transcript along instead.", kept.Name)
	} else if err != nil {
		return made, false, fmt.Errorf("write a handover: %w", err)
	}
	return made, false, nil
}

func instantText(at time.Time) string { return at.UTC().Format(instantForm) }

// handing is a file while it is put together.
type handing struct {
	ctx      context.Context
	tx       *postgres.Tx
	now      Moment
	body     handover.Body
	children map[assessment.ClientID]int // by the number that the file gives them
	lists    map[assessment.RevisionID]string
	taken    map[string]assessment.RecordID // corrections by what they take back
}

// child is the number of a child in this file: neither name nor code goes along.
func (h *handing) child(id assessment.ClientID) int {
	if id == "" {
		return 0
	}
	if h.children[id] == 0 {
		h.children[id] = len(h.children) + 1
	}
	return h.children[id]
}

func (h *handing) day(at time.Time) string { return civil.DayOf(at, h.now.Zone).String() }

// all gathers what is written down, oldest first, and how it stood on the day.
func (h *handing) all(o *Office, p PersonView) error {
	book, err := o.casebook(h.ctx, h.tx, h.now, postgres.HistoryFilter{People: []assessment.PersonID{p.ID}})
	if err != nil {
		return fmt.Errorf("read the history that is handed over: %w", err)
	}
	h.taken = book.corrections()
	if err := h.demonstrations(p.ID); err != nil {
		return err
	}
	if err := h.decisions(p.ID); err != nil {
		return err
	}
	slices.SortStableFunc(h.body.Entries, func(a, b handover.Entry) int {
		return cmp.Or(strings.Compare(a.On, b.On), strings.Compare(a.Written, b.Written))
	})
	rows, err := o.foldPerson(h.ctx, h.tx, h.now, p, h.now.Today)
	if err != nil {
		return err
	}
	for _, r := range rows {
		how := howItStood[r.Word]
		if how == "" {
			continue // nothing was shown of it
		}
		h.body.Held = append(h.body.Held, handover.Held{Skill: r.Skill.Code, Title: r.Skill.Title, Child: h.child(r.Client.ID), How: how, Since: dayText(r.Since), Through: dayText(r.Through)})
	}
	return nil
}

// howItStood says a standing in words that stay true on every later day.
var howItStood = map[assessment.StandingWord]string{assessment.Current: handover.WasHeld, assessment.Due: handover.WasHeld, assessment.Lapsed: handover.HadLapsed,
	assessment.Withdrawn: handover.WasWithdrawn, assessment.Waived: handover.WasWaived, assessment.Learning: handover.WasLearning}

func dayText(d civil.Date) string {
	if d.IsZero() {
		return ""
	}
	return d.String()
}

// prove adds the head and what the ledger has of each entry.
func (h *handing) prove(o *Office) (waiting bool, err error) {
	var keys []postgres.RowKey
	for _, e := range h.body.Entries {
		for _, r := range e.Rows() {
			keys = append(keys, postgres.RowKey(r))
		}
	}
	head, err := o.newestHead(h.ctx, h.tx, h.now)
	if fault.KindOf(err) == fault.NotFound { // nothing is sealed yet
		return true, nil
	}
	if err != nil {
		return false, err
	}
	// By the key that signs the file too: they may have been swapped since it was sealed.
	signed, err := head.Head.Sign(o.opt.Ledger.Signer())
	if err != nil {
		return false, err
	}
	h.body.Head = string(signed)
	if len(keys) == 0 {
		return false, nil
	}
	if waiting, err = h.tx.Ledger.Waits(h.ctx, keys); err != nil || waiting {
		return waiting, err
	}
	leaves, err := h.tx.Ledger.Of(h.ctx, keys)
	if err != nil {
		return false, fmt.Errorf("read what the ledger has of a handover: %w", err)
	}
	entries, err := receipts(h.ctx, h.tx, head, leaves)
	if err != nil {
		return false, err
	}
	proofs := map[handover.Row][]handover.Proof{}
	for _, e := range entries {
		row := handover.Row{Kind: e.Kind, Subject: e.Subject}
		p := handover.Proof{Position: e.Position, Path: e.Receipt.Path}
		if p.Leaf, err = handover.ReadLeaf(e.Receipt.Leaf); err != nil {
			return false, err
		}
		proofs[row] = append(proofs[row], p)
	}
	for i, e := range h.body.Entries {
		for _, r := range e.Rows() {
			h.body.Entries[i].Proofs = append(h.body.Entries[i].Proofs, proofs[r]...)
		}
	}
	return false, nil
}
