package main

import (
	"bytes"
	"context"
	"io"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"net/url"
	"regexp"
	"strings"
	"testing"

	"wellshown/api"
	"wellshown/assessment"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
	"wellshown/web"
)

// never is an id that nothing has.
const never = "0197a1d0-0000-7000-8000-00000000dead"

var parameter = regexp.MustCompile(`:[a-z]+|\{[a-z]+\}`)

// everyAddress lists each page, form and operation, with its parameters filled.
func everyAddress() [][2]string {
	all := [][2]string{{"GET", "/nowhere"}, {"GET", "/api/v1/nowhere"}, {"DELETE", "/sign-in"}, {"PATCH", "/api/v1/me"}, {"GET", "/static/none.css"}}
	for _, r := range web.Table() {
		all = append(all, [2]string{r.Method, parameter.ReplaceAllString(r.Path, never)})
	}
	for _, r := range api.Table() {
		all = append(all, [2]string{r.Method, parameter.ReplaceAllString(r.Path, never)})
	}
	return all
}

// Every answer says what browsers may do with it, whoever asks and whatever comes of
// it. Values: OWASP Secure Headers Project and W3C CSP3, from memory; __Host- is
// RFC 6265bis, section 4.1.3.2.
func TestEveryAnswerIsDressed(t *testing.T) {
	w := ward.New(t)
	token := signedIn(t, w, w.Admin)
	h := handler(config{BaseURL: "https://shown.example"}, w.Office)
	asked := 0
	for _, at := range everyAddress() {
		for _, cookie := range []string{"", "__Host-wellshown=" + token} {
			if at[1] == "/sign-out" || strings.HasSuffix(at[1], "/sessions/current") {
				continue // would end the session that is asked with
			}
			r := httptest.NewRequest(at[0], at[1], strings.NewReader(""))
			r.Header.Set("Cookie", cookie)
			answer := httptest.NewRecorder()
			h.ServeHTTP(answer, r)
			asked++
			checkDressed(t, at, answer)
		}
	}
	t.Logf("%d answers", asked)
}

func checkDressed(t *testing.T, at [2]string, answer *httptest.ResponseRecorder) {
	t.Helper()
	header := answer.Header()
	for name, want := range map[string]string{
		"Content-Security-Policy": web.ContentSecurityPolicy, "X-Content-Type-Options": "nosniff", "Cross-Origin-Opener-Policy": "same-origin",
		"Cross-Origin-Resource-Policy": "same-origin", "Strict-Transport-Security": overTLS, "Cache-Control": "no-store", "X-Frame-Options": "DENY",
		"Permissions-Policy": "camera=(), geolocation=(), microphone=(), payment=(), usb=(), publickey-credentials-create=(self), publickey-credentials-get=(self)",
	} {
		if got := header.Get(name); got != want {
			t.Errorf("%s %s (%d): %s is %q, want %q", at[0], at[1], answer.Code, name, got, want)
		}
	}
	if referrer := header.Get("Referrer-Policy"); referrer != "same-origin" && referrer != "no-referrer" {
		t.Errorf("%s %s: Referrer-Policy is %q", at[0], at[1], referrer)
	}
	for _, c := range answer.Result().Cookies() {
		if !c.Secure || !c.HttpOnly && c.Value != "" && strings.Contains(c.Name, "wellshown") || !strings.HasPrefix(c.Name, "__Host-") || c.Path != "/" || c.Domain != "" {
			t.Errorf("%s %s sets the cookie %+v", at[0], at[1], c)
		}
		if c.SameSite != http.SameSiteLaxMode && c.SameSite != http.SameSiteStrictMode {
			t.Errorf("%s %s sets the cookie %s for requests of other sites", at[0], at[1], c.Name)
		}
	}
	if answer.Code >= 500 && answer.Code != http.StatusServiceUnavailable {
		t.Errorf("%s %s: %d %.200s", at[0], at[1], answer.Code, answer.Body)
	}
}

