package intake

import (
	"slices"
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// Likeness says how two names are alike.
type Likeness int

// From unlike to the same.
const (
	Unlike   Likeness = iota
	Near              // a letter or two apart: a slip of a hand, or two people
	Alike             // the same but for case, accents, spaces, points or the order of words
	SameName          // the same letters
)

// Name is a name made ready to be compared with many.
type Name struct {
	written string
	plain   []rune
	has     uint64 // which letters stand in it, for telling apart at once what is far apart
}

// NewName makes a name ready.
func NewName(s string) Name {
	n := Name{written: norm.NFC.String(strings.Join(strings.Fields(s), " ")), plain: []rune(Plain(s))}
	for _, r := range n.plain {
		n.has |= 1 << (r % 64)
	}
	return n
}

// String is the name as it was written, in Unicode's normal form and with single spaces.
func (n Name) String() string { return n.written }

// Plain is a name without the case of its letters and the marks on them, its words in order of the
// alphabet. Letters that are no letter with a mark (ø, ł, ß …) are put as they are mostly written without.
func Plain(s string) string {
	var b strings.Builder
	for _, r := range norm.NFKD.String(strings.ToLower(s)) {
		switch plain, other := plainLetters[r]; {
		case other:
			b.WriteString(plain)
		case unicode.Is(unicode.Mn, r) || r == '\'' || r == '’' || r == '.':
		case unicode.IsLetter(r) || unicode.IsDigit(r):
			b.WriteRune(r)
		default:
			b.WriteByte(' ')
		}
	}
	words := strings.Fields(b.String())
	slices.Sort(words)
	return strings.Join(words, " ")
}

var plainLetters = map[rune]string{'ø': "o", 'ł': "l", 'đ': "d", 'ð': "d", 'þ': "th", 'ß': "ss", 'æ': "ae", 'œ': "oe", 'ı': "i", 'ħ': "h"}

// Like says how two names are alike.
func (n Name) Like(m Name) Likeness {
	switch {
	case n.written == m.written:
		return SameName
	case slices.Equal(n.plain, m.plain):
		return Alike
	}
	most := 2
	if min(len(n.plain), len(m.plain)) < 8 {
		most = 1
	}
	if apart := len(n.plain) - len(m.plain); apart > most || -apart > most || bits(n.has&^m.has) > most || bits(m.has&^n.has) > most {
		return Unlike
	}
	if steps(n.plain, m.plain) <= most {
		return Near
	}
	return Unlike
}

func bits(n uint64) int {
	some := 0
	for ; n != 0 && some < 4; n &= n - 1 {
		some++
	}
	return some
}

// steps is how many letters are left out, put in, changed or swapped with their neighbour on
// the way from one to the other (optimal string alignment, after Damerau 1964).
func steps(a, b []rune) int {
	before, last, row := make([]int, len(b)+1), make([]int, len(b)+1), make([]int, len(b)+1)
	for j := range last {
		last[j] = j
	}
	for i := range a {
		row[0] = i + 1
		for j := range b {
			other := 1
			if a[i] == b[j] {
				other = 0
			}
			row[j+1] = min(row[j]+1, last[j+1]+1, last[j]+other)
			if i > 0 && j > 0 && a[i] == b[j-1] && a[i-1] == b[j] {
				row[j+1] = min(row[j+1], before[j-1]+1)
			}
		}
		before, last, row = last, row, before
	}
	return last[len(b)]
}
