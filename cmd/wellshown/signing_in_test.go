package main

import (
	"fmt"
	"net/http"
	"net/http/httptest"
	"net/url"
	"strings"
	"testing"

	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

// Behind a proxy that is known, whoever guesses at somebody's password does not lock
// them out, and has no new try for each address that they claim.
func TestAStrangerBehindTheProxyLocksNobodyOut(t *testing.T) {
	w := ward.New(t)
	proxies, err := readProxies("10.0.0.1")
	if err != nil {
		t.Fatal(err)
	}
	h := handler(config{BaseURL: "https://shown.example", Proxies: proxies}, w.Office)
	signIn := func(from, password string) int {
		f := url.Values{"email": {w.Email(w.Educators[0])}, "password": {password}}
		r := httptest.NewRequest(http.MethodPost, "/sign-in", strings.NewReader(f.Encode()))
		r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
		r.Header.Set("X-Forwarded-For", from)
		r.RemoteAddr = "10.0.0.1:4711"
		answer := httptest.NewRecorder()
		h.ServeHTTP(answer, r)
		return answer.Code
	}
	for i := range 5 {
		if code := signIn(fmt.Sprintf("192.0.2.%d, 203.0.113.9", i), "a wrong password"); code != http.StatusUnprocessableEntity {
			t.Errorf("a wrong password: %d", code)
		}
	}
	if code := signIn("192.0.2.77, 203.0.113.9", "a wrong password"); code != http.StatusTooManyRequests {
		t.Errorf("the sixth guess of one client: %d", code)
	}
	if code := signIn("198.51.100.7", ward.Password); code != http.StatusSeeOther {
		t.Errorf("the right password from another client: %d", code)
	}
}

// Over TLS the API believes a page's cookie only under the name that browsers keep
// from other hosts (the prefix __Host- of RFC 6265bis, section 4.1.3.2).
func TestOverTLSOnlyTheGuardedCookieCounts(t *testing.T) {
	w := ward.New(t)
	token, _, err := w.Office.SignIn(t.Context(), office.SignInForm{Email: w.Email(w.Educators[0]), Password: ward.Password})
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		base, cookie string
		want         int
	}{
		{"https://shown.example", "__Host-wellshown", http.StatusOK},
		{"https://shown.example", "wellshown", http.StatusUnauthorized},
		{"http://127.0.0.1:8080", "wellshown", http.StatusOK},
		{"http://127.0.0.1:8080", "__Host-wellshown", http.StatusUnauthorized},
	} {
		r := httptest.NewRequest(http.MethodGet, "/api/v1/me", nil)
		r.AddCookie(&http.Cookie{Name: c.cookie, Value: token})
		answer := httptest.NewRecorder()
		handler(config{BaseURL: c.base}, w.Office).ServeHTTP(answer, r)
		if answer.Code != c.want {
			t.Errorf("%s at %s: %d, want %d", c.cookie, c.base, answer.Code, c.want)
		}
	}
}
