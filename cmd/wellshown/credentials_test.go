package main

import (
	"crypto/sha256"
	"encoding/base64"
	"encoding/hex"
	"encoding/json"
	"net/http"
	"net/http/httptest"
	"net/url"
	"strings"
	"testing"

	"wellshown/assessment"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

// bearing sends a request with what is given of a cookie, a token and a form.
func bearing(t *testing.T, h http.Handler, method, path, cookie, token string, form url.Values) *httptest.ResponseRecorder {
	t.Helper()
	r := httptest.NewRequest(method, path, strings.NewReader(form.Encode()))
	if form != nil {
		r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	}
	if cookie != "" {
		r.Header.Set("Cookie", "__Host-wellshown="+cookie)
	}
	if token != "" {
		r.Header.Set("Authorization", "Bearer "+token)
	}
	answer := httptest.NewRecorder()
	h.ServeHTTP(answer, r)
	return answer
}

// isTurnedAway holds an answer to being nobody's: programs get a problem of 401 (RFC 9110,
// section 15.5.2; RFC 9457), people the way to sign in.
func isTurnedAway(t *testing.T, what, path string, answer *httptest.ResponseRecorder) {
	t.Helper()
	if strings.HasPrefix(path, "/api/") {
		if answer.Code != http.StatusUnauthorized || answer.Header().Get("Content-Type") != "application/problem+json" {
			t.Errorf("%s, %s: %d %.200s", what, path, answer.Code, answer.Body)
		}
		return
	}
	if to := answer.Header().Get("Location"); answer.Code != http.StatusSeeOther || !strings.HasPrefix(to, "/sign-in") {
		t.Errorf("%s, %s: %d to %q", what, path, answer.Code, to)
	}
}

// Where a cookie and a token come together, the token speaks for a program and the
// cookie for a page; the other is never fallen back on. No published source: a rule of
// the house, so that no request is somebody's whom its sender did not mean.
func TestACookieBesideAToken(t *testing.T) {
	w := ward.New(t)
	h := handler(config{BaseURL: "https://shown.example"}, w.Office)
	admin, cory := signedIn(t, w, w.Admin), signedIn(t, w, w.Coordinator)
	var me struct {
		Person struct{ ID assessment.PersonID }
	}
	answer := bearing(t, h, http.MethodGet, "/api/v1/me", admin, cory, nil)
	if err := json.Unmarshal(answer.Body.Bytes(), &me); err != nil || me.Person.ID != w.Coordinator.Person {
		t.Errorf("a program is %q: %v %.200s", me.Person.ID, err, answer.Body)
	}
	if page := bearing(t, h, http.MethodGet, "/account", admin, cory, nil); page.Code != http.StatusOK || !strings.Contains(page.Body.String(), w.Admin.Name) {
		t.Errorf("a page is not its cookie's: %d", page.Code)
	}
	isTurnedAway(t, "a good cookie beside a bad token", "/api/v1/me", bearing(t, h, http.MethodGet, "/api/v1/me", admin, "nobodys", nil))
	isTurnedAway(t, "a good token beside a bad cookie", "/account", bearing(t, h, http.MethodGet, "/account", "nobodys", cory, nil))
	isTurnedAway(t, "a token alone on a page", "/account", bearing(t, h, http.MethodGet, "/account", "", cory, nil))
}

// What is forged, cut, lengthened, altered or of another kind opens nothing, as a
// cookie and as a token.
func TestForgedCookiesAndTokens(t *testing.T) {
	w := ward.New(t)
	h := handler(config{BaseURL: "https://shown.example"}, w.Office)
	session := signedIn(t, w, w.Admin)
	made, err := w.Office.MakeToken(t.Context(), w.Admin, office.TokenForm{Name: "Rota", Acts: []string{string(assessment.ReadChecklists)}})
	need(t, err)
	program := made.Secret
	if page, skills := bearing(t, h, http.MethodGet, "/account", session, "", nil), bearing(t, h, http.MethodGet, "/api/v1/skills", "", program, nil); page.Code != http.StatusOK || skills.Code != http.StatusOK {
		t.Fatalf("as they were made: %d and %d", page.Code, skills.Code)
	}
	sum := sha256.Sum256([]byte(session))
	bad := map[string]string{
		"cut": session[:42], "lengthened": session + "A", "padded": session + "=", "altered": altered(session, 20), "of no letters": strings.Repeat("*", 43),
		"very long": strings.Repeat("A", 20_000), "guessed": strings.Repeat("A", 43), "what is kept of it": hex.EncodeToString(sum[:]), "the same, shorter": base64.RawURLEncoding.EncodeToString(sum[:]), "twice": session + session, "SQL": "' or true --",
		"a program's cut": program[:81], "a program's lengthened": program + "0", "a program's altered": altered(program, 30), "a program's in capitals": strings.ToUpper(program),
		"a program's without its beginning": strings.TrimPrefix(program, office.TokenPrefix), "a program's beginning": office.TokenPrefix,
	}
	for what, secret := range bad {
		isTurnedAway(t, what+" as a cookie", "/account", bearing(t, h, http.MethodGet, "/account", secret, "", nil))
		isTurnedAway(t, what+" as a cookie", "/api/v1/me", bearing(t, h, http.MethodGet, "/api/v1/me", secret, "", nil))
		isTurnedAway(t, what+" as a token", "/api/v1/skills", bearing(t, h, http.MethodGet, "/api/v1/skills", "", secret, nil))
	}
	isTurnedAway(t, "a program's token as a cookie", "/account", bearing(t, h, http.MethodGet, "/account", program, "", nil))
}

func altered(secret string, at int) string {
	other := "a"
	if secret[at] == 'a' {
		other = "b"
	}
	return secret[:at] + other + secret[at+1:]
}

// A cookie that is sent again after its session was signed out opens nothing, on
// whichever edge (OWASP ASVS 5.0, 7.4.1).
func TestACookieIsOverAfterSigningOut(t *testing.T) {
	w := ward.New(t)
	h := handler(config{BaseURL: "https://shown.example"}, w.Office)
	session := signedIn(t, w, w.Coordinator)
	view, err := w.Office.Session(t.Context(), session)
	need(t, err)
	if out := bearing(t, h, http.MethodPost, "/sign-out", session, "", url.Values{"csrf": {view.CSRF}}); out.Code != http.StatusSeeOther {
		t.Fatalf("signing out: %d", out.Code)
	} else if clears := out.Header().Get("Clear-Site-Data"); clears != `"cache"` { // W3C Clear Site Data, section 3.1: quoted, from memory; not "storage", which holds sheets that nobody else has
		t.Errorf("what the browser keeps is cleared by %q", clears)
	}
	for _, path := range []string{"/account", "/api/v1/me"} {
		isTurnedAway(t, "replayed", path, bearing(t, h, http.MethodGet, path, session, "", nil))
		isTurnedAway(t, "replayed as a token", "/api/v1/me", bearing(t, h, http.MethodGet, "/api/v1/me", "", session, nil))
	}
}

// A link that was used shows nothing of whose it was and changes nothing when it is
// used again, on the page and in the API (OWASP ASVS 5.0, 6.4.1).
func TestALinkIsUsedOnceOverTheWire(t *testing.T) {
	w := ward.New(t)
	h := handler(config{BaseURL: "https://shown.example"}, w.Office)
	link := w.Link(w.Admin, w.Coordinator)
	first, second := url.Values{"new": {"seven otters wading"}, "again": {"seven otters wading"}}, url.Values{"new": {"nine herons asleep"}, "again": {"nine herons asleep"}}
	if used := bearing(t, h, http.MethodPost, "/link/"+link, "", "", first); used.Code != http.StatusSeeOther {
		t.Fatalf("used first: %d %.300s", used.Code, used.Body)
	}
	for method, form := range map[string]url.Values{http.MethodGet: nil, http.MethodPost: second} {
		again := bearing(t, h, method, "/link/"+link, "", "", form)
		if again.Code != http.StatusNotFound || strings.Contains(again.Body.String(), w.Coordinator.Name) || !strings.Contains(again.Body.String(), "cannot be used") {
			t.Errorf("%s again: %d %.300s", method, again.Code, again.Body)
		}
	}
	r := httptest.NewRequest(http.MethodPost, "/api/v1/links", strings.NewReader(`{"token":"`+link+`","password":"nine herons asleep"}`))
	r.Header.Set("Content-Type", "application/json")
	answer := httptest.NewRecorder()
	h.ServeHTTP(answer, r)
	if answer.Code != http.StatusNotFound || answer.Header().Get("Content-Type") != "application/problem+json" {
		t.Errorf("again by a program: %d %.300s", answer.Code, answer.Body)
	}
	for password, works := range map[string]bool{"seven otters wading": true, "nine herons asleep": false} {
		_, _, err := w.Office.SignIn(t.Context(), office.SignInForm{Email: w.Email(w.Coordinator), Password: password})
		if (err == nil) != works {
			t.Errorf("%s: %v", password, err)
		}
	}
}

// What another site's page sends is refused in the form of whoever asked, and not
// carried out even with a good cookie and the session's own word (OWASP ASVS 5.0, 3.5.1).
func TestFromElsewhereIsSaidInFull(t *testing.T) {
	w := ward.New(t)
	h := handler(config{BaseURL: "https://shown.example"}, w.Office)
	session := signedIn(t, w, w.Admin)
	view, err := w.Office.Session(t.Context(), session)
	need(t, err)
	for path, want := range map[string][2]string{
		"/clients": {"text/html; charset=utf-8", "sent from another site’s page"}, "/sign-out": {"text/html; charset=utf-8", "nothing has changed"},
		"/nowhere": {"text/html; charset=utf-8", "another site"}, "/api/v1/clients": {"application/problem+json", "another site's page"}, "/api/nowhere": {"application/problem+json", "another site's page"},
	} {
		r := httptest.NewRequest(http.MethodPost, path, strings.NewReader(url.Values{"csrf": {view.CSRF}, "code": {"3X"}, "first_name": {"Noor"}}.Encode()))
		r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
		r.Header.Set("Origin", "https://elsewhere.example")
		r.Header.Set("Sec-Fetch-Site", "cross-site")
		r.Header.Set("X-CSRF", view.CSRF)
		r.Header.Set("Cookie", "__Host-wellshown="+session)
		answer := httptest.NewRecorder()
		h.ServeHTTP(answer, r)
		if answer.Code != http.StatusForbidden || answer.Header().Get("Content-Type") != want[0] || !strings.Contains(answer.Body.String(), want[1]) {
			t.Errorf("%s: %d %s %.400s", path, answer.Code, answer.Header().Get("Content-Type"), answer.Body)
		}
		checkDressed(t, [2]string{http.MethodPost, path}, answer)
	}
	clients, err := w.Office.Clients(t.Context(), w.Admin, "")
	need(t, err)
	if len(clients) != 0 {
		t.Errorf("children were added: %+v", clients)
	}
	if page := bearing(t, h, http.MethodGet, "/account", session, "", nil); page.Code != http.StatusOK {
		t.Errorf("the session was ended: %d", page.Code)
	}
}
