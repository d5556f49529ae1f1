package wording

import (
	"strings"

	"wellshown/assessment/phrase"
)

// A Piece is a part of what is said: words of the program, or what somebody typed.
type Piece struct {
	Text  string
	Typed bool
}

// begun and ended part what was typed from the rest: noncharacters, which no text is
// exchanged with (The Unicode Standard 15.0, section 23.7).
const begun, ended = "\ufdd0", "\ufdd1"

// Pieces says a phrase in parts, so that a reader can be told which of it somebody typed,
// in whatever language that was.
func (w Words) Pieces(p phrase.Phrase) []Piece {
	var all []Piece
	add := func(text string, typed bool) {
		if text != "" {
			all = append(all, Piece{text, typed})
		}
	}
	for i, part := range strings.Split(w.Of(w.fenced(p)), begun) {
		typed, rest, fence := strings.Cut(part, ended)
		if i == 0 || !fence {
			add(strings.ReplaceAll(part, ended, ""), false)
			continue
		}
		add(typed, true)
		add(rest, false)
	}
	return all
}

func fence(text string) string {
	return begun + strings.NewReplacer(begun, "", ended, "").Replace(text) + ended
}

// fenced is the phrase with fences around what was typed, at whatever depth it stands: also
// around what an agency wrote into a checklist and nobody has said in this language.
func (w Words) fenced(p phrase.Phrase) phrase.Phrase {
	args := make([]any, len(p.Args))
	for i, a := range p.Args {
		switch a := a.(type) {
		case phrase.Typed:
			args[i] = fence(string(a))
		case phrase.Step:
			args[i] = a
			if _, known := w.Theirs(string(a)); !known {
				args[i] = fence(string(a))
			}
		case phrase.Phrase:
			args[i] = w.fenced(a)
		default:
			args[i] = a
		}
	}
	p.Args = args
	return p
}
