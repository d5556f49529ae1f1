package subset

import (
	"maps"
	"slices"
)

// wholeSum is what a font's checksum and its adjustment in head add up to
// (OpenType 1.9, "head", checksumAdjustment).
const wholeSum = 0xB1B0AFBA

// assemble writes tables as one font file: the directory in the order of names,
// each table on a multiple of four bytes, checksums throughout.
func assemble(tables map[string][]byte) []byte {
	be.PutUint32(tables["head"][8:], 0)
	n := len(tables)
	step, log, rest := search(n, 16)
	file := numbers(be.AppendUint32(nil, trueType), n, step, log, rest)
	var body []byte
	var head int
	for _, name := range slices.Sorted(maps.Keys(tables)) {
		at := 12 + 16*n + len(body)
		if name == "head" {
			head = at
		}
		size := len(tables[name])
		content := padded(tables[name])
		file = append(file, name...)
		for _, v := range []uint32{checksum(content), uint32(at), uint32(size)} {
			file = be.AppendUint32(file, v)
		}
		body = append(body, content...)
	}
	file = append(file, body...)
	be.PutUint32(file[head+8:], wholeSum-checksum(file))
	return file
}

// checksum adds b up as big-endian numbers of 32 bits; its length is a multiple of 4.
func checksum(b []byte) uint32 {
	var sum uint32
	for ; len(b) >= 4; b = b[4:] {
		sum += be.Uint32(b)
	}
	return sum
}
