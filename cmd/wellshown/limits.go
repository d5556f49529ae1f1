package main

import (
	"crypto/sha256"
	"fmt"
	"math"
	"net/http"
	"net/netip"
	"strconv"
	"strings"
	"sync"
	"time"

	"golang.org/x/time/rate"

	"wellshown/api"
)

// How much may be asked in a minute where nobody says otherwise: of one address,
// behind which a whole hospital may be; of one token; and how often anybody at one
// address may try to come in.
const (
	usualPerAddress = 3000
	usualPerToken   = 600
	usualEntries    = 60
)

// mostKept bounds the memory: so many addresses and tokens are kept apart. Beyond
// it those that asked least lately are forgotten, who then start afresh.
const mostKept = 20_000

// limits are how much each asks. Requests of one never count for another.
type limits struct {
	now     func() time.Time
	perMin  map[string]int // by kind of key
	mutex   sync.Mutex
	buckets map[string]*bucket
}

type bucket struct {
	*rate.Limiter
	used time.Time
}

func newLimits(now func() time.Time, address, token int) *limits {
	return &limits{now: now, perMin: map[string]int{"address": address, "token": token, "entry": usualEntries}, buckets: map[string]*bucket{}}
}

// wait is how long whoever asks has to wait; none where they may ask now.
func (l *limits) wait(kind, key string) time.Duration {
	l.mutex.Lock()
	defer l.mutex.Unlock()
	now := l.now()
	b := l.buckets[kind+key]
	if b == nil {
		l.forget(now)
		per := l.perMin[kind]
		b = &bucket{Limiter: rate.NewLimiter(rate.Limit(float64(per)/60), max(1, per/4))} // a quarter of it at once
		l.buckets[kind+key] = b
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
func (l *limits) forget(now time.Time) {
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

// slow answers 429 to whoever asks too much, with how long to wait (RFC 6585,
// section 4; RFC 9110, section 10.2.3).
func (l *limits) slow(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		address := network(r.RemoteAddr)
		delay := l.wait("address", address)
		if token := api.Bearer(r); token != "" && delay == 0 {
			hash := sha256.Sum256([]byte(token))
			delay = l.wait("token", string(hash[:]))
		}
		if delay == 0 && comesIn(r) {
			delay = l.wait("entry", address)
		}
		if delay == 0 {
			next.ServeHTTP(w, r)
			return
		}
		w.Header().Set("Retry-After", strconv.Itoa(int(math.Ceil(delay.Seconds()))))
		if strings.HasPrefix(r.URL.Path, api.Base+"/") {
			api.TooMany(w, r)
			return
		}
		http.Error(w, fmt.Sprintf("There were too many requests from your address. Nothing was done. Wait %d seconds and load the page again.", int(math.Ceil(delay.Seconds()))), http.StatusTooManyRequests)
	})
}

// comesIn reports whether somebody tries to come in: by a password, a passkey, a
// code or a link.
func comesIn(r *http.Request) bool {
	if r.Method != http.MethodPost {
		return false
	}
	path := r.URL.Path
	return strings.HasPrefix(path, "/sign-in") || strings.HasPrefix(path, "/link/") || path == api.Base+"/sessions" || path == api.Base+"/links"
}

// network is whose address it is: of IPv6 its first 64 bits, which one client has
// for itself.
func network(remote string) string {
	at, err := netip.ParseAddrPort(remote)
	if err != nil {
		return remote
	}
	ip := at.Addr().Unmap().WithZone("")
	if ip.Is6() {
		return netip.PrefixFrom(ip, 64).Masked().String()
	}
	return ip.String()
}

// readLimit reads how much may be asked in a minute.
func readLimit(name, text string, usual int) (int, error) {
	if text == "" {
		return usual, nil
	}
	n, err := strconv.Atoi(text)
	if err != nil || n < 60 || n > 1_000_000 {
		return 0, fmt.Errorf("%s is %q: give how many requests a minute, from 60 to 1000000", name, text)
	}
	return n, nil
}
