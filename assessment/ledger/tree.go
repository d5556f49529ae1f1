package ledger

import (
	"fmt"

	"github.com/transparency-dev/merkle/compact"
	"github.com/transparency-dev/merkle/rfc6962"
)

// NodeID names a complete subtree: level 0 are the leaves, and of level n the node
// with index i covers the leaves from i·2ⁿ up to (i+1)·2ⁿ.
type NodeID struct {
	Level int
	Index int64
}

// Node is a complete subtree's hash. It never changes once it is there.
type Node struct {
	NodeID
	Hash []byte
}

var ranges = compact.RangeFactory{Hash: rfc6962.DefaultHasher.HashChildren}

// Tree is a growing Merkle tree of which only the right edge is held.
type Tree struct{ edge *compact.Range }

// Edge names the nodes from which a tree of a size can be grown further, left to
// right.
func Edge(size int64) []NodeID { return fromLibrary(compact.RangeNodes(0, uint64(size), nil)) }

// Continue takes up a tree of a size by the hashes of its edge.
func Continue(size int64, edge [][]byte) (*Tree, error) {
	if size < 0 {
		return nil, fmt.Errorf("a tree has no size %d", size)
	}
	r, err := ranges.NewRange(0, uint64(size), edge)
	if err != nil {
		return nil, fmt.Errorf("take up a tree of %d leaves: %w", size, err)
	}
	return &Tree{r}, nil
}

// NewTree is the empty tree.
func NewTree() *Tree { return &Tree{ranges.NewEmptyRange(0)} }

// Size is the number of leaves.
func (t *Tree) Size() int64 { return int64(t.edge.End()) }

// Append adds a leaf by its hash and returns the subtrees that it completes, the
// leaf itself first.
func (t *Tree) Append(leaf []byte) ([]Node, error) {
	if len(leaf) != HashSize {
		return nil, fmt.Errorf("the hash of leaf %d has %d bytes, not %d", t.Size(), len(leaf), HashSize)
	}
	var nodes []Node
	err := t.edge.Append(leaf, func(id compact.NodeID, hash []byte) {
		nodes = append(nodes, Node{NodeID{int(id.Level), int64(id.Index)}, hash})
	})
	if err != nil {
		return nil, fmt.Errorf("append leaf %d: %w", t.Size(), err)
	}
	return nodes, nil
}

// Root is the tree's root hash; that of the empty tree is the hash of nothing.
func (t *Tree) Root() ([]byte, error) {
	if t.Size() == 0 {
		return rfc6962.DefaultHasher.EmptyRoot(), nil
	}
	root, err := t.edge.GetRootHash(nil)
	if err != nil {
		return nil, fmt.Errorf("find the root of %d leaves: %w", t.Size(), err)
	}
	return root, nil
}

func fromLibrary(ids []compact.NodeID) []NodeID {
	out := make([]NodeID, len(ids))
	for i, id := range ids {
		out[i] = NodeID{int(id.Level), int64(id.Index)}
	}
	return out
}
