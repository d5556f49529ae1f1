// Package ward is a small invented agency for tests, made through the office as
// people would make it: two educators who may observe, a coordinator, the twelve
// starter checklists in force, a clock that the test sets, and shorthand for who
// shows what. Whatever goes wrong while it is made fails the test.
package ward

import (
	crand "crypto/rand"
	"encoding/binary"
	"math/rand/v2"
	"sync/atomic"
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/catalog"
	"wellshown/assessment/civil"
	"wellshown/assessment/ledger"
	"wellshown/assessment/office"
	"wellshown/assessment/postgres"
	"wellshown/integration/testdb"
)

// Code, Zone and Opened are the agency's code, its time zone and the instant at
// which the clock stands when it has been made: a weekday morning.
const (
	Code   = "wren-hollow"
	Zone   = "America/Denver"
	Opened = "2026-01-05T10:00:00-07:00"
)

// Cheap is a password hash that costs next to nothing: argon2id with its least
// memory, so that tests spend their time on what they test.
var Cheap = office.PasswordCost{Memory: 8, Passes: 1, Threads: 1}

// Ward is the agency and everybody who is there from the start.
type Ward struct {
	DB          *testdb.DB
	Postgres    *postgres.DB
	Office      *office.Office
	Zone        *time.Location
	Admin       assessment.Actor
	Coordinator assessment.Actor
	Educators   [2]assessment.Actor // licensed, appointed on a founding appointment for all skills
	LedgerKeys  string              // the file of keys that its ledger is signed with, for a service of its own in the same database

	tb    testing.TB
	code  string
	now   atomic.Int64 // microseconds since 1970
	added int
}

// Option changes how a ward is made.
type Option func(*office.Options)

// WithCertificate has certificates drawn; without it none are issued.
func WithCertificate(draw func(office.CertificateFacts) ([]byte, error)) Option {
	return func(o *office.Options) { o.Certificate = draw }
}

// New makes a ward in a database of its own, gone when the test ends.
func New(tb testing.TB, options ...Option) *Ward {
	tb.Helper()
	return NewAt(tb, must(time.Parse(time.RFC3339, Opened))(tb), options...)
}

// NewAt is New with the clock at another instant than Opened: where a program with a
// clock of its own works in the same database.
func NewAt(tb testing.TB, opened time.Time, options ...Option) *Ward {
	tb.Helper()
	if alike(opened, options) {
		return copied(tb, options)
	}
	return made(tb, &Ward{DB: testdb.New(tb), code: Code}, seeded(1), opened, options)
}

// Beside makes a second ward in the database of a first: another agency, whose
// people have the same addresses and the same password.
func Beside(tb testing.TB, first *Ward, options ...Option) *Ward {
	tb.Helper()
	return made(tb, &Ward{DB: first.DB, code: "larkmoor"}, seeded(2), must(time.Parse(time.RFC3339, Opened))(tb), options)
}

func made(tb testing.TB, w *Ward, random *rand.ChaCha8, opened time.Time, options []Option) *Ward {
	tb.Helper()
	zone, err := time.LoadLocation(Zone)
	if err != nil {
		tb.Fatalf("load the ward's zone: %v", err)
	}
	w.Zone, w.tb = zone, tb
	w.At(opened)
	w.LedgerKeys = must(ledger.KeyFile(crand.Reader, "ward"))(tb)
	w.openOffice(random, options)
	w.found()
	w.putAllInForce()
	w.Appoint(w.Educators[0], w.Educators[1], catalog.Codes()...)
	w.Appoint(w.Educators[1], w.Educators[0], catalog.Codes()...)
	return w
}

// seeded is randomness that is the same in every run.
func seeded(seed uint64) *rand.ChaCha8 {
	var key [32]byte
	binary.LittleEndian.PutUint64(key[:], seed)
	return rand.NewChaCha8(key)
}

// Now is what the ward's clock shows; it stands still until it is set.
func (w *Ward) Now() time.Time { return time.UnixMicro(w.now.Load()).UTC() }

// At sets the clock.
func (w *Ward) At(t time.Time) { w.now.Store(t.UnixMicro()) }

// Day sets the clock to ten in the morning of a day, written YYYY-MM-DD.
func (w *Ward) Day(day string) { w.At(civil.MustParse(day).In(w.Zone).Add(10 * time.Hour)) }

// Pass sets the clock forward.
func (w *Ward) Pass(d time.Duration) { w.At(w.Now().Add(d)) }

// Today is the civil day that the clock shows.
func (w *Ward) Today() civil.Date { return civil.DayOf(w.Now(), w.Zone) }

// found makes the agency and its people.
func (w *Ward) found() {
	w.tb.Helper()
	admin, err := w.Office.FoundAgency(w.tb.Context(), office.NewAgency{Code: w.code, Name: "Wren Hollow Nursing", Zone: Zone,
		AdminName: "Ada Minton", AdminEmail: "ada.minton@ward.example", AdminPassword: given})
	if err != nil {
		w.tb.Fatalf("found the ward: %v", err)
	}
	w.Admin = admin
	if err := w.Office.ChangePassword(w.tb.Context(), admin, given, Password, ""); err != nil {
		w.tb.Fatalf("change the administrator's password: %v", err)
	}
	w.Coordinator = w.foundBeside("Cory Vance")
	for i, name := range []string{"Edda Lorne", "Rolf Teague"} {
		w.Educators[i] = w.Educator(name)
	}
}

// putAllInForce adopts every starter checklist and puts it in force.
func (w *Ward) putAllInForce() {
	w.tb.Helper()
	for _, code := range catalog.Codes() {
		draft := must(w.Office.AdoptStarter(w.tb.Context(), w.Educators[0], code))(w.tb)
		w.PutInForce(office.PutInForceForm{Revision: draft.ID, Version: draft.Version, Statement: "Read against the ward's orders."})
	}
}

// must hands on what a call gave, and fails the test where it gave an error.
func must[T any](v T, err error) func(testing.TB) T {
	return func(tb testing.TB) T {
		tb.Helper()
		if err != nil {
			tb.Fatal(err)
		}
		return v
	}
}

// Elsewhere makes a ward in a house of its own: another database, other keys, another agency.
func Elsewhere(tb testing.TB) *Ward {
	tb.Helper()
	return made(tb, &Ward{DB: testdb.New(tb), code: "larkmoor"}, seeded(3), must(time.Parse(time.RFC3339, Opened))(tb), nil)
}
