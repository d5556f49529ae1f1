package office

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/phrase"
	"wellshown/assessment/postgres"
)

// The two parts of a sign-off and what each signature means.
const (
	PartObserver    = "observer"
	PartLearner     = "learner"
	MeaningObserver = "I observed and judged this."
	MeaningLearner  = "I showed this and we talked it over."
)

// SignForm is one signature. The signer is asked again: the proof is that of
// whoever signs. A learner may sign on the observer's device.
type SignForm struct {
	Demonstration assessment.DemonstrationID
	Part          string
	Proof         Proof
}

// Sign adds one of the two signatures. The last one of a competent, formal
// demonstration brings the certificate where it awards or renews a competency.
// Signing the same part twice is harmless.
func (o *Office) Sign(ctx context.Context, by assessment.Actor, form SignForm) (DemonstrationView, error) {
	var v DemonstrationView
	whose := func(tx *postgres.Tx) (d postgres.Demonstration, signer assessment.PersonID, err error) {
		if d, err = tx.Demonstrations.Get(ctx, form.Demonstration); err == nil {
			signer, err = form.signer(by, d)
		}
		return d, signer, err
	}
	proof := form.Proof.over(form)
	look := func(tx *postgres.Tx, now Moment) (signers, error) {
		d, signer, err := whose(tx)
		proof.of.Body, proof.of.Says, proof.of.Bare = d.BodySHA256, form.says(d, now), form.Part == PartLearner
		proof.of.Phrase = form.phrase(d, now)
		return signers{signer: signer, others: []assessment.PersonID{d.LearnerID, d.ObserverID}}, err
	}
	err := o.signingBeside(ctx, by, assessment.SignRecord, proof, look, func(tx *postgres.Tx, now Moment) error {
		d, signer, err := whose(tx)
		if err != nil {
			return err
		}
		if err := o.sign(ctx, tx, now, by, d, form.Part, signer); err != nil {
			return err
		}
		v, err = o.viewDemonstration(ctx, tx, now, d)
		return err
	})
	return v, err
}

// signer is whose signature a part needs, and refuses whoever may not give it.
func (f SignForm) signer(by assessment.Actor, d postgres.Demonstration) (assessment.PersonID, error) {
	if by.Person != d.LearnerID && by.Person != d.ObserverID {
		return "", notFound()
	}
	if d.CorrectedAt != nil {
		return "", takenBack()
	}
	switch f.Part {
	case PartObserver:
		if by.Person != d.ObserverID {
			return "", fault.Of(fault.Forbidden, "Only %s, who observed this, signs as the observer.", d.Observer)
		}
		return d.ObserverID, nil
	case PartLearner:
		return d.LearnerID, nil
	}
	return "", fault.Of(fault.Invalid, "A record is signed by its observer or its learner.")
}

// says is what a part's signature says, to be read before a passkey signs it.
func (f SignForm) says(d postgres.Demonstration, now Moment) string {
	meaning := MeaningLearner
	if f.Part == PartObserver {
		meaning = MeaningObserver
	}
	return fmt.Sprintf("%s. “%s”", recordInWords(d, now), meaning)
}

// phrase is says for a reader of another language.
func (f SignForm) phrase(d postgres.Demonstration, now Moment) phrase.Phrase {
	meaning := MeaningLearner
	if f.Part == PartObserver {
		meaning = MeaningObserver
	}
	at := d.PerformedAt.In(now.Zone)
	record := phrase.Of("%s, shown by %s on %s: %s.", phrase.Step(d.Title), d.Learner, phrase.Of("%s, %s", civil.DayOf(at, now.Zone), at.Format("15:04 MST")), assessment.Outcome(d.Outcome).Phrase())
	return phrase.Of("%s “%s”", record, phrase.Phrase{Format: meaning})
}

func takenBack() error {
	return fault.Of(fault.Refused, "This record has been taken back and can no longer be signed.")
}

