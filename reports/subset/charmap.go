package subset

import (
	"fmt"
	"math/bits"
)

// character is one entry of the character map: a code point of the Basic
// Multilingual Plane and the glyph that draws it.
type character struct {
	code  int
	glyph int
}

// segment is a run of characters whose glyphs follow one another too.
type segment struct {
	first, last int
	delta       int
}

// segments expects chars in ascending order. The last segment is the one that
// closes every map of format 4: U+FFFF, drawn by glyph 0.
func segments(chars []character) []segment {
	var segs []segment
	for _, c := range chars {
		delta := c.glyph - c.code
		if n := len(segs); n > 0 && segs[n-1].last == c.code-1 && segs[n-1].delta == delta {
			segs[n-1].last = c.code
			continue
		}
		segs = append(segs, segment{c.code, c.code, delta})
	}
	return append(segs, segment{0xFFFF, 0xFFFF, 1})
}

// charmap writes a cmap table with one map of format 4 for Windows, Unicode BMP
// (OpenType 1.9, "cmap").
func charmap(chars []character) ([]byte, error) {
	segs := segments(chars)
	n := len(segs)
	size := 16 + 8*n
	if size > 0xFFFF {
		return nil, fmt.Errorf("%d runs of characters do not fit one character map", n)
	}
	step, log, rest := search(n, 2)
	t := numbers(nil, 0, 1, 3, 1, 0, 12, 4, size, 0, 2*n, step, log, rest)
	for _, s := range segs {
		t = numbers(t, s.last)
	}
	t = numbers(t, 0)
	for _, s := range segs {
		t = numbers(t, s.first)
	}
	for _, s := range segs {
		t = numbers(t, s.delta)
	}
	return append(t, make([]byte, 2*n)...), nil
}

// search gives the three numbers with which a reader halves its way through n
// entries of size bytes: the largest power of two of entries in bytes, its
// logarithm, and the bytes that remain.
func search(n, size int) (step, log, rest int) {
	log = bits.Len(uint(n)) - 1
	step = size << log
	return step, log, n*size - step
}

func numbers(b []byte, values ...int) []byte {
	for _, v := range values {
		b = be.AppendUint16(b, uint16(v))
	}
	return b
}
