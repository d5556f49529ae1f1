package office

import (
	"context"
	"crypto/sha256"
	"net/netip"
	"strings"
	"sync"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// After so many failed tries of one person from one place within this time, that
// place has to wait. Others do not, so that nobody can lock somebody else out. The
// place of a sign-in is a network address, that of a signature whoever is signed
// in, wherever they are.
const (
	triesAllowed = 5
	triesWindow  = 15 * time.Minute
)

func tooManyTries() error {
	return fault.Of(fault.Throttled, "Too many tries. Wait 15 minutes and try again, or ask an administrator of your agency for a link to set a new password.")
}

// tooManyAnywhere is tooManyTries for a sign-in that named no agency. It is the same
// whether an address is known to none, one or several.
func tooManyAnywhere() error {
	return fault.Of(fault.Throttled, "Too many tries. Wait 15 minutes and try again, or ask an administrator of your agency for a link to set a new password. If you are known to more than one agency, enter the code of the one you mean.")
}

// place is where tries come from.
type place struct {
	name      string
	anyAgency bool // a sign-in that named none of several agencies
}

// hashed is what is kept of a place.
func (p place) hashed(agency assessment.AgencyID) []byte {
	name := string(agency) + " " + p.name
	if p.anyAgency {
		name += " any agency"
	}
	hash := sha256.Sum256([]byte(name))
	return hash[:]
}

// Network is the place of a client's address, with its port or without: an address of
// IPv4, or the first 64 bits of one of IPv6, since every client has all addresses below
// those (RFC 6177, RFC 4291 section 2.5.4).
func Network(address string) string {
	a, err := netip.ParseAddr(address)
	if at, with := netip.ParseAddrPort(address); with == nil {
		a, err = at.Addr(), nil
	}
	if err != nil {
		return address
	}
	a = a.Unmap().WithZone("")
	if a.Is4() {
		return a.String()
	}
	return netip.PrefixFrom(a, 64).Masked().String()
}

// signedInAs is the place of what somebody does who is signed in. A session would
// be one too few: who signs in again for every five guesses could go on forever.
func signedInAs(by assessment.Actor) string { return "signed in as " + string(by.Person) }

// prove reports whether a password is that of a person, with what is kept of it.
// The try is counted before the password is looked at and in a transaction of its
// own, so that neither many tries at once nor a use case that is given up can
// hide it.
func (o *Office) prove(ctx context.Context, t turns, agency assessment.AgencyID, person assessment.PersonID, password string, from place) (bool, postgres.Credential, error) {
	try, kept, err := o.countTry(ctx, agency, person, from)
	if err != nil {
		return false, kept, err
	}
	ok, err := o.matches(ctx, t, kept.PasswordHash, password)
	if err != nil || !ok {
		return false, kept, err
	}
	return true, kept, o.aside(ctx, agency, func(tx *postgres.Tx) error { return tx.Sessions.MarkGood(ctx, try) })
}

func (o *Office) countTry(ctx context.Context, agency assessment.AgencyID, person assessment.PersonID, from place) (string, postgres.Credential, error) {
	at := o.opt.Now().Truncate(time.Microsecond)
	hash := from.hashed(agency)
	try, err := newID[string](o, at)
	if err != nil {
		return "", postgres.Credential{}, err
	}
	var kept postgres.Credential
	err = o.aside(ctx, agency, func(tx *postgres.Tx) error {
		failed, err := tx.Sessions.RecentFailures(ctx, person, hash, at.Add(-triesWindow))
		if err != nil {
			return err
		}
		if failed >= triesAllowed {
			return tooManyTries()
		}
		if kept, err = tx.People.Credential(ctx, person); err != nil {
			return err
		}
		return tx.Sessions.AddTry(ctx, postgres.Try{ID: try, Person: person, AddressHash: hash, At: at, AnyAgency: from.anyAgency})
	})
	return try, kept, err
}

// strangers counts tries with e-mail addresses that nobody has, by the same rule,
// so that being made to wait does not tell whose address is known. It forgets
// when the program ends.
type strangers struct {
	sync.Mutex
	tries map[[sha256.Size]byte][]time.Time
}

// mostStrangers bounds the memory that guessing can cost.
const mostStrangers = 10_000

// count notes a try and refuses it where there were too many.
func (s *strangers) count(agency, email, place string, at time.Time) error {
	key := sha256.Sum256([]byte(strings.ToLower(agency + "\x00" + email + "\x00" + place)))
	s.Lock()
	defer s.Unlock()
	if s.tries == nil {
		s.tries = map[[sha256.Size]byte][]time.Time{}
	}
	if _, known := s.tries[key]; !known {
		s.makeRoom(at)
	}
	var recent []time.Time
	for _, t := range s.tries[key] {
		if t.After(at.Add(-triesWindow)) {
			recent = append(recent, t)
		}
	}
	if len(recent) >= triesAllowed {
		return tooManyTries()
	}
	s.tries[key] = append(recent, at)
	return nil
}

// makeRoom forgets those whose tries no longer count, which changes nothing, and where
// that is not enough the one that tried least lately. Were all forgotten at once,
// whoever fills the memory could tell who is known: their tries are not kept here.
func (s *strangers) makeRoom(at time.Time) {
	if len(s.tries) < mostStrangers {
		return
	}
	var oldest [sha256.Size]byte
	var last time.Time
	for key, tries := range s.tries {
		latest := tries[len(tries)-1]
		switch {
		case !latest.After(at.Add(-triesWindow)):
			delete(s.tries, key)
		case last.IsZero() || latest.Before(last):
			oldest, last = key, latest
		}
	}
	if len(s.tries) >= mostStrangers {
		delete(s.tries, oldest)
	}
}
