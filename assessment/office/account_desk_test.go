package office_test

import (
	"strings"
	"testing"
	"time"

	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

// Sessions can be seen and ended by whose they are (ASVS 5.0, 7.5.2, from memory),
// and what tells them apart opens none.
func TestOwnSessions(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	open := func(browser string) string {
		w.Pass(time.Minute)
		token, _, err := w.Office.SignIn(office.FromBrowser(t.Context(), browser), office.SignInForm{Email: w.Email(w.Coordinator), Password: ward.Password})
		wantNone(t, err)
		return token
	}
	tokens := []string{
		open("Mozilla/5.0 (X11; Linux x86_64) Gecko/20100101"), open("Mozilla/5.0 (Linux; Android 14; K) AppleWebKit/537.36 Mobile Safari/537.36"),
		open("Mozilla/5.0 (Linux; Android 14; K) AppleWebKit/537.36 Safari/537.36"), open("curl/8.0"), open(""),
	}
	by := must(w.Office.Session(t.Context(), tokens[1]))(t).Actor
	stranger := must(w.Office.Session(t.Context(), signIn(t, w, w.Educators[0], "")))(t).Actor
	a := must(w.Office.Account(t.Context(), by))(t)
	var devices []string
	for _, s := range a.Sessions {
		devices = append(devices, s.Device)
		if s.This != (s.Device == "phone") {
			t.Errorf("%+v", s)
		}
		if _, err := w.Office.Session(t.Context(), s.Handle); err == nil {
			t.Error("a handle opens a session")
		}
		for _, token := range tokens {
			if strings.Contains(token, s.Handle) || strings.Contains(by.Session, s.Handle) {
				t.Error("a handle tells of a token or its hash")
			}
		}
		wantRefusal(t, w.Office.EndSession(t.Context(), stranger, s.Handle), fault.NotFound, "no such record")
	}
	if got := strings.Join(devices, " "); got != "unknown phone program tablet computer" {
		t.Errorf("signed in on %s", got)
	}
	wantNone(t, w.Office.EndSession(t.Context(), by, a.Sessions[0].Handle))
	_, err := w.Office.Session(t.Context(), tokens[4])
	wantRefusal(t, err, fault.Unauthenticated, "signed out")
	wantRefusal(t, w.Office.EndSession(t.Context(), by, a.Sessions[0].Handle), fault.NotFound, "no such record")
	wantNone(t, w.Office.EndOtherSessions(t.Context(), by))
	if a = must(w.Office.Account(t.Context(), by))(t); len(a.Sessions) != 1 || !a.Sessions[0].This {
		t.Errorf("left: %+v", a.Sessions)
	}
	// One that has run out is not listed.
	w.Pass(12 * time.Hour)
	if a = must(w.Office.Account(t.Context(), by))(t); len(a.Sessions) != 0 {
		t.Errorf("run out: %+v", a.Sessions)
	}
}

// All that touches an account is told to whose it is; what they have not done
// themselves they are told at their next sign-in.
func TestTheOwnerIsToldOfAllThatTouchesTheirAccount(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	cory := w.Coordinator
	news := func() (office.AccountView, int) {
		t.Helper()
		w.Pass(time.Minute)
		s := must(w.Office.Session(t.Context(), signIn(t, w, cory, "")))(t)
		a := must(w.Office.Account(t.Context(), s.Actor))(t)
		marked := 0
		for _, e := range a.Events {
			if e.New {
				marked++
			}
		}
		if a.News != s.News || marked != s.News {
			t.Errorf("%d news here, %d there, %d marked", a.News, s.News, marked)
		}
		return a, s.News
	}
	if _, n := news(); n != 0 { // to whoever comes first all is new
		t.Errorf("%d news at the first sign-in", n)
	}
	if _, n := news(); n != 0 {
		t.Errorf("%d news where nothing happened", n)
	}
	w.Pass(time.Minute)
	for range 3 {
		_, _, err := w.Office.SignIn(t.Context(), office.SignInForm{Email: w.Email(cory), Password: "guess", Address: "198.51.100.9"})
		wantRefusal(t, err, fault.Unauthenticated, "not right")
	}
	w.Pass(time.Minute)
	p := must(w.Office.Person(t.Context(), w.Admin, cory.Person))(t)
	must(edited(t, w, w.Admin, cory.Person, office.PersonForm{Name: p.Name, Email: p.Email, Roles: []string{"coordinator", "educator"}}))(t)
	w.Pass(time.Minute)
	must(edited(t, w, w.Admin, cory.Person, office.PersonForm{Name: p.Name, Email: p.Email, Roles: []string{"coordinator"}}))(t)
	w.Link(w.Admin, cory)
	a, n := news()
	told := words(a)
	for _, want := range []string{"3 failed tries to prove who you are by", "Role given: educator by Ada Minton", "Role ended: educator by Ada Minton", "Link made to set a new password by Ada Minton", "Signed in by Cory Vance"} {
		if !strings.Contains(told, want) {
			t.Errorf("not told %q: %s", want, told)
		}
	}
	others := 0
	for _, e := range a.Events {
		if !e.Own && e.At.After(w.Now().Add(-5*time.Minute)) {
			others++
		}
	}
	if n == 0 || n != others {
		t.Errorf("%d news, and %d things in the list that others did", n, others)
	}
	by := must(w.Office.Session(t.Context(), signIn(t, w, cory, "")))(t).Actor
	wantNone(t, w.Office.PutNewsAway(t.Context(), by))
	if a, n = news(); n != 0 {
		t.Errorf("%d news after they were put away: %s", n, words(a))
	}
}

// Whoever tries a stranger's password slows down nobody but themselves: the owner
// gets in from where they are, and signs (ASVS 5.0, 6.3.1, from memory: throttling
// must not be a means to lock others out).
func TestAStrangersTriesLockNobodyOut(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	who := w.Educators[0]
	try := func(password, address string) error {
		_, _, err := w.Office.SignIn(t.Context(), office.SignInForm{Email: w.Email(who), Password: password, Address: address})
		return err
	}
	for i := range 40 {
		err := try("guess", "198.51.100.9")
		if i >= 5 {
			wantRefusal(t, err, fault.Throttled, "Too many tries")
		}
	}
	for _, place := range []string{"2001:db8:1::1", "2001:db8:1::2", "2001:db8:1::3", "2001:db8:1::4", "2001:db8:1::5", "2001:db8:1::6"} {
		_ = try("guess", place)
	}
	wantRefusal(t, try(ward.Password, "2001:db8:1::7"), fault.Throttled, "Too many tries") // one network, RFC 6177
	wantRefusal(t, try(ward.Password, "198.51.100.9"), fault.Throttled, "Too many tries")
	wantNone(t, try(ward.Password, "203.0.113.4"))
	wantNone(t, try(ward.Password, "2001:db8:2::1"))
	for range 6 {
		_ = w.Office.Confirm(t.Context(), w.Educators[1], who.Person, office.ByPassword("guess"))
	}
	wantNone(t, w.Office.Confirm(t.Context(), who, who.Person, ward.Proof))
}
