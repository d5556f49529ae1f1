package handover_test

import (
	"bytes"
	"crypto/ed25519"
	"crypto/sha256"
	"encoding/base64"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"golang.org/x/mod/sumdb/note"

	"wellshown/assessment/handover"
	"wellshown/assessment/ledger"
)

const agency, person = "01963f7a-0000-7000-8000-0000000000aa", "01963f7a-0000-7000-8000-0000000000cc"

// seed is the secret key of RFC 8032, section 7.1, test 1.
var seed = []byte("\x9d\x61\xb1\x9d\xef\xfd\x5a\x60\xba\x84\x4a\xf4\x92\xec\x2c\xc4\x44\x49\xc5\x69\x7b\x32\x69\x19\x70\x3b\xac\x03\x1c\xae\x7f\x60")

// keysOf makes the key file of a name and a seed.
func keysOf(t *testing.T, name string, seed []byte) *ledger.Keys {
	t.Helper()
	key := ed25519.NewKeyFromSeed(seed)
	public, err := note.NewEd25519VerifierKey(name, key.Public().(ed25519.PublicKey))
	if err != nil {
		t.Fatal(err)
	}
	hash := strings.Split(public, "+")[1]
	secret := "PRIVATE+KEY+" + name + "+" + hash + "+" + base64.StdEncoding.EncodeToString(append([]byte{1}, seed...))
	keys, err := ledger.ReadKeys(public + "\n" + secret + "\n")
	if err != nil {
		t.Fatal(err)
	}
	return keys
}

// sealed puts entries into a tree with others between them and gives each its proofs.
func sealed(t *testing.T, keys *ledger.Keys, entries []handover.Entry) (string, []handover.Entry) {
	t.Helper()
	tree, nodes := ledger.NewTree(), map[ledger.NodeID][]byte{}
	type place struct {
		entry int
		proof handover.Proof
	}
	var places []place
	add := func(entry int, r handover.Row) {
		l := handover.Leaf{Act: "sign record", Actor: person, Agency: agency, At: "2026-02-01T16:30:00.123456Z", Kind: r.Kind, Record: strings.Repeat("0a", 32), Subject: r.Subject, V: 1}
		text, err := json.Marshal(l)
		if err != nil {
			t.Fatal(err)
		}
		if text, err = ledger.Canonical(text); err != nil {
			t.Fatal(err)
		}
		places = append(places, place{entry, handover.Proof{Leaf: l, Position: tree.Size()}})
		made, err := tree.Append(ledger.LeafHash(text))
		if err != nil {
			t.Fatal(err)
		}
		for _, n := range made {
			nodes[n.NodeID] = n.Hash
		}
	}
	for i, e := range entries {
		add(-1, handover.Row{Kind: "session", Subject: fmt.Sprint(i)})
		for _, r := range e.Rows() {
			add(i, r)
		}
	}
	root, err := tree.Root()
	if err != nil {
		t.Fatal(err)
	}
	out := slices.Clone(entries)
	for _, p := range places {
		if p.entry < 0 {
			continue
		}
		needs, err := ledger.NeedsOfInclusion(p.proof.Position, tree.Size())
		if err != nil {
			t.Fatal(err)
		}
		var hashes [][]byte
		for _, id := range needs.IDs() {
			hashes = append(hashes, nodes[id])
		}
		if p.proof.Path, err = needs.Proof(hashes); err != nil {
			t.Fatal(err)
		}
		out[p.entry].Proofs = append(out[p.entry].Proofs, p.proof)
	}
	head, err := ledger.Head{Agency: agency, Size: tree.Size(), Root: root, At: time.Date(2026, 2, 2, 3, 0, 0, 0, time.UTC)}.Sign(keys.Signer())
	if err != nil {
		t.Fatal(err)
	}
	return string(head), out
}

func sum(text string) string { s := sha256.Sum256([]byte(text)); return hex.EncodeToString(s[:]) }

