package office_test

import (
	"errors"
	"strings"
	"testing"
	"time"

	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

// Whoever has a link alone chooses a password, and does not get in by it where codes are
// on (OWASP ASVS 5.0, 6.4.3: a reset does not step around the second factor).
func TestALinkAloneDoesNotTurnCodesOff(t *testing.T) {
	t.Parallel()
	w := ward.New(t, withSecrets(secretKeys(t, "a")))
	who := w.Educators[0]
	a, recovery := codesOn(t, w, who)
	half := firstHalf(t, w, who)
	const own = "seven otters wading"
	w.Pass(time.Minute)
	w.Take(w.Link(w.Admin, who), own)
	in := office.SignInForm{Email: w.Email(who), Password: own, Address: "192.0.2.1"}
	_, _, err := w.Office.SignIn(t.Context(), in)
	var asked office.CodeAsked
	if !errors.As(err, &asked) {
		t.Fatalf("a link alone lets in: %v", err)
	}
	if n := journalled(t, w, "one-time codes off"); n != 0 {
		t.Error("codes were turned off")
	}
	_, _, err = w.Office.SignInByCode(t.Context(), asked.Token, "000000", "192.0.2.1")
	wantAtField(t, err, "code", "not right")
	if _, _, err = w.Office.SignInByCode(t.Context(), asked.Token, a.code(t, w), "192.0.2.1"); err != nil {
		t.Errorf("with the app: %v", err)
	}
	in.Code = recovery[0]
	if _, _, err = w.Office.SignIn(t.Context(), in); err != nil {
		t.Errorf("with a recovery code: %v", err)
	}
	// What was half open by the old password is over.
	if _, _, err = w.Office.SignInByCode(t.Context(), half, recovery[1], "192.0.2.1"); fault.KindOf(err) != fault.Unauthenticated {
		t.Errorf("the half of a sign-in by the old password: %v", err)
	}
}

// Lost codes are turned off by an administrator who signs it, for somebody else only;
// it is in the journal, and the owner is told by whom.
func TestAnAdministratorTurnsLostCodesOff(t *testing.T) {
	t.Parallel()
	w := ward.New(t, withSecrets(secretKeys(t, "a")))
	who := w.Educators[0]
	wantRefusal(t, w.Office.EndCodesOf(t.Context(), w.Admin, who.Person, ward.Proof), fault.Refused, "no one-time codes")
	codesOn(t, w, who)
	codesOn(t, w, w.Admin)
	addPasskey(t, w, w.Admin)
	if err := w.Office.EndCodesOf(t.Context(), w.Admin, who.Person, askFirst); !strings.HasPrefix(asked(t, err).Says, "Turn the one-time codes of "+who.Name+" off.") {
		t.Errorf("asked to sign %v", err)
	}
	for _, other := range w.Educators { // whose codes they are, and a colleague
		wantRefusal(t, w.Office.EndCodesOf(t.Context(), other, who.Person, ward.Proof), fault.Forbidden, "role")
	}
	wantRefusal(t, w.Office.EndCodesOf(t.Context(), w.Admin, w.Admin.Person, ward.Proof), fault.Refused, "your account")
	if err := w.Office.EndCodesOf(t.Context(), w.Admin, who.Person, office.Proof{Password: "not mine"}); err == nil {
		t.Error("without a proof")
	}
	firstHalf(t, w, who) // still on
	w.Pass(time.Minute)
	wantNone(t, w.Office.EndCodesOf(t.Context(), w.Admin, who.Person, ward.Proof))
	_, _, err := w.Office.SignIn(t.Context(), office.SignInForm{Email: w.Email(who), Password: ward.Password})
	wantNone(t, err)
	if n := journalled(t, w, "one-time codes off"); n != 1 {
		t.Errorf("%d lines say so", n)
	}
	if a := must(w.Office.Account(t.Context(), who))(t); !strings.Contains(words(a), "One-time codes turned off by "+w.Admin.Name) {
		t.Errorf("told: %s", words(a))
	}
}
