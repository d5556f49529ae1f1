package web

import (
	"fmt"
	"html/template"
	"strings"

	"wellshown/assessment/wording"
)

// functions are all that a template may call beyond branching and repeating.
// They draw; none of them decides anything. What say and sayn say is in the reader's
// language.
func functions(assets *Assets, words wording.Words) template.FuncMap {
	return template.FuncMap{
		"say":    words.Say,
		"sayn":   words.Count,
		"theirs": func(text string) template.HTML { return theirs(words, text) },
		"asset":  assets.URL,
		"field":  newField,
		"proof":  proofIn(words),
		"count":  count,
		"Count":  spelledCount,
		"note":   newNote,
		"empty":  newEmpty,
	}
}

// theirs is what an agency calls its own things, and what its checklists say, in the
// reader's language where that is known; else as it stands, marked as being in English.
func theirs(words wording.Words, text string) template.HTML {
	return worded(words.Theirs(text)).HTML()
}

// slug makes a class or symbol name of a word: "not started" → "not-started".
func slug(word string) string {
	return strings.ReplaceAll(strings.ToLower(word), " ", "-")
}

// count gives "1 skill" or "3 skills".
func count(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

var smallNumbers = [...]string{"No", "One", "Two", "Three", "Four", "Five", "Six", "Seven", "Eight", "Nine", "Ten", "Eleven", "Twelve"}

// spelledCount is count for the start of a sentence: small numbers in words,
// "Three skills".
func spelledCount(n int, one, many string) string {
	if n < 0 || n >= len(smallNumbers) {
		return count(n, one, many)
	}
	if n == 1 {
		return smallNumbers[1] + " " + one
	}
	return smallNumbers[n] + " " + many
}

// A Note is a title and lines under it; the help block is drawn from one.
type Note struct {
	Title string
	Lines []string
}

func newNote(title string, lines ...string) Note { return Note{Title: title, Lines: lines} }

// An Empty says that there is nothing to show, and what to do about it.
type Empty struct {
	What string // what is not there
	Next string // what to do next
	Href string // where to do it; none when empty
	Act  string // words of that link
}

func newEmpty(what, next, href, act string) Empty {
	return Empty{What: what, Next: next, Href: href, Act: act}
}
