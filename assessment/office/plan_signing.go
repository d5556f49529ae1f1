package office

import (
	"context"
	"fmt"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/phrase"
	"wellshown/assessment/postgres"
)

// PlanMeaning is what a clinician's signature under a whole plan means.
var PlanMeaning = phrase.Of("I have read this plan. All that it asks for is in place, or waived by name.").String()

// PlanSignForm signs a child's whole plan as ready.
type PlanSignForm struct {
	ID      string // made by whoever sends it, so that sending twice is harmless; empty: made here
	Client  assessment.ClientID
	Version string // of what was read, as a ReadinessView tells it
	Proof   Proof
}

// PlanSigned is the newest signature under a plan.
type PlanSigned struct {
	ID      assessment.RecordID
	By      string // printed name
	Licence string
	Meaning string
	At      time.Time // on the agency's clocks
	Stands  bool      // nothing has changed since, and all is still in place
}

// SignPlan keeps a licensed clinician's signature that all of a plan is in place, of the
// version that they read. It makes nothing ready that is not, and is shown as standing
// only for as long as nothing changes.
func (o *Office) SignPlan(ctx context.Context, by assessment.Actor, form PlanSignForm) error {
	proof := form.Proof.over(form.ID, form.Client, form.Version)
	look := func(tx *postgres.Tx, now Moment) (assessment.PersonID, error) {
		v, _, err := o.signable(ctx, tx, now, by, form)
		if err != nil {
			return "", err
		}
		return by.Person, proof.tell(func() (string, error) {
			return fmt.Sprintf("Sign the plan of %s, %s, for going home as ready: %s", v.Client.FirstName, v.Client.Code, PlanMeaning), nil
		})
	}
	return o.signing(ctx, by, assessment.SignReadiness, proof, look, func(tx *postgres.Tx, now Moment) error {
		if _, err := tx.Clients.Lock(ctx, form.Client); err != nil {
			return err
		}
		_, body, err := o.signable(ctx, tx, now, by, form)
		if err != nil {
			return err
		}
		s := postgres.PlanSignature{Client: form.Client, Body: body, Meaning: PlanMeaning, At: now.At, SignedBy: by.Person, PrintedName: by.Name}
		if s.ID, err = idOr[assessment.RecordID](o, form.ID, now.At); err != nil {
			return err
		}
		if s.Licence, err = printedLicence(ctx, tx, now, by.Person); err != nil {
			return err
		}
		before, err := tx.Plans.SignedBefore(ctx, s.ID)
		if err != nil {
			return err
		}
		for _, k := range before {
			if k.Client == s.Client && k.SignedBy == s.SignedBy && k.Body == s.Body {
				return nil
			}
			return fault.Of(fault.Conflict, "There is another signature under this id. Open the page anew and sign there.")
		}
		if err := tx.Plans.Sign(ctx, s); err != nil {
			return err
		}
		return o.note(ctx, tx, now, by, assessment.SignReadiness, "plan_signature", string(s.ID))
	})
}

// signable is the plan with what is signed of it, if it can be signed as it was read.
func (o *Office) signable(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, form PlanSignForm) (ReadinessView, string, error) {
	p, err := o.planned(ctx, tx, now, form.Client, civil.DayOf(now.At, now.Zone))
	if err != nil {
		return ReadinessView{}, "", err
	}
	if err := o.mustBeLicensed(ctx, tx, by, now); err != nil {
		return ReadinessView{}, "", err
	}
	v, err := p.answer(now, now.At)
	switch {
	case err != nil:
		return v, "", err
	case v.Version != form.Version:
		return v, "", fault.Of(fault.Conflict, "Something about this plan has changed since you read it. Read it as it is now, then sign. Nothing has been signed.")
	case !v.Ready:
		return v, "", fault.Of(fault.Refused, "This plan is not ready, so it cannot be signed as ready: %d of %d things are left. Nothing has been signed.", v.Left(), len(v.Lines))
	}
	return v, v.body, nil
}

// SignatureStands reports whether a licensed clinician has signed the plan as ready, and
// nothing has changed since. Until then all may be in place, and the child is not yet said
// to be ready.
func (v ReadinessView) SignatureStands() bool { return v.Signed != nil && v.Signed.Stands }

// Finding is the answer as a sentence. It counts things and never weighs them, and calls a
// child ready only where a clinician has signed.
func (v ReadinessView) Finding() phrase.Phrase {
	all, left, waived := len(v.Lines), v.Left(), 0
	for _, l := range v.Lines {
		if l.State == assessment.StateWaived {
			waived++
		}
	}
	switch {
	case all == 0:
		return phrase.Of("Not yet: the plan for going home is still empty")
	case all == 1 && left == 1:
		return phrase.Of("Not yet: the one thing on the plan is left")
	case left > 0 || !v.Ready:
		return phrase.Count(left, "Not yet: one of %[2]d things is left", "Not yet: %d of %d things are left", all)
	case waived > 0 && v.SignatureStands():
		return phrase.Count(waived, "Ready: %[2]d of %[3]d things are in place and one is waived", "Ready: %[2]d of %[3]d things are in place and %[1]d are waived", all-waived, all)
	case waived > 0:
		return phrase.Count(waived, "Still to be signed: %[2]d of %[3]d things are in place and one is waived", "Still to be signed: %[2]d of %[3]d things are in place and %[1]d are waived", all-waived, all)
	case v.SignatureStands():
		return phrase.Of("Ready: everything on the list is in place")
	}
	return phrase.Of("Still to be signed: everything on the list is in place")
}

// signedNow is the newest signature under the plan, held to what the plan says now.
func (p *planned) signedNow(v ReadinessView, now Moment) *PlanSigned {
	s := p.signature
	if s == nil {
		return nil
	}
	return &PlanSigned{ID: s.ID, By: s.PrintedName, Licence: s.Licence, Meaning: s.Meaning, At: s.At.In(now.Zone), Stands: v.Ready && s.Body == v.body}
}
