package office_test

import (
	"strings"
	"testing"
	"time"

	"github.com/descope/virtualwebauthn"
	"github.com/jackc/pgx/v5"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

// The device that answers in these tests is another implementation of Web
// Authentication than the one that is tested (descope/virtualwebauthn).
type device struct {
	party virtualwebauthn.RelyingParty
	auth  virtualwebauthn.Authenticator
	key   virtualwebauthn.Credential
}

var wardParty = virtualwebauthn.RelyingParty{ID: "ward.example", Name: "Wellshown", Origin: "https://ward.example"}

// newKey is a key of P-256. The device leaves leading zeros of a coordinate out, which
// RFC 9053, section 7.1.1, forbids: one key in 128 is refused for that and drawn anew.
func newKey() virtualwebauthn.Credential {
	for {
		if k := virtualwebauthn.NewCredential(virtualwebauthn.KeyTypeEC2); len(k.Key.AttestationData()) == 77 {
			return k
		}
	}
}

func newDevice() *device {
	d := &device{party: wardParty, auth: virtualwebauthn.NewAuthenticator(), key: newKey()}
	d.key.Counter = 1
	return d
}

// made answers a question for a new passkey.
func (d *device) made(t *testing.T, options string) string {
	t.Helper()
	asked, err := virtualwebauthn.ParseAttestationOptions(options)
	if err != nil {
		t.Fatal(err)
	}
	return virtualwebauthn.CreateAttestationResponse(d.party, d.auth, d.key, *asked)
}

// answer uses the passkey once more.
func (d *device) answer(t *testing.T, options string) string {
	t.Helper()
	d.key.Counter++
	return d.answerAt(t, options)
}

// answerAt uses the passkey with its counter as it stands.
func (d *device) answerAt(t *testing.T, options string) string {
	t.Helper()
	asked, err := virtualwebauthn.ParseAssertionOptions(options)
	if err != nil {
		t.Fatal(err)
	}
	return virtualwebauthn.CreateAssertionResponse(d.party, d.auth, d.key, *asked)
}

// addPasskey registers a device for somebody.
func addPasskey(t *testing.T, w *ward.Ward, who assessment.Actor) *device {
	t.Helper()
	d := newDevice()
	options, err := w.Office.BeginPasskey(t.Context(), who, ward.Password)
	wantNone(t, err)
	asked, err := virtualwebauthn.ParseAttestationOptions(options)
	wantNone(t, err)
	d.auth.Options.UserHandle = []byte(asked.UserID)
	wantNone(t, w.Office.AddPasskey(t.Context(), who, "Phone", d.made(t, options)))
	return d
}

func askSignIn(t *testing.T, w *ward.Ward) string {
	t.Helper()
	options, err := w.Office.BeginPasskeySignIn(t.Context())
	wantNone(t, err)
	return options
}

func TestAPasskeySignsItsOwnerIn(t *testing.T) {
	w := ward.New(t)
	who := w.Educators[0]
	d := addPasskey(t, w, who)
	for range 2 {
		token, actor, err := w.Office.SignInByPasskey(t.Context(), d.answer(t, askSignIn(t, w)))
		wantNone(t, err)
		if actor.Person != who.Person || actor.Agency != who.Agency {
			t.Errorf("signed in as %+v", actor)
		}
		if s, err := w.Office.Session(t.Context(), token); err != nil || s.Actor.Person != who.Person {
			t.Errorf("the session is of %+v, %v", s.Actor, err)
		}
	}
	kept, err := w.Office.Passkeys(t.Context(), who)
	wantNone(t, err)
	if len(kept) != 1 || kept[0].Name != "Phone" || kept[0].UsedAt == nil || !kept[0].UsedAt.Equal(w.Now()) {
		t.Errorf("%+v", kept)
	}
}

// One browser may hold passkeys of two agencies: each opens its own.
func TestPasskeysOfTwoAgencies(t *testing.T) {
	w := ward.New(t)
	other := must(w.Office.FoundAgency(t.Context(), office.NewAgency{Code: "elder-brook", Name: "Elder Brook", Zone: ward.Zone, AdminName: w.Educators[0].Name,
		AdminEmail: w.Email(w.Educators[0]), AdminPassword: "lent for one morning"}))(t)
	wantNone(t, w.Office.ChangePassword(t.Context(), other, "lent for one morning", ward.Password, ""))
	here, there := addPasskey(t, w, w.Educators[0]), addPasskey(t, w, other)
	for d, who := range map[*device]assessment.Actor{here: w.Educators[0], there: other} {
		_, actor, err := w.Office.SignInByPasskey(t.Context(), d.answer(t, askSignIn(t, w)))
		wantNone(t, err)
		if actor.Agency != who.Agency || actor.Person != who.Person {
			t.Errorf("signed in as %+v, want %+v", actor, who)
		}
		if handle := string(d.auth.Options.UserHandle); len(handle) != 32 || strings.Contains(handle, string(who.Person)) {
			t.Errorf("the passkey calls its owner %q", handle)
		}
	}
	crossed := *here
	crossed.auth.Options.UserHandle = there.auth.Options.UserHandle
	_, _, err := w.Office.SignInByPasskey(t.Context(), crossed.answer(t, askSignIn(t, w)))
	wantRefusal(t, err, fault.Refused, "not accepted")
}

// W3C Web Authentication, Level 3, section 7.2: what a relying party must refuse.
func TestAPasskeysAnswerThatIsNotGenuine(t *testing.T) {
	w := ward.New(t)
	who := w.Educators[0]
	good := addPasskey(t, w, who)
	other := addPasskey(t, w, w.Educators[1])
	for name, forge := range map[string]func(options string) string{
		"another origin": func(o string) string {
			d := *good
			d.party.Origin = "https://ward.example.evil.example"
			return d.answer(t, o)
		},
		"another port of the same host": func(o string) string {
			d := *good
			d.party.Origin = "https://ward.example:8443"
			return d.answer(t, o)
		},
		"another party": func(o string) string {
			d := *good
			d.party.ID = "example"
			return d.answer(t, o)
		},
		"nobody verified": func(o string) string {
			d := *good
			d.auth.Options.UserNotVerified = true
			return d.answer(t, o)
		},
		"nobody present": func(o string) string {
			d := *good
			d.auth.Options.UserNotPresent = true
			return d.answer(t, o)
		},
		"a changed flag of its backup": func(o string) string {
			d := *good
			d.auth.Options.BackupEligible = true
			return d.answer(t, o)
		},
		"another's key under one's own name": func(o string) string {
			d := *other
			d.auth.Options.UserHandle = good.auth.Options.UserHandle
			return d.answer(t, o)
		},
		"one's own key under another's name": func(o string) string {
			d := *good
			d.auth.Options.UserHandle = other.auth.Options.UserHandle
			return d.answer(t, o)
		},
		"a name that nobody has": func(o string) string {
			d := *good
			d.auth.Options.UserHandle = []byte(strings.Repeat("x", 32))
			return d.answer(t, o)
		},
		"no name": func(o string) string {
			d := *good
			d.auth.Options.UserHandle = nil
			return d.answer(t, o)
		},
		"a forged signature": func(o string) string {
			d := *good
			d.key = newKey()
			d.key.ID, d.key.Counter = good.key.ID, 100
			return d.answer(t, o)
		},
		"a challenge of its own": func(string) string {
			return good.answer(t, `{"challenge":"`+strings.Repeat("A", 43)+`","rpId":"ward.example"}`)
		},
		"no JSON":  func(string) string { return "{" },
		"nothing":  func(string) string { return "" },
		"too much": func(o string) string { return strings.Repeat(" ", 1<<17) + good.answer(t, o) },
	} {
		t.Run(name, func(t *testing.T) {
			token, _, err := w.Office.SignInByPasskey(t.Context(), forge(askSignIn(t, w)))
			if fault.KindOf(err) != fault.Refused || token != "" {
				t.Errorf("token %q, %v", token, err)
			}
		})
	}
	if _, _, err := w.Office.SignInByPasskey(t.Context(), good.answer(t, askSignIn(t, w))); err != nil {
		t.Errorf("the genuine one no longer works: %v", err)
	}
}

func TestAnAnswerIsTakenOnceAndInTime(t *testing.T) {
	w := ward.New(t)
	d := addPasskey(t, w, w.Educators[0])
	answer := d.answer(t, askSignIn(t, w))
	_, _, err := w.Office.SignInByPasskey(t.Context(), answer)
	wantNone(t, err)
	_, _, err = w.Office.SignInByPasskey(t.Context(), answer)
	wantRefusal(t, err, fault.Refused, "answered already")

	late := d.answer(t, askSignIn(t, w))
	w.Pass(5 * time.Minute)
	_, _, err = w.Office.SignInByPasskey(t.Context(), late)
	wantRefusal(t, err, fault.Refused, "longer than five minutes")

	// A wrong answer uses the question up as well.
	options := askSignIn(t, w)
	forged := *d
	forged.party.Origin = "https://elsewhere.example"
	_, _, err = w.Office.SignInByPasskey(t.Context(), forged.answer(t, options))
	wantRefusal(t, err, fault.Refused, "not accepted")
	d.key.Counter++
	_, _, err = w.Office.SignInByPasskey(t.Context(), d.answer(t, options))
	wantRefusal(t, err, fault.Refused, "answered already")
}

// Section 6.1.1: a counter that does not go on says that there may be a copy.
func TestAPasskeyWhoseCounterGoesBack(t *testing.T) {
	w := ward.New(t)
	who := w.Educators[0]
	d := addPasskey(t, w, who)
	_, _, err := w.Office.SignInByPasskey(t.Context(), d.answer(t, askSignIn(t, w)))
	wantNone(t, err)
	_, _, err = w.Office.SignInByPasskey(t.Context(), d.answerAt(t, askSignIn(t, w)))
	wantRefusal(t, err, fault.Refused, "counter went back")
	d.key.Counter += 10
	_, _, err = w.Office.SignInByPasskey(t.Context(), d.answer(t, askSignIn(t, w)))
	wantRefusal(t, err, fault.Refused, "counter went back") // neither copy is accepted from then on
	kept, err := w.Office.Passkeys(t.Context(), who)
	wantNone(t, err)
	if kept[0].Doubted == nil {
		t.Error("its owner is not told")
	}
	// Noted once: nothing about later answers is proven, and whoever makes them up must
	// not fill the owner's account.
	forged := *d
	forged.key = newKey()
	forged.key.ID, forged.key.Counter = d.key.ID, 100
	_, _, err = w.Office.SignInByPasskey(t.Context(), forged.answer(t, askSignIn(t, w)))
	wantRefusal(t, err, fault.Refused, "counter went back")
	if doubted, refused := journalled(t, w, "passkey doubted"), journalled(t, w, "passkey refused"); doubted != 1 || refused != 0 {
		t.Errorf("noted %d times as doubted, %d times as refused", doubted, refused)
	}
	wantNone(t, w.Office.RemovePasskey(t.Context(), who, kept[0].ID, ward.Password))
	options, err := w.Office.BeginPasskey(t.Context(), who, ward.Password)
	wantNone(t, err)
	wantNone(t, w.Office.AddPasskey(t.Context(), who, "Phone again", d.made(t, options)))
	_, _, err = w.Office.SignInByPasskey(t.Context(), d.answer(t, askSignIn(t, w)))
	wantNone(t, err)
}

// journalled counts the lines of a kind.
func journalled(t *testing.T, w *ward.Ward, kind string) int {
	t.Helper()
	owner, err := pgx.Connect(t.Context(), w.DB.OwnerURL)
	wantNone(t, err)
	defer owner.Close(t.Context())
	var n int
	wantNone(t, owner.QueryRow(t.Context(), `select count(*) from journal where kind = $1`, kind).Scan(&n))
	return n
}

func TestARegistrationThatIsNotGenuine(t *testing.T) {
	w := ward.New(t)
	who, else_ := w.Educators[0], w.Educators[1]
	begin := func(by assessment.Actor) string {
		options, err := w.Office.BeginPasskey(t.Context(), by, ward.Password)
		wantNone(t, err)
		return options
	}
	_, err := w.Office.BeginPasskey(t.Context(), who, "not the password")
	wantAtField(t, err, "password", "not your password")

	d := newDevice()
	d.party.Origin = "https://elsewhere.example"
	wantRefusal(t, w.Office.AddPasskey(t.Context(), who, "Phone", d.made(t, begin(who))), fault.Refused, "not accepted")

	d = newDevice()
	d.auth.Options.UserNotVerified = true
	wantRefusal(t, w.Office.AddPasskey(t.Context(), who, "Phone", d.made(t, begin(who))), fault.Refused, "not accepted")

	wantRefusal(t, w.Office.AddPasskey(t.Context(), else_, "Phone", newDevice().made(t, begin(who))), fault.Refused, "not accepted")

	d = newDevice()
	answer := d.made(t, begin(who))
	wantAtField(t, w.Office.AddPasskey(t.Context(), who, " ", answer), "name", "Give the passkey a name")
	wantNone(t, w.Office.AddPasskey(t.Context(), who, "Phone", answer))
	wantRefusal(t, w.Office.AddPasskey(t.Context(), who, "Phone", answer), fault.Refused, "answered already")
	wantRefusal(t, w.Office.AddPasskey(t.Context(), who, "Twice", d.made(t, begin(who))), fault.Conflict, "registered already")
	// Section 7.1: a credential id that somebody else has is refused.
	wantRefusal(t, w.Office.AddPasskey(t.Context(), else_, "Theirs", d.made(t, begin(else_))), fault.Conflict, "registered already")
}

// Whoever gave somebody a password must not be able to add a way in for themselves.
func TestAGivenPasswordAddsNoPasskey(t *testing.T) {
	w := ward.New(t)
	who := must(w.Office.FoundAgency(t.Context(), office.NewAgency{Code: "elder-brook", Name: "Elder Brook", Zone: ward.Zone, AdminName: "Ottar Lie",
		AdminEmail: "ottar@brook.example", AdminPassword: "lent for one morning"}))(t)
	_, err := w.Office.BeginPasskey(t.Context(), who, "lent for one morning")
	wantAtField(t, err, "password", "set by somebody else")
}

func TestPasskeysWhereBrowsersHaveNone(t *testing.T) {
	for _, address := range []string{"", "http://127.0.0.1:8080", "https://192.0.2.7", "http://shown.example", "http://[::1]:8080"} {
		o := office.New(nil, office.Options{BaseURL: address})
		if err := o.PasskeysOffered(); fault.KindOf(err) != fault.Refused {
			t.Errorf("%q: %v", address, err)
		}
		if _, err := o.BeginPasskeySignIn(t.Context()); fault.KindOf(err) != fault.Refused {
			t.Errorf("%q: %v", address, err)
		}
	}
	for _, address := range []string{"https://shown.example", "https://shown.example:8443", "http://localhost:8080"} {
		if err := office.New(nil, office.Options{BaseURL: address}).PasskeysOffered(); err != nil {
			t.Errorf("%q: %v", address, err)
		}
	}
}

// Nor must whoever made a link for somebody's password, who could have used it.
func TestNoWayInIsAddedBeforeSomebodyVouched(t *testing.T) {
	w := ward.New(t, withSecrets(secretKeys(t, "a")))
	who := w.Educators[0]
	const own = "three words or four"
	wantNone(t, w.Office.TakeLink(t.Context(), office.LinkForm{Token: w.Link(w.Admin, who), Password: own}))
	_, err := w.Office.BeginPasskey(t.Context(), who, own)
	wantRefusal(t, err, fault.Refused, "nobody has vouched for you yet")
	_, err = w.Office.BeginCodes(t.Context(), who, own)
	wantRefusal(t, err, fault.Refused, "nobody has vouched for you yet")
	wantNone(t, w.Office.Vouch(t.Context(), w.Educators[1], who.Person, ward.Proof))
	_, err = w.Office.BeginPasskey(t.Context(), who, own)
	wantNone(t, err)
	_, err = w.Office.BeginCodes(t.Context(), who, own)
	wantNone(t, err)
}

// What was looked at when a browser was asked for a new passkey is looked at again when
// it answers: how many there are, and whose account it is by then.
func TestQuestionsAskedAheadAddNoPasskeyTooMany(t *testing.T) {
	w := ward.New(t)
	who := w.Educators[0]
	var answers []string
	for range 22 {
		options, err := w.Office.BeginPasskey(t.Context(), who, ward.Password)
		wantNone(t, err)
		answers = append(answers, newDevice().made(t, options))
	}
	for _, a := range answers[:20] {
		wantNone(t, w.Office.AddPasskey(t.Context(), who, "Phone", a))
	}
	wantRefusal(t, w.Office.AddPasskey(t.Context(), who, "Phone", answers[20]), fault.Refused, "You have 20 passkeys")
	w.Take(w.Link(w.Admin, who), "known to Ada alone")
	wantRefusal(t, w.Office.AddPasskey(t.Context(), who, "Phone", answers[21]), fault.Refused, "answered already")
	if kept := must(w.Office.Passkeys(t.Context(), who))(t); len(kept) != 0 {
		t.Errorf("%d passkeys after the reset", len(kept))
	}
}
