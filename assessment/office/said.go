package office

import (
	"context"
	"fmt"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/postgres"
)

// What somebody signs is told to them in words before a passkey signs it: what is
// done, about whom, from when and why, as it was typed.

// tell puts the words together where a passkey is asked for; nobody else reads them.
func (p Proof) tell(words func() (string, error)) error {
	if p.Passkey != AskPasskey {
		return nil
	}
	says, err := words()
	p.of.Says = says
	return err
}

// because ends what is signed with why it is done.
func because(what, reason string) string { return what + ": " + strings.TrimSpace(reason) }

// named is the skill of a case with the child that it is held for, and whose it is.
func (o *Office) named(ctx context.Context, tx *postgres.Tx, key assessment.CaseKey) (skill, person string, err error) {
	s, err := tx.Checklists.Skill(ctx, key.Skill)
	if err != nil {
		return "", "", err
	}
	skill = s.Title
	if key.Client != "" {
		c, err := tx.Clients.Get(ctx, key.Client)
		if err != nil {
			return "", "", err
		}
		skill += " for " + c.FirstName + ", " + c.Code + ","
	}
	p, err := tx.People.Get(ctx, key.Person)
	return skill, p.Name, err
}

func (o *Office) saysWithdraw(ctx context.Context, tx *postgres.Tx, key assessment.CaseKey, until assessment.Until, related bool, reason string) (string, error) {
	skill, person, err := o.named(ctx, tx, key)
	what := fmt.Sprintf("Withdraw %s of %s from today", skill, person)
	if related {
		what += ", and the related skills"
	}
	if until == assessment.Reinstated {
		what += ", until it is reinstated"
	} else {
		what += ", until it is shown again"
	}
	return because(what, reason), err
}

func (o *Office) saysReinstate(ctx context.Context, tx *postgres.Tx, key assessment.CaseKey, reason string) (string, error) {
	skill, person, err := o.named(ctx, tx, key)
	return because(fmt.Sprintf("Reinstate %s of %s from today", skill, person), reason), err
}

func (o *Office) saysWaive(ctx context.Context, tx *postgres.Tx, key assessment.CaseKey, from, through civil.Date, reason string) (string, error) {
	skill, person, err := o.named(ctx, tx, key)
	return because(fmt.Sprintf("Waive %s of %s from %s through %s", skill, person, inWordsOf(from), inWordsOf(through)), reason), err
}

// says names what is taken back as it was written down.
func (f TakeBackForm) says(ctx context.Context, o *Office, tx *postgres.Tx, now Moment, whose assessment.PersonID) (string, error) {
	p, err := tx.People.Get(ctx, whose)
	if err != nil {
		return "", err
	}
	what := "a " + string(f.Kind)
	switch f.Kind {
	case assessment.CardEntry:
		what, err = cardInWords(ctx, tx, whose, f.ID)
	case postgres.LicenceEntry:
		what, err = licenceInWords(ctx, tx, whose, f.ID)
	default:
		what, err = o.happeningInWords(ctx, tx, now, whose, f.ID)
	}
	return because(fmt.Sprintf("Take back %s of %s, from today as if it had never been", what, p.Name), f.Reason), err
}

func cardInWords(ctx context.Context, tx *postgres.Tx, whose assessment.PersonID, id assessment.RecordID) (string, error) {
	cards, err := tx.Qualifications.Cards(ctx, whose)
	for _, c := range cards {
		if c.ID == id {
			return fmt.Sprintf("the resuscitation card by %s, through %s,", c.Issuer, inWordsOf(c.ThroughOn)), err
		}
	}
	return "a resuscitation card", err
}

func licenceInWords(ctx context.Context, tx *postgres.Tx, whose assessment.PersonID, id assessment.RecordID) (string, error) {
	licences, err := tx.Qualifications.Licences(ctx, whose)
	for _, l := range licences {
		if l.ID == id {
			return fmt.Sprintf("the licence %s %s", l.Kind, l.Number), err
		}
	}
	return "a licence", err
}

func (o *Office) happeningInWords(ctx context.Context, tx *postgres.Tx, now Moment, whose assessment.PersonID, id assessment.RecordID) (string, error) {
	made, err := tx.Exceptions.Happenings(ctx, whose)
	for _, h := range made {
		if h.ID == id {
			skill, _, err := o.named(ctx, tx, assessment.CaseKey{Person: whose, Skill: h.Skill, Client: h.Client})
			return fmt.Sprintf("the %s in %s written down on %s,", h.Kind, skill, inWordsOf(civil.DayOf(h.At, now.Zone))), err
		}
	}
	return "what was written down", err
}

// inWordsOf is a day as people write it.
func inWordsOf(d civil.Date) string { return d.Format("2 Jan 2006") }

// recordInWords names a record by what was shown, by whom and when, and what came of it.
func recordInWords(d postgres.Demonstration, now Moment) string {
	return fmt.Sprintf("%s, shown by %s on %s: %s", d.Title, d.Learner, d.PerformedAt.In(now.Zone).Format("2 Jan 2006, 15:04 MST"), d.Outcome)
}

// saysAgree tells what comes in force by the second of two, and who was the first.
func saysAgree(p postgres.ForceProposal, r postgres.Revision) string {
	what := fmt.Sprintf("Put revision %d of %s in force", r.Number, r.Title)
	if !p.RecheckOn.IsZero() {
		what += ", to be shown anew by " + inWordsOf(p.RecheckOn)
	}
	return because(what+", as "+p.Proposer+" proposed", p.Statement)
}

// says tells what is proposed to come in force, and what it asks of who holds the skill already.
func (f PutInForceForm) says(r postgres.Revision, recheck civil.Date) string {
	what := fmt.Sprintf("Propose to put revision %d of %s in force", r.Number, r.Title)
	if !recheck.IsZero() {
		what += ", to be shown anew by " + inWordsOf(recheck)
	}
	return because(what, f.Statement)
}
