package office_test

import (
	"strings"
	"testing"
	"time"

	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

// One address is known to two agencies, with a password for each. Right sign-ins at one
// of them lock nobody out of the other and are not told as failed tries; nor does either
// give more guesses at the other.
func TestRightSignInsAtOneAgencyLockNobodyOutOfAnother(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	b := ward.Beside(t, w)
	const there = "other words for another door"
	wantNone(t, w.Office.ChangePassword(t.Context(), b.Coordinator, ward.Password, there, ""))
	try := func(agency, password string) error {
		_, actor, err := w.Office.SignIn(t.Context(), office.SignInForm{Agency: agency, Email: w.Email(w.Coordinator), Password: password, Address: "10.0.0.1"})
		if err == nil && (actor.Agency == b.Coordinator.Agency) != (password == there) {
			t.Errorf("%q signed in at the wrong agency", password)
		}
		return err
	}
	for range 8 {
		w.Pass(time.Second)
		wantNone(t, try("", ward.Password))
	}
	// The password of there was looked at five times by then, as it were.
	wantRefusal(t, try("", there), fault.Throttled, "enter the code of the one you mean")
	wantNone(t, try("larkmoor", there))
	told := must(w.Office.Account(t.Context(), b.Coordinator))(t)
	if all := words(told); strings.Contains(all, "failed") || !strings.Contains(all, "Signed in") {
		t.Errorf("told: %s", all)
	}
	w.Pass(time.Second)
	for range 5 {
		wantRefusal(t, try("larkmoor", "guess"), fault.Unauthenticated, "not right")
	}
	wantRefusal(t, try("larkmoor", there), fault.Throttled, "Too many tries")
	wantNone(t, try("", ward.Password))
	w.Pass(15 * time.Minute)
	wantNone(t, try("", there))
	if all := words(must(w.Office.Account(t.Context(), b.Coordinator))(t)); !strings.Contains(all, "5 failed tries") {
		t.Errorf("not told of guesses: %s", all)
	}
}

// Tries with addresses that nobody has are kept in memory, so much of it and no more.
// Filling it does not let whoever must wait go on.
func TestFillingTheMemoryOfStrangersTellsNothing(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	guess := func() error {
		_, _, err := w.Office.SignIn(t.Context(), office.SignInForm{Email: "nobody@ward.example", Password: "guess", Address: "198.51.100.9"})
		return err
	}
	const most = 10_000
	for _, since := range []time.Duration{time.Minute, 15 * time.Minute} { // kept ones still count; they count no more
		office.Strangers(w.Office, since.String(), most-2)
		w.Pass(since)
		for range 5 {
			wantRefusal(t, guess(), fault.Unauthenticated, "not right")
		}
		if kept := office.Strangers(w.Office, "later", 50); kept > most {
			t.Errorf("%d are kept", kept)
		}
		wantRefusal(t, guess(), fault.Throttled, "Too many tries")
		w.Pass(15 * time.Minute)
	}
}

// A code that is wrong counts as a try also where that cannot be written down.
func TestAWrongCodeCountsWhereItCannotBeNoted(t *testing.T) {
	t.Parallel()
	w := ward.New(t, withSecrets(secretKeys(t, "a")))
	who := w.Educators[0]
	codesOn(t, w, who)
	half := firstHalf(t, w, who)
	owner := asOwner(t, w)
	_, err := owner.Exec(t.Context(), `revoke insert on journal from wellshown_service`)
	wantNone(t, err)
	for range 5 {
		if _, _, err := w.Office.SignInByCode(t.Context(), half, "000000", "198.51.100.9"); err == nil || fault.KindOf(err) != 0 {
			t.Errorf("not noted: %v", err)
		}
	}
	_, _, err = w.Office.SignInByCode(t.Context(), half, "000000", "198.51.100.9")
	wantRefusal(t, err, fault.Throttled, "Too many tries")
}
