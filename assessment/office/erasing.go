package office

import (
	"context"
	"fmt"
	"strings"
	"time"
	"unicode/utf8"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// ErasureForm asks that what is held about somebody be erased.
type ErasureForm struct {
	ID     string // made by whoever sends it, so that sending twice is harmless; empty: made here
	Person assessment.PersonID
	Client assessment.ClientID // one of the two
	Reason string              // stays, so it must not hold the name
}

// AskErasure writes down that somebody asks for an erasure, and why. Nothing is
// erased by it: that takes another person.
func (o *Office) AskErasure(ctx context.Context, by assessment.Actor, f ErasureForm) (ErasureView, error) {
	var v ErasureView
	err := o.as(ctx, by, assessment.AskErasure, func(tx *postgres.Tx, now Moment) error {
		if (f.Person == "") == (f.Client == "") {
			return faultAt("about", "Choose whose records are to be erased.")
		}
		if err := tx.Erasures.Lock(ctx, f.Person, f.Client); err != nil {
			return err
		}
		if kept, err := askedBefore(ctx, tx, by, f); err != nil || kept.ID != "" {
			v = viewErasure(by, kept)
			return err
		}
		who, err := mayBeErased(ctx, tx, now, f.Person, f.Client)
		if err != nil {
			return err
		}
		n, err := o.readErasure(by, now, f, who.Name)
		if err != nil {
			return err
		}
		if err := tx.Erasures.Add(ctx, n); err != nil {
			return err
		}
		v = viewErasure(by, n)
		return o.note(ctx, tx, now, by, assessment.AskErasure, "erasure", string(n.ID))
	})
	return v, err
}

func (o *Office) readErasure(by assessment.Actor, now Moment, f ErasureForm, name string) (postgres.Erasure, error) {
	var faults form
	n := postgres.Erasure{PersonID: f.Person, ClientID: f.Client, Name: name, AskedBy: by.Person, Asker: by.Name, AskedAt: now.At, Reason: faults.words("reason", f.Reason, 2000)}
	faults.reason(f.Reason, "Say why. It stays when all the rest is gone.")
	if word := wordOf(n.Reason, name); word != "" {
		faults.Add("reason", "Leave the name out (%s): the reason stays when all the rest is gone.", word)
	}
	if err := faults.Err(); err != nil {
		return n, err
	}
	var err error
	n.ID, err = idOr[assessment.ErasureID](o, f.ID, now.At)
	return n, err
}

// wordOf is a word of a name that stands in a text; shorter ones are no sign of it.
func wordOf(text, name string) string {
	text = strings.ToLower(text)
	for _, word := range strings.FieldsFunc(name, func(r rune) bool { return r == ' ' || r == ',' }) {
		if utf8.RuneCountInString(word) >= 3 && strings.Contains(text, strings.ToLower(word)) {
			return word
		}
	}
	return ""
}

// askedBefore finds what was asked for already: the same sent twice is harmless,
// anything else about the same one waits for its verdict.
func askedBefore(ctx context.Context, tx *postgres.Tx, by assessment.Actor, f ErasureForm) (postgres.Erasure, error) {
	all, err := tx.Erasures.All(ctx)
	for _, e := range all {
		same := e.PersonID == f.Person && e.ClientID == f.Client
		switch {
		case f.ID != "" && string(e.ID) == f.ID && same && e.AskedBy == by.Person && e.Reason == strings.TrimSpace(f.Reason):
			return e, nil
		case f.ID != "" && string(e.ID) == f.ID:
			return postgres.Erasure{}, fault.Of(fault.Conflict, "Another erasure was asked for under this id already.")
		case same && e.Verdict == "":
			return postgres.Erasure{}, fault.Of(fault.Conflict, "%s has asked for this erasure already. It waits for a second person.", e.Asker)
		}
	}
	return postgres.Erasure{}, err
}

// mayBeErased refuses who is still here, who was erased, and whatever is to be kept
// for longer.
func mayBeErased(ctx context.Context, tx *postgres.Tx, now Moment, person assessment.PersonID, client assessment.ClientID) (postgres.Ended, error) {
	who, err := tx.Erasures.Ended(ctx, person, client)
	if err != nil {
		return who, err
	}
	kept, err := retention(ctx, tx)
	if err != nil {
		return who, err
	}
	switch {
	case who.Erased:
		return who, fault.Of(fault.Refused, "What was held here has been erased already.")
	case !gone(who.LeftOn, now.Today) && client != "":
		return who, fault.Of(fault.Refused, "%s is still served. Only what is held about somebody who has left can be erased. Nothing has been erased.", who.Name)
	case !gone(who.LeftOn, now.Today):
		return who, fault.Of(fault.Refused, "%s is still with the agency. Only what is held about somebody who has left can be erased. Nothing has been erased.", who.Name)
	case kept.Years == 0:
		return who, fault.Of(fault.Refused, "This agency keeps everything for ever. An administrator can set for how many years instead, %d at least. Nothing has been erased.", assessment.RetentionFloor)
	case !kept.MayErase(who.LastOn, now.Today):
		return who, fault.Of(fault.Refused, "What is held about %s was last in effect on %s and is kept for %d years, through %s. Ask again after that. Nothing has been erased.",
			who.Name, who.LastOn, kept.Years, kept.Through(who.LastOn))
	}
	return who, nil
}

// CarryOutErasure takes the content of all that is held about somebody: names, words,
// addresses, secrets. It takes another person than asked, and cannot be undone. Ids,
// days, verdicts and hashes stay, so that the ledger still proves what was there and
// no standing of anybody else changes.
func (o *Office) CarryOutErasure(ctx context.Context, by assessment.Actor, id assessment.ErasureID, proof Proof) (ErasureView, error) {
	var v ErasureView
	may := func(tx *postgres.Tx, now Moment) (postgres.Erasure, error) {
		e, err := tx.Erasures.Get(ctx, id)
		switch {
		case err != nil:
			return e, err
		case e.Verdict != "":
			return e, fault.Of(fault.Conflict, "This erasure has been decided already: %s.", e.Verdict)
		case e.AskedBy == by.Person:
			return e, fault.Of(fault.Refused, "You have asked for this erasure yourself. It takes another administrator to carry it out. Nothing has been erased.")
		}
		_, err = mayBeErased(ctx, tx, now, e.PersonID, e.ClientID)
		return e, err
	}
	proof = proof.over("erase", id)
	look := func(tx *postgres.Tx, now Moment) (signers, error) {
		e, err := may(tx, now)
		if err != nil {
			return signers{}, err
		}
		if err := secondPerson(ctx, tx, now, by.Person, e.AskedBy, e.AskedAt, "You cannot carry out what "+e.Asker+" has asked for"); err != nil {
			return signers{}, err
		}
		return signers{signer: by.Person, others: []assessment.PersonID{e.AskedBy}}, proof.tell(func() (string, error) {
			return because(fmt.Sprintf("Erase for good what is held about %s, as %s asked", e.Name, e.Asker), e.Reason), nil
		})
	}
	err := o.signingBeside(ctx, by, assessment.EraseHeld, proof, look, func(tx *postgres.Tx, now Moment) error {
		e, err := tx.Erasures.Get(ctx, id)
		if err != nil {
			return err
		}
		if err := tx.Erasures.Lock(ctx, e.PersonID, e.ClientID); err != nil {
			return err
		}
		if _, err := may(tx, now); err != nil {
			return err
		}
		if err := o.carryOut(ctx, tx, now, by, e); err != nil {
			return err
		}
		e, err = tx.Erasures.Get(ctx, id)
		v = viewErasure(by, e)
		return err
	})
	return v, err
}

// carryOut waits for whoever changes the history of a person, or of everybody for a
// client: what they are about to write would be left out.
func (o *Office) carryOut(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, e postgres.Erasure) error {
	if err := tx.History.LockAll(ctx); err != nil {
		return err
	}
	if err := tx.Erasures.End(ctx, e.ID, assessment.CarriedOut, by.Person, now.At); err != nil {
		return err
	}
	if _, err := tx.Erasures.Erase(ctx, e.ID); err != nil {
		return err
	}
	if err := tx.Packets.Forget(ctx, now.At.Add(time.Hour)); err != nil { // all of them: asking again is cheap
		return err
	}
	return o.note(ctx, tx, now, by, assessment.EraseHeld, "erasure", string(e.ID))
}

// DropErasure ends one that was asked for without erasing anything: whoever asked
// takes it back, anybody else who may refuses it.
func (o *Office) DropErasure(ctx context.Context, by assessment.Actor, id assessment.ErasureID) (ErasureView, error) {
	var v ErasureView
	err := o.as(ctx, by, assessment.AskErasure, func(tx *postgres.Tx, now Moment) error {
		e, err := tx.Erasures.Get(ctx, id)
		if err != nil {
			return err
		}
		verdict := assessment.NotErased
		if e.AskedBy == by.Person {
			verdict = assessment.TakenBackAsk
		}
		if e.Verdict == "" {
			if err := tx.Erasures.End(ctx, id, verdict, by.Person, now.At); err != nil {
				return err
			}
			if err := o.note(ctx, tx, now, by, assessment.AskErasure, "erasure "+string(verdict), string(id)); err != nil {
				return err
			}
		} else if e.Verdict != verdict {
			return fault.Of(fault.Conflict, "This erasure has been decided already: %s.", e.Verdict)
		}
		e, err = tx.Erasures.Get(ctx, id)
		v = viewErasure(by, e)
		return err
	})
	return v, err
}
