package main

import (
	"crypto/sha256"
	"fmt"
	"math"
	"net/http"
	"strconv"
	"strings"
	"sync"
	"time"

	"github.com/gin-gonic/gin"
	"golang.org/x/time/rate"

	"wellshown/api"
	"wellshown/assessment/office"
	"wellshown/web"
)

// How much may be asked in a minute where nobody says otherwise: of one address,
// behind which a whole hospital may be; of one bearer token; of one session of pages;
// and how often anybody at one address may try to come in.
const (
	usualPerAddress = 3000
	usualPerToken   = 600
	usualPerSession = 600
	usualEntries    = 60
)

// mostKept bounds the memory: so many of each kind are kept apart. Beyond it those
// that asked least lately are forgotten, who then start afresh.
const mostKept = 20_000

// rates are how many requests a minute are answered; zero is no limit.
type rates struct{ address, token, session, entry int }

// limits are how much each asks. Each kind is counted in a place of its own: tokens
// that somebody makes up never push an address out.
type limits struct{ address, token, session, entry *counted }

// counted is how much each of one kind asks. Requests of one never count for another.
type counted struct {
	now     func() time.Time
	perMin  int // zero: no limit
	mutex   sync.Mutex
	buckets map[string]*bucket
}

type bucket struct {
	*rate.Limiter
	used time.Time
}

func newLimits(now func() time.Time, r rates) *limits {
	of := func(perMin int) *counted { return &counted{now: now, perMin: perMin, buckets: map[string]*bucket{}} }
	return &limits{of(r.address), of(r.token), of(r.session), of(r.entry)}
}

// wait is how long whoever asks has to wait; none where they may ask now.
func (l *counted) wait(key string) time.Duration {
	if l.perMin == 0 {
		return 0
	}
	l.mutex.Lock()
	defer l.mutex.Unlock()
	now := l.now()
	b := l.buckets[key]
	if b == nil {
		l.forget(now)
		b = &bucket{Limiter: rate.NewLimiter(rate.Limit(float64(l.perMin)/60), max(1, l.perMin/4))} // a quarter of it at once
		l.buckets[key] = b
	}
	b.used = now
	r := b.ReserveN(now, 1)
	delay := r.DelayFrom(now)
	if delay > 0 {
		r.CancelAt(now)
	}
	return delay
}

// forget makes room: whoever has not asked for a minute has a full bucket again, so
// nothing is lost; and where all have, the one that asked least lately goes.
func (l *counted) forget(now time.Time) {
	if len(l.buckets) < mostKept {
		return
	}
	oldest, at := "", now
	for key, b := range l.buckets {
		if now.Sub(b.used) >= time.Minute {
			delete(l.buckets, key)
		} else if !b.used.After(at) {
			oldest, at = key, b.used
		}
	}
	if len(l.buckets) >= mostKept {
		delete(l.buckets, oldest)
	}
}

// delay is how long whoever sends a request has to wait. What is no token by its
// looks opens nothing, and counts for its address alone.
func (l *limits) delay(r *http.Request, cookie string) time.Duration {
	address := office.Network(r.RemoteAddr)
	if d := l.address.wait(address); d > 0 {
		return d
	}
	if token := api.Bearer(r); office.LooksLikeToken(token) {
		if d := l.token.wait(hashed(token)); d > 0 {
			return d
		}
	}
	if kept, err := r.Cookie(cookie); err == nil && office.LooksLikeToken(kept.Value) {
		if d := l.session.wait(hashed(kept.Value)); d > 0 {
			return d
		}
	}
	if comesIn(r) {
		return l.entry.wait(address)
	}
	return 0
}

// hashed keeps the memory from holding what opens something.
func hashed(token string) string {
	hash := sha256.Sum256([]byte(token))
	return string(hash[:])
}

// slow answers 429 to whoever asks too much, with how long to wait (RFC 6585,
// section 4; RFC 9110, section 10.2.3): programs in their form, people on a page.
func (l *limits) slow(secure bool, tell func(*gin.Context, int)) gin.HandlerFunc {
	cookie := web.CookieName(secure)
	return func(c *gin.Context) {
		delay := l.delay(c.Request, cookie)
		if delay == 0 {
			return
		}
		seconds := int(math.Ceil(delay.Seconds()))
		c.Header("Retry-After", strconv.Itoa(seconds))
		c.Abort()
		if isAPI(c.Request) {
			api.TooMany(c)
			return
		}
		tell(c, seconds)
	}
}

// isAPI reports whether a program is to read the answer.
func isAPI(r *http.Request) bool { return strings.HasPrefix(r.URL.Path, "/api/") }

// comesIn reports whether somebody tries to come in: by a password, a passkey, a
// code or a link.
func comesIn(r *http.Request) bool {
	if r.Method != http.MethodPost {
		return false
	}
	path := r.URL.Path
	return strings.HasPrefix(path, "/sign-in") || strings.HasPrefix(path, "/link/") || path == api.Base+"/sessions" || path == api.Base+"/links"
}

// readRates reads how much may be asked in a minute. Coming in may be made slower
// than a page, which asks for several files, could bear.
func readRates(env func(string) string) (rates, []error) {
	var r rates
	var faults []error
	for _, s := range []struct {
		name         string
		usual, least int
		into         *int
	}{
		{"RATE_PER_ADDRESS", usualPerAddress, 60, &r.address}, {"RATE_PER_TOKEN", usualPerToken, 60, &r.token},
		{"RATE_PER_SESSION", usualPerSession, 60, &r.session}, {"RATE_OF_SIGN_INS", usualEntries, 4, &r.entry},
	} {
		var err error
		if *s.into, err = readLimit(s.name, env(s.name), s.usual, s.least); err != nil {
			faults = append(faults, err)
		}
	}
	return r, faults
}

// readLimit reads one of them.
func readLimit(name, text string, usual, least int) (int, error) {
	if text == "" {
		return usual, nil
	}
	n, err := strconv.Atoi(text)
	if err != nil || n < least || n > 1_000_000 {
		return 0, fmt.Errorf("%s is %q: give how many requests a minute, from %d to 1000000", name, text, least)
	}
	return n, nil
}
