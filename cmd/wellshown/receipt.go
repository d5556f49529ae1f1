package main

import (
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"time"

	"wellshown/assessment/ledger"
	"wellshown/reports"
)

const receiptUsage = `wellshown receipt --key PUBLIC-KEY [--key PUBLIC-KEY]... FILE

Checks a proof that was kept (a JSON file from a page, one receipt from the API, the data
of a surveyor's packet, or the file that somebody brings from another agency) with the agency's public key and nothing else: no database is asked.
`

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
	if file, is, err := readHandover(set.Arg(0)); is || err != nil {
		if err != nil {
			return err
		}
		return tellHandover(file, public, out)
	}
	receipts, err := readReceipts(set.Arg(0))
	if err != nil {
		return err
	}
	if len(receipts) == 0 {
		return errors.New("read the proof: the packet names no entry of the ledger, so it proves nothing")
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
	if packet, err := reports.ReadPacketData(text); err == nil {
		if err := packet.Agrees(); err != nil {
			return nil, fmt.Errorf("the packet tells otherwise than the rows in it: %w", err)
		}
		return receiptsOf(packet), nil
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

// receiptsOf are all proofs of a packet, each whole by itself.
func receiptsOf(p reports.PacketData) []ledger.Receipt {
	if p.Packet.Ledger == nil {
		return nil
	}
	var all []ledger.Receipt
	for _, proof := range p.Proofs() {
		for _, e := range proof.Entries {
			all = append(all, ledger.Receipt{Leaf: e.Leaf, Position: e.Position, Path: e.Path, Head: p.Packet.Ledger.Head, Record: e.Record})
		}
	}
	return all
}