func body(t *testing.T, keys *ledger.Keys) handover.Body {
	t.Helper()
	shown := handover.Entry{Kind: handover.Demonstration, ID: "d1", Skill: "suction", Title: "Suctioning <a & b> \u2028 ñ", Child: 1, On: "2026-02-01", Written: "2026-02-01T16:00:00.000000Z",
		Checklist: &handover.Checklist{Revision: 2, SHA256: sum("list")}, Outcome: "competent", Score: "7/8", Setting: "with the child", Formal: true, By: handover.Who{Name: "Ines Varga", Licence: "RN 4411"},
		Text: sum("text"), Signed: []handover.Signed{{Part: "observer", Name: "Ines Varga", Licence: "RN 4411", At: "2026-02-01T16:10:00.000000Z", Text: sum("text")}, {Part: "learner", Name: "Rosa Lima", At: "2026-02-01T16:11:00.000000Z", Text: sum("text")}}}
	other := shown
	other.ID, other.Outcome, other.Taken = "d2", "stopped for safety", &handover.Correction{ID: "c1", On: "2026-02-03"}
	withdrawn := handover.Entry{Kind: handover.Withdrawal, ID: "w1", Skill: "suction", Title: "Suctioning", On: "2026-02-04", Written: "2026-02-04T10:00:00.000000Z", By: handover.Who{Name: "Ines Varga"}, Until: "reinstated"}
	head, entries := sealed(t, keys, []handover.Entry{shown, other, withdrawn})
	return handover.Body{About: handover.About{Agency: handover.Named{ID: agency, Name: "Larkmoor Home Nursing"}, Person: handover.Named{ID: person, Name: "Rosa Lima"}, Day: "2026-02-05", MadeAt: "2026-02-05T09:00:00.000000Z", Zone: "America/Denver"},
		Held: []handover.Held{{Skill: "suction", Title: "Suctioning", Child: 1, How: handover.WasWithdrawn, Since: "2026-02-04"}}, Entries: entries, Head: head}
}

func written(t *testing.T, b handover.Body, keys *ledger.Keys) []byte {
	t.Helper()
	file, err := handover.Write(b, keys)
	if err != nil {
		t.Fatal(err)
	}
	return file
}

// The same holds of every form of the file: one way to write it (RFC 8785, section 3.2),
// and the same bytes each time, since Ed25519 draws nothing (RFC 8032, section 5.1.6).
func TestAFileIsOpenedAsItWasWritten(t *testing.T) {
	keys := keysOf(t, "house", seed)
	b := body(t, keys)
	file := written(t, b, keys)
	if again := written(t, b, keys); !bytes.Equal(file, again) {
		t.Error("the same is written in two ways")
	}
	if canonical, err := ledger.Canonical(file); err != nil || !bytes.Equal(canonical, file) {
		t.Errorf("it is not canonical JSON: %v", err)
	}
	o, findings := handover.Open(file)
	if len(findings) > 0 || len(o.Handover.Entries) != 3 || o.Handover.About != b.About || o.Head.Size != 11 {
		t.Errorf("%v %+v", findings, o)
	}
	if strings.Contains(strings.ReplaceAll(strings.ToLower(string(file)), strings.ToLower(handover.Note), ""), "current") {
		t.Error("the file says that somebody is current")
	}
	empty := b
	empty.Entries, empty.Held = nil, nil
	if _, findings := handover.Open(written(t, empty, keys)); len(findings) > 0 {
		t.Errorf("of whoever has shown nothing: %v", findings)
	}
}

