package postgres

import (
	"context"
	"fmt"
	"log/slog"
	"reflect"
	"strings"
	"time"

	"github.com/jackc/pgx/v5/pgxpool"
	"github.com/riverqueue/river"
	"github.com/riverqueue/river/riverdriver/riverpgxv5"
)

// How many jobs one program does at once. What they do uses the connections of
// everybody else, so they must leave some.
const (
	shortWorkers = 3
	longWorkers  = 1
)

// rescueAfter is when a job whose program was killed is tried again. No job may take
// longer; what must go on sooner looks after itself (office/mailing.go does).
const rescueAfter = 20 * time.Minute

// stopWithin is how long jobs under way may go on once the program is told to stop.
const stopWithin = 10 * time.Second

// Crew is who does which kind of job.
type Crew struct {
	workers *river.Workers
	kinds   int
}

// NewCrew has nobody in it.
func NewCrew() *Crew { return &Crew{workers: river.NewWorkers()} }

// Let has jobs of one kind done, each in at most this time; its context ends then. do
// must be harmless twice: a program may be killed after it and before the queue has
// noted it. What it answers as an error is kept with the job, so it names nobody.
func Let[J Job](c *Crew, within time.Duration, do func(context.Context, J) error) {
	if within <= 0 || within >= rescueAfter {
		panic("a job takes some time, and less than " + rescueAfter.String())
	}
	if field := tells(reflect.TypeFor[J]()); field != "" {
		panic("a job carries ids, days and numbers only, and not " + field)
	}
	river.AddWorker(c.workers, &worker[J]{within: within, do: do})
	c.kinds++
}

// tells is the first field that could say more than an id, a day or a number does.
func tells(job reflect.Type) string {
	for i := range job.NumField() {
		f := job.Field(i)
		house := strings.HasPrefix(f.Type.PkgPath(), "wellshown/")
		switch k := f.Type.Kind(); {
		case k == reflect.String && house && strings.HasSuffix(f.Type.Name(), "ID"):
		case k == reflect.Struct && house && f.Type.Name() == "Date":
		case k == reflect.Int, k == reflect.Int64, k == reflect.Bool:
		default:
			return job.Name() + "." + f.Name
		}
	}
	return ""
}

type worker[J Job] struct {
	river.WorkerDefaults[J]
	within time.Duration
	do     func(context.Context, J) error
}

// Timeout is how long one try may take.
func (w *worker[J]) Timeout(*river.Job[J]) time.Duration { return w.within }

// Work does one job. What a panic says could repeat what was written, so only its
// type is kept.
func (w *worker[J]) Work(ctx context.Context, job *river.Job[J]) (err error) {
	defer func() {
		if p := recover(); p != nil {
			err = fmt.Errorf("%s panicked: %T", job.Kind, p)
		}
	}()
	return w.do(ctx, job.Args)
}

// Work has the crew do what waits until ctx ends, and answers when what was under way
// is done, or was given up after stopWithin. Any number of programs may work at once.
// It has connections of its own, one of which only listens.
func (db *DB) Work(ctx context.Context, crew *Crew) error {
	if crew.kinds == 0 {
		<-ctx.Done()
		return nil
	}
	few := db.pool.Config()
	few.MaxConns, few.MinIdleConns = 4, 0
	pool, err := pgxpool.NewWithConfig(context.WithoutCancel(ctx), few)
	if err != nil {
		return fmt.Errorf("connect to work: %w", err)
	}
	defer pool.Close()
	client, err := river.NewClient(riverpgxv5.New(pool), &river.Config{
		Schema: jobsSchema, Workers: crew.workers, Logger: slog.New(troubles{slog.Default().Handler()}), MaxAttempts: jobTries,
		Queues:               map[string]river.QueueConfig{queueShort: {MaxWorkers: shortWorkers}, queueLong: {MaxWorkers: longWorkers}},
		RescueStuckJobsAfter: rescueAfter, SoftStopTimeout: stopWithin,
		ReindexerSchedule: river.NeverSchedule(), // the service owns no index
	})
	if err != nil {
		return fmt.Errorf("gather who works: %w", err)
	}
	if err := client.Start(ctx); err != nil {
		if ctx.Err() != nil {
			return nil // told to stop before it began
		}
		return fmt.Errorf("begin to work: %w", err)
	}
	<-client.Stopped()
	return nil
}

// troubles leaves out what the queue tells of its daily work.
type troubles struct{ slog.Handler }

func (t troubles) Enabled(ctx context.Context, level slog.Level) bool {
	return level >= slog.LevelWarn && t.Handler.Enabled(ctx, level)
}

func (t troubles) WithAttrs(attrs []slog.Attr) slog.Handler {
	return troubles{t.Handler.WithAttrs(attrs)}
}

func (t troubles) WithGroup(name string) slog.Handler { return troubles{t.Handler.WithGroup(name)} }
