// Package office does what an agency's people ask for. Every use case is one
// transaction and has the same shape: load, decide, keep. The deciding is done by
// pure functions of the core.
package office

import (
	"context"
	"crypto/rand"
	"fmt"
	"io"
	"sync"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/ledger"
	"wellshown/assessment/passkey"
	"wellshown/assessment/postgres"
	"wellshown/assessment/sealed"
)

// Options are what an office cannot make itself.
type Options struct {
	Now    func() time.Time // the only clock; nil: the machine's
	Random io.Reader        // for ids, codes and tokens; nil: the machine's
	// Certificate draws a certificate. It is handed in, because drawing belongs
	// to the papers, which in turn ask the office.
	Certificate func(CertificateFacts) ([]byte, error)
	// Packet begins a surveyor's packet, handed in for the same reason; nil: none are made here.
	Packet  func() PacketDrawer
	BaseURL string // where certificates are checked, such as https://shown.example
	// PasswordCost is what hashing a password costs; zero: the full cost. Only
	// tests and demonstrations of the program lower it.
	PasswordCost PasswordCost
	// Ledger holds the keys that heads of the ledger are signed with; nil: nothing
	// is sealed here, and what is written waits.
	Ledger *ledger.Keys
	// Secrets are the keys that secrets in the database are sealed with; nil:
	// one-time codes cannot be set up.
	Secrets *sealed.Keys
	// Mail is how mail leaves; nil: it does not, and nobody is reminded.
	Mail *Mail
}

// Office is where records are made.
type Office struct {
	db     *postgres.DB
	opt    Options
	random sync.Mutex
	ids    lastIDs
	lists  sync.Map // checklists of revisions that are or were in force, by the hash of their body and by their id

	party   *passkey.Party // what passkeys know the service as; nil: there are none
	noParty error          // why

	strangers             strangers
	signingIn, confirming turns         // whose passwords are being looked at
	developing            chan struct{} // one photo at a time: one of 40 megapixels takes some 130 MB
}

// New opens an office over a database.
func New(db *postgres.DB, opt Options) *Office {
	if opt.Now == nil {
		opt.Now = time.Now
	}
	if opt.Random == nil {
		opt.Random = rand.Reader
	}
	o := &Office{db: db, opt: opt, signingIn: newTurns(), confirming: newTurns(), developing: make(chan struct{}, 1)}
	o.party, o.noParty = passkey.NewParty(opt.BaseURL)
	return o
}

// Moment is the one "now" of a use case: the instant, and the civil day that it
// is in the agency's zone.
type Moment struct {
	At     time.Time
	Today  civil.Date
	Zone   *time.Location
	Agency postgres.Agency
}

// as runs one use case: permission, one transaction in the actor's agency, one now.
func (o *Office) as(ctx context.Context, by assessment.Actor, act assessment.Act, fn func(*postgres.Tx, Moment) error) error {
	if err := by.May(act); err != nil {
		return err
	}
	run := o.writing
	if act.Reads() {
		run = o.db.Reading
	}
	if err := run(ctx, by.Agency, o.withMoment(ctx, by.Person, string(act), fn)); err != nil {
		return fmt.Errorf("%s: %w", act, err)
	}
	return nil
}

// itself is what the ledger calls the doing of the house: sessions, the index,
// the ledger's own.
const itself = "keep house"

// in is as without an actor, for what the house itself does.
func (o *Office) in(ctx context.Context, agency assessment.AgencyID, fn func(*postgres.Tx, Moment) error) error {
	return o.writing(ctx, agency, o.withMoment(ctx, "", itself, fn))
}

// reading is in for what only reads: it sees one moment, so that two facts that
// change together are never seen one without the other.
func (o *Office) reading(ctx context.Context, agency assessment.AgencyID, fn func(*postgres.Tx, Moment) error) error {
	return o.db.Reading(ctx, agency, o.withMoment(ctx, "", itself, fn))
}

func (o *Office) withMoment(ctx context.Context, who assessment.PersonID, act string, fn func(*postgres.Tx, Moment) error) func(*postgres.Tx) error {
	return func(tx *postgres.Tx) error {
		at := o.now()
		entered, err := tx.Agencies.Enter(ctx, postgres.Deed{Actor: who, Act: act, At: at})
		if err != nil {
			return err
		}
		if err := clockGoesOn(at, entered.SealedAt); err != nil {
			return err
		}
		now, err := momentIn(entered.Agency, at)
		if err != nil {
			return err
		}
		return fn(tx, now)
	}
}

// now is the clock. PostgreSQL keeps microseconds: an instant that is signed must
// read back the same.
func (o *Office) now() time.Time { return o.opt.Now().Truncate(time.Microsecond) }

func momentIn(a postgres.Agency, at time.Time) (Moment, error) {
	zone, err := time.LoadLocation(a.Zone)
	if err != nil {
		return Moment{}, fmt.Errorf("load the agency's zone %q: %w", a.Zone, err)
	}
	return Moment{At: at, Today: civil.DayOf(at, zone), Zone: zone, Agency: a}, nil
}

// bytes are n random bytes.
func (o *Office) bytes(n int) ([]byte, error) {
	o.random.Lock()
	defer o.random.Unlock()
	b := make([]byte, n)
	if _, err := io.ReadFull(o.opt.Random, b); err != nil {
		return nil, fmt.Errorf("draw random bytes: %w", err)
	}
	return b, nil
}

// note writes the journal: who did what to what, and by which token where a program
// did it.
func (o *Office) note(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, act assessment.Act, kind, subject string) error {
	id, err := newID[string](o, now.At)
	if err != nil {
		return err
	}
	err = tx.Journal.Add(ctx, postgres.JournalRow{ID: id, At: now.At, Actor: by.Person, Act: string(act), Kind: kind, Subject: subject})
	if err != nil || by.Program == nil {
		return err
	}
	return tx.Tokens.Behind(ctx, id, by.Program.Token)
}

// notFound is the one answer for what is not there and what is not for the asker.
func notFound() error { return fault.Of(fault.NotFound, "There is no such record.") }
