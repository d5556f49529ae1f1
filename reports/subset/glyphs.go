package subset

import "fmt"

// Flags of one part of a composite glyph (OpenType 1.9, "glyf", component flags).
const (
	wideArguments = 0x0001
	oneScale      = 0x0008
	moreParts     = 0x0020
	twoScales     = 0x0040
	fourScales    = 0x0080
)

// selection is the glyphs that stay, in their new order. Glyph 0, the box for
// what is missing, always stays and stays first.
type selection struct {
	from  *source
	ids   map[int]int
	order []int
}

func selectFrom(s *source) *selection {
	return &selection{from: s, ids: map[int]int{0: 0}, order: []int{0}}
}

// id is the new number of glyph g, which joins the selection when it is new.
func (s *selection) id(g int) int {
	n, ok := s.ids[g]
	if !ok {
		n = len(s.order)
		s.ids[g] = n
		s.order = append(s.order, g)
	}
	return n
}

// outlines writes the glyf, loca and hmtx tables. The order grows while it is
// walked: a composite glyph brings its parts along.
func (s *selection) outlines() (glyf, loca, hmtx []byte, err error) {
	for i := 0; i < len(s.order); i++ {
		outline, err := s.from.outline(s.order[i])
		if err != nil {
			return nil, nil, nil, err
		}
		loca = be.AppendUint32(loca, uint32(len(glyf)))
		own := append([]byte(nil), outline...)
		if err := s.renumber(own); err != nil {
			return nil, nil, nil, fmt.Errorf("glyph %d: %w", s.order[i], err)
		}
		glyf = append(glyf, padded(own)...)
		advance, bearing := s.from.metric(s.order[i])
		hmtx = be.AppendUint16(be.AppendUint16(hmtx, advance), bearing)
	}
	return glyf, be.AppendUint32(loca, uint32(len(glyf))), hmtx, nil
}

// renumber points each part of a composite glyph at its new place. A simple
// glyph, whose first number counts its contours, is left as it is.
func (s *selection) renumber(outline []byte) error {
	if len(outline) < 10 || int16(be.Uint16(outline)) >= 0 {
		return nil
	}
	for at := 10; ; {
		if at+4 > len(outline) {
			return fmt.Errorf("composite of %d bytes is cut off", len(outline))
		}
		flags := be.Uint16(outline[at:])
		part := int(be.Uint16(outline[at+2:])) // one that is not there is refused when its turn comes
		be.PutUint16(outline[at+2:], uint16(s.id(part)))
		if flags&moreParts == 0 {
			return nil
		}
		at += 4 + argumentBytes(flags)
	}
}

func argumentBytes(flags uint16) int {
	n := 2
	if flags&wideArguments != 0 {
		n = 4
	}
	switch {
	case flags&oneScale != 0:
		n += 2
	case flags&twoScales != 0:
		n += 4
	case flags&fourScales != 0:
		n += 8
	}
	return n
}

// padded fills b with zeros to a multiple of four bytes, which is where every
// table and, by choice, every outline begins.
func padded(b []byte) []byte {
	for len(b)%4 != 0 {
		b = append(b, 0)
	}
	return b
}
