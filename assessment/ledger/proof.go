package ledger

import (
	"fmt"

	"github.com/transparency-dev/merkle/proof"
	"github.com/transparency-dev/merkle/rfc6962"
)

// Needs says which nodes a proof is made of. Nobody needs the whole tree for it.
type Needs struct{ nodes proof.Nodes }

// NeedsOfInclusion is for the proof that the leaf with an index (from 0) is in the
// tree of a size.
func NeedsOfInclusion(index, size int64) (Needs, error) {
	if index < 0 || index >= size {
		return Needs{}, fmt.Errorf("a tree of %d leaves has none with index %d", size, index)
	}
	n, err := proof.Inclusion(uint64(index), uint64(size))
	return Needs{n}, err
}

// NeedsOfConsistency is for the proof that the tree of one size is the beginning
// of that of another.
func NeedsOfConsistency(from, to int64) (Needs, error) {
	if from < 0 || from > to {
		return Needs{}, fmt.Errorf("a tree of %d leaves is not the beginning of one of %d", from, to)
	}
	n, err := proof.Consistency(uint64(from), uint64(to))
	return Needs{n}, err
}

// IDs names the nodes whose hashes Proof wants.
func (n Needs) IDs() []NodeID { return fromLibrary(n.nodes.IDs) }

// Proof makes the proof out of the hashes of the nodes named by IDs, in that order.
func (n Needs) Proof(hashes [][]byte) ([][]byte, error) {
	p, err := n.nodes.Rehash(hashes, rfc6962.DefaultHasher.HashChildren)
	if err != nil {
		return nil, fmt.Errorf("put a proof together: %w", err)
	}
	return p, nil
}

// VerifyInclusion checks that the leaf of a hash is the one with an index in the
// tree of a size and root.
func VerifyInclusion(leaf []byte, index, size int64, path [][]byte, root []byte) error {
	if index < 0 || size < 0 {
		return fmt.Errorf("a tree of %d leaves has none with index %d", size, index)
	}
	if err := proof.VerifyInclusion(rfc6962.DefaultHasher, uint64(index), uint64(size), leaf, path, root); err != nil {
		return fmt.Errorf("the proof does not show leaf %d in the tree of %d: %w", index, size, err)
	}
	return nil
}

// VerifyConsistency checks that the tree of one size and root is the beginning of
// the tree of another.
func VerifyConsistency(from, to int64, path [][]byte, fromRoot, toRoot []byte) error {
	if from < 0 || to < 0 {
		return fmt.Errorf("a tree of %d leaves is not the beginning of one of %d", from, to)
	}
	if err := proof.VerifyConsistency(rfc6962.DefaultHasher, uint64(from), uint64(to), path, fromRoot, toRoot); err != nil {
		return fmt.Errorf("the proof does not show that %d leaves became %d: %w", from, to, err)
	}
	return nil
}
