package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"strings"

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
	if len(args) == 1 && asksHow(args[0]) {
		_, err := fmt.Fprint(out, sealUsage)
		return err
	}
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

// ledgerReady refuses to write where the ledger could not be sealed, and where nothing
// would vouch for what is written.
func ledgerReady(ctx context.Context, c config, o *office.Office) error {
	if c.Ledger == nil {
		return errors.New("WELLSHOWN_LEDGER_KEYS is not set: name the file of keys that the ledger is signed with. Where there never was one, make it: wellshown keys ledger FILE")
	}
	if err := o.LedgerFits(ctx); err != nil {
		return fmt.Errorf("WELLSHOWN_LEDGER_KEYS: %w", err)
	}
	return nil
}
