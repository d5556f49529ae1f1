package office

import (
	"context"
	"crypto/sha256"
	"strings"
	"sync"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// After so many failed tries of one person from one address within this time,
// that address has to wait. Other addresses do not, so that nobody can lock
// somebody else out.
const (
	triesAllowed = 5
	triesWindow  = 15 * time.Minute
)

func tooManyTries() error {
	return fault.Of(fault.Throttled, "Too many tries. Wait 15 minutes and try again, or ask an administrator of your agency for a new password.")
}

// prove reports whether a password is that of a person, with what is kept of it.
// The try is counted before the password is looked at and in a transaction of its
// own, so that neither many tries at once nor a use case that is given up can
// hide it.
func (o *Office) prove(ctx context.Context, agency assessment.AgencyID, person assessment.PersonID, password, address string) (bool, postgres.Credential, error) {
	try, kept, err := o.countTry(ctx, agency, person, address)
	if err != nil {
		return false, kept, err
	}
	ok, err := o.matches(ctx, kept.PasswordHash, password)
	if err != nil || !ok {
		return false, kept, err
	}
	return true, kept, o.db.Aside(ctx, agency, func(tx *postgres.Tx) error { return tx.Sessions.MarkGood(ctx, try) })
}

func (o *Office) countTry(ctx context.Context, agency assessment.AgencyID, person assessment.PersonID, address string) (string, postgres.Credential, error) {
	at := o.opt.Now().Truncate(time.Microsecond)
	hash := sha256.Sum256([]byte(string(agency) + " " + address))
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
func (s *strangers) count(agency, email, address string, at time.Time) error {
	key := sha256.Sum256([]byte(strings.ToLower(agency + "\x00" + email + "\x00" + address)))
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
