package reports

import (
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// box is printed where a character cannot be: a reader sees that something is
// missing, and text taken out of the PDF says the same as the page.
const box = '□'

// normal brings text from a person into the one form that papers print: valid
// UTF-8 of the Basic Multilingual Plane, composed letters (NFC), line breaks as \n
// and no other controls. Characters that have no shape of their own, such as joiners and changes of
// writing direction, are left out: on paper they could only mislead.
func normal(s string) string {
	s = strings.ToValidUTF8(s, string(box))
	s = strings.ReplaceAll(s, "\r\n", "\n")
	return norm.NFC.String(strings.Map(plain, s))
}

func plain(r rune) rune {
	switch {
	case r == '\t' || r == 0x1680 || r == 0x205F || r == 0x3000:
		return ' '
	case r == '\n' || r == '\r' || r == '\v' || r == '\f' || r == 0x85 || r == 0x2028 || r == 0x2029:
		return '\n'
	case unicode.Is(unicode.Cf, r) || unicode.Is(unicode.Variation_Selector, r):
		return -1
	case r == unicode.ReplacementChar || r > 0xFFFF || unicode.IsControl(r):
		return box
	}
	return r
}

// boxed replaces what f cannot draw, line breaks aside.
func (f *face) boxed(s string) string {
	return strings.Map(func(r rune) rune {
		if r == '\n' || f.has(r) {
			return r
		}
		return box
	}, s)
}

// oneLine is normal text with its line breaks as spaces, for titles.
func oneLine(s string) string {
	return strings.TrimSpace(strings.ReplaceAll(normal(s), "\n", " "))
}
