package demo

import (
	"container/heap"
	"context"
	"encoding/binary"
	"fmt"
	"math/rand/v2"
	"sync"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/office"
	"wellshown/assessment/postgres"
)

// story is the two years as they unfold: what is still to happen, in order of
// time, and who takes part.
type story struct {
	ctx    context.Context
	office *office.Office
	zone   *time.Location
	seed   uint64
	clock  time.Time
	end    time.Time  // what would happen later does not happen
	today  civil.Date // the last day
	queue  queue
	queued int
	signer *signer
	grown  func(context.Context) error

	admin      *person
	surveyor   *person
	coordinate []*person
	educators  []*educator
	skills     []*skill // in teaching order
	children   []*child
	learners   []*learner // the educators too

	drilled []assessment.PersonID // who had a drill with a scenario

	result Result
}

// person is somebody of the agency with what they sign with.
type person struct {
	assessment.Actor
	email, secret string
}

// cheap is a password hash that costs next to nothing: these passwords are
// printed, so hashing them dearly would protect nobody, and thousands of
// signatures are made with them.
var cheap = office.PasswordCost{Memory: 8, Passes: 1, Threads: 1}

func newStory(ctx context.Context, db *postgres.DB, opts Options) (*story, error) {
	zone, err := time.LoadLocation(Zone)
	if err != nil {
		return nil, fmt.Errorf("load the demo's zone: %w", err)
	}
	s := &story{ctx: ctx, zone: zone, seed: opts.Seed, end: opts.Now, today: civil.DayOf(opts.Now, zone), signer: newSigner(), grown: opts.Doubled}
	s.result.Today = s.today
	open := func(now func() time.Time, stream uint64) *office.Office {
		return office.New(db, office.Options{Now: now, Random: random(opts.Seed, stream), Certificate: opts.Certificate,
			BaseURL: opts.BaseURL, PasswordCost: cheap, Ledger: opts.Ledger})
	}
	s.office, s.signer.office = open(s.now, 1), open(s.signer.now, 2)
	return s, nil
}

// random is randomness that follows from a seed.
func random(seed, stream uint64) *rand.ChaCha8 {
	var key [32]byte
	binary.LittleEndian.PutUint64(key[:], seed)
	binary.LittleEndian.PutUint64(key[8:], stream)
	return rand.NewChaCha8(key)
}

func (s *story) now() time.Time { return s.clock }

// day is the civil day that the story has come to.
func (s *story) day() civil.Date { return civil.DayOf(s.clock, s.zone) }

// ago is the day so many days before the last one.
func (s *story) ago(days int) civil.Date { return s.today.AddDays(-days) }

// opening is the first day: two years before the last one.
func (s *story) opening() civil.Date { return s.today.AddMonths(-24) }

// chance is a source of chance of its own for one part of the story, so that a
// change in one part leaves the others as they were.
func (s *story) chance(of string) *rand.Rand {
	h := uint64(14695981039346656037) // FNV-1a, 64 bits
	for i := range len(of) {
		h = (h ^ uint64(of[i])) * 1099511628211
	}
	return rand.New(rand.NewPCG(s.seed, h))
}

// hour is an instant of a day on the agency's clocks.
func (s *story) hour(d civil.Date, hour, minute int) time.Time {
	y, m, day := d.Civil()
	return time.Date(y, m, day, hour, minute, 0, 0, s.zone)
}

// event is something that is to happen.
type event struct {
	at  time.Time
	seq int // of two at one instant the one planned first comes first
	do  func() error
}

// at plans something for an instant; what lies past happens now. It may depend on
// anything, so all signatures before it are made first.
func (s *story) at(t time.Time, do func() error) {
	s.beside(t, func() error {
		if err := s.signer.settleAll(); err != nil {
			return err
		}
		return do()
	})
}

// beside is at for what waits itself for the signatures that it depends on.
func (s *story) beside(t time.Time, do func() error) {
	if t.Before(s.clock) {
		t = s.clock
	}
	s.queued++
	heap.Push(&s.queue, event{t, s.queued, do})
}

// tell lets everything happen, in order, up to the end.
func (s *story) tell() error {
	var signing sync.WaitGroup
	signing.Go(func() { s.signer.work(s) })
	err := s.unfold()
	s.signer.end()
	signing.Wait()
	if err == nil {
		err = s.signer.failed
	}
	return err
}

func (s *story) unfold() error {
	s.clock = s.hour(s.opening(), 8, 0)
	if err := s.open(); err != nil {
		return err
	}
	for s.queue.Len() > 0 {
		e := heap.Pop(&s.queue).(event)
		if e.at.After(s.end) {
			break
		}
		s.clock = e.at
		if err := e.do(); err != nil {
			return err
		}
	}
	s.clock = s.end
	return nil
}

// queue is a heap of events by instant.
type queue []event

func (q queue) Len() int { return len(q) }
func (q queue) Less(i, j int) bool {
	return q[i].at.Before(q[j].at) || q[i].at.Equal(q[j].at) && q[i].seq < q[j].seq
}
func (q queue) Swap(i, j int) { q[i], q[j] = q[j], q[i] }

// Push is for the heap alone.
func (q *queue) Push(e any) { *q = append(*q, e.(event)) }

// Pop is for the heap alone.
func (q *queue) Pop() any {
	old := *q
	last := old[len(old)-1]
	*q = old[:len(old)-1]
	return last
}
