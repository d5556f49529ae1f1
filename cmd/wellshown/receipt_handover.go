package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"

	"wellshown/assessment/handover"
	"wellshown/assessment/ledger"
)

// readHandover reads a file, and reports whether it means to be one that somebody takes along.
func readHandover(file string) (text []byte, is bool, err error) {
	if text, err = os.ReadFile(file); err != nil {
		return nil, false, fmt.Errorf("read the proof: %w", err)
	}
	return text, bytes.HasPrefix(bytes.TrimSpace(text), []byte(`{"handover":`)), nil
}

// tellHandover says what somebody brings from another agency, where one of the keys has signed
// it and nothing of it was changed.
func tellHandover(text []byte, public []string, out io.Writer) error {
	o, findings := handover.Open(text)
	if len(findings) > 0 {
		for _, f := range findings {
			fmt.Fprintln(out, f.Phrase())
		}
		return errors.New("this file was changed: rely on nothing in it")
	}
	known := false
	for _, line := range public {
		key, err := ledger.ReadPublicLine(line)
		known = known || err == nil && key == o.Key
	}
	b := o.Handover
	if !known {
		return fmt.Errorf("this file is unchanged, but by another key than was given: its fingerprint is %s", handover.Fingerprint(o.Key, b.About.Agency.ID))
	}
	fmt.Fprintf(out, "Unchanged, and signed by this key. Fingerprint: %s\n", handover.Fingerprint(o.Key, b.About.Agency.ID))
	fmt.Fprintf(out, "%s wrote this down about %s, as of %s. %s\n", b.About.Agency.Name, b.About.Person.Name, b.About.Day, handover.Note)
	for _, h := range b.Held {
		fmt.Fprintf(out, "%s: %s\n", title(h.Title, h.Child), h.How)
	}
	for i, e := range b.Entries {
		fmt.Fprintf(out, "%d. %s: %s of %s%s, by %s", i+1, title(e.Title, e.Child), e.Kind, e.On, outcomeText(e), e.By.Name)
		if e.Taken != nil {
			fmt.Fprintf(out, "; taken back on %s", e.Taken.On)
		}
		fmt.Fprintln(out)
	}
	return nil
}

func title(skill string, child int) string {
	if child == 0 {
		return skill
	}
	return fmt.Sprintf("%s for child %d", skill, child)
}

// outcomeText says how a demonstration came out, and why it did not count where it did not.
func outcomeText(e handover.Entry) string {
	switch {
	case e.Kind != handover.Demonstration:
		return ""
	case !e.Formal:
		return " (" + e.Outcome + ", " + e.Setting + "; practice, which did not count)"
	case !e.SignedByBoth() && e.CountsAlone():
		return " (" + e.Outcome + ", " + e.Setting + "; signed by the observer alone, which is enough)"
	case !e.SignedByBoth():
		return " (" + e.Outcome + ", " + e.Setting + "; not signed by both, so it did not count)"
	}
	return " (" + e.Outcome + ", " + e.Setting + ")"
}
