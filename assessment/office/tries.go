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

// network is the place of a client's address: an address of IPv4, or the first 64
// bits of one of IPv6, since every client has all addresses below those (RFC 6177,
// RFC 4291 section 2.5.4).
func network(address string) string {
	a, err := netip.ParseAddr(address)
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
func (o *Office) prove(ctx context.Context, t turns, agency assessment.AgencyID, person assessment.PersonID, password, place string) (bool, postgres.Credential, error) {
	try, kept, err := o.countTry(ctx, agency, person, place)
	if err != nil {
		return false, kept, err
	}
	ok, err := o.matches(ctx, t, kept.PasswordHash, password)
	if err != nil || !ok {
		return false, kept, err
	}
	return true, kept, o.db.Aside(ctx, agency, func(tx *postgres.Tx) error { return tx.Sessions.MarkGood(ctx, try) })
}

func (o *Office) countTry(ctx context.Context, agency assessment.AgencyID, person assessment.PersonID, place string) (string, postgres.Credential, error) {
	at := o.opt.Now().Truncate(time.Microsecond)
	hash := sha256.Sum256([]byte(string(agency) + " " + place))
	try, err := newID[string](o, at)
	if err != nil {
		return "", postgres.Credential{}, err
	}
	var kept postgres.Credential
	err = o.db.Aside(ctx, agency, func(tx *postgres.Tx) error {
		failed, err := tx.Sessions.RecentFailures(ctx, person, hash[:], at.Add(-triesWindow))
		if err != nil {
			return err
		}
		if failed >= triesAllowed {
			return tooManyTries()
		}
		if kept, err = tx.People.Credential(ctx, person); err != nil {
			return err
		}
		return tx.Sessions.AddTry(ctx, postgres.Try{ID: try, Person: person, AddressHash: hash[:], At: at})
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
	if s.tries == nil || len(s.tries) >= mostStrangers {
		s.tries = map[[sha256.Size]byte][]time.Time{}
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
