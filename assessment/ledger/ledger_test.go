package ledger_test

import (
	"crypto/rand"
	"strings"
	"testing"
	"time"

	"wellshown/assessment/ledger"
)

var leaf = ledger.Leaf{Agency: "01963f7a-0000-7000-8000-0000000000aa",
	At: time.Date(2026, 2, 1, 9, 30, 0, 123456789, time.FixedZone("", -7*3600)), Actor: "01963f7a-0000-7000-8000-0000000000bb",
	Act: "sign record", Kind: "signature observer", Subject: "01963f7a-0000-7000-8000-0000000000cc", Record: []byte{1, 2}}

func must[T any](v T, err error) func(*testing.T) T {
	return func(t *testing.T) T {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
}

func TestALeafIsCanonical(t *testing.T) {
	got := string(must(leaf.Canonical())(t))
	want := `{"act":"sign record","actor":"01963f7a-0000-7000-8000-0000000000bb","agency":"01963f7a-0000-7000-8000-0000000000aa",` +
		`"at":"2026-02-01T16:30:00.123456Z","kind":"signature observer","record":"0102",` +
		`"subject":"01963f7a-0000-7000-8000-0000000000cc","v":1}`
	if got != want {
		t.Errorf("%s", got)
	}
}

// Whatever is changed in a leaf changes its hash.
func TestEveryFieldOfALeafCounts(t *testing.T) {
	seen := map[string]int{}
	for i, change := range []func(*ledger.Leaf){
		func(*ledger.Leaf) {},
		func(l *ledger.Leaf) { l.Agency += "0" }, func(l *ledger.Leaf) { l.Actor = "" },
		func(l *ledger.Leaf) { l.Act = "observe" }, func(l *ledger.Leaf) { l.Kind = "signature learner" }, func(l *ledger.Leaf) { l.Subject = "" },
		func(l *ledger.Leaf) { l.Record = []byte{1, 3} }, func(l *ledger.Leaf) { l.Record = nil }, func(l *ledger.Leaf) { l.At = l.At.Add(time.Microsecond) },
	} {
		l := leaf
		change(&l)
		hash := string(must(l.Hash())(t))
		if before, ok := seen[hash]; ok {
			t.Errorf("changes %d and %d give one hash", before, i)
		}
		seen[hash] = i
	}
}

func TestRecordsHashByMeaning(t *testing.T) {
	a := string(must(ledger.RecordHash([]byte(`{"b": 1.0, "a": "\u00e9"}`)))(t))
	if b := string(must(ledger.RecordHash([]byte("{\"a\":\"é\",\n\"b\":1}")))(t)); a != b {
		t.Error("one record in two spellings has two hashes")
	}
	for _, bad := range []string{``, `{`, `{"a":1,"a":2}`, `{"a":1} {`, `nul`, `{"a":NaN}`} {
		if _, err := ledger.RecordHash([]byte(bad)); err == nil {
			t.Errorf("%s is hashed", bad)
		}
	}
}

// A tree that is taken up again at any size grows as if it had never been put down.
func TestATreeCanBeTakenUpAgain(t *testing.T) {
	whole, nodes := ledger.NewTree(), map[ledger.NodeID][]byte{}
	for i := range 70 {
		var edge [][]byte
		for _, id := range ledger.Edge(whole.Size()) {
			edge = append(edge, nodes[id])
		}
		again := must(ledger.Continue(whole.Size(), edge))(t)
		l := leaf
		l.Subject = strings.Repeat("x", i)
		hash := must(l.Hash())(t)
		for _, n := range must(whole.Append(hash))(t) {
			nodes[n.NodeID] = n.Hash
		}
		must(again.Append(hash))(t)
		if string(must(whole.Root())(t)) != string(must(again.Root())(t)) {
			t.Fatalf("after %d leaves the roots differ", i+1)
		}
	}
	if _, err := ledger.Continue(3, [][]byte{make([]byte, 32)}); err == nil {
		t.Error("an edge too short is taken")
	}
	if _, err := whole.Append([]byte("short")); err == nil {
		t.Error("a hash too short is appended")
	}
}

func keys(t *testing.T, names ...string) *ledger.Keys {
	t.Helper()
	text := ""
	for _, n := range names {
		text += must(ledger.NewKey(rand.Reader, n))(t)
	}
	return must(ledger.ReadKeys(text))(t)
}

func TestHeads(t *testing.T) {
	old := must(ledger.NewKey(rand.Reader, "old"))(t)
	mine, theirs := must(ledger.ReadKeys(old))(t), keys(t, "old")
	head := ledger.Head{Agency: leaf.Agency, Size: 7, Root: make([]byte, 32), At: time.Date(2026, 2, 1, 9, 30, 0, 0, time.UTC)}
	signed := must(head.Sign(mine.Signer()))(t)
	back, err := ledger.OpenHead(signed, mine.Verifiers())
	if err != nil || back.Size != 7 || back.Agency != head.Agency || !back.At.Equal(head.At) {
		t.Errorf("%+v, %v", back, err)
	}
	if _, err := ledger.OpenHead(signed, theirs.Verifiers()); err == nil {
		t.Error("a key of the same name opens it")
	}
	for i := range signed {
		for bit := range 8 {
			forged := []byte(string(signed))
			forged[i] ^= 1 << bit
			if _, err := ledger.OpenHead(forged, mine.Verifiers()); err == nil {
				t.Errorf("changed at bit %d of byte %d it is still taken: %q", bit, i, forged)
			}
		}
	}
	rotated := must(ledger.ReadKeys(old + must(ledger.NewKey(rand.Reader, "new"))(t)))(t)
	if rotated.Signer().Name() != "new" {
		t.Errorf("%s signs", rotated.Signer().Name())
	}
	if _, err := ledger.OpenHead(signed, rotated.Verifiers()); err != nil {
		t.Errorf("after the keys changed: %v", err)
	}
	if _, err := ledger.OpenHead(signed, must(ledger.ReadPublic(rotated.Public()...))(t)); err != nil {
		t.Errorf("by the public halves: %v", err)
	}
	for _, bad := range []ledger.Head{{Agency: "", Root: head.Root}, {Agency: "a\nb", Root: head.Root}, {Agency: "a", Root: head.Root[1:]}} {
		if _, err := bad.Sign(mine.Signer()); err == nil {
			t.Errorf("%+v is signed", bad)
		}
	}
}

func TestFaultyKeyFiles(t *testing.T) {
	one, other := must(ledger.NewKey(rand.Reader, "one"))(t), must(ledger.NewKey(rand.Reader, "other"))(t)
	a, b := strings.SplitN(one, "\n", 2), strings.SplitN(other, "\n", 2)
	secret := strings.TrimSpace(a[1])
	for what, text := range map[string]string{
		"empty": "", "only a note": "# keys\n", "half a key": a[0], "mixed halves": a[0] + "\n" + b[1], "wrong order": a[1] + "\n" + a[0],
		"cut": one[:len(one)-9], "two public halves": a[0] + "\n" + b[0],
	} {
		_, err := ledger.ReadKeys(text)
		if err == nil {
			t.Errorf("%s: taken", what)
		} else if strings.Contains(err.Error(), secret[len(secret)-20:]) {
			t.Errorf("%s: the error shows the key", what)
		}
	}
	if _, err := ledger.ReadKeys(must(ledger.KeyFile(rand.Reader, "one"))(t)); err != nil {
		t.Error(err)
	}
}

func FuzzCanonical(f *testing.F) {
	f.Add([]byte(`{"a":[1,2.5,"x",null,true,{"b":{}}]}`))
	f.Add([]byte(`"\u00e9\ud83d\ude00"`))
	f.Fuzz(func(t *testing.T, text []byte) {
		once, err := ledger.Canonical(text)
		if err != nil {
			return
		}
		if twice, err := ledger.Canonical(once); err != nil || string(twice) != string(once) {
			t.Errorf("%q becomes %q, that becomes %q (%v)", text, once, twice, err)
		}
	})
}
