package main

import (
	"cmp"
	"context"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"io"
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
			tellRules(v, out) // may be why
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
	fmt.Fprintf(out, "Agencies: %d. Recomputed: %d leaves under %d signed heads; %d entries wait to be sealed. Hashed anew and compared: %d rows. Signatures of devices checked: %d. Knowledge checks judged again: %d. Heads that were kept: %d.\n",
		v.Agencies, v.Leaves, v.Heads, v.Waiting, v.Records, v.Devices, v.Checks, kept)
	for _, l := range v.Ledgers {
		fmt.Fprintf(out, "%s (%s): %d leaves, %s\n", cmp.Or(l.Code, "an agency whose row is gone"), l.Agency, l.Leaves, newestHead(l.Sealed))
	}
	if v.Begun > 0 {
		fmt.Fprintf(out, "Rows that were there before their table was kept: %d. The ledger proves them from then on only.\n", v.Begun)
	}
	for _, c := range v.ClocksSetRight {
		fmt.Fprintf(out, "agency %s: a clock that had run ahead to %s was set right at %s; what was done before may be dated up to the first.\n", c.Agency, c.Ahead.UTC().Format(time.RFC3339), c.Back.UTC().Format(time.RFC3339))
	}
	if v.Erased > 0 {
		fmt.Fprintf(out, "Rows whose content was erased, with who asked, who agreed and the hash before: %d.\n", v.Erased)
	}
	switch {
	case v.Found == 0 && v.Agencies == 0:
		fmt.Fprintln(out, "There is no agency in this database, and no row of one. Where there was one, everything is gone.")
		return nil
	case v.Found == 0:
		fmt.Fprintln(out, "The records are as they were written.")
		return nil
	}
	tellRules(v, out)
	for _, f := range v.Findings {
		fmt.Fprintf(out, "agency %s, %s %s: %s\n", f.Agency, f.Kind, f.Subject, f.Says)
	}
	if more := v.Found - int64(len(v.Findings)+len(v.Rules)); more > 0 {
		fmt.Fprintf(out, "and %d more\n", more)
	}
	return errors.New("the record is not as it was written: keep a copy of the database as it is, and find out why before trusting what is shown")
}

func newestHead(sealed time.Time) string {
	if sealed.IsZero() {
		return "never sealed"
	}
	return "newest head sealed " + sealed.UTC().Format(time.RFC3339)
}

// mostRules bounds what is told of a database whose schema is another altogether.
const mostRules = 200

func tellRules(v office.Verified, out io.Writer) {
	for i, d := range v.Rules {
		if i == mostRules {
			fmt.Fprintf(out, "and %d more of the rules\n", len(v.Rules)-i)
			return
		}
		fmt.Fprintf(out, "the database's own rules are not those of this program: %s\n", d)
	}
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
