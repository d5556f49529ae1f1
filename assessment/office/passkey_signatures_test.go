package office_test

import (
	"errors"
	"strings"
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

// asked gives the question that comes in place of a signature.
func asked(t *testing.T, err error) office.PasskeyAsked {
	t.Helper()
	var q office.PasskeyAsked
	if !errors.As(err, &q) {
		t.Fatalf("no passkey is asked for: %v", err)
	}
	return q
}

var askFirst = office.Proof{Passkey: office.AskPasskey}

func byPasskey(answer string) office.Proof { return office.Proof{Passkey: answer} }

func TestAPasskeySignsADemonstration(t *testing.T) {
	w, mira, nan := quick(t, "humidifier")
	edda := w.Educators[0]
	d := addPasskey(t, w, edda)
	v := w.Demonstrate(nan, "humidifier", mira, ward.Unsigned)
	sign := func(proof office.Proof) (office.DemonstrationView, error) {
		return w.Office.Sign(t.Context(), edda, office.SignForm{Demonstration: v.ID, Part: office.PartObserver, Proof: proof})
	}
	_, err := sign(askFirst)
	q := asked(t, err)
	if q.Signer != edda.Name || !strings.Contains(q.Says, office.MeaningObserver) || !strings.Contains(q.Says, v.Title) {
		t.Errorf("asked as %+v", q)
	}
	if now := must(w.Office.Demonstration(t.Context(), edda, v.ID))(t); now.SignedBy(office.PartObserver) != nil {
		t.Fatal("asking has signed")
	}
	answer := d.answer(t, q.Options)
	signed, err := sign(byPasskey(answer))
	wantNone(t, err)
	if s := signed.SignedBy(office.PartObserver); s == nil || s.PrintedName != edda.Name {
		t.Errorf("signed %+v", s)
	}
	_, err = sign(byPasskey(answer))
	wantRefusal(t, err, fault.Refused, "answered already")
}

// 21 CFR 11.70 and 11.200(b), as good practice: a signature is of one record and of
// its owner. An answer signs what it was asked for, by whom it was asked, and else
// nothing.
func TestAPasskeySignsNothingElse(t *testing.T) {
	w, mira, nan := quick(t, "humidifier")
	edda, rolf := w.Educators[0], w.Educators[1]
	eddas, rolfs := addPasskey(t, w, edda), addPasskey(t, w, rolf)
	first, second := w.Demonstrate(nan, "humidifier", mira, ward.Unsigned), w.Demonstrate(nan, "humidifier", mira, ward.Unsigned)
	form := func(v office.DemonstrationView, proof office.Proof) office.SignForm {
		return office.SignForm{Demonstration: v.ID, Part: office.PartObserver, Proof: proof}
	}
	question := func() string {
		_, err := w.Office.Sign(t.Context(), edda, form(first, askFirst))
		return asked(t, err).Options
	}
	signs := func(v office.DemonstrationView, answer string) error {
		_, err := w.Office.Sign(t.Context(), edda, form(v, byPasskey(answer)))
		return err
	}
	wantRefusal(t, signs(second, eddas.answer(t, question())), fault.Refused, "something else")
	wantRefusal(t, signs(first, rolfs.answer(t, question())), fault.Refused, "not accepted")
	wantRefusal(t, signs(first, eddas.answer(t, askSignIn(t, w))), fault.Refused, "answered already") // a sign-in is kept elsewhere
	unverified := *eddas
	unverified.auth.Options.UserNotVerified = true
	wantRefusal(t, signs(first, unverified.answer(t, question())), fault.Refused, "not accepted")
	late := eddas.answer(t, question())
	w.Pass(5 * time.Minute)
	wantRefusal(t, signs(first, late), fault.Refused, "longer than five minutes")
	_, _, err := w.Office.SignInByPasskey(t.Context(), eddas.answer(t, question()))
	wantRefusal(t, err, fault.Refused, "answered already") // nor does a signature sign in

	// The same answer as another part, as another act, and with another reason.
	withdraw := func(reason string, proof office.Proof) error {
		f := about(nan, "humidifier", mira)
		f.Reason, f.Proof = reason, proof
		return w.Office.Withdraw(t.Context(), edda, f, assessment.Reinstated, false)
	}
	wantRefusal(t, withdraw("Seen to be unsafe.", byPasskey(eddas.answer(t, question()))), fault.Refused, "something else")
	options := asked(t, withdraw("Seen to be unsafe.", askFirst)).Options
	wantRefusal(t, withdraw("Seen to be safe.", byPasskey(eddas.answer(t, options))), fault.Refused, "something else")
	options = asked(t, withdraw("Seen to be unsafe.", askFirst)).Options
	wantNone(t, withdraw("Seen to be unsafe.", byPasskey(eddas.answer(t, options))))

	for _, v := range []office.DemonstrationView{first, second} {
		if now := must(w.Office.Demonstration(t.Context(), edda, v.ID))(t); len(now.Signatures) > 0 {
			t.Errorf("%s is signed: %+v", v.ID, now.Signatures)
		}
	}
}

// A learner signs on the observer's device with a passkey of their own.
func TestALearnersPasskeyOnTheObserversDevice(t *testing.T) {
	w, mira, nan := quick(t, "humidifier")
	edda := w.Educators[0]
	nans := addPasskey(t, w, nan)
	v := w.Demonstrate(nan, "humidifier", mira, ward.UnsignedByLearner)
	form := office.SignForm{Demonstration: v.ID, Part: office.PartLearner, Proof: askFirst}
	_, err := w.Office.Sign(t.Context(), edda, form)
	q := asked(t, err)
	if q.Signer != nan.Name || !strings.Contains(q.Says, office.MeaningLearner) {
		t.Errorf("asked as %+v", q)
	}
	form.Proof = byPasskey(nans.answer(t, q.Options))
	signed, err := w.Office.Sign(t.Context(), edda, form)
	wantNone(t, err)
	if s := signed.SignedBy(office.PartLearner); s == nil || s.PrintedName != nan.Name {
		t.Errorf("signed %+v", s)
	}
	v = w.Demonstrate(nan, "humidifier", mira, ward.UnsignedByObserver)
	_, err = w.Office.Sign(t.Context(), edda, office.SignForm{Demonstration: v.ID, Part: office.PartObserver, Proof: askFirst})
	wantAtField(t, err, "password", "has no passkey here")
}

// On a device that two people share, what a learner's passkey answers signs the learner's
// part alone; of a record that was taken back meanwhile it signs nothing; and a program is
// not even asked (21 CFR 11.70; 11.200(a)(2)).
func TestALearnersPasskeySignsTheirPartAlone(t *testing.T) {
	w, mira, nan := quick(t, "humidifier")
	edda := w.Educators[0]
	addPasskey(t, w, edda)
	nans := addPasskey(t, w, nan)
	v := w.Demonstrate(nan, "humidifier", mira, ward.Unsigned)
	sign := func(by assessment.Actor, part string, proof office.Proof) error {
		_, err := w.Office.Sign(t.Context(), by, office.SignForm{Demonstration: v.ID, Part: part, Proof: proof})
		return err
	}
	question := func(part string) string { return asked(t, sign(edda, part, askFirst)).Options }
	wantRefusal(t, sign(edda, office.PartObserver, byPasskey(nans.answer(t, question(office.PartLearner)))), fault.Refused, "something else")
	wantRefusal(t, sign(edda, office.PartObserver, byPasskey(nans.answer(t, question(office.PartObserver)))), fault.Refused, "somebody else’s")
	wantRefusal(t, sign(nan, office.PartObserver, askFirst), fault.Forbidden, "signs as the observer")
	wantRefusal(t, sign(w.Educators[1], office.PartObserver, askFirst), fault.NotFound, "")
	program := edda
	program.Program = &assessment.Program{}
	wantRefusal(t, sign(program, office.PartObserver, askFirst), fault.Forbidden, "A program cannot sign")

	answer := nans.answer(t, question(office.PartLearner))
	wantNone(t, w.Office.CorrectDemonstration(t.Context(), edda, v.ID, "Marked for somebody else.", office.ByPassword(ward.Password)))
	wantRefusal(t, sign(edda, office.PartLearner, byPasskey(answer)), fault.Refused, "taken back")
	if now := must(w.Office.Demonstration(t.Context(), edda, v.ID))(t); len(now.Signatures) > 0 {
		t.Errorf("signed: %+v", now.Signatures)
	}
}
