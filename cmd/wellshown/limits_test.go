package main

import (
	"fmt"
	"net/http"
	"net/http/httptest"
	"strconv"
	"strings"
	"testing"
	"time"
)

// slowed is a handler with limits and a clock of its own.
func slowed(perAddress, perToken int) (ask func(method, path, from, token string) *httptest.ResponseRecorder, pass func(time.Duration), kept func() int) {
	now := time.Date(2026, 3, 1, 10, 0, 0, 0, time.UTC)
	l := newLimits(func() time.Time { return now }, perAddress, perToken)
	h := l.slow(http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) { w.WriteHeader(http.StatusNoContent) }))
	ask = func(method, path, from, token string) *httptest.ResponseRecorder {
		r := httptest.NewRequest(method, path, nil)
		r.RemoteAddr = from
		if token != "" {
			r.Header.Set("Authorization", "Bearer "+token)
		}
		answer := httptest.NewRecorder()
		h.ServeHTTP(answer, r)
		return answer
	}
	return ask, func(d time.Duration) { now = now.Add(d) }, func() int { return len(l.buckets) }
}

// until asks until it is refused, and tells after how many.
func until(t *testing.T, ask func() *httptest.ResponseRecorder) (int, *httptest.ResponseRecorder) {
	t.Helper()
	for n := range 100_000 {
		if answer := ask(); answer.Code == http.StatusTooManyRequests {
			return n, answer
		}
	}
	t.Fatal("never refused")
	return 0, nil
}

// RFC 6585, section 4: 429 says how long to wait, and who waits so long is let in
// again. One address or token never costs another anything.
func TestWhoAsksTooMuchWaits(t *testing.T) {
	ask, pass, _ := slowed(600, 120)
	n, refused := until(t, func() *httptest.ResponseRecorder { return ask(http.MethodGet, "/today", "192.0.2.1:1", "") })
	wait, err := strconv.Atoi(refused.Header().Get("Retry-After"))
	if n != 150 || err != nil || wait < 1 || !strings.Contains(refused.Body.String(), "Nothing was done") {
		t.Errorf("after %d: %v %s", n, refused.Header(), refused.Body)
	}
	if answer := ask(http.MethodGet, "/today", "192.0.2.2:1", ""); answer.Code != http.StatusNoContent {
		t.Errorf("another address: %d", answer.Code)
	}
	pass(time.Duration(wait) * time.Second)
	if answer := ask(http.MethodGet, "/today", "192.0.2.1:2", ""); answer.Code != http.StatusNoContent {
		t.Errorf("after the wait: %d", answer.Code)
	}
	one := func() *httptest.ResponseRecorder {
		return ask(http.MethodGet, "/api/v1/overdue", "192.0.2.3:1", "wellshown_one")
	}
	n, refused = until(t, one)
	if n != 30 || !strings.Contains(refused.Header().Get("Content-Type"), "problem+json") || refused.Header().Get("Retry-After") == "" || refused.Header().Get("Retry-After") == "900" {
		t.Errorf("after %d: %v %s", n, refused.Header(), refused.Body)
	}
	if answer := ask(http.MethodGet, "/api/v1/overdue", "192.0.2.3:1", "wellshown_two"); answer.Code != http.StatusNoContent {
		t.Errorf("another token at the same address: %d", answer.Code)
	}
}

// Coming in is slower than looking round; a page that is only looked at counts little.
func TestComingInIsSlower(t *testing.T) {
	ask, _, _ := slowed(usualPerAddress, usualPerToken)
	n, _ := until(t, func() *httptest.ResponseRecorder { return ask(http.MethodPost, "/sign-in", "192.0.2.1:1", "") })
	if n != usualEntries/4 {
		t.Errorf("refused after %d tries", n)
	}
	for range 100 {
		if answer := ask(http.MethodGet, "/sign-in", "192.0.2.1:1", ""); answer.Code != http.StatusNoContent {
			t.Fatalf("looking at the page: %d", answer.Code)
		}
	}
	for _, path := range []string{"/api/v1/sessions", "/link/x", "/sign-in/code"} {
		if answer := ask(http.MethodPost, path, "192.0.2.1:9", ""); answer.Code != http.StatusTooManyRequests {
			t.Errorf("%s: %d", path, answer.Code)
		}
	}
}

// One client has 2^64 addresses of IPv6 for itself (RFC 6177), and they count as one.
func TestOneNetworkIsOneAddress(t *testing.T) {
	for from, want := range map[string]string{
		"192.0.2.1:80": "192.0.2.1", "[2001:db8:1:2:3:4:5:6]:80": "2001:db8:1:2::/64", "[2001:db8:1:2:ffff::1]:80": "2001:db8:1:2::/64",
		"[::ffff:192.0.2.1]:80": "192.0.2.1", "[fe80::1%eth0]:80": "fe80::/64", "nonsense": "nonsense",
	} {
		if got := network(from); got != want {
			t.Errorf("%s is %s, want %s", from, got, want)
		}
	}
}

// However many ask, the memory stays bounded, and who asks on is not forgotten.
func TestLimitsForget(t *testing.T) {
	ask, pass, kept := slowed(60, 60)
	busy := func() int { return ask(http.MethodGet, "/", "203.0.113.1:1", "").Code }
	for range 16 {
		busy()
	}
	for i := range mostKept + 500 {
		pass(time.Microsecond)
		ask(http.MethodGet, "/", fmt.Sprintf("10.%d.%d.%d:1", i>>16, i>>8&255, i&255), "")
		if i%100 == 0 && busy() != http.StatusTooManyRequests {
			t.Fatalf("after %d others it was forgotten", i)
		}
	}
	if n := kept(); n > mostKept {
		t.Errorf("%d are kept", n)
	}
}

func TestLimitsAreSet(t *testing.T) {
	for text, want := range map[string]int{"": 7, "60": 60, "600": 600} {
		if got, err := readLimit("X", text, 7); got != want || err != nil {
			t.Errorf("%q: %d, %v", text, got, err)
		}
	}
	for _, text := range []string{"0", "-1", "59", "1000001", "many", "6e3"} {
		if _, err := readLimit("RATE_PER_TOKEN", text, 7); err == nil || !strings.Contains(err.Error(), "RATE_PER_TOKEN") {
			t.Errorf("%q: %v", text, err)
		}
	}
}
