package main

import (
	"bytes"
	"crypto/sha256"
	"encoding/base64"
	"fmt"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/gin-gonic/gin"

	"wellshown/assessment/office"
	"wellshown/integration/ward"
	"wellshown/web"
)

// slowed is an engine with limits and a clock of its own.
func slowed(r rates) (ask func(method, path, from, token string) *httptest.ResponseRecorder, pass func(time.Duration), l *limits) {
	now := time.Date(2026, 3, 1, 10, 0, 0, 0, time.UTC)
	l = newLimits(func() time.Time { return now }, r)
	gin.SetMode(gin.TestMode)
	h := gin.New()
	h.Use(l.slow(false, func(c *gin.Context, seconds int) { c.String(http.StatusTooManyRequests, "page: %d", seconds) }))
	h.NoRoute(func(c *gin.Context) { c.Status(http.StatusNoContent); c.Writer.WriteHeaderNow() })
	ask = func(method, path, from, token string) *httptest.ResponseRecorder {
		r := httptest.NewRequest(method, path, nil)
		r.RemoteAddr = from
		if kept, is := strings.CutPrefix(token, "cookie "); is {
			r.AddCookie(&http.Cookie{Name: web.CookieName(false), Value: kept})
		} else if token != "" {
			r.Header.Set("Authorization", "Bearer "+token)
		}
		answer := httptest.NewRecorder()
		h.ServeHTTP(answer, r)
		return answer
	}
	return ask, func(d time.Duration) { now = now.Add(d) }, l
}

// someToken looks like the token of a session: 32 bytes in base64url (RFC 4648,
// section 5), without padding.
func someToken(n int) string {
	hash := sha256.Sum256([]byte(strconv.Itoa(n)))
	return base64.RawURLEncoding.EncodeToString(hash[:])
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
	ask, pass, _ := slowed(rates{address: 600, token: 120})
	n, refused := until(t, func() *httptest.ResponseRecorder { return ask(http.MethodGet, "/today", "192.0.2.1:1", "") })
	wait, err := strconv.Atoi(refused.Header().Get("Retry-After"))
	if n != 150 || err != nil || wait < 1 || refused.Body.String() != fmt.Sprintf("page: %d", wait) {
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
		return ask(http.MethodGet, "/api/v1/overdue", "192.0.2.3:1", someToken(1))
	}
	n, refused = until(t, one)
	if n != 30 || !strings.Contains(refused.Header().Get("Content-Type"), "problem+json") || refused.Header().Get("Retry-After") == "" || refused.Header().Get("Retry-After") == "900" {
		t.Errorf("after %d: %v %s", n, refused.Header(), refused.Body)
	}
	if answer := ask(http.MethodGet, "/api/v1/overdue", "192.0.2.3:1", someToken(2)); answer.Code != http.StatusNoContent {
		t.Errorf("another token at the same address: %d", answer.Code)
	}
}

// Coming in is slower than looking round; a page that is only looked at counts little.
func TestComingInIsSlower(t *testing.T) {
	ask, _, _ := slowed(rates{address: usualPerAddress, token: usualPerToken, entry: usualEntries})
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
		"192.0.2.1": "192.0.2.1", "2001:db8:1:2:3:4:5:6": "2001:db8:1:2::/64", "::ffff:192.0.2.1": "192.0.2.1", "": "", // without a port
	} {
		if got := office.Network(from); got != want {
			t.Errorf("%s is %s, want %s", from, got, want)
		}
	}
}

// A session of pages is counted like a token, and apart from it.
func TestASessionHasItsLimit(t *testing.T) {
	ask, _, _ := slowed(rates{address: 1_000_000, token: 120, session: 80})
	if n, refused := until(t, func() *httptest.ResponseRecorder {
		return ask(http.MethodGet, "/today", "192.0.2.1:1", "cookie "+someToken(1))
	}); n != 20 || refused.Header().Get("Retry-After") == "" {
		t.Errorf("after %d: %v", n, refused.Header())
	}
	for _, other := range []string{"cookie " + someToken(2), someToken(1), ""} {
		if answer := ask(http.MethodGet, "/today", "192.0.2.1:1", other); answer.Code != http.StatusNoContent {
			t.Errorf("%q: %d", other, answer.Code)
		}
	}
}