func signedIn(t *testing.T, w *ward.Ward, who assessment.Actor) string {
	t.Helper()
	token, _, err := w.Office.SignIn(t.Context(), office.SignInForm{Email: w.Email(who), Password: ward.Password})
	if err != nil {
		t.Fatal(err)
	}
	return token
}

// What changes something comes from a page of the house or from a program, never
// from another site's page (Fetch Metadata, W3C; Origin, RFC 6454).
func TestOtherSitesPagesChangeNothing(t *testing.T) {
	w := ward.New(t)
	h := handler(config{BaseURL: "https://shown.example"}, w.Office)
	for _, c := range []struct {
		site, origin, host string
		refused            bool
	}{
		{"same-origin", "https://shown.example", "shown.example", false},
		{"none", "", "shown.example", false},
		{"cross-site", "https://evil.example", "shown.example", true},
		{"same-site", "https://other.shown.example", "shown.example", true},
		{"", "https://evil.example", "shown.example", true},            // a browser from before Sec-Fetch-Site
		{"", "https://shown.example", "shown.example", false},          // the same, on the site itself
		{"", "https://shown.example", "inside.internal", false},        // behind a proxy that changes the host
		{"", "null", "shown.example", true},                            // a sandboxed frame
		{"", "", "shown.example", false},                               // a program
		{"cross-site", "https://shown.example", "evil.example", false}, // the trusted origin, by name
	} {
		f := url.Values{"email": {"nobody@ward.example"}, "password": {"not the right one"}}
		r := httptest.NewRequest(http.MethodPost, "/sign-in", strings.NewReader(f.Encode()))
		r.Host = c.host
		r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
		for name, value := range map[string]string{"Sec-Fetch-Site": c.site, "Origin": c.origin} {
			if value != "" {
				r.Header.Set(name, value)
			}
		}
		answer := httptest.NewRecorder()
		h.ServeHTTP(answer, r)
		if got := answer.Code == http.StatusForbidden; got != c.refused {
			t.Errorf("%+v: %d", c, answer.Code)
		}
	}
}

// What is too large, no text or a page full of fields is refused, and nothing breaks.
func TestWhatNoRequestMayBe(t *testing.T) {
	w := ward.New(t)
	token := signedIn(t, w, w.Admin)
	h := handler(config{BaseURL: "http://127.0.0.1"}, w.Office)
	fields := url.Values{}
	for range 20_000 {
		fields.Add("roles", "caregiver")
	}
	for name, c := range map[string]struct{ at, kind, body string }{
		"a large form":      {"/sign-in", "application/x-www-form-urlencoded", "email=" + strings.Repeat("a", 2<<20)},
		"many fields":       {"/sign-in", "application/x-www-form-urlencoded", fields.Encode()},
		"NUL in a form":     {"/sign-in", "application/x-www-form-urlencoded", "email=a%00b%40c.example&password=x%00y"},
		"no UTF-8":          {"/sign-in", "application/x-www-form-urlencoded", "email=%ff%fe&password=%c3%28"},
		"large JSON":        {"/api/v1/sessions", "application/json", `{"email": "` + strings.Repeat("a", 2<<20) + `"}`},
		"deep JSON":         {"/api/v1/sessions", "application/json", strings.Repeat(`{"a":`, 200_000) + "1" + strings.Repeat("}", 200_000)},
		"no JSON":           {"/api/v1/sessions", "application/json", "email=a"},
		"NUL in JSON":       {"/api/v1/sessions", "application/json", `{"email": "a\u0000b@c.example", "password": "x"}`},
		"no UTF-8 in JSON":  {"/api/v1/sessions", "application/json", "{\"email\": \"\xff\xfe\", \"password\": \"x\"}"},
		"another kind":      {"/api/v1/people", "text/xml", `<?xml version="1.0"?><!DOCTYPE a [<!ENTITY b SYSTEM "file:///etc/passwd">]><a>&b;</a>`},
		"a file for a form": {"/people", "multipart/form-data; boundary=x", "--x\r\nContent-Disposition: form-data; name=\"name\"; filename=\"a\"\r\n\r\n" + strings.Repeat("a", 2<<20) + "\r\n--x--\r\n"},
	} {
		r := httptest.NewRequest(http.MethodPost, c.at, strings.NewReader(c.body))
		r.Header.Set("Content-Type", c.kind)
		if !strings.Contains(c.at, "s") || c.at == "/people" || c.at == "/api/v1/people" {
			r.Header.Set("Cookie", "wellshown="+token)
		}
		answer := httptest.NewRecorder()
		h.ServeHTTP(answer, r)
		if answer.Code < 400 || answer.Code >= 500 {
			t.Errorf("%s: %d %.200s", name, answer.Code, answer.Body)
		}
		if strings.Contains(answer.Body.String(), "root:") {
			t.Errorf("%s: shows a file", name)
		}
	}
}

