package main

import (
	"context"
	"log/slog"
	"time"

	"wellshown/assessment/office"
)

// How often a service seals what waits, and deletes what is past its use; and how often
// whoever does what was put off looks whom to remind.
const (
	sealEvery   = time.Second
	cleanEvery  = time.Hour
	remindEvery = 20 * time.Second
)

// keepHouse does what a service does unasked, until it is told to stop.
func keepHouse(ctx context.Context, o *office.Office) {
	seal := func(ctx context.Context) error {
		_, err := o.SealAll(ctx)
		return err
	}
	go keepDoing(ctx, sealEvery, "the ledger cannot be sealed", seal)
	go keepDoing(ctx, cleanEvery, "what is past its use cannot be deleted", o.Clean)
}

// keepDoing does something at once and then every so often, until it is told to stop.
// What goes wrong is logged once and tried again: nothing is lost meanwhile, it waits.
func keepDoing(ctx context.Context, every time.Duration, trouble string, do func(context.Context) error) {
	tick := time.NewTicker(every)
	defer tick.Stop()
	said := ""
	for ctx.Err() == nil {
		err := do(ctx)
		switch {
		case err == nil || ctx.Err() != nil:
			said = ""
		case err.Error() != said:
			said = err.Error()
			slog.ErrorContext(ctx, trouble, "error", said)
		}
		select {
		case <-ctx.Done():
		case <-tick.C:
		}
	}
}
