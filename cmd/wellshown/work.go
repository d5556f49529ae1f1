package main

import (
	"context"
	"errors"
	"fmt"
	"io"

	"wellshown/assessment/office"
)

// runWork does what was put off, without serving, until stopped: for a machine beside
// those that serve, or for services with JOBS=elsewhere.
func runWork(ctx context.Context, _ []string, out io.Writer) error {
	return withLedger(ctx, func(c config, o *office.Office) error {
		fmt.Fprintln(out, "Working until stopped.")
		return work(ctx, o)
	})
}

// work does what was put off, and puts off what the day brings.
func work(ctx context.Context, o *office.Office) error {
	go keepDoing(ctx, remindEvery, "nobody can be reminded", o.Remind)
	return o.Work(ctx)
}

// alongside does what was put off beside something else, unless that is for others;
// then it waits just the same. It answers once, when all of it has stopped.
func alongside(ctx context.Context, c config, o *office.Office) <-chan error {
	done := make(chan error, 1)
	go func() {
		if c.JobsElsewhere {
			<-ctx.Done()
			done <- nil
			return
		}
		done <- work(ctx, o)
	}()
	return done
}

// readJobs reads whether a service does what was put off itself.
func readJobs(text string) (elsewhere bool, err error) {
	switch text {
	case "", "here":
		return false, nil
	case "elsewhere":
		return true, nil
	}
	return false, errors.New(`JOBS is neither "here" nor "elsewhere": say whether this service also does what was put off, or whether wellshown work does`)
}