// The test vectors of RFC 8032, section 7.1: test 1 signs nothing, test 3 two bytes, with its
// own key.
func TestRFC8032SignaturesOfFiles(t *testing.T) {
	for _, v := range []struct{ seed, public, message, signature string }{
		{hex.EncodeToString(seed), "d75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a", "",
			"e5564300c360ac729086e2cc806e828a84877f1eb8e5d974d873e065224901555fb8821590a33bacc61e39701cf9b46bd25bf5f0595bbe24655141438e7a100b"},
		{"c5aa8df43f9f837bedb7442f31dcb7b166d38535076f094b85ce3a2e0b4458f7", "fc51cd8e6218a1a38da47ed00230f0580816ed13ba3303ac5deb911548908025", "af82",
			"6291d657deec24024827e69c3abe01a30ce548a284743a445e3680d7db5ac3ac18ff9b538d16f290ae67f760984dc6594a7c15e9716ed28dc027beceea1ec40a"},
	} {
		secret, _ := hex.DecodeString(v.seed)
		message, _ := hex.DecodeString(v.message)
		public, signature, err := keysOf(t, "house", secret).SignDetached(message)
		if err != nil || hex.EncodeToString(signature) != v.signature {
			t.Errorf("%x, %v", signature, err)
		}
		raw, err := base64.StdEncoding.DecodeString(strings.SplitN(public, "+", 3)[2])
		if err != nil || hex.EncodeToString(raw[1:]) != v.public {
			t.Errorf("public half %s", public)
		}
		if err := ledger.VerifyDetached(public, message, signature); err != nil {
			t.Error(err)
		}
		if err := ledger.VerifyDetached(public, append(message, 0), signature); err == nil {
			t.Error("it is a signature of one byte more, too")
		}
	}
}

// Every single bit of every byte counts: whatever is flipped is told and nothing of the
// file given back (common practice, no source).
func TestEveryFlippedBitIsTold(t *testing.T) {
	keys := keysOf(t, "house", seed)
	b := body(t, keys)
	b.Head, b.Entries = sealed(t, keys, []handover.Entry{bare(b.Entries[0])})
	file := written(t, b, keys)
	most := bytes.Index(file, []byte(`"key":`)) // from the key on every bit, before it two of each byte
	for i := range file {
		for bit := range 8 {
			if i < most && bit != i%8 && bit != 5 { // 5 is the one between capitals and small letters
				continue
			}
			forged := bytes.Clone(file)
			forged[i] ^= 1 << bit
			o, findings := handover.Open(forged)
			if len(findings) == 0 || o.Key != "" || len(o.Handover.Entries) > 0 {
				t.Fatalf("bit %d of byte %d: %v, and it says %+v", bit, i, findings, o)
			}
			for _, f := range findings {
				if f.Phrase().IsZero() {
					t.Fatalf("bit %d of byte %d: a finding without words", bit, i)
				}
			}
		}
	}
}

func bare(e handover.Entry) handover.Entry { e.Proofs = nil; return e }

func TestCutOffAndLonger(t *testing.T) {
	keys := keysOf(t, "house", seed)
	file := written(t, body(t, keys), keys)
	for n := range len(file) {
		if _, findings := handover.Open(file[:n]); len(findings) != 1 || findings[0].Part != handover.CutOff {
			t.Fatalf("cut off after %d bytes: %v", n, findings)
		}
	}
	for _, more := range []string{" ", "\n", "{}", "\x00", string(file)} {
		if _, findings := handover.Open(append(bytes.Clone(file), more...)); len(findings) == 0 {
			t.Errorf("%.10q after its end is taken", more)
		}
	}
	if _, findings := handover.Open(make([]byte, handover.MostBytes+1)); len(findings) != 1 || findings[0].Part != handover.TooLarge {
		t.Errorf("too large: %v", findings)
	}
	b := body(t, keys)
	b.About.Person.Name = strings.Repeat("x", handover.MostBytes)
	if _, err := handover.Write(b, keys); !errors.Is(err, handover.ErrTooLarge) {
		t.Errorf("too large to be read, and written: %v", err)
	}
}

