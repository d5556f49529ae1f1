package office_test

import (
	"context"
	"sync"
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

func TestChangePassword(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	who, other := w.Coordinator, "a pond with nine frogs"
	here, there := signIn(t, w, who, ""), signIn(t, w, who, "")
	change := func(old, new string) error { return w.Office.ChangePassword(t.Context(), who, old, new, here) }
	wantAtField(t, change("not mine at all", other), "old", "not your password")
	wantAtField(t, change(ward.Password, "short"), "new", "at least 12")
	wantAtField(t, change(ward.Password, "cory vance 1"), "new", "own name")
	wantAtField(t, change(ward.Password, ward.Password), "new", "Choose another")
	must(w.Office.Session(t.Context(), there))(t)

	wantNone(t, change(ward.Password, other))
	must(w.Office.Session(t.Context(), here))(t)
	_, err := w.Office.Session(t.Context(), there)
	wantRefusal(t, err, fault.Unauthenticated, "signed out")
	_, _, err = w.Office.SignIn(t.Context(), office.SignInForm{Email: w.Email(who), Password: ward.Password})
	wantRefusal(t, err, fault.Unauthenticated, "not right")
	_, _, err = w.Office.SignIn(t.Context(), office.SignInForm{Email: w.Email(who), Password: other})
	wantNone(t, err)
}

// A new password opens the account again for whoever had to wait.
func TestNewPasswordEndsTheWait(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	try := func(password string) error {
		_, _, err := w.Office.SignIn(t.Context(), office.SignInForm{Email: w.Email(w.Coordinator), Password: password, Address: "10.0.0.1"})
		return err
	}
	for range 5 {
		wantRefusal(t, try("guess"), fault.Unauthenticated, "not right")
	}
	wantRefusal(t, try(ward.Password), fault.Throttled, "Wait")
	w.Take(w.Link(w.Admin, w.Coordinator), "lent for one morning")
	wantNone(t, try("lent for one morning"))
}

func TestConfirm(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	confirm := func(person assessment.PersonID, password string) error {
		return w.Office.Confirm(t.Context(), w.Educators[0], person, office.ByPassword(password))
	}
	who := w.Coordinator.Person
	wantNone(t, confirm(who, ward.Password))
	for range 5 {
		wantAtField(t, confirm(who, "guess"), "password", "This password does not match. Nothing has been signed.")
	}
	wantRefusal(t, confirm(who, ward.Password), fault.Throttled, "Wait")
	wantNone(t, w.Office.Confirm(t.Context(), w.Coordinator, who, ward.Proof)) // nobody locks them out of signing elsewhere
	silent := must(w.Office.AddPerson(t.Context(), w.Admin, office.PersonForm{Name: "No Password"}))(t)
	wantAtField(t, confirm(silent.ID, "guess"), "password", "does not match")
	wantAtField(t, confirm(silent.ID, ""), "password", "Enter your password. Nothing has been signed.")
	wantAtField(t, w.Office.Confirm(t.Context(), w.Coordinator, who, office.Proof{Password: ward.Password, Passkey: "{}"}), "password", "passkey cannot be used")
	wantRefusal(t, confirm("00000000-0000-7000-8000-000000000000", ward.Password), fault.NotFound, "no such record")
	surveyor := w.Surveyor("Sue Vey")
	wantRefusal(t, w.Office.Confirm(t.Context(), surveyor, who, ward.Proof), fault.Forbidden, "does not allow")
}

// A failed try counts although the use case that asked is given up. Many that ask
// at once do not starve each other of connections, nor do many right passwords at
// once look like guessing.
func TestTriesOutliveTheUseCase(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	nurse := w.Nurse("Nan Orme")
	withdraw := func(ctx context.Context, by assessment.Actor, password string) error {
		return w.Office.Withdraw(ctx, by, office.ExceptionForm{Person: nurse.Person, Skill: "bagging", Reason: "seen to be unsure",
			Proof: office.ByPassword(password)}, assessment.Redemonstrated, false)
	}
	for range 5 {
		wantAtField(t, withdraw(t.Context(), w.Educators[0], "guess"), "password", "does not match")
	}
	wantRefusal(t, withdraw(t.Context(), w.Educators[0], ward.Password), fault.Throttled, "Wait")

	ctx, cancel := context.WithTimeout(t.Context(), 30*time.Second)
	defer cancel()
	var all sync.WaitGroup
	for range 40 {
		all.Go(func() { wantNone(t, withdraw(ctx, w.Educators[1], ward.Password)) })
	}
	all.Wait()
}

func TestFoundAgency(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	good := office.NewAgency{Code: "elder-brook", Name: "Elder Brook", Zone: "Europe/Oslo", AdminName: "Ottar Lie",
		AdminEmail: "ottar@brook.example", AdminPassword: "nine cold brooks"}
	admin := must(w.Office.FoundAgency(t.Context(), good))(t)
	token, _, err := w.Office.SignIn(t.Context(), office.SignInForm{Email: good.AdminEmail, Password: good.AdminPassword})
	wantNone(t, err)
	if s := must(w.Office.Session(t.Context(), token))(t); s.Actor.Person != admin.Person || !s.MustChangePassword || s.Agency.Zone != "Europe/Oslo" || s.Agency.Demo {
		t.Errorf("the first administrator's session: %+v", s)
	}
	_, err = w.Office.FoundAgency(t.Context(), good)
	wantRefusal(t, err, fault.Conflict, "with this code already")

	for _, c := range []struct {
		field string
		spoil func(*office.NewAgency)
	}{
		{"code", func(n *office.NewAgency) { n.Code = " " }},
		{"name", func(n *office.NewAgency) { n.Name = "" }},
		{"zone", func(n *office.NewAgency) { n.Zone = "" }},
		{"zone", func(n *office.NewAgency) { n.Zone = "Local" }},
		{"zone", func(n *office.NewAgency) { n.Zone = "Atlantis/Capital" }},
		{"zone", func(n *office.NewAgency) { n.Zone = "../etc/passwd" }},
		{"admin_name", func(n *office.NewAgency) { n.AdminName = "" }},
		{"admin_email", func(n *office.NewAgency) { n.AdminEmail = "ottar" }},
		{"admin_email", func(n *office.NewAgency) { n.AdminEmail = "" }},
		{"admin_password", func(n *office.NewAgency) { n.AdminPassword = "short" }},
	} {
		bad := good
		bad.Code = "another"
		c.spoil(&bad)
		_, err := w.Office.FoundAgency(t.Context(), bad)
		wantAtField(t, err, c.field, "")
	}
	bad := good
	bad.Code = "Not A Word"
	_, err = w.Office.FoundAgency(t.Context(), bad)
	wantRefusal(t, err, fault.Invalid, "short lower-case word")

	demo := good
	demo.Code, demo.Demo, demo.AdminEmail = "show", true, "demo@brook.example"
	admin = must(w.Office.FoundAgency(t.Context(), demo))(t)
	if p := must(w.Office.Person(t.Context(), admin, admin.Person))(t); p.MustChange {
		t.Error("a demonstration's administrator must change the password")
	}
}
