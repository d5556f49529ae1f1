package office_test

import (
	"strings"
	"sync"
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

const pin = "592047"

// sitting is somebody in a session of their own, with a PIN.
func sitting(t *testing.T, w *ward.Ward, who assessment.Actor) assessment.Actor {
	t.Helper()
	token := signIn(t, w, who, "")
	a := must(w.Office.Session(t.Context(), token))(t).Actor
	wantNone(t, w.Office.SetPIN(t.Context(), a, ward.Password, pin))
	return a
}

// What is refused as a PIN; common practice, no source.
func TestWhatIsNoPIN(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	set := func(p string) error { return w.Office.SetPIN(t.Context(), w.Coordinator, ward.Password, p) }
	for typed, says := range map[string]string{
		"": "6 to 12 digits", "59204": "6 to 12 digits", "5920475920470": "6 to 12 digits", "59204x": "digits only", "５９２０４７": "digits only", "592 047": "digits only",
		"111111": "first that anybody", "123456": "first that anybody", "987654": "first that anybody", "890123": "first that anybody", "121212": "first that anybody",
		"592592": "first that anybody", "112211": "first that anybody", "112233": "first that anybody",
	} {
		wantAtField(t, set(typed), "pin", says)
	}
	wantAtField(t, w.Office.SetPIN(t.Context(), w.Coordinator, "not mine at all", pin), "password", "not your password")
	wantAtField(t, w.Office.SetPIN(t.Context(), w.Coordinator, "", pin), "password", "Enter your password")
	for _, good := range []string{pin, "112234", "113355", "135790246802"} {
		wantNone(t, set(good))
	}
	wantRefusal(t, w.Office.SetPIN(t.Context(), w.Surveyor("Sue Vey"), ward.Password, pin), fault.Forbidden, "does not allow")
}

// 21 CFR 11.200(a)(1): two components, the identifier of who is signed in and the
// password; within one continuous session the first signing takes both, later ones
// one that only the signer can use; after signing out it takes both again. So says
// the reference check.
func TestThePINWithinASitting(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier")
	edda := sitting(t, w, w.Educators[0])
	waive := func(by assessment.Actor, proof office.Proof) error {
		form := about(nan, "humidifier", mira)
		form.Proof = proof
		return w.Office.Waive(t.Context(), by, form, "2026-01-05", "2026-01-06")
	}
	byPIN := office.Proof{PIN: pin}
	first := func(by assessment.Actor) {
		t.Helper()
		wantAtField(t, waive(by, byPIN), "pin", "first signature of this session")
		wantNone(t, waive(by, ward.Proof))
		wantNone(t, waive(by, byPIN))
	}
	first(edda)
	w.Pass(59 * time.Minute)
	wantNone(t, waive(edda, byPIN)) // each signature carries the sitting on
	w.Pass(59 * time.Minute)
	wantNone(t, waive(edda, byPIN))
	w.Pass(time.Hour)
	first(edda)

	// In a session of its own it begins anew, and without one there is no sitting.
	other := must(w.Office.Session(t.Context(), signIn(t, w, edda, "")))(t).Actor
	first(other)
	wantAtField(t, waive(w.Educators[0], byPIN), "pin", "first signature of this session")

	// What was refused begins no sitting.
	third := must(w.Office.Session(t.Context(), signIn(t, w, edda, "")))(t).Actor
	form := about(edda, "humidifier", mira)
	wantRefusal(t, w.Office.Waive(t.Context(), third, form, "2026-01-05", "2026-01-06"), fault.Refused, "your own requirement")
	wantAtField(t, waive(third, byPIN), "pin", "first signature")
	forged := third
	forged.Session = strings.Repeat("ab", 32)
	wantAtField(t, waive(forged, byPIN), "pin", "first signature")
	forged.Session = other.Session // somebody else's session is no sitting either
	forged.Person, forged.Roles = w.Educators[1].Person, w.Educators[1].Roles
	wantNone(t, w.Office.SetPIN(t.Context(), forged, ward.Password, pin))
	wantAtField(t, waive(forged, byPIN), "pin", "first signature")
}

// A device that is handed over takes the password of whom it is handed to, however
// often they have signed.
func TestNoPINOnADeviceHandedOver(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier")
	edda := sitting(t, w, w.Educators[0])
	sitting(t, w, nan)
	v := w.Demonstrate(nan, "humidifier", mira, ward.Unsigned)
	sign := func(part string, proof office.Proof) error {
		_, err := w.Office.Sign(t.Context(), edda, office.SignForm{Demonstration: v.ID, Part: part, Proof: proof})
		return err
	}
	wantNone(t, sign(office.PartObserver, ward.Proof))
	wantAtField(t, sign(office.PartLearner, office.Proof{PIN: pin}), "pin", "where its owner is signed in")
	wantNone(t, sign(office.PartLearner, ward.Proof))
	// What the learner signs here is no signature of whose session it is.
	second := w.Demonstrate(nan, "humidifier", mira, ward.Unsigned)
	w.Pass(50 * time.Minute)
	_, err := w.Office.Sign(t.Context(), edda, office.SignForm{Demonstration: second.ID, Part: office.PartLearner, Proof: ward.Proof})
	wantNone(t, err)
	w.Pass(20 * time.Minute)
	_, err = w.Office.Sign(t.Context(), edda, office.SignForm{Demonstration: second.ID, Part: office.PartObserver, Proof: office.Proof{PIN: pin}})
	wantAtField(t, err, "pin", "hour ago")
}

// Five wrong ones in a row shut the PIN until its owner sets another, and nothing
// else; the password still signs.
func TestAPINThatIsGuessedAt(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier")
	signIn(t, w, w.Educators[0], "") // they were here before
	edda := sitting(t, w, w.Educators[0])
	waive := func(proof office.Proof) error {
		form := about(nan, "humidifier", mira)
		form.Proof = proof
		return w.Office.Waive(t.Context(), edda, form, "2026-01-05", "2026-01-06")
	}
	good, bad := office.Proof{PIN: pin}, office.Proof{PIN: "592048"}
	w.Pass(time.Minute)
	wantNone(t, waive(ward.Proof))
	for range 4 {
		wantAtField(t, waive(bad), "pin", "does not match")
	}
	wantNone(t, waive(good)) // a right one begins the count anew
	for range 4 {
		wantAtField(t, waive(bad), "pin", "does not match")
	}
	wantAtField(t, waive(bad), "pin", "is shut")
	wantAtField(t, waive(good), "pin", "is shut")
	w.Pass(30 * time.Minute) // waiting opens nothing
	wantAtField(t, waive(good), "pin", "is shut")
	wantNone(t, waive(ward.Proof))
	if a := must(w.Office.Account(t.Context(), edda))(t); a.PIN.ShutAt == nil || !strings.Contains(words(a), "PIN for signing shut") {
		t.Errorf("the owner is not told: %+v", a.PIN)
	}
	// Anybody at a device where they are signed in could have done it: it is news.
	again := must(w.Office.Session(t.Context(), signIn(t, w, edda, "")))(t)
	a, told := must(w.Office.Account(t.Context(), again.Actor))(t), 0
	for _, e := range a.Events {
		if e.New {
			told++
		}
		if e.Kind == "pin shut" && (e.Own || !e.New || e.By != "somebody signed in as you") {
			t.Errorf("a PIN that was shut is told as %+v", e)
		}
	}
	if again.News == 0 || told != again.News {
		t.Errorf("%d news, %d of them marked", again.News, told)
	}
	wantNone(t, w.Office.SetPIN(t.Context(), edda, ward.Password, pin))
	wantNone(t, waive(good))

	// A new password ends it, and so does its owner.
	wantNone(t, w.Office.EndPIN(t.Context(), edda))
	wantAtField(t, waive(good), "pin", "You have no PIN")
	wantNone(t, w.Office.SetPIN(t.Context(), edda, ward.Password, pin))
	wantNone(t, w.Office.ChangePassword(t.Context(), edda, ward.Password, "a pond with nine frogs", ""))
	if a := must(w.Office.Account(t.Context(), edda))(t); a.PIN.Set {
		t.Error("the PIN outlives the password")
	}
}

// Guesses that come at once are counted like those that come one after another.
func TestManyGuessesOfAPINAtOnce(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier")
	edda := sitting(t, w, w.Educators[0])
	form := about(nan, "humidifier", mira)
	wantNone(t, w.Office.Waive(t.Context(), edda, form, "2026-01-05", "2026-01-06"))
	form.Proof = office.Proof{PIN: "592048"}
	errs := make([]error, 20)
	var all sync.WaitGroup
	for i := range errs {
		all.Go(func() { errs[i] = w.Office.Waive(t.Context(), edda, form, "2026-01-05", "2026-01-06") })
	}
	all.Wait()
	looked := 0
	for _, err := range errs {
		f, ok := fault.As(err)
		if !ok {
			t.Fatal(err)
		}
		if strings.Contains(f.Fields["pin"], "does not match") {
			looked++
		}
	}
	if looked != 4 {
		t.Errorf("%d guesses were answered before it was shut", looked)
	}
}
