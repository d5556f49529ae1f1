package web

import (
	"html/template"
	"strings"

	"wellshown/assessment/phrase"
	"wellshown/assessment/wording"
)

// Worded is a text in the reader's language, or in English where it is not known in that.
type Worded struct {
	Text    string
	English bool // while the page is in another language
}

func worded(said string, known bool) Worded { return Worded{said, !known} }

// HTML is the text, marked as being in English where it is (WCAG 2.2, 3.1.2).
func (w Worded) HTML() template.HTML {
	safe := template.HTMLEscapeString(w.Text)
	if w.English && w.Text != "" {
		safe = `<span lang="en">` + safe + `</span>`
	}
	return template.HTML(safe) // escaped above
}

// typed is what somebody typed: in the reader's language where it is a word of ours, such as
// "at home"; else as it stands, marked as being in English.
func typed(words wording.Words, text string) Worded {
	if _, _, ours := wording.Known(words.Language(), text); ours && !strings.Contains(text, "%") {
		return worded(words.Of(phrase.Phrase{Format: text}), true)
	}
	return worded(text, words.Language() == wording.English)
}
