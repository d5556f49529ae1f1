package office

import (
	"context"
	"strings"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// ExceptionForm is what every recorded exception asks for. The signer is asked
// again.
type ExceptionForm struct {
	ID     string // made by whoever sends it, so that sending twice is harmless; empty: made here
	Person assessment.PersonID
	Skill  string // code
	Client assessment.ClientID
	Reason string
	Proof  Proof
}

// key finds whose case the form speaks of.
func (o *Office) key(ctx context.Context, tx *postgres.Tx, f ExceptionForm) (assessment.CaseKey, error) {
	var faults form
	faults.reason(f.Reason, "Say why. It stays with the record.")
	return o.keyOf(ctx, tx, f, &faults)
}

// keyOf is key for a form of which something was asked already.
func (o *Office) keyOf(ctx context.Context, tx *postgres.Tx, f ExceptionForm, faults *form) (assessment.CaseKey, error) {
	skill, err := tx.Checklists.SkillByCode(ctx, f.Skill)
	if err != nil {
		faults.Add("skill", "Choose the skill.")
		return assessment.CaseKey{}, faults.Err()
	}
	key := assessment.CaseKey{Person: f.Person, Skill: skill.ID}
	if skill.Scope == assessment.ClientSpecific {
		if f.Client == "" {
			faults.Add("client", "This skill is held for one child. Choose the child.")
		}
		key.Client = f.Client
	}
	if err := faults.Err(); err != nil {
		return key, err
	}
	_, err = tx.People.Get(ctx, f.Person)
	return key, err
}

// reason is why something is recorded. It must be given.
func (f *form) reason(typed, missing string) {
	if !assessment.Says(f.words("reason", typed, 2000)) {
		f.Add("reason", "%s", missing)
	}
}

// signed is what is signed now; sent is the id that came with the form, empty for none.
func (o *Office) signed(now Moment, by assessment.Actor, sent, reason string) (postgres.Signed, error) {
	id, err := idOr[assessment.RecordID](o, sent, now.At)
	return postgres.Signed{ID: id, At: now.At, Reason: strings.TrimSpace(reason), SignedBy: by.Person, PrintedName: by.Name}, err
}

// sentBefore reports whether the form with this id was taken in already, and
// refuses an id that names something else or the same with other words: whoever
// sends it must not believe that more was done than was. Others who change the
// history wait.
func (o *Office) sentBefore(ctx context.Context, tx *postgres.Tx, f ExceptionForm, key assessment.CaseKey, same func(postgres.Happening) bool) (bool, error) {
	if err := tx.History.Lock(ctx, f.Person); err != nil {
		return false, err
	}
	if f.ID == "" {
		return false, nil
	}
	made, err := tx.Exceptions.Happenings(ctx, f.Person)
	if err != nil {
		return false, err
	}
	for _, h := range made {
		if string(h.ID) != f.ID {
			continue
		}
		if h.Skill == key.Skill && h.Client == key.Client && h.Reason == strings.TrimSpace(f.Reason) && same(h) {
			return true, sentButTakenBack(h.TakenBack)
		}
	}
	return false, o.idIsFree(ctx, tx, f.ID)
}

// sentButTakenBack refuses what was sent before and does nothing any more.
func sentButTakenBack(at *time.Time) error {
	if at == nil {
		return nil
	}
	return fault.Of(fault.Conflict, "What this form recorded was taken back since, so it does nothing now. Open the form anew, and record it once more if it is right.")
}

// idIsFree refuses an id under which something is kept already.
func (o *Office) idIsFree(ctx context.Context, tx *postgres.Tx, id string) error {
	known, err := tx.Exceptions.Knows(ctx, id)
	if err == nil && known {
		return fault.Of(fault.Conflict, "There is another record under this id.")
	}
	return err
}

// Reinstate lifts a withdrawal that waits for it.
func (o *Office) Reinstate(ctx context.Context, by assessment.Actor, withdrawal assessment.RecordID, reason string, proof Proof) error {
	proof = proof.over(withdrawal, reason)
	look := func(tx *postgres.Tx, _ Moment) (assessment.PersonID, error) {
		var f form
		f.reason(reason, "Say why. It stays with the record.")
		if err := f.Err(); err != nil {
			return "", err
		}
		key, err := mayReinstate(ctx, tx, by, withdrawal)
		if err != nil {
			return "", err
		}
		return by.Person, proof.tell(func() (string, error) { return o.saysReinstate(ctx, tx, key, reason) })
	}
	return o.signing(ctx, by, assessment.Reinstate, proof, look, func(tx *postgres.Tx, now Moment) error {
		key, err := mayReinstate(ctx, tx, by, withdrawal)
		if err != nil {
			return err
		}
		s, err := o.signed(now, by, "", reason)
		if err != nil {
			return err
		}
		if err := tx.Exceptions.AddReinstatement(ctx, withdrawal, s); err != nil {
			return err
		}
		if err := o.note(ctx, tx, now, by, assessment.Reinstate, "reinstatement", string(s.ID)); err != nil {
			return err
		}
		return o.reindexPerson(ctx, tx, now, key.Person)
	})
}

// mayReinstate is the case of a withdrawal that is lifted by a reinstatement, by
// somebody else than whom it concerns.
func mayReinstate(ctx context.Context, tx *postgres.Tx, by assessment.Actor, withdrawal assessment.RecordID) (assessment.CaseKey, error) {
	key, until, err := tx.Exceptions.WithdrawnKey(ctx, withdrawal)
	switch {
	case err != nil:
		return key, err
	case until != assessment.Reinstated:
		return key, fault.Of(fault.Refused, "This withdrawal is lifted by a new demonstration on a later day, not by a reinstatement.")
	case key.Person == by.Person:
		return key, fault.Of(fault.Refused, "You cannot reinstate yourself. Ask a colleague.")
	}
	return key, nil
}

// Waive excuses somebody from holding a skill from a day through a day. It makes
// nobody current and covers no shift.
func (o *Office) Waive(ctx context.Context, by assessment.Actor, form ExceptionForm, from, through string) error {
	first, last, wrong := daysOf(from, through)
	proof := form.Proof.over(form, from, through)
	look := func(tx *postgres.Tx, _ Moment) (assessment.PersonID, error) {
		if wrong != nil {
			return "", wrong
		}
		key, err := o.key(ctx, tx, form)
		if err != nil {
			return "", err
		}
		if form.Person == by.Person {
			return "", fault.Of(fault.Refused, "You cannot waive your own requirement. Ask a colleague.")
		}
		return by.Person, proof.tell(func() (string, error) { return o.saysWaive(ctx, tx, key, first, last, form.Reason) })
	}
	return o.signing(ctx, by, assessment.Waive, proof, look, func(tx *postgres.Tx, now Moment) error {
		key, err := o.key(ctx, tx, form)
		if err != nil {
			return err
		}
		before, err := o.sentBefore(ctx, tx, form, key, func(h postgres.Happening) bool {
			return h.Kind == assessment.WaiverEntry && h.FromOn == first && h.ThroughOn == last
		})
		if before || err != nil {
			return err
		}
		s, err := o.signed(now, by, form.ID, form.Reason)
		if err != nil {
			return err
		}
		if err := tx.Exceptions.AddWaiver(ctx, postgres.Waiver{Signed: s, Key: key, From: first, Through: last}); err != nil {
			return err
		}
		if err := o.note(ctx, tx, now, by, assessment.Waive, "waiver", string(s.ID)); err != nil {
			return err
		}
		return o.reindexPerson(ctx, tx, now, form.Person)
	})
}

// daysOf reads the first and the last day of a waiver.
func daysOf(from, through string) (first, last civil.Date, err error) {
	var faults fault.Fields
	first, err = civil.Parse(from)
	faults.Take("from", err)
	last, err = civil.Parse(through)
	faults.Take("through", err)
	if faults.Err() == nil && last.Before(first) {
		faults.Add("through", "The last day is before the first.")
	}
	return first, last, faults.Err()
}