// JSON that means the same, or that readers understand in different ways, is not taken: RFC
// 8259, section 4, leaves open what a name that stands twice means.
func TestOtherSpellingsAreRefused(t *testing.T) {
	keys := keysOf(t, "house", seed)
	file := string(written(t, body(t, keys), keys))
	for what, other := range map[string]string{
		"a name twice":         strings.Replace(file, `"outcome":"competent"`, `"outcome":"unsafe","outcome":"competent"`, 1),
		"an unknown field":     strings.Replace(file, `"version":1`, `"version":1,"vow":1`, 1),
		"a name in capitals":   strings.Replace(file, `"outcome":"competent"`, `"Outcome":"competent"`, 1),
		"a number as text":     strings.Replace(file, `"revision":2`, `"revision":"2"`, 1),
		"a number with a part": strings.Replace(file, `"revision":2`, `"revision":2.0`, 1),
		"null":                 strings.Replace(file, `"formal":true`, `"formal":null`, 1),
		"an empty field":       strings.Replace(file, `"formal":true`, `"formal":true,"through":""`, 1),
		"a space":              strings.Replace(file, `"formal":true`, `"formal": true`, 1),
		"an escape":            strings.Replace(file, "Ines", `\u0049nes`, 1),
		"another order":        strings.Replace(file, `"formal":true,"id":"d1"`, `"id":"d1","formal":true`, 1),
		"no UTF-8":             strings.Replace(file, "Ines", "In\xffs", 1),
		"a mark at the front":  "\ufeff" + file,
	} {
		if other == file {
			t.Errorf("%s: nothing was changed", what)
		}
		if _, findings := handover.Open([]byte(other)); len(findings) != 1 || findings[0].Part != handover.Unreadable {
			t.Errorf("%s: %v", what, findings)
		}
	}
}

// altered is a file with something of it changed after it was signed.
func altered(t *testing.T, file []byte, change func(*handover.File)) []byte {
	t.Helper()
	var f handover.File
	if err := json.Unmarshal(file, &f); err != nil {
		t.Fatal(err)
	}
	change(&f)
	text, err := json.Marshal(f)
	if err != nil {
		t.Fatal(err)
	}
	if text, err = ledger.Canonical(text); err != nil {
		t.Fatal(err)
	}
	return text
}

// What was changed is told by its place, and only that.
func TestWhatWasChangedIsToldByItsPlace(t *testing.T) {
	keys := keysOf(t, "house", seed)
	file := written(t, body(t, keys), keys)
	for _, c := range []struct {
		what   string
		change func(*handover.File)
		tells  []handover.Finding
	}{
		{"a verdict", func(f *handover.File) { f.Handover.Entries[1].Outcome = "competent" }, []handover.Finding{{Part: handover.SignatureWrong}, {Part: handover.EntryChanged, Place: 2}}},
		{"the name", func(f *handover.File) { f.Handover.About.Person.Name = "Rosa Lina" }, []handover.Finding{{Part: handover.SignatureWrong}, {Part: handover.AboutChanged}}},
		{"what was held", func(f *handover.File) { f.Handover.Held[0].How = handover.WasHeld }, []handover.Finding{{Part: handover.SignatureWrong}, {Part: handover.HeldChanged}}},
		{"a withdrawal left out", func(f *handover.File) { f.Handover.Entries = f.Handover.Entries[:2] }, []handover.Finding{{Part: handover.SignatureWrong}, {Part: handover.SumsChanged}}},
		{"a correction left out", func(f *handover.File) { f.Handover.Entries[1].Taken = nil }, []handover.Finding{{Part: handover.SignatureWrong}, {Part: handover.EntryChanged, Place: 2}, {Part: handover.ProofWrong, Place: 2}}},
		{"the head", func(f *handover.File) {
			f.Handover.Head = strings.Replace(f.Handover.Head, "sealed 2026", "sealed 2025", 1)
		}, []handover.Finding{{Part: handover.SignatureWrong}, {Part: handover.HeadChanged}, {Part: handover.HeadUnsigned}}},
		{"the note", func(f *handover.File) { f.Handover.Note = "This makes everybody fit." }, []handover.Finding{{Part: handover.NoteChanged}}},
		{"the form", func(f *handover.File) { f.Handover.Version = 2 }, []handover.Finding{{Part: handover.OtherForm, Place: 2}}},
		{"the kind", func(f *handover.File) { f.Handover.Format = "other" }, []handover.Finding{{Part: handover.Another}}},
		{"the key", func(f *handover.File) { f.Key = "x" + f.Key }, []handover.Finding{{Part: handover.KeyBroken}, {Part: handover.HeadUnsigned}}},
		{"another's key", func(f *handover.File) { f.Key = keysOf(t, "house", bytes.Repeat([]byte{7}, 32)).Public()[0] }, []handover.Finding{{Part: handover.SignatureWrong}, {Part: handover.HeadUnsigned}}},
	} {
		if _, findings := handover.Open(altered(t, file, c.change)); !slices.Equal(findings, c.tells) {
			t.Errorf("%s: %v, want %v", c.what, findings, c.tells)
		}
	}
}

