package knowledge

import (
	"cmp"
	"crypto/sha256"
	"encoding/binary"
	"maps"
	"slices"

	"wellshown/assessment/fault"
)

// cell is the items that are alike for a form: of one difficulty, critical or not.
type cell struct {
	critical   bool
	difficulty int
}

// Blueprint is how many items of each sort every form has, so that all forms of a bank
// are equally difficult as far as difficulties are known.
type Blueprint map[cell]int

// Plan shares a form's length out among the sorts of a bank, each by its part of the
// bank: whole parts first, then the largest remainders (Hamilton's rule), the harder sort
// first where they are the same.
func Plan(bank []Item, length int) (Blueprint, error) {
	if length < 1 || length > len(bank) {
		return nil, fault.Of(fault.Invalid, "A form has at least one item and at most the %d of the bank.", len(bank))
	}
	sizes := Blueprint{}
	for _, i := range bank {
		sizes[cell{i.Critical, i.Difficulty}]++
	}
	type share struct {
		of   cell
		rest int
	}
	plan, left := Blueprint{}, length
	var shares []share
	for _, c := range sizes.cells() {
		plan[c] = sizes[c] * length / len(bank)
		left -= plan[c]
		shares = append(shares, share{c, sizes[c] * length % len(bank)})
	}
	slices.SortStableFunc(shares, func(a, b share) int { return cmp.Compare(b.rest, a.rest) })
	for _, s := range shares[:left] {
		plan[s.of]++
	}
	return plan, nil
}

// cells lists the sorts: critical ones first, then the harder.
func (b Blueprint) cells() []cell {
	return slices.SortedFunc(maps.Keys(b), func(x, y cell) int {
		if x.critical != y.critical {
			if x.critical {
				return -1
			}
			return 1
		}
		return cmp.Compare(y.difficulty, x.difficulty)
	})
}

// Draw draws a form: as many items of each sort as every form has, those first that were
// not in the forms before. The same seed gives the same form.
func Draw(bank []Item, length int, seed string, before ...string) ([]Item, error) {
	plan, err := Plan(bank, length)
	if err != nil {
		return nil, err
	}
	var drawn []Item
	for _, c := range plan.cells() {
		var alike []Item
		for _, i := range bank {
			if (cell{i.Critical, i.Difficulty}) == c {
				alike = append(alike, i)
			}
		}
		shuffle(alike, seed, func(i Item) string { return i.ID })
		slices.SortStableFunc(alike, func(a, b Item) int {
			return cmp.Compare(times(before, a.ID), times(before, b.ID))
		})
		drawn = append(drawn, alike[:plan[c]]...)
	}
	shuffle(drawn, seed+" form", func(i Item) string { return i.ID })
	return drawn, nil
}

func times(all []string, one string) int {
	n := 0
	for _, s := range all {
		if s == one {
			n++
		}
	}
	return n
}

// Shown is the order in which somebody sees an item's options, counted from 1 as the
// item counts; for Match that of the right side. It goes by the seed of the sitting, and
// never shows what is to be put in order as it is right.
func (i Item) Shown(seed string) []int {
	right := inOrder(i.Options())
	shown := slices.Clone(right)
	for try := byte('a'); ; try++ {
		shuffle(shown, seed+" "+i.ID+" "+string(try), func(n int) string { return string(rune('0' + n)) })
		if i.Kind != Order && i.Kind != Match || !slices.Equal(shown, right) || len(right) < 2 {
			return shown
		}
	}
}

// shuffle puts things in the order of hashes of seed and name: as good as random to
// whoever does not know the seed, and the same each time.
func shuffle[T any](all []T, seed string, name func(T) string) {
	rank := func(one T) uint64 {
		sum := sha256.Sum256([]byte(seed + "\x00" + name(one)))
		return binary.BigEndian.Uint64(sum[:8])
	}
	slices.SortFunc(all, func(a, b T) int {
		return cmp.Or(cmp.Compare(rank(a), rank(b)), cmp.Compare(name(a), name(b)))
	})
}
