package integration_test

import (
	"context"
	"errors"
	"sync"
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/postgres"
	"wellshown/integration/testdb"
)

// greeting is a job of this test.
type greeting struct {
	Agency assessment.AgencyID
	Person assessment.PersonID
}

func (greeting) Kind() string { return "greeting" }

// errand is a job that may take long.
type errand struct{ Agency assessment.AgencyID }

func (errand) Kind() string { return "errand" }
func (errand) TakesLong()   {}

// gossip carries what no job may.
type gossip struct {
	Agency assessment.AgencyID
	Name   string
}

func (gossip) Kind() string { return "gossip" }

// What was put off is done if and only if the transaction that did so was kept, once
// however often it was asked for, and whoever stops lets go on what is under way.
func TestWhatIsPutOffIsDoneOnceItsTransactionIsKept(t *testing.T) {
	t.Parallel()
	db := opened(t, testdb.New(t))
	other := assessment.PersonID(agencyB)
	put := func(fail error, jobs ...postgres.Job) {
		err := db.InAgency(t.Context(), agencyA, func(tx *postgres.Tx) error {
			for _, j := range jobs {
				if err := tx.Jobs.Add(t.Context(), j); err != nil {
					return err
				}
			}
			return fail
		})
		if !errors.Is(err, fail) {
			t.Fatal(err)
		}
	}
	put(errors.New("not kept"), greeting{agencyA, other})
	kept := greeting{agencyA, assessment.PersonID(agencyA)}
	put(nil, kept, kept, errand{agencyA})
	put(nil, kept)

	var mu sync.Mutex
	var done []postgres.Job
	begun, told, tried := make(chan bool), make(chan bool), false
	crew := postgres.NewCrew()
	postgres.Let(crew, time.Minute, func(_ context.Context, j greeting) error {
		mu.Lock()
		defer mu.Unlock()
		if !tried { // what fails is tried again, a panic too
			tried = true
			panic("the first try")
		}
		done = append(done, j)
		return nil
	})
	ended := false
	postgres.Let(crew, time.Minute, func(ctx context.Context, _ errand) error {
		close(begun)
		<-told
		time.Sleep(100 * time.Millisecond)
		ended = ctx.Err() == nil
		return ctx.Err()
	})
	ctx, stop := context.WithCancel(t.Context())
	worked := make(chan error)
	go func() { worked <- db.Work(ctx, crew) }()
	<-begun
	waitUntil(t, func() bool { mu.Lock(); defer mu.Unlock(); return len(done) > 0 })
	stop()
	close(told)
	if err := <-worked; err != nil || !ended {
		t.Errorf("stopped with %v; the long job ended: %t", err, ended)
	}
	if len(done) != 1 || done[0] != kept {
		t.Errorf("done: %v; want %v alone", done, kept)
	}
}

// The queue has no row security: a job that carried a name would show it to everybody
// who works.
func TestAJobCarriesNoNames(t *testing.T) {
	defer func() {
		if recover() == nil {
			t.Error("a job with a field for a name was let in")
		}
	}()
	postgres.Let(postgres.NewCrew(), time.Minute, func(context.Context, gossip) error { return nil })
}

// waitUntil waits for what happens elsewhere; a minute is for ever.
func waitUntil(t *testing.T, so func() bool) {
	t.Helper()
	for range 1200 {
		if so() {
			return
		}
		time.Sleep(50 * time.Millisecond)
	}
	t.Fatal("waited in vain")
}
