package office

import (
	"bytes"
	"context"
	"fmt"
	"math/bits"
	"slices"
	"strconv"
	"time"

	"wellshown/assessment/ledger"
	"wellshown/assessment/postgres"
)

// chunk is how many leaves are looked at together: what bounds the memory.
const chunk = 8192

// tree grows the whole tree again from its leaves, and checks each subtree and each
// head on the way.
func (a *audit) tree(ctx context.Context, tx *postgres.Tx, counts postgres.LedgerCounts) error {
	g := growing{audit: a, tree: ledger.NewTree()}
	var err error
	if g.ahead, err = clocksSetRight(ctx, tx); err != nil {
		return err
	}
	for from := int64(0); from < counts.Top; from += chunk {
		to := min(from+chunk, counts.Top)
		if err := g.read(ctx, tx, from, to); err != nil {
			return err
		}
		whole, err := g.chunk(from, to)
		if err != nil {
			return err
		}
		if !whole { // nothing after it can be checked
			break
		}
	}
	return g.end(ctx, tx, counts)
}

// growing is a tree that is grown again.
type growing struct {
	*audit
	tree   *ledger.Tree
	leaves []postgres.Sealed
	nodes  []ledger.Node
	heads  []postgres.SignedHead
	last   time.Time      // when the head before was sealed
	ahead  map[int64]bool // when the last head was sealed before a clock was set right
	newest int64          // size of the last head
	rank   int            // of the newest key that has signed so far
}

func (g *growing) read(ctx context.Context, tx *postgres.Tx, from, to int64) (err error) {
	if g.leaves, err = tx.Audit.Leaves(ctx, from, to); err != nil {
		return fmt.Errorf("read leaves from %d: %w", from, err)
	}
	if g.nodes, err = tx.Audit.Nodes(ctx, from, to); err != nil {
		return fmt.Errorf("read the tree from %d: %w", from, err)
	}
	if g.heads, err = tx.Audit.Heads(ctx, from, to); err != nil {
		return fmt.Errorf("read heads from %d: %w", from, err)
	}
	return nil
}

// chunk grows the tree by what was read. It reports whether no leaf was missing.
func (g *growing) chunk(from, to int64) (bool, error) {
	for i, l := range g.leaves {
		if l.Position != from+int64(i) {
			break
		}
		hash, err := l.Leaf(g.agency).Hash()
		if err != nil {
			return false, err
		}
		if !bytes.Equal(hash, l.Hash) {
			g.note("ledger_leaf", strconv.FormatInt(l.Position, 10), "the leaf of %s %s is not the one that was sealed", l.Kind, l.Subject)
		}
		complete, err := g.tree.Append(hash)
		if err != nil {
			return false, err
		}
		g.subtrees(complete[1:])
		if err := g.headsHere(); err != nil {
			return false, err
		}
	}
	if g.tree.Size() < to {
		g.note("ledger_leaf", strconv.FormatInt(g.tree.Size(), 10), "this leaf is gone")
		return false, nil
	}
	for _, n := range g.nodes {
		g.note("ledger_node", nodeName(n), "this subtree belongs to no tree")
	}
	return true, nil
}

// subtrees compares what was just completed with what is stored, in the same order.
func (g *growing) subtrees(complete []ledger.Node) {
	for _, n := range complete {
		switch {
		case len(g.nodes) > 0 && g.nodes[0].NodeID == n.NodeID:
			if !bytes.Equal(g.nodes[0].Hash, n.Hash) {
				g.note("ledger_node", nodeName(n), "this subtree is not that of its leaves")
			}
			g.nodes = g.nodes[1:]
		default:
			g.note("ledger_node", nodeName(n), "this subtree is gone")
		}
	}
}

func nodeName(n ledger.Node) string { return fmt.Sprintf("%d/%d", n.Level, n.Index) }

// headsHere checks the heads of the size that the tree has just now: the one that
// was signed, and those that outsiders kept.
func (g *growing) headsHere() error {
	size := g.tree.Size()
	signed := len(g.heads) > 0 && g.heads[0].Size == size
	if !signed && !slices.ContainsFunc(g.saved, func(h ledger.Head) bool { return h.Size == size }) {
		return nil
	}
	root, err := g.tree.Root()
	if err != nil {
		return err
	}
	if signed {
		g.head(g.heads[0], root)
		g.heads, g.newest = g.heads[1:], size
	}
	for i, h := range g.saved {
		if h.Size == size && !bytes.Equal(h.Root, root) {
			g.note("ledger_head", strconv.FormatInt(size, 10), "history was rewritten: the head that was kept, sealed %s, has another root than these %d leaves", h.At.Format(time.RFC3339), size)
		}
		if h.Size == size {
			g.saved[i].Size = 0
		}
	}
	return nil
}

func (g *growing) head(kept postgres.SignedHead, root []byte) {
	name := strconv.FormatInt(kept.Size, 10)
	h, err := ledger.OpenHead([]byte(kept.Signed), g.keys.Verifiers())
	switch {
	case err != nil:
		g.note("ledger_head", name, "this head is not signed by a key of the key file")
	case h.Agency != string(g.agency) || h.Size != kept.Size || !h.At.Equal(kept.SealedAt):
		g.note("ledger_head", name, "this head is kept as another than it was signed as")
	case !bytes.Equal(h.Root, root):
		g.note("ledger_head", name, "the root that was signed is not that of these %d leaves", kept.Size)
	case g.keys.Rank([]byte(kept.Signed)) < g.rank:
		g.note("ledger_head", name, "signed by a key that had been replaced by then")
	case h.At.Before(g.last) && g.ahead[g.last.Unix()]:
		delete(g.ahead, g.last.Unix()) // once
		g.found.ClocksSetRight = append(g.found.ClocksSetRight, ClockSetRight{g.agency, g.last, h.At})
	case h.At.Before(g.last):
		g.note("ledger_head", name, "sealed at %s, before the one before it: the clock was set back", h.At.Format(time.RFC3339))
	}
	g.last, g.rank = h.At, max(g.rank, g.keys.Rank([]byte(kept.Signed)))
}

// end looks for what should be there and was not, and the other way round.
func (g *growing) end(ctx context.Context, tx *postgres.Tx, counts postgres.LedgerCounts) error {
	size := g.tree.Size()
	g.sealed = g.last
	broken := size < counts.Top
	if size > 0 && g.newest != size && !broken {
		g.note("ledger_head", strconv.FormatInt(size, 10), "no head is signed for the last leaves")
	}
	if whole := size - int64(bits.OnesCount64(uint64(size))); counts.Nodes != whole && !broken {
		g.note("ledger_node", "", "there are %d subtrees, and a tree of %d leaves has %d", counts.Nodes, size, whole)
	}
	beyond, err := tx.Audit.Heads(ctx, size, 1<<62)
	if err != nil {
		return fmt.Errorf("read heads beyond the tree: %w", err)
	}
	for _, h := range beyond {
		g.note("ledger_head", strconv.FormatInt(h.Size, 10), "a head was signed for %d leaves, and there are %d", h.Size, size)
	}
	for _, h := range g.saved {
		if h.Size > size {
			g.note("ledger_head", strconv.FormatInt(h.Size, 10), "history was cut off: the head that was kept, sealed %s, has %d leaves, and there are %d", h.At.Format(time.RFC3339), h.Size, size)
		}
	}
	return nil
}
