package office_test

import (
	"strings"
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/assessment/postgres"
	"wellshown/integration/ward"
)

// Whoever signs with a passkey reads what they sign before they do: the act, the
// person, the skill and the reason, and with which name, licence and instant it will
// stand (21 CFR 11.50(a), as good practice).
func TestWhatAPasskeySignsIsSaidInWords(t *testing.T) {
	w, mira, nan := quick(t, "humidifier")
	edda, rolf := w.Educators[0], w.Educators[1]
	addPasskey(t, w, edda)
	addPasskey(t, w, rolf)
	v := w.Award(nan, "humidifier", mira)
	reads := func(err error, who assessment.Actor, want ...string) {
		t.Helper()
		q := asked(t, err)
		for _, words := range want {
			if !strings.Contains(q.Says, words) {
				t.Errorf("%q does not say %q", q.Says, words)
			}
		}
		if q.Signer != who.Name || !strings.HasPrefix(q.Licence, "RN W-") || !q.At.Equal(w.Now()) || q.Zone == nil || q.Zone.String() != w.Zone.String() {
			t.Errorf("signed as %q, %q, at %s in %s", q.Signer, q.Licence, q.At, q.Zone)
		}
	}
	form := about(nan, "humidifier", mira)
	form.Proof = askFirst
	reads(w.Office.Withdraw(t.Context(), edda, form, assessment.Reinstated, true), edda, "Withdraw "+v.Title, "for Mira, 7K", "of Nan Orme from today", "related", "until it is reinstated: Seen at home.")
	reads(w.Office.Withdraw(t.Context(), edda, form, assessment.Redemonstrated, false), edda, "until it is shown again: Seen at home.")
	reads(w.Office.Waive(t.Context(), edda, form, "2026-02-03", "2026-02-09"), edda, "Waive "+v.Title, "of Nan Orme from 3 Feb 2026 through 9 Feb 2026: Seen at home.")
	reads(w.Office.CorrectDemonstration(t.Context(), rolf, v.ID, "Wrong child.", askFirst), rolf, "Take back", v.Title, "shown by Nan Orme on", "competent", "Wrong child.")

	wantNone(t, w.Office.Withdraw(t.Context(), edda, about(nan, "humidifier", mira), assessment.Reinstated, false))
	made := withdrawal(t, w, nan, "humidifier", mira)
	reads(w.Office.Reinstate(t.Context(), rolf, made, "Seen to do it well.", askFirst), rolf, "Reinstate "+v.Title, "of Nan Orme from today: Seen to do it well.")
	reads(w.Office.TakeBack(t.Context(), rolf, office.TakeBackForm{Kind: assessment.WithdrawalEntry, ID: made, Reason: "It was another.", Proof: askFirst}), rolf,
		"Take back the withdrawal in "+v.Title, "of Nan Orme", "It was another.")

	draft := must(w.Office.DraftRevision(t.Context(), edda, skillOf(t, w, "humidifier")))(t)
	force := office.PutInForceForm{Revision: draft.ID, Version: draft.Version, Statement: "Read against the orders.", RecheckBy: "2026-06-30", Proof: askFirst}
	_, err := ward.Propose(t.Context(), w.Office, edda, force)
	reads(err, edda, "Propose to put revision", v.Title, "to be shown anew by 30 Jun 2026: Read against the orders.")
	force.Proof = ward.Proof
	proposed := must(ward.Propose(t.Context(), w.Office, edda, force))(t)
	reads(ward.Agree(t.Context(), w.Office, rolf, proposed.ID, askFirst), rolf, "Put revision", v.Title, "to be shown anew by 30 Jun 2026, as Edda Lorne proposed: Read against the orders.")
	in := newRevision(t, w, "go-bag", oneIsEnough, "")
	reads(w.Office.Retire(t.Context(), edda, in, askFirst), edda, "Retire revision", "nobody can be observed by it")

	w.Pass(time.Hour)
	w.Take(w.Link(w.Admin, w.Coordinator), "a heron by the weir")
	reads(w.Office.Vouch(t.Context(), edda, w.Coordinator.Person, askFirst), edda, "Vouch for Cory Vance", "the password is theirs")
}

// Papers are taken back by an administrator, who has no licence: none is told.
func TestAPaperThatIsTakenBackIsNamed(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	nan := w.Nurse("Nan Orme")
	addPasskey(t, w, w.Admin)
	licence := must(w.Office.RecordLicence(t.Context(), w.Admin, nan.Person, office.LicenceForm{Kind: "LPN", Number: "L-77"}))(t)
	card := must(w.Office.RecordCard(t.Context(), w.Admin, nan.Person, office.CardForm{Issuer: "Heron course", IssuedOn: w.Today().String()}))(t)
	take := func(kind assessment.EntryKind, id assessment.RecordID) office.PasskeyAsked {
		return asked(t, w.Office.TakeBack(t.Context(), w.Admin, office.TakeBackForm{Kind: kind, ID: id, Reason: "Another's.", Proof: askFirst}))
	}
	for says, q := range map[string]office.PasskeyAsked{
		"Take back the licence LPN L-77 of Nan Orme":            take(postgres.LicenceEntry, licence.ID),
		"Take back the resuscitation card by Heron course, thr": take(assessment.CardEntry, card.ID),
	} {
		if !strings.HasPrefix(q.Says, says) || !strings.HasSuffix(q.Says, ": Another's.") || q.Licence != "" {
			t.Errorf("%+v", q)
		}
	}
}

// A learner's signature stands without a licence, and is shown so before.
func TestALearnersSignatureIsShownWithoutALicence(t *testing.T) {
	w, mira, _ := quick(t, "humidifier")
	edda, rolf := w.Educators[0], w.Educators[1]
	addPasskey(t, w, rolf)
	v := w.Demonstrate(rolf, "humidifier", mira, ward.UnsignedByLearner)
	_, err := w.Office.Sign(t.Context(), edda, office.SignForm{Demonstration: v.ID, Part: office.PartLearner, Proof: askFirst})
	if q := asked(t, err); q.Signer != rolf.Name || q.Licence != "" {
		t.Errorf("asked as %+v", q)
	}
}

// Whoever was asked for a passkey and goes back has signed nothing.
func TestGoingBackFromAPasskeySignsNothing(t *testing.T) {
	w, mira, nan := quick(t, "humidifier")
	edda := w.Educators[0]
	addPasskey(t, w, edda)
	w.Award(nan, "humidifier", mira)
	form := about(nan, "humidifier", mira)
	form.Proof = office.Proof{Passkey: office.NoPasskey}
	wantRefusal(t, w.Office.Withdraw(t.Context(), edda, form, assessment.Reinstated, false), fault.Refused, "went back without signing")
	if s := w.Standing(nan, "humidifier", mira, civil.Date{}); s.Word != assessment.Current {
		t.Errorf("%s is %s", nan.Name, s.Word)
	}
}
