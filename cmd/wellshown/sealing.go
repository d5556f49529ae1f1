package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"log/slog"
	"strings"
	"time"
	"wellshown/assessment/office"
)

const sealUsage = `wellshown seal [--clock-was-ahead]

Seals once what waits in the ledger of every agency.

--clock-was-ahead: the clock of this server ran ahead, the ledger was sealed by it,
and is set right now, so that everything is refused until the time has come that it
showed. Goes on from the clock as it is now. Look twice that it is right: the ledger
keeps for ever that this was done. Stop other services of this database first.
`

// runSeal seals what waits, once.
func runSeal(ctx context.Context, args []string, out io.Writer) error {
	set := flag.NewFlagSet("seal", flag.ContinueOnError)
	set.SetOutput(io.Discard)
	ahead := set.Bool("clock-was-ahead", false, "")
	if err := set.Parse(args); err != nil || set.NArg() > 0 {
		return usageError(sealUsage)
	}
	return withOffice(ctx, func(_ config, o *office.Office) error {
		if *ahead {
			codes, err := o.SetClockRight(ctx)
			if len(codes) > 0 {
				fmt.Fprintf(out, "Goes on from the clock as it is now: %s.\n", strings.Join(codes, ", "))
			}
			return err
		}
		n, err := o.SealAll(ctx)
		if err == nil {
			fmt.Fprintf(out, "Entries sealed: %d.\n", n)
		}
		return err
	})
}

// sealEvery is how often a service seals what waits.
const sealEvery = time.Second

// keepSealing seals until it is told to stop. What goes wrong is logged once and
// tried again: nothing is lost meanwhile, the entries wait.
func keepSealing(ctx context.Context, o *office.Office) {
	tick := time.NewTicker(sealEvery)
	defer tick.Stop()
	said := ""
	for {
		select {
		case <-ctx.Done():
			return
		case <-tick.C:
		}
		_, err := o.SealAll(ctx)
		switch {
		case err == nil || ctx.Err() != nil:
			said = ""
		case err.Error() != said:
			said = err.Error()
			slog.ErrorContext(ctx, "the ledger cannot be sealed", "error", said)
		}
	}
}

// ledgerReady refuses to serve where the ledger could not be sealed.
func ledgerReady(ctx context.Context, c config, o *office.Office) error {
	if c.Ledger == nil {
		return errors.New("WELLSHOWN_LEDGER_KEYS is not set: name the file of keys that the ledger is signed with. Where there never was one, make it: wellshown keys ledger FILE")
	}
	if err := o.LedgerFits(ctx); err != nil {
		return fmt.Errorf("WELLSHOWN_LEDGER_KEYS: %w", err)
	}
	return nil
}
