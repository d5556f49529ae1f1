package office_test

import (
	"bytes"
	"context"
	"fmt"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/jackc/pgx/v5"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

// signIn signs somebody of the ward in.
func signIn(t *testing.T, w *ward.Ward, who assessment.Actor, address string) string {
	t.Helper()
	token, _, err := w.Office.SignIn(t.Context(), office.SignInForm{Email: w.Email(who), Password: ward.Password, Address: address})
	wantNone(t, err)
	return token
}

func TestSignIn(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	email := w.Email(w.Educators[0])
	token, actor, err := w.Office.SignIn(t.Context(), office.SignInForm{Email: " " + strings.ToUpper(email) + " ", Password: ward.Password})
	wantNone(t, err)
	if actor.Person != w.Educators[0].Person || actor.Agency != w.Admin.Agency || !actor.Is(assessment.Educator) || actor.Name != "Edda Lorne" {
		t.Errorf("signed in as %+v", actor)
	}
	s := must(w.Office.Session(t.Context(), token))(t)
	if s.Actor.Person != actor.Person || s.Agency.Code != ward.Code || s.Agency.Zone != ward.Zone || s.MustChangePassword || s.Language != "en" {
		t.Errorf("session %+v", s)
	}
	if again := must(w.Office.Session(t.Context(), token))(t); again.CSRF != s.CSRF || s.CSRF == "" || strings.Contains(token, s.CSRF) {
		t.Errorf("the word for forms is %q, then %q", s.CSRF, again.CSRF)
	}
	other := must(w.Office.Session(t.Context(), signIn(t, w, w.Educators[0], "")))(t)
	if other.CSRF == s.CSRF {
		t.Error("two sessions share the word for forms")
	}
	wantNone(t, w.Office.SignOut(t.Context(), token))
	wantNone(t, w.Office.SignOut(t.Context(), token))
	_, err = w.Office.Session(t.Context(), token)
	wantRefusal(t, err, fault.Unauthenticated, "signed out")
	for _, token := range []string{"", "x", token + "x"} {
		_, err = w.Office.Session(t.Context(), token)
		wantRefusal(t, err, fault.Unauthenticated, "signed out")
	}
}

func TestSignInRefused(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	email := w.Email(w.Coordinator)
	try := func(f office.SignInForm) error {
		_, _, err := w.Office.SignIn(t.Context(), f)
		return err
	}
	wrong := try(office.SignInForm{Email: email, Password: "not the right one"})
	wantRefusal(t, wrong, fault.Unauthenticated, "e-mail address or the password")
	for _, f := range []office.SignInForm{
		{Email: "nobody@ward.example", Password: ward.Password},
		{Email: email, Password: "not the right one", Agency: ward.Code},
		{Email: email, Password: ward.Password, Agency: "elsewhere"},
		{Email: "%", Password: ward.Password},
	} {
		if err := try(f); err == nil || err.Error() != wrong.Error() || fault.KindOf(err) != fault.Unauthenticated {
			t.Errorf("%+v: got %v, want what a wrong password gets", f, err)
		}
	}
	err := try(office.SignInForm{})
	wantAtField(t, err, "email", "Enter")
	wantAtField(t, err, "password", "Enter")
	wantAtField(t, try(office.SignInForm{Email: "a\x00@b", Password: "x"}), "email", "cannot be read")
	wantAtField(t, try(office.SignInForm{Email: email, Password: strings.Repeat("x", 129)}), "password", "at most 128")

	nobody := must(w.Office.AddPerson(t.Context(), w.Admin, office.PersonForm{Name: "No Role", Email: "norole@ward.example", Roles: []string{"coordinator"}}))(t)
	w.Take(w.Link(w.Admin, assessment.Actor{Person: nobody.ID}), ward.Password)
	must(edited(t, w, w.Admin, nobody.ID, office.PersonForm{Name: nobody.Name, Email: nobody.Email, Roles: []string{}}))(t)
	wantRefusal(t, try(office.SignInForm{Email: nobody.Email, Password: ward.Password}), fault.Forbidden, "not open")
}

// The same person in two agencies with the same password says which one is meant.
func TestSignInToTwoAgencies(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	email := w.Email(w.Coordinator)
	second := must(w.Office.FoundAgency(t.Context(), office.NewAgency{Code: "second", Name: "Second", Zone: "Europe/Oslo",
		AdminName: "Cory Vance", AdminEmail: email, AdminPassword: ward.Password}))(t)
	_, _, err := w.Office.SignIn(t.Context(), office.SignInForm{Email: email, Password: ward.Password})
	wantAtField(t, err, "agency", "more than one agency")
	for code, want := range map[string]assessment.AgencyID{ward.Code: w.Admin.Agency, " Second ": second.Agency} {
		_, actor, err := w.Office.SignIn(t.Context(), office.SignInForm{Agency: code, Email: email, Password: ward.Password})
		if err != nil || actor.Agency != want {
			t.Errorf("%q: got %+v, %v", code, actor, err)
		}
	}
	wantNone(t, w.Office.ChangePassword(t.Context(), second, ward.Password, "another one for Oslo", ""))
	if _, actor, err := w.Office.SignIn(t.Context(), office.SignInForm{Email: email, Password: "another one for Oslo"}); err != nil || actor.Agency != second.Agency {
		t.Errorf("a password that fits one: got %+v, %v", actor, err)
	}
}

// Common practice, no source: five failures of one person from one address in a
// quarter of an hour, other addresses free.
func TestGuessingIsSlowedDown(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	try := func(email, password, address string) error {
		_, _, err := w.Office.SignIn(t.Context(), office.SignInForm{Email: email, Password: password, Address: address})
		return err
	}
	for _, email := range []string{w.Email(w.Coordinator), "nobody@ward.example"} {
		for i := range 5 {
			wantRefusal(t, try(email, "guess", "10.0.0.1"), fault.Unauthenticated, "not right")
			w.Pass(time.Duration(i) * time.Minute)
		}
		wantRefusal(t, try(email, "guess", "10.0.0.1"), fault.Throttled, "Wait 15 minutes")
		wantRefusal(t, try(strings.ToUpper(email), ward.Password, "10.0.0.1"), fault.Throttled, "Wait 15 minutes")
		wantRefusal(t, try(email, "guess", "10.0.0.2"), fault.Unauthenticated, "not right")
	}
	email := w.Email(w.Coordinator)
	wantNone(t, try(email, ward.Password, "10.0.0.2"))
	wantNone(t, try(w.Email(w.Educators[0]), ward.Password, "10.0.0.1"))
	for i := range 5 { // all of one /64: who has one address of it has all (RFC 6177)
		wantRefusal(t, try(email, "guess", fmt.Sprintf("2001:db8:cd30:7::%d", i)), fault.Unauthenticated, "not right")
	}
	wantRefusal(t, try(email, ward.Password, "2001:db8:cd30:7:ffff::1"), fault.Throttled, "Wait 15 minutes")
	wantNone(t, try(email, ward.Password, "2001:db8:cd30:8::1"))
	w.Pass(15 * time.Minute)
	wantNone(t, try(email, ward.Password, "10.0.0.1"))
}

// Many tries at once are not each the first.
func TestGuessingAtOnce(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	email := w.Email(w.Coordinator)
	var mu sync.Mutex
	kinds := map[fault.Kind]int{}
	var all sync.WaitGroup
	for range 20 {
		all.Go(func() {
			_, _, err := w.Office.SignIn(context.Background(), office.SignInForm{Email: email, Password: "guess", Address: "10.0.0.1"})
			mu.Lock()
			defer mu.Unlock()
			kinds[fault.KindOf(err)]++
		})
	}
	all.Wait()
	if kinds[fault.Unauthenticated] != 5 || kinds[fault.Throttled] != 15 {
		t.Errorf("of 20 guesses at once, by kind: %v", kinds)
	}
}

func TestSessionsRunOut(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	open := func(token string) bool {
		_, err := w.Office.Session(t.Context(), token)
		if err != nil && fault.KindOf(err) != fault.Unauthenticated {
			t.Fatal(err)
		}
		return err == nil
	}
	idle := signIn(t, w, w.Coordinator, "")
	w.Pass(12*time.Hour - time.Second)
	if !open(idle) {
		t.Error("closed before twelve idle hours")
	}
	w.Pass(12*time.Hour - time.Second) // its use a moment ago was noted
	if !open(idle) {
		t.Error("its use was not noted")
	}
	w.Pass(12 * time.Hour)
	if open(idle) {
		t.Error("open after twelve idle hours")
	}
	used := signIn(t, w, w.Coordinator, "")
	for range 7*24/8 - 1 {
		w.Pass(8 * time.Hour)
		if !open(used) {
			t.Fatal("closed while in use")
		}
	}
	w.Pass(8 * time.Hour)
	if open(used) {
		t.Error("open after seven days")
	}
}

// A session follows its person: roles as they are now, and none once they left.
func TestSessionFollowsItsPerson(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	token := signIn(t, w, w.Coordinator, "")
	p := must(w.Office.Person(t.Context(), w.Admin, w.Coordinator.Person))(t)
	edit := office.PersonForm{Name: p.Name, Email: p.Email, Language: "es", Roles: []string{"surveyor"}}
	must(edited(t, w, w.Admin, p.ID, edit))(t)
	s := must(w.Office.Session(t.Context(), token))(t)
	if !slices.Equal(s.Actor.Roles, []assessment.Role{assessment.Surveyor}) || s.Language != "es" {
		t.Errorf("after the change: %+v", s)
	}
	tomorrow := w.Today().AddDays(1)
	wantNone(t, w.Office.PersonLeaves(t.Context(), w.Admin, p.ID, tomorrow))
	w.At(tomorrow.In(w.Zone).Add(-2 * time.Hour))
	token = signIn(t, w, w.Coordinator, "")
	w.At(tomorrow.In(w.Zone).Add(-time.Microsecond))
	must(w.Office.Session(t.Context(), token))(t)
	w.At(tomorrow.In(w.Zone))
	_, err := w.Office.Session(t.Context(), token)
	wantRefusal(t, err, fault.Unauthenticated, "signed out")
	_, _, err = w.Office.SignIn(t.Context(), office.SignInForm{Email: p.Email, Password: ward.Password})
	wantRefusal(t, err, fault.Forbidden, "not open")

	token = signIn(t, w, w.Educators[0], "")
	wantNone(t, w.Office.PersonLeaves(t.Context(), w.Admin, w.Educators[0].Person, w.Today()))
	_, err = w.Office.Session(t.Context(), token)
	wantRefusal(t, err, fault.Unauthenticated, "signed out")
	wantAtField(t, w.Office.PersonLeaves(t.Context(), w.Admin, p.ID, civil.Date{}), "on", "first day")
}

// What is kept of passwords and sessions opens nothing by itself.
func TestNoSecretIsKept(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	token := signIn(t, w, w.Coordinator, "192.0.2.7")
	db := must(pgx.Connect(t.Context(), w.DB.OwnerURL))(t)
	defer db.Close(context.Background())
	for table, secrets := range map[string][]string{"session": {token}, "credential": {ward.Password}, "sign_in_try": {"192.0.2.7"}, "journal": {token, ward.Password}} {
		var all string
		wantNone(t, db.QueryRow(t.Context(), `select coalesce(string_agg(x::text, ' '), '') from `+table+` x`).Scan(&all))
		if all == "" {
			t.Errorf("%s is empty: there is nothing to look at", table)
		}
		for _, s := range secrets {
			if strings.Contains(all, s) {
				t.Errorf("%s holds a secret in the clear", table)
			}
		}
	}
	var hash []byte
	wantNone(t, db.QueryRow(t.Context(), `select token_hash from session`).Scan(&hash))
	if len(hash) != 32 || bytes.Contains([]byte(token), hash) {
		t.Errorf("a session is known by %x", hash)
	}
}
