package main

import (
	"context"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"io"
	"log/slog"
	"os"
	"strings"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/ledger"
	"wellshown/assessment/office"
)

const verifyUsage = `wellshown verify [--head FILE]...

Recomputes the ledger of every agency from the records themselves, and names what
does not match, the first row first. FILE is a head that somebody kept: the ledger
of today must extend it. The exit code is 1 where anything does not match.
`

const receiptUsage = `wellshown receipt --key PUBLIC-KEY [--key PUBLIC-KEY]... FILE

Checks a proof that was kept (a JSON file from a page, or one receipt from the API)
with the agency's public key and nothing else: no database is asked.
`

// texts are the values of an option that may be given more than once.
type texts []string

func (t *texts) String() string         { return strings.Join(*t, ", ") }
func (t *texts) Set(value string) error { *t = append(*t, value); return nil }

func runVerify(ctx context.Context, args []string, out io.Writer) error {
	var files texts
	set := flag.NewFlagSet("verify", flag.ContinueOnError)
	set.SetOutput(io.Discard)
	set.Var(&files, "head", "")
	if len(args) == 1 && asksHow(args[0]) {
		_, err := fmt.Fprint(out, verifyUsage)
		return err
	}
	if err := set.Parse(args); err != nil || set.NArg() > 0 {
		return usageError("verify takes --head FILE and nothing else\n\n" + verifyUsage)
	}
	var kept [][]byte
	for _, name := range files {
		text, err := os.ReadFile(name)
		if err != nil {
			return fmt.Errorf("read the head that was kept: %w", err)
		}
		kept = append(kept, text)
	}
	return withOffice(ctx, func(_ config, o *office.Office) error {
		v, err := o.Verify(ctx, kept...)
		if err != nil {
			return err
		}
		matches := tellVerified(v, len(kept), out)
		shown, err := o.CompareIndex(ctx)
		if err != nil {
			return errors.Join(matches, err)
		}
		return errors.Join(matches, tellCompared(shown, out))
	})
}

func tellCompared(shown office.Rebuilt, out io.Writer) error {
	fmt.Fprintf(out, "Standings worked out anew: %d.\n", shown.Cases)
	for _, key := range shown.Wrong {
		fmt.Fprintf(out, "person %s, skill %s, child %s: this standing as it is shown is not what the records say\n", key.Person, key.Skill, key.Client)
	}
	if len(shown.Wrong) > 0 {
		return errors.New("standings are shown that the records do not bear out: wellshown rebuild makes them anew")
	}
	return nil
}

func tellVerified(v office.Verified, kept int, out io.Writer) error {
	fmt.Fprintf(out, "Agencies: %d. Recomputed: %d leaves under %d signed heads; %d entries wait to be sealed. Hashed anew and compared: %d rows. Heads that were kept: %d.\n",
		v.Agencies, v.Leaves, v.Heads, v.Waiting, v.Records, kept)
	for _, c := range v.ClocksSetRight {
		fmt.Fprintf(out, "agency %s: a clock that had run ahead to %s was set right at %s; what was done before may be dated up to the first.\n", c.Agency, c.Ahead.UTC().Format(time.RFC3339), c.Back.UTC().Format(time.RFC3339))
	}
	if v.Erased > 0 {
		fmt.Fprintf(out, "Rows whose content was erased, with who asked, who agreed and the hash before: %d.\n", v.Erased)
	}
	if v.Found == 0 {
		fmt.Fprintln(out, "The records are as they were written.")
		return nil
	}
	for _, f := range v.Findings {
		fmt.Fprintf(out, "agency %s, %s %s: %s\n", f.Agency, f.Kind, f.Subject, f.Says)
	}
	if more := v.Found - int64(len(v.Findings)); more > 0 {
		fmt.Fprintf(out, "and %d more\n", more)
	}
	return errors.New("the record is not as it was written: keep a copy of the database as it is, and find out why before trusting what is shown")
}

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

// runHead prints the newest head of an agency's ledger.
func runHead(ctx context.Context, args []string, out io.Writer) error {
	if len(args) != 1 || asksHow(args[0]) {
		return usageError("wellshown head CODE\n\nPrints the newest signed head of the ledger of the agency with this code.\n")
	}
	return withOffice(ctx, func(_ config, o *office.Office) error {
		by, err := o.Desk(ctx, args[0])
		if err != nil {
			return err
		}
		h, err := o.LedgerHead(ctx, by)
		if err == nil {
			_, err = io.WriteString(out, h.Signed)
		}
		return err
	})
}

// runProof prints what proves a demonstration and its signatures.
func runProof(ctx context.Context, args []string, out io.Writer) error {
	if len(args) != 2 {
		return usageError("wellshown proof CODE ID\n\nPrints what proves the demonstration with this id, of the agency with this code, as JSON.\n")
	}
	id, err := assessment.ParseID[assessment.DemonstrationID](args[1])
	if err != nil {
		return err
	}
	return withOffice(ctx, func(_ config, o *office.Office) error {
		by, err := o.Desk(ctx, args[0])
		if err != nil {
			return err
		}
		p, err := o.ProofOfDemonstration(ctx, by, id)
		if err != nil {
			return err
		}
		receipts := []ledger.Receipt{}
		for _, e := range p.Entries {
			receipts = append(receipts, e.Receipt)
		}
		encoder := json.NewEncoder(out)
		encoder.SetIndent("", "  ")
		return encoder.Encode(receipts)
	})
}

func runReceipt(args []string, out io.Writer) error {
	var public texts
	set := flag.NewFlagSet("receipt", flag.ContinueOnError)
	set.SetOutput(io.Discard)
	set.Var(&public, "key", "")
	if len(args) == 1 && asksHow(args[0]) {
		_, err := fmt.Fprint(out, receiptUsage)
		return err
	}
	if err := set.Parse(args); err != nil || set.NArg() != 1 || len(public) == 0 {
		return usageError("receipt is told a public key and a file\n\n" + receiptUsage)
	}
	keys, err := ledger.ReadPublic(public...)
	if err != nil {
		return err
	}
	receipts, err := readReceipts(set.Arg(0))
	if err != nil {
		return err
	}
	for _, r := range receipts {
		p, err := r.Check(keys)
		if err != nil {
			return fmt.Errorf("this proves nothing: %w", err)
		}
		tellProven(r, p, out)
	}
	return nil
}

func readReceipts(file string) ([]ledger.Receipt, error) {
	text, err := os.ReadFile(file)
	if err != nil {
		return nil, fmt.Errorf("read the proof: %w", err)
	}
	var many []ledger.Receipt
	if json.Unmarshal(text, &many) == nil && len(many) > 0 {
		return many, nil
	}
	var one ledger.Receipt
	if err := json.Unmarshal(text, &one); err != nil || len(one.Leaf) == 0 {
		return nil, errors.New("read the proof: the file holds no receipt")
	}
	return []ledger.Receipt{one}, nil
}

func tellProven(r ledger.Receipt, p ledger.Proven, out io.Writer) {
	fmt.Fprintf(out, "Proven: %s %s was written at %s (%s), as entry %d of the ledger of agency %s, under a head of %d entries sealed at %s.\n",
		p.Leaf.Kind, p.Leaf.Subject, p.Leaf.At, p.Leaf.Act, r.Position, p.Leaf.Agency, p.Head.Size, p.Head.At.Format(time.RFC3339))
	if len(r.Record) > 0 {
		fmt.Fprintln(out, "The record in the file is the one that was written.")
	}
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
