package ward

import (
	"math/rand/v2"
	"sync"
	"testing"
	"time"

	"wellshown/assessment/ledger"
	"wellshown/assessment/office"
	"wellshown/assessment/postgres"
	"wellshown/integration/testdb"
)

// Most wards are alike when they open. So the first one of a process is made by people, and
// the others are copies of its database, with its keys and with randomness that goes on
// where it stood.
var first struct {
	sync.Once
	pattern *testdb.Pattern
	ward    *Ward
	random  []byte
}

// alike reports whether options make a ward that opens as any other: what was written so
// far was vouched for with its keys, and hashed at its cost.
func alike(opened time.Time, options []Option) bool {
	keys, random := &ledger.Keys{}, seeded(1)
	opt := office.Options{Ledger: keys, Random: random, PasswordCost: Cheap}
	for _, change := range options {
		change(&opt)
	}
	at, err := time.Parse(time.RFC3339, Opened)
	return err == nil && at.Equal(opened) && opt.Ledger == keys && opt.Random == random && opt.PasswordCost == Cheap && opt.Now == nil
}

// copied is a ward that opens as any other.
func copied(tb testing.TB, options []Option) *Ward {
	tb.Helper()
	testdb.Need(tb) // before the one who makes the first is left out for all
	first.Do(func() {
		first.pattern = testdb.NewPattern(tb, func(db *testdb.DB) {
			random := seeded(1)
			w := made(tb, &Ward{DB: db, code: Code}, random, must(time.Parse(time.RFC3339, Opened))(tb), nil)
			w.Postgres.Close()
			first.ward, first.random = w, must(random.MarshalBinary())(tb)
		})
	})
	if first.pattern == nil {
		tb.Fatal("the first ward of this process could not be made: see the test that asked for it")
	}
	w := &Ward{DB: first.pattern.Copy(tb), Zone: first.ward.Zone, Admin: first.ward.Admin, Coordinator: first.ward.Coordinator, Educators: first.ward.Educators,
		LedgerKeys: first.ward.LedgerKeys, tb: tb, code: Code, added: first.ward.added}
	w.At(first.ward.Now())
	random := &rand.ChaCha8{}
	if err := random.UnmarshalBinary(first.random); err != nil {
		tb.Fatalf("go on with the first ward's randomness: %v", err)
	}
	w.openOffice(random, options)
	return w
}

// openOffice connects an office to the ward's database.
func (w *Ward) openOffice(random *rand.ChaCha8, options []Option) {
	w.tb.Helper()
	var err error
	if w.Postgres, err = postgres.Open(w.tb.Context(), w.DB.ServiceURL); err != nil {
		w.tb.Fatalf("open the ward's database: %v", err)
	}
	w.tb.Cleanup(w.Postgres.Close)
	opt := office.Options{Now: w.Now, Random: random, BaseURL: "https://ward.example", PasswordCost: Cheap, Ledger: must(ledger.ReadKeys(w.LedgerKeys))(w.tb)}
	for _, change := range options {
		change(&opt)
	}
	w.Office = office.New(w.Postgres, opt)
}