// Whatever people type, send as a header or have in an address, the log has none of
// it: ids, routes and codes only (OWASP Logging Cheat Sheet, from memory).
func TestTheLogKeepsNoWords(t *testing.T) {
	w := ward.New(t)
	token := signedIn(t, w, w.Admin)
	var log bytes.Buffer
	before := slog.Default()
	slog.SetDefault(slog.New(slog.NewJSONHandler(&log, nil)))
	t.Cleanup(func() { slog.SetDefault(before) })
	const canary = "canarybird"
	h := handler(config{BaseURL: "http://127.0.0.1"}, w.Office)
	asked := 0
	for _, at := range everyAddress() {
		if strings.Contains(at[1], "sign-out") || strings.HasSuffix(at[1], "/sessions/current") {
			continue
		}
		r := httptest.NewRequest(at[0], strings.ReplaceAll(at[1], never, canary)+"?find="+canary+"&next="+canary+"&on="+canary, strings.NewReader(canaries(at[1], canary, w, token)))
		r.Header.Set("Cookie", "wellshown="+token)
		r.Header.Set("User-Agent", canary)
		r.Header.Set("Authorization", "")
		r.Header.Set("X-Forwarded-For", canary)
		r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
		if strings.HasPrefix(at[1], "/api/") {
			r.Header.Set("Content-Type", "application/json")
		}
		h.ServeHTTP(httptest.NewRecorder(), r)
		asked++
	}
	w.Postgres.Close() // from here on the database does not answer
	for _, path := range []string{"/today", "/people?find=" + canary, "/api/v1/people?find=" + canary} {
		r := httptest.NewRequest(http.MethodGet, path, nil)
		r.Header.Set("Cookie", "wellshown="+token)
		h.ServeHTTP(httptest.NewRecorder(), r)
	}
	text, err := io.ReadAll(&log)
	if err != nil {
		t.Fatal(err)
	}
	for _, secret := range []string{canary, token, ward.Password} {
		if i := bytes.Index(text, []byte(secret)); i >= 0 {
			t.Errorf("the log has %q: …%s…", secret, text[max(0, i-200):min(len(text), i+100)])
		}
	}
	if lines := bytes.Count(text, []byte("\n")); lines < asked {
		t.Errorf("%d lines for %d requests: nothing was looked at", lines, asked)
	}
}

// canaries are a form or JSON with the word in every field that there is a name for.
func canaries(at, canary string, w *ward.Ward, token string) string {
	names := []string{"email", "password", "name", "reason", "note", "title", "old", "new", "code", "first_name", "statement", "source", "head", "pin", "on", "find", "skill", "person"}
	if strings.HasPrefix(at, "/api/") {
		var fields []string
		for _, n := range names {
			fields = append(fields, `"`+n+`": "`+canary+`"`)
		}
		return "{" + strings.Join(fields, ", ") + "}"
	}
	f := url.Values{"csrf": {csrfOf(w, token)}}
	for _, n := range names {
		f.Set(n, canary)
	}
	return f.Encode()
}

func csrfOf(w *ward.Ward, token string) string {
	v, err := w.Office.Session(context.Background(), token)
	if err != nil {
		return ""
	}
	return v.CSRF
}
