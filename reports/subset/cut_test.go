package subset

import (
	"bytes"
	"crypto/sha256"
	"reflect"
	"testing"

	"github.com/go-fonts/dejavu/dejavusans"
	"github.com/go-fonts/dejavu/dejavusansbold"
	"github.com/go-fonts/dejavu/dejavuserifbold"
	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

var whole = map[string][]byte{"sans": dejavusans.TTF, "sans bold": dejavusansbold.TTF, "serif bold": dejavuserifbold.TTF}

// wanted is letters plain and composed of several glyphs, figures, a box
// and one character that no font here draws.
var wanted = []rune("Nguyễn Thị Ánh, Łucja Zoë Ольга Μαρία 0123456789 —“”□\u0301\u4e00")

func cut(t testing.TB, ttf []byte, runes []rune) []byte {
	t.Helper()
	out, err := Cut(ttf, runes)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

func parsed(t testing.TB, ttf []byte) *sfnt.Font {
	t.Helper()
	f, err := sfnt.Parse(ttf)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

func glyph(t testing.TB, f *sfnt.Font, r rune) sfnt.GlyphIndex {
	t.Helper()
	g, err := f.GlyphIndex(nil, r)
	if err != nil {
		t.Fatalf("%U: %v", r, err)
	}
	return g
}

// What is kept has the outline and the width that golang.org/x/image reads from
// the whole font; what is not kept is gone.
func TestCutKeepsLettersAsTheyWere(t *testing.T) {
	for name, ttf := range whole {
		before, after := parsed(t, ttf), parsed(t, cut(t, ttf, wanted))
		em := fixed.Int26_6(before.UnitsPerEm())
		for _, r := range wanted {
			a, b := glyph(t, before, r), glyph(t, after, r)
			if (a == 0) != (b == 0) {
				t.Fatalf("%s: %U is glyph %d, was %d", name, r, b, a)
			}
			w, _ := before.GlyphAdvance(nil, a, em, font.HintingNone)
			if got, err := after.GlyphAdvance(nil, b, em, font.HintingNone); err != nil || got != w {
				t.Errorf("%s: %U is %v wide, was %v (%v)", name, r, got, w, err)
			}
			if !reflect.DeepEqual(outlineOf(t, before, a, em), outlineOf(t, after, b, em)) {
				t.Errorf("%s: %U has another outline", name, r)
			}
		}
		for _, r := range "QqЖ★" {
			if glyph(t, after, r) != 0 {
				t.Errorf("%s: %c was not asked for and stays", name, r)
			}
		}
	}
}

func outlineOf(t testing.TB, f *sfnt.Font, g sfnt.GlyphIndex, em fixed.Int26_6) sfnt.Segments {
	t.Helper()
	s, err := f.LoadGlyph(nil, g, em, nil)
	if err != nil {
		t.Fatalf("outline of glyph %d: %v", g, err)
	}
	return append(sfnt.Segments(nil), s...)
}

// OpenType 1.9, "Calculating checksums" and "head": each table adds up to its
// entry in the directory (head with its adjustment as zero), the file to 0xB1B0AFBA.
func TestChecksums(t *testing.T) {
	for name, ttf := range whole {
		out := cut(t, ttf, wanted)
		if len(out)%4 != 0 || sumOf(out) != 0xB1B0AFBA {
			t.Errorf("%s: %d bytes add up to %#x", name, len(out), sumOf(out))
		}
		last := ""
		for i := range int(be.Uint16(out[4:])) {
			entry := out[12+16*i:]
			tag := string(entry[:4])
			from, size := be.Uint32(entry[8:]), be.Uint32(entry[12:])
			table := bytes.Clone(out[from : from+(size+3)/4*4])
			if tag == "head" {
				copy(table[8:12], make([]byte, 4))
			}
			if from%4 != 0 || tag <= last || sumOf(table) != be.Uint32(entry[4:]) {
				t.Errorf("%s: table %q at %d adds up to %#x, the directory says %#x", name, tag, from, sumOf(table), be.Uint32(entry[4:]))
			}
			last = tag
		}
	}
}

// sumOf is written apart from the code under test.
func sumOf(b []byte) (sum uint32) {
	for i := 0; i < len(b); i += 4 {
		sum += uint32(b[i])<<24 + uint32(b[i+1])<<16 + uint32(b[i+2])<<8 + uint32(b[i+3])
	}
	return sum
}

func TestNamesThatStay(t *testing.T) {
	before, after := parsed(t, dejavuserifbold.TTF), parsed(t, cut(t, dejavuserifbold.TTF, wanted))
	for _, id := range []sfnt.NameID{sfnt.NameIDCopyright, sfnt.NameIDFamily, sfnt.NameIDFull, sfnt.NameIDPostScript, sfnt.NameIDLicenseURL} {
		want, err := before.Name(nil, id)
		if err != nil {
			t.Fatal(err)
		}
		if got, err := after.Name(nil, id); err != nil || got != want {
			t.Errorf("name %d is %q (%v), was %q", id, got, err, want)
		}
	}
	if text, err := after.Name(nil, sfnt.NameIDLicense); err == nil {
		t.Errorf("the licence text stays: %d bytes", len(text))
	}
}

func TestCutIsSmallRepeatableAndLeavesItsInput(t *testing.T) {
	was := sha256.Sum256(dejavusans.TTF)
	out := cut(t, dejavusans.TTF, wanted)
	if len(out) > 40_000 {
		t.Errorf("%d characters take %d bytes", len(wanted), len(out))
	}
	again := append([]rune("  "), wanted...)
	again[0], again[len(again)-1] = again[len(again)-1], again[0]
	if !bytes.Equal(out, cut(t, dejavusans.TTF, again)) {
		t.Error("order and repeats of the characters change the font")
	}
	if !bytes.Equal(cut(t, dejavusans.TTF, wanted[:9]), cut(t, out, wanted[:9])) {
		t.Error("the same characters cut from a cut font differ from those cut from the whole")
	}
	if sha256.Sum256(dejavusans.TTF) != was {
		t.Error("the font that was read has changed")
	}
}

func TestNothingToKeep(t *testing.T) {
	for _, runes := range [][]rune{nil, {'\n', 0x1F600, -1, 0xFFFF}} {
		f := parsed(t, cut(t, dejavusans.TTF, runes))
		if f.NumGlyphs() < 1 || glyph(t, f, 'a') != 0 {
			t.Errorf("%q leaves %d glyphs", string(runes), f.NumGlyphs())
		}
	}
}

func TestWhatIsNoFontIsRefused(t *testing.T) {
	font := cut(t, dejavusans.TTF, []rune("Ánh"))
	for name, bad := range map[string][]byte{
		"nothing": nil, "text": []byte("a text that is longer than a header"), "CFF": append([]byte("OTTO"), font[4:]...), "directory": font[:60],
	} {
		if _, err := Cut(bad, wanted); err == nil {
			t.Errorf("%s was taken", name)
		}
	}
	for n := range len(font) / 4 {
		if _, err := Cut(font[:4*n], wanted); err == nil {
			t.Fatalf("a font cut off after %d of %d bytes was taken", 4*n, len(font))
		}
	}
}

// tableOf gives where a table of a font lies.
func tableOf(t *testing.T, ttf []byte, tag string) []byte {
	t.Helper()
	for i := range int(be.Uint16(ttf[4:])) {
		if entry := ttf[12+16*i:]; string(entry[:4]) == tag {
			return ttf[be.Uint32(entry[8:]):][:be.Uint32(entry[12:])]
		}
	}
	t.Fatalf("no table %q", tag)
	return nil
}

func TestDamageIsRefused(t *testing.T) {
	good := cut(t, dejavuserifbold.TTF, []rune("Aễ"))
	for name, damage := range map[string]func([]byte){
		"outline past the end": func(b []byte) { be.PutUint32(tableOf(t, b, "loca")[4:], 0x00FFFFFC) },
		"outline backwards":    func(b []byte) { be.PutUint32(tableOf(t, b, "loca")[4:], 0); be.PutUint32(tableOf(t, b, "loca"), 8) },
		"no glyphs":            func(b []byte) { be.PutUint16(tableOf(t, b, "maxp")[4:], 0) },
		"too many glyphs":      func(b []byte) { be.PutUint16(tableOf(t, b, "maxp")[4:], 999) },
		"too many widths":      func(b []byte) { be.PutUint16(tableOf(t, b, "hhea")[34:], 999) },
		"table past the end":   func(b []byte) { be.PutUint32(b[12+8:], 0xFFFFFF00) },
		"table gone":           func(b []byte) { copy(b[12:], "XXXX") },
	} {
		bad := bytes.Clone(good)
		damage(bad)
		if _, err := Cut(bad, []rune("Aễ")); err == nil {
			t.Errorf("%s: taken", name)
		}
	}
}

// A name that lies outside its table is left out.
func TestDamagedNames(t *testing.T) {
	bad := cut(t, dejavuserifbold.TTF, []rune("A"))
	be.PutUint16(tableOf(t, bad, "name")[6+10:], 0xFF00)
	f := parsed(t, cut(t, bad, []rune("A")))
	if got, err := f.Name(nil, sfnt.NameIDCopyright); err == nil {
		t.Errorf("the copyright reads %q", got)
	}
	if _, err := f.Name(nil, sfnt.NameIDFamily); err != nil {
		t.Errorf("the family is lost: %v", err)
	}
}

// A damaged font is refused or cut, but never brings the process down.
func FuzzDamagedFont(f *testing.F) {
	font := cut(f, dejavuserifbold.TTF, []rune("Aễ1"))
	f.Add(uint16(4), byte(0xFF), uint16(60), byte(0))
	f.Add(uint16(300), byte(0x80), uint16(50), byte(1))
	f.Fuzz(func(t *testing.T, at uint16, to byte, at2 uint16, to2 byte) {
		bad := bytes.Clone(font)
		bad[int(at)%len(bad)], bad[int(at2)%len(bad)] = to, to2
		if out, err := Cut(bad, []rune("Aễ1")); err == nil && len(out) == 0 {
			t.Error("neither a font nor a fault")
		}
	})
}

func BenchmarkCut(b *testing.B) {
	for b.Loop() {
		cut(b, dejavusans.TTF, wanted)
	}
}
