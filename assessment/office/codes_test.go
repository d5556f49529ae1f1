package office_test

import (
	"bytes"
	"errors"
	"fmt"
	"regexp"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/pquerna/otp/totp"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/assessment/postgres"
	"wellshown/assessment/sealed"
	"wellshown/integration/ward"
)

// secretKeys are a key file of the named keys.
func secretKeys(t *testing.T, names ...string) *sealed.Keys {
	t.Helper()
	file := ""
	for _, name := range names {
		line, err := sealed.NewKey(bytes.NewReader(bytes.Repeat([]byte(name), 32)), name)
		wantNone(t, err)
		file += line
	}
	return must(sealed.ReadKeys(file))(t)
}

func withSecrets(k *sealed.Keys) ward.Option { return func(o *office.Options) { o.Secrets = k } }

// app is an authenticator app: it makes codes of a secret that it was given.
type app struct{ secret string }

func (a app) code(t *testing.T, w *ward.Ward) string {
	t.Helper()
	return must(totp.GenerateCode(a.secret, w.Now()))(t)
}

// codesOn sets one-time codes up for somebody.
func codesOn(t *testing.T, w *ward.Ward, who assessment.Actor) (app, []string) {
	t.Helper()
	made := must(w.Office.BeginCodes(t.Context(), who, ward.Password))(t)
	a := app{made.Secret}
	recovery := must(w.Office.ConfirmCodes(t.Context(), who, a.code(t, w)))(t)
	return a, recovery
}

// firstHalf signs in with the password, and expects to be asked for a code.
func firstHalf(t *testing.T, w *ward.Ward, who assessment.Actor) string {
	t.Helper()
	token, _, err := w.Office.SignIn(t.Context(), office.SignInForm{Email: w.Email(who), Password: ward.Password, Address: "192.0.2.1"})
	var code office.CodeAsked
	if !errors.As(err, &code) || token != "" {
		t.Fatalf("no code is asked for: %q, %v", token, err)
	}
	return code.Token
}

func TestACodeIsAskedForAfterThePassword(t *testing.T) {
	w := ward.New(t, withSecrets(secretKeys(t, "a")))
	who := w.Educators[0]
	a, _ := codesOn(t, w, who)
	half := firstHalf(t, w, who)
	if _, err := w.Office.Session(t.Context(), half); fault.KindOf(err) != fault.Unauthenticated {
		t.Errorf("half of a sign-in opens a session: %v", err)
	}
	_, _, err := w.Office.SignInByCode(t.Context(), half, a.code(t, w), "192.0.2.1")
	wantAtField(t, err, "code", "used already") // it was, when the codes were set up
	w.Pass(time.Minute)
	code := a.code(t, w)
	token, actor, err := w.Office.SignInByCode(t.Context(), half, code[:3]+" "+code[3:], "192.0.2.1")
	wantNone(t, err)
	if s, err := w.Office.Session(t.Context(), token); err != nil || actor.Person != who.Person || s.Actor.Person != who.Person {
		t.Errorf("%+v, %v", actor, err)
	}
	_, _, err = w.Office.SignInByCode(t.Context(), half, code, "192.0.2.1")
	wantRefusal(t, err, fault.Unauthenticated, "longer than five minutes") // this half is used up
	_, _, err = w.Office.SignInByCode(t.Context(), firstHalf(t, w, who), code, "192.0.2.1")
	wantAtField(t, err, "code", "used already")
	_, _, err = w.Office.SignInByCode(t.Context(), "forged", code, "192.0.2.1")
	wantRefusal(t, err, fault.Unauthenticated, "")
	// Whoever has the code at hand gives it at once.
	w.Pass(time.Minute)
	form := office.SignInForm{Email: w.Email(who), Password: ward.Password, Code: a.code(t, w)}
	_, _, err = w.Office.SignIn(t.Context(), form)
	wantNone(t, err)
	_, _, err = w.Office.SignIn(t.Context(), form)
	wantAtField(t, err, "code", "used already")
	form.Password, form.Code = "wrong and wrong", a.code(t, w)
	_, _, err = w.Office.SignIn(t.Context(), form)
	wantRefusal(t, err, fault.Unauthenticated, "not right")
}

func TestHalfASignInEnds(t *testing.T) {
	w := ward.New(t, withSecrets(secretKeys(t, "a")))
	who := w.Educators[0]
	a, _ := codesOn(t, w, who)
	late := firstHalf(t, w, who)
	w.Pass(5 * time.Minute)
	_, _, err := w.Office.SignInByCode(t.Context(), late, a.code(t, w), "")
	wantRefusal(t, err, fault.Unauthenticated, "Enter your password again")
	// A new password ends what was begun with the one before.
	half := firstHalf(t, w, who)
	wantNone(t, w.Office.ChangePassword(t.Context(), who, ward.Password, "another three or four words", ""))
	_, _, err = w.Office.SignInByCode(t.Context(), half, a.code(t, w), "")
	wantRefusal(t, err, fault.Unauthenticated, "Enter your password again")
}

