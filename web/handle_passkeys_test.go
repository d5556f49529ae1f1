package web

import (
	"net/http"
	"strings"
	"testing"

	"github.com/descope/virtualwebauthn"

	"wellshown/assessment"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

// device answers what the pages ask for (descope/virtualwebauthn, another
// implementation of Web Authentication than the one that is tested).
type device struct {
	auth virtualwebauthn.Authenticator
	key  virtualwebauthn.Credential
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

// options are what a page asks the browser for.
func (p *page) options() string {
	p.t.Helper()
	for _, f := range nodes(p.node, "form") {
		if o := attrOf(f, "data-options"); o != "" {
			return o
		}
	}
	p.t.Fatalf("%s asks for no passkey: %s", p.at, p.text())
	return ""
}

func (d *device) answer(p *page) string {
	p.t.Helper()
	asked, err := virtualwebauthn.ParseAssertionOptions(p.options())
	if err != nil {
		p.t.Fatal(err)
	}
	d.key.Counter++
	return virtualwebauthn.CreateAssertionResponse(wardParty, d.auth, d.key, *asked)
}

// newDevice adds a passkey through the pages, as the script of the page would.
func newDevice(b *browser) *device {
	b.t.Helper()
	p := b.get("/account/passkeys").form("/account/passkeys").send("name", "My phone", "password", ward.Password).wants(http.StatusOK)
	asked, err := virtualwebauthn.ParseAttestationOptions(p.options())
	if err != nil {
		b.t.Fatal(err)
	}
	d := &device{virtualwebauthn.NewAuthenticatorWithOptions(virtualwebauthn.AuthenticatorOptions{UserHandle: []byte(asked.UserID)}), newKey()}
	made := virtualwebauthn.CreateAttestationResponse(wardParty, d.auth, d.key, *asked)
	p.form("/account/passkeys/new").send("passkey", made).wants(http.StatusOK).says("The passkey is added.", "My phone")
	return d
}

func TestAPasskeyOnPages(t *testing.T) {
	w := newWard(t)
	site, edda := engine(w), w.Educators[0]
	lan, mira := w.Nurse("Nguyễn Thị Lan"), w.Client("7K", "Mira")
	b := as(t, site, w, edda)
	b.get("/account/passkeys").form("/account/passkeys").send("name", "My phone", "password", "wrong and wrong").
		wants(http.StatusUnprocessableEntity).says("No passkey is added.", "This is not your password.")
	d := newDevice(b)

	stranger := visitor(t, site)
	p := stranger.get("/sign-in/passkey?next=/people").wants(http.StatusOK)
	answer := d.answer(p)
	p.form("/sign-in/passkey").send("passkey", answer).wants(http.StatusOK).says(edda.Name)
	again := visitor(t, site)
	again.get("/sign-in/passkey").form("/sign-in/passkey").send("passkey", answer).wants(http.StatusUnprocessableEntity).says("You are not signed in.", "answered already")
	again.get("/sign-in/passkey").form("/sign-in/passkey").send("passkey", "").wants(http.StatusUnprocessableEntity).says("not accepted")

	v := w.Demonstrate(lan, "humidifier", mira, ward.Unsigned)
	p = b.get("/demonstrations/"+string(v.ID)).form("/demonstrations/"+string(v.ID)+"/signature").send("passkey", office.AskPasskey).wants(http.StatusOK).
		says("Sign with a passkey", office.MeaningObserver, v.Title)
	answer = d.answer(p)
	p.form("/demonstrations/"+string(v.ID)+"/signature").send("passkey", answer).wants(http.StatusOK).says("Signed by " + edda.Name)
	signedBy(t, w, edda, v.ID)

	p = b.get("/account/passkeys")
	removal := p.formAt("/removal")
	removal.send("password", "wrong and wrong").wants(http.StatusUnprocessableEntity).says("The passkey is still there.")
	b.get("/account/passkeys").formAt("/removal").send("password", ward.Password).wants(http.StatusOK).says("The passkey is removed.")
	p = again.get("/sign-in/passkey")
	p.form("/sign-in/passkey").send("passkey", d.answer(p)).wants(http.StatusUnprocessableEntity).says("You are not signed in.")
}

// formAt is the first form that is sent to an address that ends so.
func (p *page) formAt(end string) *sheet {
	p.t.Helper()
	for _, n := range nodes(p.node, "form") {
		if strings.HasSuffix(attrOf(n, "action"), end) {
			return readForm(p, n)
		}
	}
	p.t.Fatalf("%s has no form for …%s: %s", p.at, end, p.text())
	return nil
}

// lacksForm wants no form that is sent to an address.
func (p *page) lacksForm(action string) {
	p.t.Helper()
	for _, n := range nodes(p.node, "form") {
		if attrOf(n, "action") == action {
			p.t.Errorf("%s has a form for %s", p.at, action)
		}
	}
}

func signedBy(t *testing.T, w *ward.Ward, who assessment.Actor, id assessment.DemonstrationID) {
	t.Helper()
	v, err := w.Office.Demonstration(t.Context(), who, id)
	if err != nil {
		t.Fatal(err)
	}
	if s := v.SignedBy(office.PartObserver); s == nil || s.PrintedName != who.Name {
		t.Errorf("signed by %+v", s)
	}
}

// Every form that is signed can be signed with a passkey: what was typed comes along.
func TestWhatWasTypedComesAlong(t *testing.T) {
	w := newWard(t)
	edda := w.Educators[0]
	lan, mira := w.Nurse("Nguyễn Thị Lan"), w.Client("7K", "Mira")
	b := as(t, engine(w), w, edda)
	d := newDevice(b)
	v := w.Demonstrate(lan, "humidifier", mira)
	at := "/demonstrations/" + string(v.ID)
	b.get(at).form(at+"/correction").send("reason", " ", "passkey", office.AskPasskey).wants(http.StatusUnprocessableEntity).says("Say what is wrong")
	p := b.get(at).form(at+"/correction").send("reason", "The other child’s “humidifier”.", "passkey", office.AskPasskey).wants(http.StatusOK)
	answer := d.answer(p)
	f := p.form(at + "/correction")
	if f.fields.Get("reason") != "The other child’s “humidifier”." || f.fields.Has("password") {
		t.Errorf("what comes along: %v", f.fields)
	}
	f.send("reason", "Another reason.", "passkey", answer).wants(http.StatusUnprocessableEntity).says("something else than this")
	p = b.get(at).form(at+"/correction").send("reason", "Wrong child.", "passkey", office.AskPasskey).wants(http.StatusOK)
	p.form(at+"/correction").send("passkey", d.answer(p)).wants(http.StatusOK).says("as if it had never been")
}

// formWith is the form that has a button of a name and value.
func (p *page) formWith(name, value string) *sheet {
	p.t.Helper()
	for _, f := range nodes(p.node, "form") {
		for _, b := range nodes(f, "button") {
			if attrOf(b, "name") == name && attrOf(b, "value") == value {
				return readForm(p, f)
			}
		}
	}
	p.t.Fatalf("%s has no button %s=%s: %s", p.at, name, value, p.text())
	return nil
}

// The page that asks for a passkey says what is signed, by whom and when; whoever
// goes back finds the form as they had filled it in.
func TestGoingBackFromAPasskeyLosesNothing(t *testing.T) {
	w := newWard(t)
	edda := w.Educators[0]
	lan, mira := w.Nurse("Nguyễn Thị Lan"), w.Client("7K", "Mira")
	v := w.Award(lan, "humidifier", mira)
	b := as(t, engine(w), w, edda)
	newDevice(b)
	at := "/people/" + string(lan.Person) + "/withdrawals"
	p := b.get("/people/"+string(lan.Person)).form(at).send("skill", "humidifier "+string(mira), "until", "reinstated", "related", "yes", "reason", "Seen with the other circuit.", "passkey", office.AskPasskey).
		wants(http.StatusOK).sound().says("Withdraw "+v.Title, "of Nguyễn Thị Lan from today", "Seen with the other circuit.", edda.Name+", RN W-", instant(w.Now(), w.Zone))
	back := p.formWith("passkey", office.NoPasskey).send("passkey", office.NoPasskey).wants(http.StatusUnprocessableEntity).sound().
		says("Nothing was withdrawn.", "You went back without signing").form(at)
	for field, want := range map[string]string{"reason": "Seen with the other circuit.", "skill": "humidifier " + string(mira), "until": "reinstated", "related": "yes"} {
		if got := back.fields.Get(field); got != want {
			t.Errorf("%s is %q after going back, and was %q", field, got, want)
		}
	}
	b.get("/people/" + string(lan.Person)).saysNot("withdrawn until")
}

func TestPasskeysAreNotShownWhereThereAreNone(t *testing.T) {
	w := ward.New(t, func(o *office.Options) { o.BaseURL = "http://127.0.0.1:8080" })
	site := engine(w)
	if p := visitor(t, site).get("/sign-in"); strings.Contains(p.body, "passkey.js") {
		t.Error("the script is there")
	}
	as(t, site, w, w.Educators[0]).get("/account/passkeys").says("There are no passkeys here", "127.0.0.1").lacksForm("/account/passkeys")
	visitor(t, site).get("/sign-in/passkey").wants(http.StatusUnprocessableEntity).says("There are no passkeys here")
}