func (o *Office) sign(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, d postgres.Demonstration, part string, signer assessment.PersonID) error {
	// Changes to one history take turns, so that the second of two signatures made
	// at once sees the first, and either sees that the record was taken back. The
	// observer's own history is what says whether their word counts.
	for _, person := range slices.Sorted(slices.Values([]assessment.PersonID{d.LearnerID, d.ObserverID})) {
		if err := tx.History.Lock(ctx, person); err != nil {
			return err
		}
	}
	if corrected, err := tx.Demonstrations.Corrected(ctx, d.ID); err != nil || corrected {
		return cmp.Or(err, takenBack())
	}
	signed, err := tx.SignOffs.Of(ctx, d.ID)
	if err != nil {
		return err
	}
	for _, s := range signed {
		if s.Part == part {
			return nil
		}
	}
	s, err := o.signature(ctx, tx, now, d, part, signer)
	if err != nil {
		return err
	}
	if err := tx.SignOffs.Add(ctx, s); err != nil {
		return err
	}
	if err := o.note(ctx, tx, now, by, assessment.SignRecord, "signature "+part, string(d.ID)); err != nil {
		return err
	}
	known, err := o.reindexLocked(ctx, tx, now, d.LearnerID, d.SkillID)
	if err != nil || len(signed) == 0 {
		return err
	}
	return o.certify(ctx, tx, now, d, known)
}

// signature is one signature as it is printed ever after: name, licence, meaning,
// instant and zone.
func (o *Office) signature(ctx context.Context, tx *postgres.Tx, now Moment, d postgres.Demonstration, part string, signer assessment.PersonID) (postgres.Signature, error) {
	person, err := tx.People.Get(ctx, signer)
	if err != nil {
		return postgres.Signature{}, err
	}
	if d.Outcome == assessment.Competent && gone(person.LeftOn, now.Today) {
		return postgres.Signature{}, fault.Of(fault.Refused, "%s left the agency on %s. A pass is signed by people who are with it.", person.Name, person.LeftOn)
	}
	name, err := nameInRecord(d, part)
	if err != nil {
		return postgres.Signature{}, err
	}
	if d.Outcome == assessment.Competent && name != person.Name {
		return postgres.Signature{}, fault.Of(fault.Refused, "The record names %s, and the name here is %s by now. Nothing has been signed. "+
			"An administrator can set the name back under People until this is signed; or take the record back and have it shown anew.", name, person.Name)
	}
	s := postgres.Signature{DemonstrationID: d.ID, Part: part, PersonID: signer, PrintedName: name, Meaning: MeaningLearner,
		SignedAt: now.At, Zone: now.Zone.String(), BodySHA256: d.BodySHA256}
	if part == PartObserver {
		as := assessment.Actor{Roles: person.Roles} // as they are now, not as they were when the request came
		if d.Outcome == assessment.Competent && as.May(assessment.Observe) != nil {
			return s, fault.Of(fault.Refused, "You no longer observe demonstrations at this agency, so your word on a pass does not count. An administrator can say whether that is right.")
		}
		s.Meaning = MeaningObserver
		s.Licence, err = o.observersLicence(ctx, tx, now, d)
	}
	return s, err
}

// nameInRecord is the name of whoever signs a part as the record itself has it: the
// one that is printed. What is no pass does not wait for a name to be set right.
func nameInRecord(d postgres.Demonstration, part string) (string, error) {
	b, err := readBody(d.Body)
	if part == PartObserver {
		return b.Observer.Name, err
	}
	return b.Learner.Name, err
}

// observersLicence asks the rules twice: the observer's word must have counted on
// the day of the performance, and must still count on the day of signing. A
// negative needs less: it must not wait for somebody's paper.
func (o *Office) observersLicence(ctx context.Context, tx *postgres.Tx, now Moment, d postgres.Demonstration) (string, error) {
	seen, err := o.loadObservation(ctx, tx, now, d.ObserverID, d.LearnerID)
	if err != nil {
		return "", err
	}
	if d.Outcome == assessment.Competent {
		days := []civil.Date{civil.DayOf(d.PerformedAt, now.Zone), now.Today}
		if err := o.mayObserveAsSeen(ctx, tx, now, seen, d.SkillID, days...); err != nil {
			return "", err
		}
	}
	if len(seen.Licences) == 0 {
		return "", errors.New("an observer without any licence on file has recorded a demonstration")
	}
	return asPrinted(seen.Licences, now.Today), nil
}

// asPrinted is the licence that a signature of this day stands with: one that is
// current, or else one that is not, and says so.
func asPrinted(all []assessment.Licence, on civil.Date) string {
	for _, l := range all {
		if l.CurrentOn(on) {
			return strings.TrimSpace(l.Kind + " " + l.Number)
		}
	}
	for _, l := range all {
		return strings.TrimSpace(l.Kind+" "+l.Number) + " (not current)"
	}
	return ""
}
