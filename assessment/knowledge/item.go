// Package knowledge holds knowledge checks: items, the forms that are drawn of them, and
// what an answer and a sitting come to. Passing one makes nobody competent: it says that
// somebody knows, and a demonstration that they can.
package knowledge

import (
	"slices"
	"strings"
	"unicode/utf8"

	"wellshown/assessment"
	"wellshown/assessment/fault"
)

// Kind is how an item is answered.
type Kind string

// The kinds of item.
const (
	Single   Kind = "single"   // one option is right
	Multiple Kind = "multiple" // each right option, and no other
	Order    Kind = "order"    // all options, put in order
	Numeric  Kind = "numeric"  // a number with its unit
	Match    Kind = "match"    // each of the left with one of the right
)

// Kinds lists them.
var Kinds = []Kind{Single, Multiple, Order, Numeric, Match}

// The difficulties, by whoever wrote the item, until answers tell more.
const (
	Easy     = 1
	Middling = 2
	Hard     = 3
)

// Text is what an item says in one language. Options stand in the order in which the
// item counts them; readers see them in another.
type Text struct {
	Ask     string
	Options []string // Single, Multiple; Order: in the right order
	Left    []string // Match
	Right   []string // Match: of each of the left, in its place
	Teach   string   // said after the answer: why, and never a scolding
}

// Item is one question of a bank. Its id stays for ever; what it asks may be put in
// other words.
type Item struct {
	ID         string
	Kind       Kind
	Critical   bool // a wrong answer fails the check, whatever the score
	Difficulty int  // Easy to Hard
	Source     string
	Right      []int // Single, Multiple: the right options, counted from 1
	Unit       string
	Units      []string           // Numeric: those offered, Unit among them
	Low, High  *assessment.Number // Numeric: what is accepted, both ends in
	Texts      map[string]Text    // by language: en, es
}

// In is what the item says in a language; in English where it has no such words.
func (i Item) In(language string) Text {
	if t, ok := i.Texts[language]; ok {
		return t
	}
	return i.Texts["en"]
}

// Options is how many there are to choose from, to put in order or to match.
func (i Item) Options() int {
	t := i.Texts["en"]
	return max(len(t.Options), len(t.Left))
}

// The limits of an item.
const (
	mostOptions = 8
	longestText = 600
)

// HowHard is what a difficulty is called; empty: it is none.
func HowHard(difficulty int) string {
	switch difficulty {
	case Easy:
		return "easy"
	case Middling:
		return "middling"
	case Hard:
		return "hard"
	}
	return ""
}

// Check refuses an item that cannot be asked, or of which nobody could say what is
// right, in every language it has.
func (i Item) Check() error {
	var f fault.Fields
	if strings.TrimSpace(i.ID) == "" || utf8.RuneCountInString(i.ID) > 60 {
		f.Add("id", "An item has an id of at most 60 letters.")
	}
	if !slices.Contains(Kinds, i.Kind) {
		f.Add("kind", "An item is single, multiple, order, numeric or match.")
	}
	if i.Difficulty < Easy || i.Difficulty > Hard {
		f.Add("difficulty", "The difficulty is 1, 2 or 3.")
	}
	if strings.TrimSpace(i.Source) == "" {
		f.Add("source", "Name the source, or say: common practice, no source.")
	}
	if _, ok := i.Texts["en"]; !ok {
		f.Add("en", "An item is asked in English at least.")
	}
	i.checkRight(&f)
	for language, t := range i.Texts {
		if why := i.checkText(t); why != "" {
			f.Add(language, "%s", why)
		}
	}
	return f.Err()
}

func (i Item) checkRight(f *fault.Fields) {
	n := i.Options()
	switch i.Kind {
	case Single, Multiple:
		if i.Kind == Single && len(i.Right) != 1 || len(i.Right) == 0 || len(i.Right) >= n || !distinct(i.Right, n) {
			f.Add("right", "Say which options are right: one of several for single, some but not all for multiple.")
		}
	case Numeric:
		if i.Low == nil || i.High == nil || i.Low.Cmp(*i.High) > 0 {
			f.Add("low", "A number is accepted from low through high.")
		}
		if i.Unit == "" || !slices.Contains(i.Units, i.Unit) || len(i.Units) > mostOptions {
			f.Add("unit", "The unit that is right is among those offered.")
		}
	}
	if (i.Kind == Single || i.Kind == Multiple) != (len(i.Right) > 0) || (i.Kind == Numeric) != (i.Unit != "" || i.Low != nil || i.High != nil || len(i.Units) > 0) {
		f.Add("kind", "What is given fits another kind of item.")
	}
}

// checkText says what is wrong with the words in one language; empty: nothing.
func (i Item) checkText(t Text) string {
	n := i.Options()
	options, left := 0, 0
	switch i.Kind {
	case Single, Multiple, Order:
		options = n
	case Match:
		left = n
	}
	switch {
	case strings.TrimSpace(t.Ask) == "" || strings.TrimSpace(t.Teach) == "":
		return "It asks something, and teaches something after the answer."
	case len(t.Options) != options || len(t.Left) != left || len(t.Right) != left:
		return "It has as many options as in English, of its kind."
	case i.Kind != Numeric && (n < 2 || n > mostOptions):
		return "It has two to eight options."
	}
	for _, list := range [][]string{{t.Ask}, {t.Teach}, t.Options, t.Left, t.Right} {
		seen := map[string]bool{}
		for _, said := range list {
			key := strings.ToLower(strings.TrimSpace(said))
			if key == "" || seen[key] || utf8.RuneCountInString(said) > longestText {
				return "Each option says something of its own, in at most 600 letters."
			}
			seen[key] = true
		}
	}
	return ""
}

// distinct reports whether all are of 1 to n and none is there twice.
func distinct(all []int, n int) bool {
	seen := map[int]bool{}
	for _, one := range all {
		if one < 1 || one > n || seen[one] {
			return false
		}
		seen[one] = true
	}
	return true
}
