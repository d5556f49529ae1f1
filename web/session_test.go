package web

import (
	"net/http"
	"net/url"
	"testing"

	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

// Whoever still has a password that somebody else set may do nothing but choose
// another: a form of theirs is sent to the password page and not carried out.
func TestAForeignPasswordCarriesNoFormOut(t *testing.T) {
	w := newWard(t)
	site := engine(w)
	founder, err := w.Office.FoundAgency(t.Context(), office.NewAgency{Code: "elder-brook", Name: "Elder Brook", Zone: ward.Zone, AdminName: "Ottar Lie",
		AdminEmail: "ottar@brook.example", AdminPassword: "a phrase that somebody else chose"})
	if err != nil {
		t.Fatal(err)
	}
	first := visitor(t, site)
	first.get("/sign-in").form("/sign-in").send("email", "ottar@brook.example", "password", "a phrase that somebody else chose")
	if p := first.get("/people"); p.at != "/password" {
		t.Errorf("led to %s", p.at)
	}
	first.post("/clients", url.Values{"csrf": {first.csrf()}, "code": {"ZZ9"}, "first_name": {"Nobody"}})
	clients, err := w.Office.Clients(t.Context(), founder, "")
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range clients {
		if c.Code == "ZZ9" {
			t.Error("the form was carried out")
		}
	}
}

// A form without the session's own word, or with another one's, is not carried out
// (OWASP ASVS 4.0, 4.2.2: anti-forgery; from memory).
func TestAFormFromElsewhereIsNotCarriedOut(t *testing.T) {
	w := newWard(t)
	coordinator := as(t, engine(w), w, w.Coordinator)
	for _, word := range []string{"", "x", "0000000000000000000000000000000000000000000"} {
		coordinator.post("/clients", url.Values{"csrf": {word}, "code": {"ZZ9"}, "first_name": {"Nobody"}}).wants(http.StatusForbidden)
	}
	coordinator.get("/clients").saysNot("ZZ9")
}

// Whoever was signed out meanwhile is told that the form is lost, and comes back to
// the page on which it stood.
func TestAFormSentTooLateLeadsBackToItsPage(t *testing.T) {
	b := newBedside(t)
	stranger := visitor(t, b.site)
	for address, back := range map[string]string{
		"/demonstrations/019363d6-2980-79ea-aadd-bbfcea024c40/marks/4":                                                  "/demonstrations/019363d6-2980-79ea-aadd-bbfcea024c40/marks/4",
		"/demonstrations/019363d6-2980-79ea-aadd-bbfcea024c40/signature":                                                "/demonstrations/019363d6-2980-79ea-aadd-bbfcea024c40",
		"/clients/019363d6-2980-79ea-aadd-bbfcea024c40/readiness/criteria/019363d6-2980-79ea-aadd-bbfcea024c41/removal": "/clients/019363d6-2980-79ea-aadd-bbfcea024c40/readiness",
		"/demonstrations": "/demonstrations/new",
		"/clients/019363d6-2980-79ea-aadd-bbfcea024c40/parameters": "/clients/019363d6-2980-79ea-aadd-bbfcea024c40/parameters/new",
		"/skills/019363d6-2980-79ea-aadd-bbfcea024c40/revisions":   "/",
	} {
		p := stranger.post(address, url.Values{}).wants(http.StatusOK).says("You were signed out: what you sent is not saved.")
		if got := p.form("/sign-in").fields.Get("next"); got != back {
			t.Errorf("%s leads on to %s, not %s", address, got, back)
		}
	}
	practice := "/learning/019363d6-2980-79ea-aadd-bbfcea024c40/practice"
	for _, c := range []struct{ sent, stood, back string }{
		{practice, practice + "?what=go-bag+7K", practice + "?what=go-bag+7K"}, // what it asked for comes along
		{practice + "?what=go-bag+7K", practice + "?what=go-bag+7K", practice + "?what=go-bag+7K"},
		{practice + "?what=go-bag+7K", "", practice + "?what=go-bag+7K"},
		{practice, "/people?x=y", practice}, // but not what another page asked for
	} {
		p := stranger.postFrom(c.stood, c.sent).wants(http.StatusOK)
		if got := p.form("/sign-in").fields.Get("next"); got != c.back {
			t.Errorf("%s sent from %q leads on to %s, not %s", c.sent, c.stood, got, c.back)
		}
	}
	if p := stranger.get("/people").wants(http.StatusOK); p.form("/sign-in").fields.Get("next") != "/people" {
		t.Error("a page that was asked for is not gone on to")
	} else {
		p.saysNot("not saved")
	}
	stranger.post("/sign-out", url.Values{}).wants(http.StatusOK).saysNot("not saved")
}

// postFrom sends an empty form as a browser does that tells on which page it stood.
func (b *browser) postFrom(stood, path string) *page {
	b.t.Helper()
	r, err := http.NewRequest(http.MethodPost, b.base+path, nil)
	if err != nil {
		b.t.Fatal(err)
	}
	if stood != "" {
		r.Header.Set("Referer", b.base+stood)
	}
	return b.do(r)
}
