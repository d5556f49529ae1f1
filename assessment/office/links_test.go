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

func take(t *testing.T, w *ward.Ward, token, password string) error {
	t.Helper()
	return w.Office.TakeLink(t.Context(), office.LinkForm{Token: token, Password: password})
}

// enters reports whether a password signs somebody in.
func enters(t *testing.T, w *ward.Ward, who assessment.Actor, password string) bool {
	t.Helper()
	_, _, err := w.Office.SignIn(t.Context(), office.SignInForm{Email: w.Email(who), Password: password})
	return err == nil
}

// A link lets in once, within its time, and only the newest (ASVS 5.0, chapter 6,
// on single-use secrets of authentication; from memory). All that are refused look
// alike.
func TestALinkIsUsedOnce(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	who, other := w.Educators[0], "a pond with nine frogs"
	session := signIn(t, w, who, "")
	dead := "This link cannot be used"

	older := w.Link(w.Admin, who)
	w.Pass(time.Minute)
	token := w.Link(w.Admin, who)
	for range 3 { // opening it changes nothing
		if v := must(w.Office.Link(t.Context(), token))(t); v.Purpose != assessment.Reset || v.Name != who.Name || v.Email != w.Email(who) {
			t.Errorf("the link is for %+v", v)
		}
	}
	must(w.Office.Session(t.Context(), session))(t)
	wantAtField(t, take(t, w, token, "short"), "new", "at least 12")
	wantRefusal(t, take(t, w, older, other), fault.NotFound, dead)
	for _, forged := range []string{"", "x", strings.Repeat("A", 43), token + "A", token[:42], strings.ToUpper(token), "\x00"} {
		wantRefusal(t, take(t, w, forged, other), fault.NotFound, dead)
		_, err := w.Office.Link(t.Context(), forged)
		wantRefusal(t, err, fault.NotFound, dead)
	}
	if !enters(t, w, who, ward.Password) {
		t.Error("the old password does not last until the link is used")
	}
	wantNone(t, take(t, w, token, other))
	wantRefusal(t, take(t, w, token, "a third one to try"), fault.NotFound, dead)
	if enters(t, w, who, ward.Password) || !enters(t, w, who, other) {
		t.Error("the password is not the one that was chosen")
	}
	_, err := w.Office.Session(t.Context(), session)
	wantRefusal(t, err, fault.Unauthenticated, "signed out")
}

func TestALinkHasItsTime(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	fay := must(w.Office.AddPerson(t.Context(), w.Admin, office.PersonForm{Name: "Fay Marsh", Kind: "nurse", Email: "fay@ward.example", Roles: []string{"caregiver"}}))(t)
	newcomer := assessment.Actor{Agency: w.Admin.Agency, Person: fay.ID, Name: fay.Name, Roles: fay.Roles}
	for _, c := range []struct {
		whom assessment.Actor
		wait time.Duration
		good bool
	}{
		{w.Educators[0], 24 * time.Hour, false},
		{w.Educators[0], -time.Microsecond, false}, // the clock was set back
		{w.Educators[0], 24*time.Hour - time.Microsecond, true},
		{newcomer, 72 * time.Hour, false},
		{newcomer, 72*time.Hour - time.Microsecond, true},
	} {
		token := w.Link(w.Admin, c.whom)
		w.Pass(c.wait)
		if err := take(t, w, token, "a pond with nine frogs"); (err == nil) != c.good {
			t.Errorf("after %s for %s: %v", c.wait, c.whom.Name, err)
		}
		w.Pass(max(-c.wait, 0) + time.Minute)
	}
	// Whoever has left gets in by no link.
	token := w.Link(w.Admin, newcomer)
	wantNone(t, w.Office.PersonLeaves(t.Context(), w.Admin, fay.ID, w.Today()))
	wantRefusal(t, take(t, w, token, "another pond with frogs"), fault.NotFound, "This link cannot be used")
	_, err := w.Office.MakeLink(t.Context(), w.Admin, fay.ID)
	wantRefusal(t, err, fault.Refused, "They left")
	// A password without any role lets nobody in.
	none := must(w.Office.AddPerson(t.Context(), w.Admin, office.PersonForm{Name: "No Role", Email: "norole@ward.example"}))(t)
	_, err = w.Office.MakeLink(t.Context(), w.Admin, none.ID)
	wantRefusal(t, err, fault.Refused, "Give a role first")
}

// Of many who use one link at once, one gets it.
func TestManyUseOneLink(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	token := w.Link(w.Admin, w.Coordinator)
	errs := make([]error, 12)
	var all sync.WaitGroup
	for i := range errs {
		all.Go(func() { errs[i] = take(t, w, token, "a pond with nine frogs "+strings.Repeat("x", i)) })
	}
	all.Wait()
	won := 0
	for _, err := range errs {
		if err == nil {
			won++
		} else if fault.KindOf(err) != fault.NotFound {
			t.Error(err)
		}
	}
	if won != 1 {
		t.Errorf("%d have used it", won)
	}
}

func TestWhoMakesLinks(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	who := w.Educators[0].Person
	link := func(by assessment.Actor, id assessment.PersonID) error {
		_, err := w.Office.MakeLink(t.Context(), by, id)
		return err
	}
	wantRefusal(t, link(w.Coordinator, who), fault.Forbidden, "does not allow")
	wantRefusal(t, link(w.Admin, w.Admin.Person), fault.Refused, "your own password")
	silent := must(w.Office.AddPerson(t.Context(), w.Admin, office.PersonForm{Name: "No Address"}))(t)
	wantRefusal(t, link(w.Admin, silent.ID), fault.Refused, "no e-mail address")
	other := must(w.Office.FoundAgency(t.Context(), office.NewAgency{Code: "elder-brook", Name: "Elder Brook", Zone: ward.Zone, AdminName: "Ottar Lie",
		AdminEmail: "ottar@brook.example", AdminPassword: "nine cold brooks"}))(t)
	wantRefusal(t, link(other, who), fault.NotFound, "no such record")
	made := must(w.Office.MakeLink(t.Context(), w.Admin, who))(t)
	if !strings.HasPrefix(made.URL, "https://ward.example/link/") || len(made.URL) != len("https://ward.example/link/")+43 { // 256 bits as base64 (RFC 4648, section 5)
		t.Errorf("the link is %s", made.URL)
	}
	// Nothing that is kept gives the link away.
	owner := asOwner(t, w)
	var found int
	_, token, _ := strings.Cut(made.URL, "/link/")
	wantNone(t, owner.QueryRow(t.Context(), `select count(*) from secret_link where secret_link::text like '%' || $1 || '%'`, token).Scan(&found))
	if found != 0 {
		t.Error("the token is kept")
	}
}
