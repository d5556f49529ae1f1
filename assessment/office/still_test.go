package office_test

import (
	"context"
	"fmt"
	"sync"
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

// meanwhile carries out what begins with a proof, holds it up after that where it
// writes into a table, and takes away then what was proven.
func meanwhile(t *testing.T, w *ward.Ward, who assessment.Actor, table, change string, begin func(context.Context) error) error {
	t.Helper()
	holder, watcher := asOwner(t, w), asOwner(t, w)
	tx, err := holder.Begin(t.Context())
	wantNone(t, err)
	_, err = tx.Exec(t.Context(), `select from person where id = $1 for no key update`, who.Person)
	wantNone(t, err)
	_, err = tx.Exec(t.Context(), `lock table `+table+` in share mode`)
	wantNone(t, err)
	done := make(chan error, 1)
	go func() { done <- begin(t.Context()) }()
	waiters(t, watcher, 1)
	_, err = tx.Exec(t.Context(), change, who.Person)
	wantNone(t, err)
	wantNone(t, tx.Commit(t.Context()))
	return <-done
}

const (
	otherPassword = `update credential set password_hash = password_hash || 'x' where person_id = $1`
	noPIN         = `delete from signing_pin where person_id = $1`
	noPasskey     = `update passkey set removed_at = added_at where person_id = $1`
	inDoubt       = `update passkey set doubted_at = added_at where person_id = $1`
)

// No session is opened with what was taken away while somebody signed in (ASVS 5.0,
// 7.4.3, from memory: others end when a way to sign in is changed).
func TestNoSessionOfWhatWasTakenAwayMeanwhile(t *testing.T) {
	t.Parallel()
	w := ward.New(t, withSecrets(secretKeys(t, "a")))
	edda, rolf := w.Educators[0], w.Educators[1]
	d := addPasskey(t, w, edda)
	byPassword := func(ctx context.Context) error {
		_, _, err := w.Office.SignIn(ctx, office.SignInForm{Email: w.Email(w.Coordinator), Password: ward.Password})
		return err
	}
	wantRefusal(t, meanwhile(t, w, w.Coordinator, "session", otherPassword, byPassword), fault.Unauthenticated, "Sign in again")
	for _, change := range []string{inDoubt, noPasskey} {
		answer := d.answer(t, askSignIn(t, w))
		err := meanwhile(t, w, edda, "session", change, func(ctx context.Context) error {
			_, _, err := w.Office.SignInByPasskey(ctx, answer)
			return err
		})
		wantRefusal(t, err, fault.Unauthenticated, "Sign in again")
		_, err = asOwner(t, w).Exec(t.Context(), `update passkey set doubted_at = null`)
		wantNone(t, err)
	}
	// With one-time codes: neither the half by the password, nor the whole by the code.
	a, _ := codesOn(t, w, rolf)
	err := meanwhile(t, w, rolf, "sign_in_pending", otherPassword, func(ctx context.Context) error {
		_, _, err := w.Office.SignIn(ctx, office.SignInForm{Email: w.Email(rolf), Password: ward.Password})
		return err
	})
	wantRefusal(t, err, fault.Unauthenticated, "Sign in again")
	_, err = asOwner(t, w).Exec(t.Context(), `update credential set password_hash = rtrim(password_hash, 'x') where person_id = $1`, rolf.Person)
	wantNone(t, err)
	half := firstHalf(t, w, rolf)
	w.Pass(time.Minute)
	code := a.code(t, w)
	err = meanwhile(t, w, rolf, "session", `delete from sign_in_pending where person_id = $1`, func(ctx context.Context) error {
		_, _, err := w.Office.SignInByCode(ctx, half, code, "")
		return err
	})
	wantRefusal(t, err, fault.Unauthenticated, "Sign in again")
	var open int
	wantNone(t, asOwner(t, w).QueryRow(t.Context(), `select count(*) from session`).Scan(&open))
	if open > 0 {
		t.Errorf("%d sessions are open", open)
	}
}

// The same with the office's own change of a password, whichever comes first.
func TestNoSessionOutlivesAPasswordChangedAtOnce(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	who, old := w.Coordinator, ward.Password
	for i := range 12 {
		next := fmt.Sprintf("the %d. set of many words", i)
		var token string
		var all sync.WaitGroup
		all.Go(func() {
			token, _, _ = w.Office.SignIn(t.Context(), office.SignInForm{Email: w.Email(who), Password: old, Address: fmt.Sprintf("192.0.2.%d", i)})
		})
		all.Go(func() {
			if err := w.Office.ChangePassword(t.Context(), who, old, next, ""); err != nil {
				t.Error(err)
			}
		})
		all.Wait()
		if _, err := w.Office.Session(t.Context(), token); err == nil {
			t.Errorf("round %d: a session of the password before is open", i)
		}
		old = next
	}
}

// Of two who change one password from the same old one, the second changes nothing.
func TestOnePasswordIsChangedOnce(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	edda := w.Educators[0]
	change := func(ctx context.Context) error {
		return w.Office.ChangePassword(ctx, edda, ward.Password, "chosen by whoever guessed", "")
	}
	wantRefusal(t, meanwhile(t, w, edda, "credential", otherPassword, change), fault.Conflict, "changed while this was under way")
}

// Nothing is added to an account by a password that is no longer its own.
func TestNothingIsAddedByThePasswordBefore(t *testing.T) {
	t.Parallel()
	w := ward.New(t, withSecrets(secretKeys(t, "a")))
	edda := w.Educators[0]
	back := func() {
		_, err := asOwner(t, w).Exec(t.Context(), `update credential set password_hash = rtrim(password_hash, 'x') where person_id = $1`, edda.Person)
		wantNone(t, err)
	}
	asked, err := w.Office.BeginPasskey(t.Context(), edda, ward.Password)
	wantNone(t, err)
	made := newDevice().made(t, asked)
	for table, begin := range map[string]func(context.Context) error{
		"signing_pin":       func(ctx context.Context) error { return w.Office.SetPIN(ctx, edda, ward.Password, "381604") },
		"passkey_challenge": func(ctx context.Context) error { _, err := w.Office.BeginPasskey(ctx, edda, ward.Password); return err },
		"one_time_code":     func(ctx context.Context) error { _, err := w.Office.BeginCodes(ctx, edda, ward.Password); return err },
	} {
		wantRefusal(t, meanwhile(t, w, edda, table, otherPassword, begin), fault.Conflict, "changed while this was under way")
		back()
	}
	err = meanwhile(t, w, edda, "passkey", otherPassword, func(ctx context.Context) error { return w.Office.AddPasskey(ctx, edda, "Phone", made) })
	wantRefusal(t, err, fault.Conflict, "changed while this was under way")
}

// 21 CFR 11.200(a)(2), as good practice: a signature is its owner's. What was taken
// away while the act waited for others signs nothing.
func TestNoSignatureOfWhatWasTakenAwayMeanwhile(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier")
	w.Demonstrate(nan, "humidifier", mira)
	d := addPasskey(t, w, w.Educators[0])
	edda := must(w.Office.Session(t.Context(), signIn(t, w, w.Educators[0], "")))(t).Actor
	wantNone(t, w.Office.SetPIN(t.Context(), edda, ward.Password, "381604"))
	wantNone(t, w.Office.Withdraw(t.Context(), edda, about(nan, "humidifier", mira), assessment.Reinstated, false)) // the sitting begins
	withdraw := func(ctx context.Context, proof office.Proof) error {
		w.Pass(time.Minute)
		form := about(nan, "humidifier", mira)
		form.Proof = proof
		return w.Office.Withdraw(ctx, edda, form, assessment.Reinstated, false)
	}
	answer := d.answer(t, asked(t, withdraw(t.Context(), askFirst)).Options)
	for _, c := range []struct {
		proof  office.Proof
		change string
	}{{byPasskey(answer), inDoubt}, {office.Proof{PIN: "381604"}, noPIN}, {ward.Proof, otherPassword}} {
		err := meanwhile(t, w, edda, "withdrawal", c.change, func(ctx context.Context) error { return withdraw(ctx, c.proof) })
		wantAtField(t, err, "password", "taken away a moment ago")
	}
	var signed int
	wantNone(t, asOwner(t, w).QueryRow(t.Context(), `select count(*) from withdrawal`).Scan(&signed))
	if signed != 1 {
		t.Errorf("%d withdrawals are signed", signed)
	}
}