func TestTheSameCodeManyTimesAtOnce(t *testing.T) {
	w := ward.New(t, withSecrets(secretKeys(t, "a")))
	who := w.Educators[0]
	a, _ := codesOn(t, w, who)
	w.Pass(time.Minute)
	code := a.code(t, w)
	var halves []string
	for range 4 {
		halves = append(halves, firstHalf(t, w, who))
	}
	var in sync.WaitGroup
	var lock sync.Mutex
	good := 0
	for i, half := range halves {
		in.Go(func() {
			if _, _, err := w.Office.SignInByCode(t.Context(), half, code, fmt.Sprintf("192.0.2.%d", i)); err == nil {
				lock.Lock()
				good++
				lock.Unlock()
			}
		})
	}
	in.Wait()
	if good != 1 {
		t.Errorf("one code signed in %d times", good)
	}
}

// However many come at once, the database lets one use a step.
func TestAStepIsUsedOnce(t *testing.T) {
	w := ward.New(t, withSecrets(secretKeys(t, "a")))
	who := w.Educators[0]
	codesOn(t, w, who)
	step := w.Now().Unix()/30 + 1
	use := func(step int64) error {
		return w.Postgres.InAgency(t.Context(), who.Agency, func(tx *postgres.Tx) error { return tx.OneTimeCodes.Use(t.Context(), who.Person, step) })
	}
	wantNone(t, use(step))
	wantRefusal(t, use(step), fault.NotFound, "")
	wantRefusal(t, use(step-1), fault.NotFound, "")
}

// Guessing from one place ends; the owner's own place is another.
func TestGuessingCodes(t *testing.T) {
	w := ward.New(t, withSecrets(secretKeys(t, "a")))
	who := w.Educators[0]
	a, _ := codesOn(t, w, who)
	w.Pass(time.Minute)
	half := firstHalf(t, w, who)
	for range 5 {
		_, _, err := w.Office.SignInByCode(t.Context(), half, "000000", "198.51.100.9")
		wantAtField(t, err, "code", "not right")
	}
	_, _, err := w.Office.SignInByCode(t.Context(), half, a.code(t, w), "198.51.100.9")
	wantRefusal(t, err, fault.Throttled, "Too many tries")
	if n := journalled(t, w, "code refused"); n != 5 {
		t.Errorf("%d refusals are noted", n)
	}
	_, _, err = w.Office.SignInByCode(t.Context(), half, a.code(t, w), "192.0.2.1")
	wantNone(t, err)
}

func TestRecoveryCodes(t *testing.T) {
	w := ward.New(t, withSecrets(secretKeys(t, "a")))
	who := w.Educators[0]
	a, codes := codesOn(t, w, who)
	form := regexp.MustCompile(`^([a-z2-7]{5}-){3}[a-z2-7]{5}$`)
	seen := map[string]bool{}
	for _, c := range codes {
		if !form.MatchString(c) || seen[c] {
			t.Errorf("recovery code %q", c)
		}
		seen[c] = true
	}
	if v := must(w.Office.Codes(t.Context(), who))(t); len(codes) != 10 || !v.On || v.Left != 10 {
		t.Fatalf("%d codes, %+v", len(codes), v)
	}
	in := func(code string) error {
		_, _, err := w.Office.SignInByCode(t.Context(), firstHalf(t, w, who), code, "192.0.2.1")
		return err
	}
	wantNone(t, in(codes[3]))
	wantAtField(t, in(codes[3]), "code", "used already")
	wantNone(t, in(" "+strings.ToUpper(strings.ReplaceAll(codes[4], "-", " "))))
	if v := must(w.Office.Codes(t.Context(), who))(t); v.Left != 8 {
		t.Errorf("%d are left", v.Left)
	}
	_, err := w.Office.RenewRecovery(t.Context(), who, ward.Password, "000000")
	wantAtField(t, err, "code", "not right")
	_, err = w.Office.RenewRecovery(t.Context(), who, "wrong and wrong", codes[5])
	wantAtField(t, err, "password", "not your password")
	w.Pass(time.Minute)
	renewed := must(w.Office.RenewRecovery(t.Context(), who, ward.Password, a.code(t, w)))(t)
	wantAtField(t, in(codes[0]), "code", "not right")
	wantNone(t, in(renewed[0]))
	// One person's code is none to another.
	other := w.Educators[1]
	codesOn(t, w, other)
	_, _, err = w.Office.SignInByCode(t.Context(), firstHalf(t, w, other), renewed[1], "192.0.2.1")
	wantAtField(t, err, "code", "not right")
}

