package reports

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// wrap breaks clean text into lines no wider than width, at spaces, after hyphens
// and slashes inside words, and, in a word wider than a line, wherever it must.
// A line feed always breaks; an empty text has no lines.
func wrap(f *face, size float64, text string, width float64) []string {
	if strings.TrimSpace(text) == "" {
		return nil
	}
	w := wrapper{face: f, size: size, width: width}
	for paragraph := range strings.SplitSeq(text, "\n") {
		for rest := paragraph; rest != ""; {
			n := pieceLen(rest)
			w.add(rest[:n])
			rest = rest[n:]
		}
		w.end()
	}
	return w.lines
}

type wrapper struct {
	face  *face
	size  float64
	width float64
	lines []string
	line  strings.Builder
	used  float64
}

// add sets one unbreakable piece, with the spaces that follow it.
func (w *wrapper) add(piece string) {
	word := strings.TrimRight(piece, " ")
	need := w.face.width(word, w.size)
	if w.used > 0 && w.used+need > w.width {
		w.end()
	}
	if need > w.width {
		piece = w.chop(piece)
	}
	w.line.WriteString(piece)
	w.used += w.face.width(piece, w.size)
}

// end closes the line, also an empty one: the writer left it empty.
func (w *wrapper) end() {
	w.lines = append(w.lines, strings.TrimRight(w.line.String(), " "))
	w.line.Reset()
	w.used = 0
}

// chop breaks a word that is wider than a line into full lines and returns what
// remains. Marks stay with their letter.
func (w *wrapper) chop(word string) string {
	from, used := 0, 0.0
	for at := 0; at < len(word); {
		n := clusterLen(word[at:])
		step := w.face.width(word[at:at+n], w.size)
		if used+step > w.width && at > from {
			w.lines = append(w.lines, word[from:at])
			from, used = at, 0
		}
		used += step
		at += n
	}
	return word[from:]
}

// clusterLen is the length in bytes of the first letter of s with its marks.
func clusterLen(s string) int {
	_, n := utf8.DecodeRuneInString(s)
	for n < len(s) {
		r, size := utf8.DecodeRuneInString(s[n:])
		if !unicode.Is(unicode.M, r) {
			break
		}
		n += size
	}
	return n
}

// pieceLen is the length in bytes of s up to the first place where a line may end.
func pieceLen(s string) int {
	var before rune
	for at, r := range s {
		if before == ' ' && r != ' ' || joins(before) && unicode.IsLetter(r) && at > 1 {
			return at
		}
		before = r
	}
	return len(s)
}

// joins reports whether a line may end after r inside a word.
func joins(r rune) bool { return r == '-' || r == '/' || r == '–' || r == '—' }

// clipped is text on one line, cut with an ellipsis where it is too wide.
func clipped(f *face, size float64, text string, width float64) string {
	if f.width(text, size) <= width {
		return text
	}
	room := width - f.width("…", size)
	end := 0
	for used := 0.0; end < len(text); {
		n := clusterLen(text[end:])
		used += f.width(text[end:end+n], size)
		if used > room {
			break
		}
		end += n
	}
	return strings.TrimRight(text[:end], " ") + "…"
}
