package subset

import (
	"encoding/binary"
	"fmt"
)

var be = binary.BigEndian

// needed is each table that a cut font is made from, with the least length that
// the OpenType specification, version 1.9, gives its header.
var needed = map[string]int{
	"head": 54, "hhea": 36, "maxp": 6, "hmtx": 4, "cmap": 4, "loca": 4, "glyf": 0,
	"post": 32, "name": 6, "OS/2": 68,
}

// source is a TrueType font as read: its tables, and the few numbers that are
// needed to find a glyph in them.
type source struct {
	tables  map[string][]byte
	long    bool // loca holds byte offsets of 32 bits, else half offsets of 16
	glyphs  int
	metrics int // the first so many glyphs have an advance width of their own
}

// open reads the table directory and proves that no later look into a table of
// fixed layout can leave it. Outlines are checked one by one when they are read.
func open(ttf []byte) (*source, error) {
	tables, err := directory(ttf)
	if err != nil {
		return nil, err
	}
	for name, least := range needed {
		if t, ok := tables[name]; !ok || len(t) < least {
			return nil, fmt.Errorf("font table %q is missing or too short", name)
		}
	}
	s := &source{
		tables:  tables,
		long:    be.Uint16(tables["head"][50:]) == 1,
		glyphs:  int(be.Uint16(tables["maxp"][4:])),
		metrics: int(be.Uint16(tables["hhea"][34:])),
	}
	return s, s.check()
}

func directory(ttf []byte) (map[string][]byte, error) {
	if len(ttf) < 12 || be.Uint32(ttf) != trueType {
		return nil, fmt.Errorf("not a TrueType font")
	}
	n := int(be.Uint16(ttf[4:]))
	if len(ttf) < 12+16*n {
		return nil, fmt.Errorf("font directory of %d tables is cut off", n)
	}
	tables := make(map[string][]byte, n)
	for i := range n {
		entry := ttf[12+16*i:]
		from, size := uint64(be.Uint32(entry[8:])), uint64(be.Uint32(entry[12:]))
		if from+size > uint64(len(ttf)) {
			return nil, fmt.Errorf("font table %q lies outside the file", entry[:4])
		}
		tables[string(entry[:4])] = ttf[from : from+size : from+size]
	}
	return tables, nil
}

func (s *source) check() error {
	if s.glyphs < 1 || s.metrics < 1 || s.metrics > s.glyphs {
		return fmt.Errorf("font has %d glyphs and %d advance widths", s.glyphs, s.metrics)
	}
	if len(s.tables["hmtx"]) < 4*s.metrics+2*(s.glyphs-s.metrics) {
		return fmt.Errorf("font table %q is too short for %d glyphs", "hmtx", s.glyphs)
	}
	width := 2
	if s.long {
		width = 4
	}
	if len(s.tables["loca"]) < width*(s.glyphs+1) {
		return fmt.Errorf("font table %q is too short for %d glyphs", "loca", s.glyphs)
	}
	return nil
}

// outline is the drawing of glyph g, empty for a blank such as the space.
func (s *source) outline(g int) ([]byte, error) {
	if g < 0 || g >= s.glyphs {
		return nil, fmt.Errorf("font names glyph %d of %d", g, s.glyphs)
	}
	from, to := s.offset(g), s.offset(g+1)
	if from > to || to > len(s.tables["glyf"]) {
		return nil, fmt.Errorf("outline of glyph %d lies outside its table", g)
	}
	return s.tables["glyf"][from:to], nil
}

func (s *source) offset(g int) int {
	if s.long {
		return int(be.Uint32(s.tables["loca"][4*g:]))
	}
	return 2 * int(be.Uint16(s.tables["loca"][2*g:]))
}

// metric is the advance width and left bearing of glyph g, in font units. Glyphs
// past the last own width share it, as in a font of one width.
func (s *source) metric(g int) (advance, bearing uint16) {
	t := s.tables["hmtx"]
	if g < s.metrics {
		return be.Uint16(t[4*g:]), be.Uint16(t[4*g+2:])
	}
	return be.Uint16(t[4*(s.metrics-1):]), be.Uint16(t[4*s.metrics+2*(g-s.metrics):])
}
