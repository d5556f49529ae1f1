package ledger_test

import (
	"bytes"
	"crypto/ed25519"
	"encoding/binary"
	"encoding/hex"
	"encoding/json"
	"math"
	"os"
	"strconv"
	"testing"

	"github.com/transparency-dev/merkle/rfc6962"
	"golang.org/x/mod/sumdb/note"

	"wellshown/assessment/ledger"
)

func read(t *testing.T, file string, into any) {
	t.Helper()
	text, err := os.ReadFile("testdata/" + file)
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(text, into); err != nil {
		t.Fatal(err)
	}
}

func unhex(t *testing.T, s string) []byte {
	t.Helper()
	b, err := hex.DecodeString(s)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// Trees are eight published leaves with roots, inclusion and consistency proofs.
// Source: RFC 6962 and RFC 9162 tree hashing; the vectors of the Certificate
// Transparency reference code.
type trees struct {
	Leaves    []string          `json:"leaves_hex"`
	Hashes    []string          `json:"leaf_hashes"`
	Roots     map[string]string `json:"roots"`
	Inclusion []struct {
		Index int64 `json:"leaf_index"`
		Size  int64 `json:"tree_size"`
		Proof []string
	}
	Consistency []struct {
		From  int64 `json:"size1"`
		To    int64 `json:"size2"`
		Proof []string
	}
}

// grown is the published tree and all its nodes.
func grown(t *testing.T) (trees, map[ledger.NodeID][]byte) {
	t.Helper()
	var v trees
	read(t, "merkle.json", &v)
	tree, nodes := ledger.NewTree(), map[ledger.NodeID][]byte{}
	for i, leaf := range v.Leaves {
		checkRoot(t, tree, v.Roots)
		hash := rfc6962.DefaultHasher.HashLeaf(unhex(t, leaf))
		if hex.EncodeToString(hash) != v.Hashes[i] {
			t.Errorf("leaf %d hashes to %x, published %s", i, hash, v.Hashes[i])
		}
		added, err := tree.Append(hash)
		if err != nil {
			t.Fatal(err)
		}
		for _, n := range added {
			nodes[n.NodeID] = n.Hash
		}
	}
	checkRoot(t, tree, v.Roots)
	return v, nodes
}

func checkRoot(t *testing.T, tree *ledger.Tree, published map[string]string) {
	t.Helper()
	root, err := tree.Root()
	if want := published[strconv.FormatInt(tree.Size(), 10)]; err != nil || hex.EncodeToString(root) != want {
		t.Errorf("the root of %d leaves is %x (%v), published %s", tree.Size(), root, err, want)
	}
}

func TestRFC6962RootsAndProofs(t *testing.T) {
	v, nodes := grown(t)
	root := func(size int64) []byte { return unhex(t, v.Roots[strconv.FormatInt(size, 10)]) }
	fetch := func(n ledger.Needs) [][]byte {
		var hashes [][]byte
		for _, id := range n.IDs() {
			hashes = append(hashes, nodes[id])
		}
		p, err := n.Proof(hashes)
		if err != nil {
			t.Fatal(err)
		}
		return p
	}
	for _, c := range v.Inclusion {
		needs, err := ledger.NeedsOfInclusion(c.Index, c.Size)
		if err != nil {
			t.Fatal(err)
		}
		p := fetch(needs)
		samePath(t, p, c.Proof)
		leaf := unhex(t, v.Hashes[c.Index])
		if err := ledger.VerifyInclusion(leaf, c.Index, c.Size, p, root(c.Size)); err != nil {
			t.Error(err)
		}
		refuseInclusion(t, leaf, c.Index, c.Size, p, root(c.Size))
	}
	for _, c := range v.Consistency {
		needs, err := ledger.NeedsOfConsistency(c.From, c.To)
		if err != nil {
			t.Fatal(err)
		}
		p := fetch(needs)
		samePath(t, p, c.Proof)
		if err := ledger.VerifyConsistency(c.From, c.To, p, root(c.From), root(c.To)); err != nil {
			t.Error(err)
		}
		refuseConsistency(t, c.From, c.To, p, root(c.From), root(c.To))
	}
}

func samePath(t *testing.T, got [][]byte, want []string) {
	t.Helper()
	if len(got) != len(want) {
		t.Fatalf("a proof of %d hashes, published %d", len(got), len(want))
	}
	for i := range got {
		if hex.EncodeToString(got[i]) != want[i] {
			t.Errorf("hash %d of a proof is %x, published %s", i, got[i], want[i])
		}
	}
}

func flipped(b []byte, bit int) []byte {
	c := bytes.Clone(b)
	c[bit/8] ^= 1 << (bit % 8)
	return c
}

// Every flipped bit, a hash too few or too many, another index or size: refused.
func refuseInclusion(t *testing.T, leaf []byte, index, size int64, path [][]byte, root []byte) {
	t.Helper()
	refused := func(what string, leaf []byte, index, size int64, path [][]byte, root []byte) {
		t.Helper()
		if ledger.VerifyInclusion(leaf, index, size, path, root) == nil {
			t.Errorf("leaf %d of %d: %s is taken", index, size, what)
		}
	}
	for bit := range 8 * ledger.HashSize {
		refused("a flipped bit of the leaf", flipped(leaf, bit), index, size, path, root)
		refused("a flipped bit of the root", leaf, index, size, path, flipped(root, bit))
		for i := range path {
			forged := append([][]byte{}, path...)
			forged[i] = flipped(path[i], bit)
			refused("a flipped bit of the proof", leaf, index, size, forged, root)
		}
	}
	refused("a hash too many", leaf, index, size, append(append([][]byte{}, path...), root), root)
	if len(path) > 0 {
		refused("a hash too few", leaf, index, size, path[1:], root)
		refused("another index", leaf, (index+1)%size, size, path, root)
	}
	refused("an index beyond the size", leaf, size, size, path, root)
	refused("a negative index", leaf, -1, size, path, root)
}

func refuseConsistency(t *testing.T, from, to int64, path [][]byte, first, second []byte) {
	t.Helper()
	refused := func(what string, from, to int64, path [][]byte, first, second []byte) {
		t.Helper()
		if ledger.VerifyConsistency(from, to, path, first, second) == nil {
			t.Errorf("%d to %d: %s is taken", from, to, what)
		}
	}
	for bit := range 8 * ledger.HashSize {
		refused("a flipped bit of the first root", from, to, path, flipped(first, bit), second)
		refused("a flipped bit of the second root", from, to, path, first, flipped(second, bit))
	}
	refused("a hash too many", from, to, append(append([][]byte{}, path...), first), first, second)
	if from < to {
		refused("sizes in the wrong order", to, from, path, second, first)
	}
}

// A node's hash cannot be passed off as a leaf's (RFC 6962, section 2.1).
func TestANodeIsNoLeaf(t *testing.T) {
	v, nodes := grown(t)
	left, right := unhex(t, v.Hashes[0]), unhex(t, v.Hashes[1])
	if bytes.Equal(rfc6962.DefaultHasher.HashLeaf(append(left, right...)), nodes[ledger.NodeID{Level: 1, Index: 0}]) {
		t.Error("two leaves' hashes as one leaf give the hash of their node")
	}
}

// Source: RFC 8032, section 7.1, tests 1 to 3. Heads are signed with the library
// under test here through the standard library's Ed25519.
func TestRFC8032(t *testing.T) {
	var v struct {
		Vectors []struct {
			Name, Message, Signature string
			Secret                   string `json:"secret_key"`
			Public                   string `json:"public_key"`
		}
	}
	read(t, "ed25519.json", &v)
	for _, c := range v.Vectors {
		key := ed25519.NewKeyFromSeed(unhex(t, c.Secret))
		public := key.Public().(ed25519.PublicKey)
		message, signature := unhex(t, c.Message), ed25519.Sign(key, unhex(t, c.Message))
		if hex.EncodeToString(public) != c.Public || hex.EncodeToString(signature) != c.Signature {
			t.Errorf("%s: key %x, signature %x", c.Name, public, signature)
		}
		if _, err := note.NewEd25519VerifierKey("wellshown", public); err != nil {
			t.Errorf("%s: %v", c.Name, err)
		}
		if ed25519.Verify(public, append(message, 1), signature) {
			t.Errorf("%s: another message is taken", c.Name)
		}
		long := bytes.Clone(signature)
		long[63] |= 0xe0 // S beyond the order of the group
		if ed25519.Verify(public, message, long) {
			t.Errorf("%s: a signature out of range is taken", c.Name)
		}
	}
}

// Source: RFC 8785, appendix B (numbers) and sections 3.2.2 and 3.2.3 (strings and
// the order of names); values from memory of the RFC.
func TestRFC8785(t *testing.T) {
	for bits, want := range map[uint64]string{
		0x0000000000000000: "0", 0x8000000000000000: "0", 0x0000000000000001: "5e-324", 0x8000000000000001: "-5e-324",
		0x7fefffffffffffff: "1.7976931348623157e+308", 0x4340000000000000: "9007199254740992", 0x4430000000000000: "295147905179352830000",
		0x44b52d02c7e14af5: "9.999999999999997e+22", 0x44b52d02c7e14af6: "1e+23", 0x44b52d02c7e14af7: "1.0000000000000001e+23",
		0x444b1ae4d6e2ef4e: "999999999999999700000", 0x444b1ae4d6e2ef50: "1e+21", 0x3eb0c6f7a0b5ed8c: "9.999999999999997e-7",
		0x3eb0c6f7a0b5ed8d: "0.000001", 0x41b3de4355555553: "333333333.3333332", 0x41b3de4355555557: "333333333.33333343",
		0xbecbf647612f3696: "-0.0000033333333333333333", 0x43143ff3c1cb0959: "1424953923781206.2",
	} {
		var raw [8]byte
		binary.BigEndian.PutUint64(raw[:], bits)
		number := strconv.FormatFloat(math.Float64frombits(bits), 'g', 17, 64)
		if got, err := ledger.Canonical([]byte("[" + number + "]")); err != nil || string(got) != "["+want+"]" {
			t.Errorf("%x: %s (%v), published %s", raw, got, err, want)
		}
	}
	got, err := ledger.Canonical([]byte("{\n  \"\\u20ac\": \"Euro Sign\", \"\\r\": \"Carriage Return\", \"\\ufb33\": \"Hebrew Letter Dalet With Dagesh\", \"1\": \"One\",\n" +
		"  \"\\ud83d\\ude00\": \"Emoji: Grinning Face\", \"\\u0080\": \"Control\", \"\\u00f6\": \"Latin Small Letter O With Diaeresis\" }"))
	want := "{\"\\r\":\"Carriage Return\",\"1\":\"One\",\"\u0080\":\"Control\",\"ö\":\"Latin Small Letter O With Diaeresis\",\"€\":\"Euro Sign\",\"😀\":\"Emoji: Grinning Face\",\"\ufb33\":\"Hebrew Letter Dalet With Dagesh\"}"
	if err != nil || string(got) != want {
		t.Errorf("%s (%v)", got, err)
	}
}
