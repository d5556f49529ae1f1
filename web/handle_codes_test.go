package web

import (
	"bytes"
	"net/http"
	"strings"
	"testing"
	"time"

	"github.com/pquerna/otp/totp"

	"wellshown/assessment/office"
	"wellshown/assessment/sealed"
	"wellshown/integration/ward"
)

// codesWard is a ward whose service has keys for secrets.
func codesWard(t *testing.T) *ward.Ward {
	t.Helper()
	line, err := sealed.NewKey(bytes.NewReader(bytes.Repeat([]byte{9}, 32)), "test")
	if err != nil {
		t.Fatal(err)
	}
	keys, err := sealed.ReadKeys(line)
	if err != nil {
		t.Fatal(err)
	}
	return ward.New(t, func(o *office.Options) { o.Secrets = keys })
}

// codeOf is what an app shows that was given the secret on a page.
func codeOf(t *testing.T, w *ward.Ward, secret string) string {
	t.Helper()
	code, err := totp.GenerateCode(secret, w.Now())
	if err != nil {
		t.Fatal(err)
	}
	return code
}

func TestCodesOnPages(t *testing.T) {
	w := codesWard(t)
	site, who := engine(w), w.Educators[0]
	b := as(t, site, w, who)
	b.get("/account/codes").says("One-time codes are off").form("/account/codes").send("password", "wrong and wrong").
		wants(http.StatusUnprocessableEntity).says("Nothing is turned on.", "This is not your password.")
	p := b.get("/account/codes").form("/account/codes").send("password", ward.Password).wants(http.StatusOK)
	secret := strings.ReplaceAll(textOf(nodes(p.node, "code")[0]), " ", "")
	p.form("/account/codes/confirmation").send("code", "000000").wants(http.StatusUnprocessableEntity).says("not on yet").saysNot(secret[:4] + " " + secret[4:8])
	p = b.get("/account/codes").form("/account/codes").send("password", ward.Password).wants(http.StatusOK)
	secret = strings.ReplaceAll(textOf(nodes(p.node, "code")[0]), " ", "")
	p = p.form("/account/codes/confirmation").send("code", codeOf(t, w, secret)).wants(http.StatusOK)
	recovery := nodes(p.node, "code")
	if len(recovery) != 10 {
		t.Fatalf("%d recovery codes: %s", len(recovery), p.text())
	}
	b.get("/account/codes").says("One-time codes are on", "10 recovery codes are left.")

	w.Pass(time.Minute)
	other := visitor(t, site)
	p = other.get("/sign-in?next=/people").form("/sign-in").send("email", w.Email(who), "password", ward.Password).wants(http.StatusOK).says("Now the code of your app")
	other.get("/people").wants(http.StatusOK).saysNot(who.Name) // not signed in yet
	p.form("/sign-in/code").send("code", "000000").wants(http.StatusUnprocessableEntity).says("You are not signed in.", "This code is not right")
	if end := p.form("/sign-in/code").send("code", codeOf(t, w, secret)).wants(http.StatusOK); end.at != "/people" {
		t.Errorf("signed in, at %s", end.at)
	}
	last := visitor(t, site)
	last.get("/sign-in/code").form("/sign-in/code").send("code", codeOf(t, w, secret)).says("Sign in") // without a first half
	last.get("/sign-in").form("/sign-in").send("email", w.Email(who), "password", ward.Password).
		form("/sign-in/code").send("code", textOf(recovery[0])).wants(http.StatusOK).says(who.Name)

	w.Pass(time.Minute)
	b.get("/account/codes").says("9 recovery codes are left.").form("/account/codes/recovery").send("password", ward.Password, "code", codeOf(t, w, secret)).
		wants(http.StatusOK).says("the old ones have ended").saysNot(textOf(recovery[1]))
	w.Pass(time.Minute)
	b.get("/account/codes").form("/account/codes/end").send("password", ward.Password, "code", "000000").wants(http.StatusUnprocessableEntity).says("still on")
	b.get("/account/codes").form("/account/codes/end").send("password", ward.Password, "code", codeOf(t, w, secret)).wants(http.StatusOK).says("One-time codes are off")
	visitor(t, site).get("/sign-in").form("/sign-in").send("email", w.Email(who), "password", ward.Password).says(who.Name)
}

func TestCodesWithoutKeys(t *testing.T) {
	w := newWard(t)
	as(t, engine(w), w, w.Educators[0]).get("/account/codes").says("Codes cannot be set up here", "WELLSHOWN_SECRET_KEYS").lacksForm("/account/codes")
}