func TestTurningCodesOnAndOff(t *testing.T) {
	w := ward.New(t, withSecrets(secretKeys(t, "a")))
	who := w.Educators[0]
	_, err := w.Office.BeginCodes(t.Context(), who, "wrong and wrong")
	wantAtField(t, err, "password", "not your password")
	_, err = w.Office.ConfirmCodes(t.Context(), who, "000000")
	wantRefusal(t, err, fault.Refused, "nothing to confirm")

	// Not confirmed in time, codes are not asked for.
	made := must(w.Office.BeginCodes(t.Context(), who, ward.Password))(t)
	w.Pass(16 * time.Minute)
	_, err = w.Office.ConfirmCodes(t.Context(), who, app{made.Secret}.code(t, w))
	wantRefusal(t, err, fault.Refused, "longer than 15 minutes")
	_, _, err = w.Office.SignIn(t.Context(), office.SignInForm{Email: w.Email(who), Password: ward.Password})
	wantNone(t, err)

	_, err = w.Office.BeginCodes(t.Context(), who, ward.Password)
	wantNone(t, err)
	_, err = w.Office.ConfirmCodes(t.Context(), who, app{made.Secret}.code(t, w)) // of the secret before
	wantAtField(t, err, "code", "not right")
	a, _ := codesOn(t, w, who)
	_, err = w.Office.BeginCodes(t.Context(), who, ward.Password)
	wantRefusal(t, err, fault.Conflict, "on already")
	w.Pass(time.Minute)
	wantAtField(t, w.Office.EndCodes(t.Context(), who, ward.Password, ""), "code", "Enter the code")
	wantAtField(t, w.Office.EndCodes(t.Context(), who, "wrong and wrong", a.code(t, w)), "password", "not your password")
	wantNone(t, w.Office.EndCodes(t.Context(), who, ward.Password, a.code(t, w)))
	wantRefusal(t, w.Office.EndCodes(t.Context(), who, ward.Password, a.code(t, w)), fault.Refused, "not on")
	_, _, err = w.Office.SignIn(t.Context(), office.SignInForm{Email: w.Email(who), Password: ward.Password})
	wantNone(t, err)

	if n := journalled(t, w, "one-time codes off"); n != 1 {
		t.Errorf("%d lines say that codes were turned off", n)
	}
}

// What is in the database is no secret without the key; a key that is lost or
// swapped lets nobody in and loses nothing.
func TestKeysOfSecrets(t *testing.T) {
	w := ward.New(t, withSecrets(secretKeys(t, "a")))
	who := w.Educators[0]
	a, recovery := codesOn(t, w, who)
	kept := func() string {
		var text string
		wantNone(t, asOwner(t, w).QueryRow(t.Context(), `select sealed from one_time_code where person_id = $1`, who.Person).Scan(&text))
		return text
	}
	if text := kept(); !strings.HasPrefix(text, "a.") || strings.Contains(text, a.secret) {
		t.Errorf("kept as %s", text)
	}
	in := func(k *sealed.Keys, code string) error {
		o := office.New(w.Postgres, office.Options{Now: w.Now, PasswordCost: ward.Cheap, Secrets: k})
		_, _, err := o.SignIn(t.Context(), office.SignInForm{Email: w.Email(who), Password: ward.Password, Code: code, Address: "192.0.2.1"})
		return err
	}
	swapped := must(sealed.ReadKeys("a " + strings.Repeat("A", 43) + "="))(t)
	for name, k := range map[string]*sealed.Keys{"none": nil, "lost": secretKeys(t, "b"), "swapped": swapped} {
		for range 6 { // more often than wrong codes are let pass: it is nobody's fault
			w.Pass(time.Minute)
			if err := in(k, a.code(t, w)); fault.KindOf(err) != fault.Refused || !strings.Contains(err.Error(), "Nothing is lost") {
				t.Errorf("%s: %v", name, err)
			}
		}
	}
	for name, k := range map[string]*sealed.Keys{"a": nil, "a ": secretKeys(t, "b"), "": secretKeys(t, "b", "a")} {
		lost := must(office.New(w.Postgres, office.Options{Secrets: k}).LostKeys(t.Context()))(t)
		if strings.Join(lost, " ") != strings.TrimSpace(name) {
			t.Errorf("lost: %v, want %q", lost, name)
		}
	}
	wantNone(t, in(nil, recovery[0])) // these need no key
	w.Pass(time.Minute)
	wantNone(t, in(secretKeys(t, "a", "b"), a.code(t, w)))
	if text := kept(); !strings.HasPrefix(text, "b.") {
		t.Errorf("it is not sealed anew with the new key: %s", text)
	}
	w.Pass(time.Minute)
	wantNone(t, in(secretKeys(t, "b"), a.code(t, w)))

	// Without keys no codes are set up, and all else works.
	o := office.New(w.Postgres, office.Options{Now: w.Now, PasswordCost: ward.Cheap})
	_, err := o.BeginCodes(t.Context(), w.Educators[1], ward.Password)
	wantRefusal(t, err, fault.Refused, "cannot be set up here")
	_, _, err = o.SignIn(t.Context(), office.SignInForm{Email: w.Email(w.Educators[1]), Password: ward.Password})
	wantNone(t, err)

	// A secret moved to another person does not open.
	codesOn(t, w, w.Educators[1])
	_, err = asOwner(t, w).Exec(t.Context(), `update one_time_code c set sealed = o.sealed from one_time_code o
		where c.person_id = $1 and o.person_id = $2`, who.Person, w.Educators[1].Person)
	wantNone(t, err)
	w.Pass(time.Minute)
	if err := in(secretKeys(t, "a", "b"), a.code(t, w)); fault.KindOf(err) != fault.Refused {
		t.Errorf("a secret of somebody else: %v", err)
	}
}
