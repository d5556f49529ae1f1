package api_test

import (
	"bytes"
	"fmt"
	"net/http"
	"strings"
	"testing"
	"time"

	"github.com/pquerna/otp/totp"

	"wellshown/api"
	"wellshown/assessment"
	"wellshown/assessment/office"
	"wellshown/assessment/sealed"
	"wellshown/integration/ward"
)

func TestSigningInIsSlowedDown(t *testing.T) {
	t.Parallel()
	d := newDesk(t)
	email := d.Email(d.Coordinator)
	for _, form := range []api.SignIn{{Email: email, Password: "not this one"}, {Email: "nobody@ward.example", Password: "not this one"}} {
		var first api.Problem
		for i := range 5 { // claiming to come from elsewhere does not help
			first = d.raw(http.MethodPost, "/sessions", form, "X-Forwarded-For", fmt.Sprintf("203.0.113.%d", i)).problem(http.StatusUnauthorized)
		}
		last := d.post("/sessions", assessment.Actor{}, form)
		last.problem(http.StatusTooManyRequests)
		if last.header.Get("Retry-After") != "900" || first.Detail != "The e-mail address or the password is not right." {
			t.Errorf("%s: wait %q, before: %s", form.Email, last.header.Get("Retry-After"), first.Detail)
		}
	}
	d.Pass(16 * time.Minute)
	d.post("/sessions", assessment.Actor{}, api.SignIn{Email: email, Password: ward.Password}).is(http.StatusCreated)
}

// Whoever has a password that somebody else set can choose another, and do nothing
// else.
func TestAGivenPasswordMustBeChanged(t *testing.T) {
	t.Parallel()
	d := newDesk(t)
	given := "a borrowed umbrella"
	who, err := d.Office.FoundAgency(t.Context(), office.NewAgency{Code: "elder-brook", Name: "Elder Brook", Zone: ward.Zone, AdminName: "Ottar Lie",
		AdminEmail: "ottar@brook.example", AdminPassword: given})
	d.need(err)
	var s api.Session
	d.post("/sessions", assessment.Actor{}, api.SignIn{Email: "ottar@brook.example", Password: given}).into(http.StatusCreated, &s)
	d.tokens[who.Person] = s.Token
	if p := d.get("/clients", who).problem(http.StatusForbidden); !strings.Contains(p.Detail, "Choose one of your own") {
		t.Errorf("refused: %+v", p)
	}
	d.get("/me", who).is(http.StatusOK)
	p := d.put("/me/password", who, api.OwnPassword{Old: given, New: "short"}).problem(http.StatusUnprocessableEntity)
	if says := field(t, p, "new"); !strings.Contains(says, "at least 12") {
		t.Errorf("a short password: %s", says)
	}
	d.put("/me/password", who, api.OwnPassword{Old: given, New: "an umbrella of my own"}).is(http.StatusNoContent)
	d.get("/clients", who).is(http.StatusOK)
}

// Whoever has turned one-time codes on sends one along with the password.
func TestSigningInWithACode(t *testing.T) {
	t.Parallel()
	line, err := sealed.NewKey(bytes.NewReader(bytes.Repeat([]byte{9}, 32)), "test")
	if err != nil {
		t.Fatal(err)
	}
	keys, err := sealed.ReadKeys(line)
	if err != nil {
		t.Fatal(err)
	}
	d := newDesk(t, func(o *office.Options) { o.Secrets = keys })
	made, err := d.Office.BeginCodes(t.Context(), d.Coordinator, ward.Password)
	if err != nil {
		t.Fatal(err)
	}
	code := func() string {
		c, err := totp.GenerateCode(made.Secret, d.Now())
		if err != nil {
			t.Fatal(err)
		}
		return c
	}
	if _, err := d.Office.ConfirmCodes(t.Context(), d.Coordinator, code()); err != nil {
		t.Fatal(err)
	}
	form := api.SignIn{Email: d.Email(d.Coordinator), Password: ward.Password}
	p := d.post("/sessions", assessment.Actor{}, form).problem(http.StatusUnauthorized)
	if !strings.Contains(p.Detail, "one-time code") {
		t.Errorf("asked for a code: %+v", p)
	}
	form.Code = code()
	if says := field(t, d.post("/sessions", assessment.Actor{}, form).problem(http.StatusUnprocessableEntity), "code"); !strings.Contains(says, "used already") {
		t.Errorf("a code that was used: %s", says)
	}
	d.Pass(time.Minute)
	form.Code = code()
	d.post("/sessions", assessment.Actor{}, form).is(http.StatusCreated)
}
