// Package subset cuts a TrueType font down to the characters a program will ever
// print, so that whoever embeds the font reads and writes kilobytes for each
// document instead of the whole of it.
//
// It writes fonts as the OpenType specification, version 1.9, lays them out. Of
// layout features (kerning, ligatures, mark placement) nothing stays.
package subset

import (
	"bytes"
	"fmt"
	"slices"

	"golang.org/x/image/font/sfnt"
)

const (
	trueType  = 0x00010000
	firstCode = 0x20
	lastCode  = 0xFFFD
)

// Cut returns a font that draws the given characters of ttf, in whatever order
// they come, and holds the parts that their glyphs are composed of. Characters
// that ttf does not draw, controls and whatever lies beyond the Basic Multilingual
// Plane are left out. It fails on anything that is not a whole TrueType font, and
// leaves ttf as it is. A cut font can be cut again.
func Cut(ttf []byte, chars []rune) ([]byte, error) {
	src, err := open(ttf)
	if err != nil {
		return nil, fmt.Errorf("read the font: %w", err)
	}
	sel := selectFrom(src)
	kept, err := characters(ttf, chars, sel)
	if err != nil {
		return nil, fmt.Errorf("read the font's characters: %w", err)
	}
	tables, err := cutTables(src, sel, kept)
	if err != nil {
		return nil, fmt.Errorf("cut the font: %w", err)
	}
	return assemble(tables), nil
}

// characters lists what stays, in ascending order, with its new glyph numbers.
func characters(ttf []byte, wanted []rune, sel *selection) ([]character, error) {
	f, err := sfnt.Parse(ttf)
	if err != nil {
		return nil, err
	}
	var kept []character
	var buf sfnt.Buffer
	for _, r := range slices.Compact(slices.Sorted(slices.Values(wanted))) {
		if r < firstCode || r > lastCode {
			continue
		}
		g, err := f.GlyphIndex(&buf, r)
		if err != nil {
			return nil, fmt.Errorf("find %U: %w", r, err)
		}
		if g != 0 {
			kept = append(kept, character{int(r), sel.id(int(g))})
		}
	}
	return kept, nil
}

func cutTables(src *source, sel *selection, chars []character) (map[string][]byte, error) {
	glyf, loca, hmtx, err := sel.outlines()
	if err != nil {
		return nil, err
	}
	cmap, err := charmap(chars)
	if err != nil {
		return nil, err
	}
	out := map[string][]byte{
		"glyf": glyf, "loca": loca, "hmtx": hmtx, "cmap": cmap,
		"name": names(src.tables["name"]), "post": namelessPost(src.tables["post"]),
	}
	for _, name := range []string{"head", "hhea", "maxp", "OS/2", "cvt ", "fpgm", "prep", "gasp"} {
		if t, ok := src.tables[name]; ok {
			out[name] = bytes.Clone(t)
		}
	}
	be.PutUint16(out["head"][50:], 1) // loca is written with 32 bits
	be.PutUint16(out["hhea"][34:], uint16(len(sel.order)))
	be.PutUint16(out["maxp"][4:], uint16(len(sel.order)))
	return out, nil
}

// namelessPost is the post table without the names of glyphs: format 3.
func namelessPost(post []byte) []byte {
	t := bytes.Clone(post[:32])
	be.PutUint32(t, 0x00030000)
	return t
}
