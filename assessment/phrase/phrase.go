// Package phrase holds sentences that are said later, in the language of whoever
// reads them: a format and what goes into it, kept apart. The format is in English
// and is also the name under which its translations are kept.
package phrase

import (
	"fmt"
	"strings"

	"wellshown/assessment/civil"
)

// Phrase is a sentence, or a part of one, that can be said in any language. The zero
// one says nothing.
type Phrase struct {
	Format string // as fmt has it; where things are counted, the form for many
	One    string // the form for one; empty where nothing is counted. It may leave the number out, and then names the rest by place (%[2]s)
	Args   []any  // text, whole numbers, civil days, an agency's own words, texts of checklists, phrases and lists of them
}

// Own is what an agency says in its own words: in English, and in Spanish where somebody
// has written it.
type Own struct{ English, Spanish string }

// In is what it is in a language by its BCP 47 tag; false where nobody has written it.
func (o Own) In(tag string) (string, bool) {
	switch tag {
	case "en":
		return o.English, o.English != ""
	case "es":
		return o.Spanish, o.Spanish != ""
	}
	return "", false
}

// Step is a text of a checklist, such as what a step asks for or what it measures. It is
// said in another language where it is word for word one of a starter's; else as it stands.
type Step string

// Typed is what somebody typed beside it, such as a note: said as it stands, in whatever
// language it was written.
type Typed string

// List is several things in a row, "Ada, Ben and Cora".
type List []any

// Of makes a phrase of a format and what goes into it.
func Of(format string, args ...any) Phrase { return Phrase{Format: format, Args: args} }

// Count makes a phrase that counts: n is the first of what goes into it.
func Count(n int, one, many string, args ...any) Phrase {
	return Phrase{Format: many, One: one, Args: append([]any{n}, args...)}
}

// Text is a phrase that is the same in every language: a name, or what somebody typed.
func Text(words string) Phrase { return Phrase{Format: "%s", Args: []any{words}} }

// IsZero reports whether it says nothing.
func (p Phrase) IsZero() bool { return p.Format == "" }

// Counted is what is counted, and whether anything is.
func (p Phrase) Counted() (int, bool) {
	if p.One == "" || len(p.Args) == 0 {
		return 0, false
	}
	n, ok := p.Args[0].(int)
	return n, ok
}

// String says it in English.
func (p Phrase) String() string {
	if p.IsZero() {
		return ""
	}
	format := p.Format
	if n, ok := p.Counted(); ok && n == 1 {
		format = p.One
	}
	if !strings.Contains(format, "%") { // the form for one may say "one" in words
		return format
	}
	args := make([]any, len(p.Args))
	for i, a := range p.Args {
		args[i] = english(a)
	}
	return fmt.Sprintf(format, args...)
}

func english(arg any) any {
	switch a := arg.(type) {
	case civil.Date:
		return a.Format("2 January 2006")
	case List:
		return a.join(", ", " and ")
	case Phrase:
		return a.String()
	case Own:
		return a.English
	}
	return arg
}

func (l List) join(comma, and string) string {
	words := make([]string, len(l))
	for i, one := range l {
		words[i] = fmt.Sprint(english(one))
	}
	return Join(words, comma, and)
}

// Join puts words in a row, with one word between all and another before the last.
func Join(words []string, comma, and string) string {
	n := len(words)
	if n < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:n-1], comma) + and + words[n-1]
}