// However many ask, the memory stays bounded, and who asks on is not forgotten.
func TestLimitsForget(t *testing.T) {
	ask, pass, l := slowed(rates{address: 60})
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
	if n := len(l.address.buckets); n > mostKept {
		t.Errorf("%d are kept", n)
	}
}

// What somebody makes up as a token pushes no address out: what is no token by its
// looks is not kept at all, and the others are kept elsewhere and bounded too.
func TestMadeUpTokensPushNobodyOut(t *testing.T) {
	ask, pass, l := slowed(rates{address: 1_000_000, token: 60, session: 60})
	ask(http.MethodGet, "/", "203.0.113.1:1", "")
	for _, junk := range []string{"x", "wellshown_one", "wellshown_" + strings.Repeat("0", 72), strings.Repeat("a", 44), someToken(1) + "=", someToken(1)[1:], "cookie x"} {
		ask(http.MethodGet, "/", "203.0.113.2:1", junk)
	}
	if len(l.token.buckets)+len(l.session.buckets) != 0 {
		t.Errorf("%d tokens and %d sessions are kept of none", len(l.token.buckets), len(l.session.buckets))
	}
	for i := range mostKept + 500 {
		pass(time.Microsecond)
		ask(http.MethodGet, "/", fmt.Sprintf("[2001:db8:%x::1]:1", i/1000), someToken(i))
	}
	if l.address.buckets["203.0.113.1"] == nil || len(l.token.buckets) != mostKept || len(l.session.buckets) != 0 {
		t.Errorf("kept: the address %v, %d tokens, %d sessions", l.address.buckets["203.0.113.1"] != nil, len(l.token.buckets), len(l.session.buckets))
	}
}

// TestTooMuchIsSaidInFull asks the assembled service until it refuses: people get a page
// and programs a problem (RFC 9457), each with the wait, and both stand in the log.
func TestTooMuchIsSaidInFull(t *testing.T) {
	var log bytes.Buffer
	before := slog.Default()
	slog.SetDefault(slog.New(slog.NewJSONHandler(&log, nil)))
	t.Cleanup(func() { slog.SetDefault(before) })
	w := ward.New(t)
	h := handler(config{BaseURL: "https://shown.example", Rates: rates{address: 60, entry: 4}}, w.Office)
	for path, want := range map[string][2]string{"/sign-in": {"text/html", "Try again in 1"}, "/api/v1/sessions": {"application/problem+json", "Wait 1"}} {
		ask := func() *httptest.ResponseRecorder {
			r := httptest.NewRequest(http.MethodPost, path, strings.NewReader("{}"))
			r.RemoteAddr = "192.0.2." + strconv.Itoa(len(path)) + ":1"
			answer := httptest.NewRecorder()
			h.ServeHTTP(answer, r)
			return answer
		}
		n, refused := until(t, ask)
		if n != 1 || !strings.HasPrefix(refused.Header().Get("Content-Type"), want[0]) || !strings.Contains(refused.Body.String(), want[1]) || refused.Header().Get("Retry-After") == "" {
			t.Errorf("%s after %d: %v\n%.600s", path, n, refused.Header(), refused.Body)
		}
		checkDressed(t, [2]string{http.MethodPost, path}, refused)
		if !strings.Contains(log.String(), `"method":"POST","route":"`+path+`","status":429`) {
			t.Errorf("%s is not in the log:\n%s", path, log.String())
		}
	}
}

func TestLimitsAreSet(t *testing.T) {
	env := map[string]string{"RATE_PER_TOKEN": "60", "RATE_OF_SIGN_INS": "4"}
	if got, faults := readRates(func(name string) string { return env[name] }); len(faults) != 0 || got != (rates{usualPerAddress, 60, usualPerSession, 4}) {
		t.Errorf("%+v, %v", got, faults)
	}
	for name, texts := range map[string][]string{"RATE_PER_ADDRESS": {"0"}, "RATE_PER_TOKEN": {"-1", "59", "1000001", "many", "6e3"}, "RATE_PER_SESSION": {"59"}, "RATE_OF_SIGN_INS": {"3", "0"}} {
		for _, text := range texts {
			_, faults := readRates(func(asked string) string { return map[string]string{name: text}[asked] })
			if len(faults) != 1 || !strings.Contains(faults[0].Error(), name) {
				t.Errorf("%s=%q: %v", name, text, faults)
			}
		}
	}
}
