package postgres

import (
	"context"
	"fmt"
	"log/slog"
	"sync"
	"time"

	"github.com/jackc/pgx/v5"
	"github.com/riverqueue/river"
	"github.com/riverqueue/river/riverdriver/riverpgxv5"
)

// Job is work that is put off. The queue's tables know no agency, so that a job
// carries ids, days and numbers only (Let refuses anything else), the agency's id
// among them, under which its worker goes in.
type Job interface {
	// Kind is the job's name in the queue: a word that stays, for jobs outlive programs.
	Kind() string
}

// LongJob is a Job that may take minutes. It waits in a queue of its own, so that
// nothing short waits for it.
type LongJob interface {
	Job
	TakesLong()
}

// Names of the queues.
const (
	jobsSchema = "river"
	queueShort = river.QueueDefault
	queueLong  = "long"
)

// jobTries is how often a job that fails is tried: at first after seconds, at last
// after more than an hour, some four hours in all.
const jobTries = 10

// Jobs puts work off.
type Jobs struct{ scope }

// Add puts a job off until this transaction is kept; where it is not, there never was
// a job. A job like it (the same kind and fields) that waits, runs, or was done within
// a day stands for it.
func (j Jobs) Add(ctx context.Context, job Job) error {
	return j.AddAt(ctx, job, time.Time{})
}

// AddAt is Add for what is not done before an instant, by the queue's own clock and some
// seconds late: even for one that has passed.
func (j Jobs) AddAt(ctx context.Context, job Job, at time.Time) error {
	client, err := adding()
	if err != nil {
		return err
	}
	opts := &river.InsertOpts{MaxAttempts: jobTries, Queue: queueShort, ScheduledAt: at, UniqueOpts: river.UniqueOpts{ByArgs: true}}
	if _, long := job.(LongJob); long {
		opts.Queue = queueLong
	}
	if _, err := client.InsertTx(ctx, j.tx, job, opts); err != nil {
		return fmt.Errorf("put off %s: %w", job.Kind(), err)
	}
	return nil
}

// adding is a client that only adds, each time in somebody's transaction.
var adding = sync.OnceValues(func() (*river.Client[pgx.Tx], error) {
	client, err := river.NewClient(riverpgxv5.New(nil), &river.Config{Schema: jobsSchema, Logger: slog.New(slog.DiscardHandler)})
	if err != nil {
		return nil, fmt.Errorf("open the queue: %w", err)
	}
	return client, nil
})