// A proof shows the row that it is of and no other, also where the house itself signs the file.
func TestAProofIsOfItsOwnRecord(t *testing.T) {
	keys := keysOf(t, "house", seed)
	for what, change := range map[string]func(*handover.Body){
		"of another record": func(b *handover.Body) { b.Entries[0].Proofs = b.Entries[1].Proofs },
		"one more":          func(b *handover.Body) { b.Entries[0].Proofs = append(b.Entries[0].Proofs, b.Entries[2].Proofs...) },
		"one less":          func(b *handover.Body) { b.Entries[0].Proofs = b.Entries[0].Proofs[1:] },
		"none":              func(b *handover.Body) { b.Entries[0].Proofs = nil },
		"its subject typed over": func(b *handover.Body) {
			b.Entries[0].Proofs = slices.Clone(b.Entries[1].Proofs[:3])
			for i, p := range b.Entries[0].Proofs {
				b.Entries[0].Proofs[i].Leaf.Subject = strings.Replace(p.Leaf.Subject, "d2", "d1", 1)
			}
		},
		"of another place": func(b *handover.Body) { b.Entries[0].Proofs[0].Position++ },
	} {
		b := body(t, keys)
		change(&b)
		if _, err := handover.Write(b, keys); err == nil || !strings.Contains(err.Error(), "Entry 1") {
			t.Errorf("a proof %s is handed out: %v", what, err)
		}
	}
	b := body(t, keys)
	b.About.Agency.ID = person
	if _, err := handover.Write(b, keys); err == nil {
		t.Error("the head of one agency's ledger stands for another")
	}
}

// signedAs is a file of anybody's own making: sums, proofs and signature fit whatever it says.
func signedAs(t *testing.T, b handover.Body, keys *ledger.Keys, change func(*handover.Body)) []byte {
	t.Helper()
	file := written(t, b, keys)
	return altered(t, file, func(f *handover.File) {
		change(&f.Handover)
		f.Handover.Sums = handover.Sums{About: summed(t, f.Handover.About), Held: summed(t, f.Handover.Held), Head: summed(t, f.Handover.Head)}
		for _, e := range f.Handover.Entries {
			f.Handover.Sums.Entries = append(f.Handover.Sums.Entries, summed(t, e))
		}
		var err error
		if f.Key, f.Signature, err = keys.SignDetached(canonical(t, f.Handover)); err != nil {
			t.Fatal(err)
		}
	})
}

func canonical(t *testing.T, part any) []byte {
	t.Helper()
	text, err := json.Marshal(part)
	if err == nil {
		text, err = ledger.Canonical(text)
	}
	if err != nil {
		t.Fatal(err)
	}
	return text
}

func summed(t *testing.T, part any) string { return sum(string(canonical(t, part))) }

