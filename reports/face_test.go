package reports

import (
	"math"
	"testing"

	"github.com/go-fonts/dejavu/dejavusans"
	"github.com/go-fonts/dejavu/dejavusansbold"
	"github.com/go-fonts/dejavu/dejavuserifbold"
	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
	"golang.org/x/text/unicode/norm"
)

// Widths are those of the whole font as golang.org/x/image reads it.
func TestWidthsAreThoseOfTheWholeFont(t *testing.T) {
	p := blankPaper(t)
	for id, ttf := range [][]byte{dejavusans.TTF, dejavusansbold.TTF, dejavuserifbold.TTF} {
		whole, err := sfnt.Parse(ttf)
		if err != nil {
			t.Fatal(err)
		}
		em := fixed.Int26_6(whole.UnitsPerEm())
		for _, r := range everything() {
			g, err := whole.GlyphIndex(nil, r)
			if err != nil {
				t.Fatal(err)
			}
			if has := p.faces[id].has(r); has != (g != 0) {
				t.Fatalf("face %d: has %U is %t, glyph %d", id, r, has, g)
			}
			if g == 0 {
				continue
			}
			advance, err := whole.GlyphAdvance(nil, g, em, font.HintingNone)
			if err != nil {
				t.Fatal(err)
			}
			if want := math.Round(1000 * float64(advance) / float64(em)); p.faces[id].width(string(r), 1000) != want {
				t.Errorf("face %d: %U is %v wide, want %v", id, r, p.faces[id].width(string(r), 1000), want)
			}
		}
	}
}

// Every letter of Vietnamese is a vowel with one of five tone marks, composed by
// the Unicode tables of golang.org/x/text; the other alphabets are from memory.
func TestAlphabetsAreWhole(t *testing.T) {
	letters := []rune("ĄąĆćĘęŁłŃńÓóŚśŹźŻżÇçĞğİıŞşÐðÞþÆæØøÅåŐőŰűĐđƠơƯưẸẹỌọṢṣẞßŒœ" +
		"АБВГҐДЕЄЁЖЗИІЇЙКЛМНОПРСТУЎФХЦЧШЩЪЫЬЭЮЯабвгґдеєёжзиіїйклмнопрстуўфхцчшщъыьэюя" +
		"ΑΒΓΔΕΖΗΘΙΚΛΜΝΞΟΠΡΣΤΥΦΧΨΩάέήίόύώϊϋΐΰς" + "–—‘’“”„«»…·•→≤≥±×½°µ₂²□")
	for _, vowel := range "aăâeêioôơuưyAĂÂEÊIOÔƠUƯY" {
		for _, tone := range "\u0300\u0301\u0303\u0309\u0323" {
			composed := []rune(norm.NFC.String(string(vowel) + string(tone)))
			if len(composed) != 1 {
				t.Fatalf("%q does not compose", string(composed))
			}
			letters = append(letters, composed[0])
		}
	}
	p := blankPaper(t)
	for _, r := range letters {
		for _, f := range p.faces {
			if !f.has(r) {
				t.Errorf("face %d lacks %c (%U)", f.id, r, r)
			}
		}
	}
	for _, r := range "☐☑☒✓✔" {
		if !p.faces[sans].has(r) || !p.faces[sansBold].has(r) {
			t.Errorf("the sans lacks %c", r)
		}
	}
}
