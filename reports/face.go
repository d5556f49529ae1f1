package reports

import (
	"fmt"
	"math"
	"sync"

	"github.com/go-fonts/dejavu/dejavusans"
	"github.com/go-fonts/dejavu/dejavusansbold"
	"github.com/go-fonts/dejavu/dejavuserifbold"
	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"wellshown/reports/subset"
)

// The three faces of every paper. Headings and names are set in the serif.
const (
	sans faceID = iota
	sansBold
	serifBold
	faceCount
)

type faceID int

// face is one font as papers use it: cut once for the whole process, with the
// width of each of its characters at hand.
type face struct {
	id     faceID
	ttf    []byte
	widths []int16 // by code point, in thousandths of the size; lacking where there is none
}

const lacking = -1

// repertoire is what papers can print, as first and last code points. Scripts
// whose letters must be joined or reordered stay out: unjoined Arabic would be a
// misspelt name, and a visible box says plainly that something is missing.
var repertoire = [][2]rune{
	{0x0020, 0x007E}, {0x00A0, 0x02FF}, // Latin, phonetic letters used in African names
	{0x0300, 0x036F},                   // marks that NFC leaves by themselves
	{0x0370, 0x058F}, {0x10A0, 0x10FF}, // Greek, Cyrillic, Armenian, Georgian
	{0x1E00, 0x1FFF},                                     // Vietnamese and more Latin, accented Greek
	{0x2000, 0x200A}, {0x2010, 0x2027}, {0x202F, 0x205E}, // spaces and punctuation
	{0x2070, 0x209C}, {0x20A0, 0x20BF}, // raised and lowered figures, currencies
	{0x2100, 0x218B}, {0x2190, 0x21FF}, // letter-like signs, fractions, arrows
	{0x2200, 0x22FF}, {0x25A0, 0x25FF}, // mathematics, geometric shapes
	{0x2610, 0x2612}, {0x2713, 0x2718}, // boxes and ticks
	{0x2C60, 0x2C7F}, {0xA720, 0xA7FF}, // further Latin
}

var faces = sync.OnceValues(func() (*[faceCount]*face, error) {
	var all [faceCount]*face
	for id, ttf := range [faceCount][]byte{dejavusans.TTF, dejavusansbold.TTF, dejavuserifbold.TTF} {
		f, err := newFace(faceID(id), ttf)
		if err != nil {
			return nil, fmt.Errorf("prepare font %d of the papers: %w", id, err)
		}
		all[id] = f
	}
	return &all, nil
})

// Prepare cuts the fonts that papers are printed with, once for the whole
// process. A server calls it at its start, so that a fault in a font shows there
// and the first document is no slower than the second.
func Prepare() error {
	_, err := faces()
	return err
}

func newFace(id faceID, ttf []byte) (*face, error) {
	cut, err := subset.Cut(ttf, everything())
	if err != nil {
		return nil, err
	}
	f := &face{id: id, ttf: cut}
	return f, f.measure()
}

// everything spells the repertoire out.
func everything() []rune {
	var all []rune
	for _, span := range repertoire {
		for r := span[0]; r <= span[1]; r++ {
			all = append(all, r)
		}
	}
	return all
}

// measure fills in widths, rounded to whole thousandths as the PDF states them.
func (f *face) measure() error {
	parsed, err := sfnt.Parse(f.ttf)
	if err != nil {
		return err
	}
	f.widths = make([]int16, repertoire[len(repertoire)-1][1]+1)
	for i := range f.widths {
		f.widths[i] = lacking
	}
	em := fixed.Int26_6(parsed.UnitsPerEm())
	var buf sfnt.Buffer
	for _, r := range everything() {
		g, err := parsed.GlyphIndex(&buf, r)
		if err != nil || g == 0 {
			continue
		}
		advance, err := parsed.GlyphAdvance(&buf, g, em, font.HintingNone)
		if err != nil {
			return fmt.Errorf("width of %U: %w", r, err)
		}
		f.widths[r] = int16(math.Round(1000 * float64(advance) / float64(em)))
	}
	return nil
}

// has reports whether f draws r.
func (f *face) has(r rune) bool {
	return r >= 0 && int(r) < len(f.widths) && f.widths[r] != lacking
}

// covers reports whether f draws all of s.
func (f *face) covers(s string) bool {
	for _, r := range s {
		if !f.has(r) {
			return false
		}
	}
	return true
}

// width is the width of s at size, in the unit of size. All of s must be drawn
// by f; what is not counts as nothing.
func (f *face) width(s string, size float64) float64 {
	sum := 0
	for _, r := range s {
		if f.has(r) {
			sum += int(f.widths[r])
		}
	}
	return float64(sum) * size / 1000
}

// only is f cut down to the characters of one document. Each document gets bytes
// of its own: gofpdf writes into the padding of the tables that it was given.
func (f *face) only(used []rune) ([]byte, error) {
	return subset.Cut(f.ttf, used)
}
