package handover

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"

	"wellshown/assessment/ledger"
)

// Opened is a file that fits in every part.
type Opened struct {
	File
	Head ledger.Head
}

// Open reads a file and holds every part of it to the key that it names itself. Whether that
// key is anybody's is another question. Where there is a finding, nothing that it says may be
// told as true, so nothing of it is given back.
func Open(sent []byte) (Opened, []Finding) {
	f, finding := read(sent)
	if finding != nil {
		return Opened{}, []Finding{*finding}
	}
	o := Opened{File: f}
	findings := f.signature()
	findings = append(findings, f.sums()...)
	if len(findings) == 0 { // else it says already what was changed
		findings = f.Handover.words()
	}
	head, bad := f.head()
	if bad != nil {
		findings = append(findings, *bad)
	} else {
		findings = append(findings, f.proofs(head)...)
	}
	if len(findings) > 0 {
		return Opened{}, findings
	}
	o.Head = head
	return o, nil
}

// read takes only bytes that Write would have written.
func read(sent []byte) (File, *Finding) {
	var f File
	if len(sent) > MostBytes {
		return f, &Finding{Part: TooLarge}
	}
	if start := sent[:min(4, len(sent))]; len(start) > 0 && !bytes.Contains(start, []byte("{")) { // a picture, say, which nobody changed
		return f, &Finding{Part: Another}
	}
	in := json.NewDecoder(bytes.NewReader(sent))
	in.DisallowUnknownFields()
	if err := in.Decode(&f); err != nil {
		at := int(in.InputOffset())
		var wrong *json.UnmarshalTypeError
		var syntax *json.SyntaxError
		switch {
		case errors.As(err, &wrong):
			at = int(wrong.Offset)
		case errors.As(err, &syntax):
			at = int(syntax.Offset)
		case errors.Is(err, io.ErrUnexpectedEOF), errors.Is(err, io.EOF):
			return f, &Finding{Part: CutOff, Place: len(sent)}
		}
		return f, &Finding{Part: Unreadable, Place: at}
	}
	again, err := canonical(f)
	if err != nil {
		return f, &Finding{Part: Unreadable}
	}
	if !bytes.Equal(again, sent) {
		return f, &Finding{Part: Unreadable, Place: differsAt(again, sent)}
	}
	switch {
	case f.Handover.Format != Format:
		return f, &Finding{Part: Another}
	case f.Handover.Version != Version:
		return f, &Finding{Part: OtherForm, Place: f.Handover.Version}
	case f.Handover.Note != Note:
		return f, &Finding{Part: NoteChanged}
	}
	return f, nil
}

func differsAt(a, b []byte) int {
	n := min(len(a), len(b))
	for i := range n {
		if a[i] != b[i] {
			return i
		}
	}
	return n
}

func (f File) signature() []Finding {
	signed, err := canonical(f.Handover)
	if err != nil {
		return []Finding{{Part: SignatureWrong}}
	}
	switch err := ledger.VerifyDetached(f.Key, signed, f.Signature); {
	case errors.Is(err, ledger.ErrPublicKey):
		return []Finding{{Part: KeyBroken}}
	case err != nil:
		return []Finding{{Part: SignatureWrong}}
	}
	return nil
}

// sums tells by its place what was changed.
func (f File) sums() []Finding {
	want, err := sumsOf(f.Handover)
	if err != nil {
		return []Finding{{Part: SumsChanged}}
	}
	var findings []Finding
	given := f.Handover.Sums
	for _, c := range []struct {
		part        Part
		given, want string
	}{{AboutChanged, given.About, want.About}, {HeldChanged, given.Held, want.Held}, {HeadChanged, given.Head, want.Head}} {
		if c.given != c.want {
			findings = append(findings, Finding{Part: c.part})
		}
	}
	if len(given.Entries) != len(want.Entries) {
		return append(findings, Finding{Part: SumsChanged})
	}
	for i := range want.Entries {
		if given.Entries[i] != want.Entries[i] {
			findings = append(findings, Finding{Part: EntryChanged, Place: i + 1})
		}
	}
	return findings
}

func (f File) head() (ledger.Head, *Finding) {
	keys, err := ledger.ReadPublic(f.Key)
	if err != nil {
		return ledger.Head{}, &Finding{Part: HeadUnsigned}
	}
	head, err := ledger.OpenHead([]byte(f.Handover.Head), keys)
	switch {
	case err != nil:
		return head, &Finding{Part: HeadUnsigned}
	case head.Agency != f.Handover.About.Agency.ID:
		return head, &Finding{Part: HeadOfAnother}
	}
	return head, nil
}

// proofs lead each row of each entry to the head, and no row of any other.
func (f File) proofs(head ledger.Head) []Finding {
	var findings []Finding
	for i, e := range f.Handover.Entries {
		if err := e.proven(head); err != nil {
			findings = append(findings, Finding{Part: ProofWrong, Place: i + 1})
		}
	}
	return findings
}

func (e Entry) proven(head ledger.Head) error {
	rows, shown := map[Row]bool{}, map[Row]bool{}
	for _, r := range e.Rows() {
		rows[r] = true
	}
	for _, p := range e.Proofs {
		row := Row{p.Leaf.Kind, p.Leaf.Subject}
		if !rows[row] || p.Leaf.Agency != head.Agency {
			return fmt.Errorf("a proof is of %s %s", row.Kind, row.Subject)
		}
		leaf, err := canonical(p.Leaf)
		if err != nil {
			return err
		}
		if err := ledger.VerifyInclusion(ledger.LeafHash(leaf), p.Position, head.Size, p.Path, head.Root); err != nil {
			return err
		}
		shown[row] = true
	}
	if len(shown) != len(rows) {
		return fmt.Errorf("%d of %d rows have a proof", len(shown), len(rows))
	}
	return nil
}
