// Package wording says things in the reader's language: sentences, days, instants and
// numbers. A sentence is known by its English text; what it is in another language
// stands in the files beside this one.
//
// A translation of anything clinical is a draft until a qualified translator has
// reviewed it (45 CFR 92.201, from memory: qualified translators for critical text).
package wording

import (
	"fmt"
	"strings"

	"golang.org/x/text/language"
	"golang.org/x/text/message"

	"wellshown/assessment/civil"
	"wellshown/assessment/phrase"
)

// Language is one in which families can read everything, by its BCP 47 tag.
type Language string

// The languages.
const (
	English Language = "en"
	Spanish Language = "es"
)

// Languages lists them, first the one in which everything was written.
var Languages = []Language{English, Spanish}

// Own is what a language calls itself.
func (l Language) Own() string {
	if l == Spanish {
		return "Español"
	}
	return "English"
}

var matcher = language.NewMatcher([]language.Tag{language.English, language.Spanish})

// Of is the language for a tag such as "es-MX"; English for those that we do not have.
func Of(tag string) Language {
	base, _, _ := strings.Cut(strings.ToLower(strings.TrimSpace(tag)), "-")
	for _, l := range Languages {
		if string(l) == base {
			return l
		}
	}
	return English
}

// Preferred is the language for what a browser asks for in Accept-Language (RFC 9110,
// section 12.5.4); English where it asks for none that we have.
func Preferred(accepts string) Language {
	tags, _, err := language.ParseAcceptLanguage(accepts)
	if err != nil || len(tags) == 0 {
		return English
	}
	_, at, sure := matcher.Match(tags...)
	if sure == language.No {
		return English
	}
	return Languages[at]
}

// Words says things in one language.
type Words struct {
	language Language
	printer  *message.Printer
	dates    dates
}

var spoken = func() map[Language]Words {
	all := map[Language]Words{}
	for _, l := range Languages {
		all[l] = Words{l, message.NewPrinter(language.Make(string(l)), message.Catalog(texts)), datesIn[l]}
	}
	return all
}()

// In is whoever speaks a language.
func In(l Language) Words {
	if w, ok := spoken[l]; ok {
		return w
	}
	return spoken[English]
}

// Language is the one that is spoken.
func (w Words) Language() Language { return w.language }

// Dir is how the language runs, as HTML has it: ltr or rtl.
func (w Words) Dir() string { return dir(language.Make(string(w.language))) }

// dir goes by the script of a language: those that run from right to left, of Unicode's
// scripts in modern use.
func dir(tag language.Tag) string {
	script, _ := tag.Script()
	switch script.String() {
	case "Arab", "Hebr", "Syrc", "Thaa", "Nkoo", "Adlm", "Rohg":
		return "rtl"
	}
	return "ltr"
}

// Say says a sentence by its English format.
func (w Words) Say(format string, args ...any) string { return w.Of(phrase.Of(format, args...)) }

// Count says a sentence that counts: n is the first of what goes into it.
func (w Words) Count(n int, one, many string, args ...any) string {
	return w.Of(phrase.Count(n, one, many, args...))
}

// Of says a phrase.
func (w Words) Of(p phrase.Phrase) string {
	if p.IsZero() {
		return ""
	}
	if w.language == English {
		return p.String()
	}
	args := make([]any, len(p.Args))
	for i, a := range p.Args {
		args[i] = w.arg(a)
	}
	if len(args) == 0 {
		return w.printer.Sprintf(message.Key(p.Format, p.Format))
	}
	return w.printer.Sprintf(message.Key(p.Format, p.Format), args...)
}

// Theirs says what an agency calls its own things, such as the title of a skill, and what
// its checklists say: in the language, where that is word for word what a starter says; else
// as it stands, and then false.
func (w Words) Theirs(text string) (string, bool) {
	if w.language == English {
		return text, true
	}
	if t, ok := starters[w.language][text]; ok {
		return t.Plain, true
	}
	if t, ok := checklists[w.language][text]; ok {
		return t.Plain, true
	}
	return text, false
}

// Whole says a phrase that has words of checklists in it: in the language, where all of them
// are known; else in English as a whole, and then false.
func (w Words) Whole(p phrase.Phrase) (string, bool) {
	if w.knows(p) {
		return w.Of(p), true
	}
	return p.String(), false
}

func (w Words) knows(p phrase.Phrase) bool {
	for _, a := range p.Args {
		switch a := a.(type) {
		case phrase.Step:
			if _, ok := w.Theirs(string(a)); !ok {
				return false
			}
		case phrase.Phrase:
			if !w.knows(a) {
				return false
			}
		}
	}
	return true
}

func (w Words) arg(arg any) any {
	switch a := arg.(type) {
	case civil.Date:
		return w.Day(a)
	case phrase.Phrase:
		return w.Of(a)
	case phrase.Own:
		return w.Own(a)
	case phrase.Step:
		said, _ := w.Theirs(string(a))
		return said
	case string:
		if t, ok := starters[w.language][a]; ok {
			return t.Plain
		}
	case interface{ Phrase() phrase.Phrase }: // a word of the rules, or a refusal
		return w.Of(a.Phrase())
	case phrase.List:
		words := make([]string, len(a))
		for i, one := range a {
			words[i] = fmt.Sprint(w.arg(one))
		}
		return w.List(words)
	}
	return arg
}

// Own says what an agency wrote in its own words. Where nobody has written it in the
// language, it is the English of it, said to be English.
func (w Words) Own(o phrase.Own) string {
	if said, ok := o.In(string(w.language)); ok {
		return said
	}
	return w.Say("%s (in English)", o.English)
}

// List puts words in a row: "Ada, Ben and Cora", «Ada, Ben e Inés».
func (w Words) List(words []string) string {
	if w.language != Spanish || len(words) < 2 {
		return phrase.Join(words, ", ", " and ")
	}
	return phrase.Join(words, ", ", spanishAnd(words[len(words)-1]))
}

// spanishAnd is «y», and «e» before the sound of i, but not where it begins a
// diphthong (hielo): Real Academia Española, Ortografía, «y».
func spanishAnd(next string) string {
	sound := strings.TrimPrefix(strings.ToLower(next), "h")
	sound = strings.NewReplacer("í", "i").Replace(sound)
	if strings.HasPrefix(sound, "i") && !strings.HasPrefix(sound, "ia") && !strings.HasPrefix(sound, "ie") && !strings.HasPrefix(sound, "io") {
		return " e "
	}
	return " y "
}

// Quoted puts what somebody said between the language's quotation marks.
func (w Words) Quoted(said string) string {
	if w.language == Spanish {
		return "«" + said + "»"
	}
	return "“" + said + "”"
}