// Whoever has a key of their own can sign what they like. What a house says of a file is only
// ever of the words that such files have, so that no stranger puts "is current" into its mouth
// (common practice, no source).
func TestAFileSaysOnlyTheWordsOfFiles(t *testing.T) {
	keys := keysOf(t, "house", seed)
	b := body(t, keys)
	if _, findings := handover.Open(signedAs(t, b, keys, func(*handover.Body) {})); len(findings) > 0 {
		t.Fatalf("signed anew it is not taken, so this shows nothing: %v", findings)
	}
	about, held, entry := handover.Finding{Part: handover.AboutUnknown}, handover.Finding{Part: handover.HeldUnknown}, func(n int) handover.Finding { return handover.Finding{Part: handover.EntryUnknown, Place: n} }
	for what, c := range map[string]struct {
		change func(*handover.Body)
		want   handover.Finding
	}{
		"held, as of now":              {func(b *handover.Body) { b.Held[0].How = "is current" }, held},
		"held since no day":            {func(b *handover.Body) { b.Held[0].Since = "today; current" }, held},
		"held through no day":          {func(b *handover.Body) { b.Held[0].Through = "for ever" }, held},
		"held for a child below none":  {func(b *handover.Body) { b.Held[0].Child = -1 }, held},
		"of no day":                    {func(b *handover.Body) { b.About.Day = "now" }, about},
		"made at no instant":           {func(b *handover.Body) { b.About.MadeAt = "now" }, about},
		"an entry on no day":           {func(b *handover.Body) { b.Entries[0].On = "2026-02-30" }, entry(1)},
		"an outcome of its own":        {func(b *handover.Body) { b.Entries[1].Outcome = "competent for ever" }, entry(2)},
		"no outcome":                   {func(b *handover.Body) { b.Entries[0].Outcome = "" }, entry(1)},
		"a setting of its own":         {func(b *handover.Body) { b.Entries[0].Setting = "by telephone" }, entry(1)},
		"taken back on no day":         {func(b *handover.Body) { b.Entries[1].Taken.On = "never" }, entry(2)},
		"a withdrawal with an outcome": {func(b *handover.Body) { b.Entries[2].Outcome = "competent" }, entry(3)},
		"a withdrawal with an end":     {func(b *handover.Body) { b.Entries[2].Through = "2026-02-05" }, entry(3)},
		"a withdrawal until whatever":  {func(b *handover.Body) { b.Entries[2].Until = "forgotten" }, entry(3)},
		"written at no instant":        {func(b *handover.Body) { b.Entries[2].Written = "" }, entry(3)},
	} {
		o, findings := handover.Open(signedAs(t, b, keys, c.change))
		if !slices.Equal(findings, []handover.Finding{c.want}) || o.Key != "" {
			t.Errorf("%s: %v", what, findings)
		}
	}
	twice, entries := sealed(t, keys, []handover.Entry{bare(b.Entries[0]), bare(b.Entries[0])})
	if _, err := handover.Write(handover.Body{About: b.About, Held: b.Held, Entries: entries, Head: twice}, keys); err == nil || !strings.Contains(err.Error(), "Entry 2") {
		t.Errorf("one record stands for two: %v", err)
	}
}

// Eight groups of four: 128 bits, and another agency of the same house has another.
func TestFingerprints(t *testing.T) {
	public := keysOf(t, "house", seed).Public()[0]
	one, other := handover.Fingerprint(public, agency), handover.Fingerprint(public, person)
	if len(strings.Fields(one)) != 8 || len(one) != 39 || one == other {
		t.Errorf("%s, %s", one, other)
	}
	if one != handover.Fingerprint(public, agency) {
		t.Error("it changes")
	}
}

func FuzzOpen(f *testing.F) {
	f.Add([]byte(`{"handover":{"format":"wellshown.handover","version":1},"key":"","signature":""}`))
	f.Add([]byte(`{}`))
	f.Fuzz(func(t *testing.T, sent []byte) {
		if o, findings := handover.Open(sent); len(findings) == 0 {
			t.Errorf("taken: %+v", o)
		}
	})
}
