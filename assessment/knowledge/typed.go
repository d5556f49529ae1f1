package knowledge

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"wellshown/assessment"
	"wellshown/assessment/fault"
)

// NoSource is what stands for a source where there is none.
const NoSource = "common practice, no source"

// Rows is how many options can be typed.
const Rows = mostOptions

// Typed is an item as it is typed into a form: all of it text, options in rows of which
// some may be empty, both languages of a row beside each other.
type Typed struct {
	ID         string
	Kind       Kind
	Critical   bool
	Difficulty string
	Source     string
	NoSource   bool  // common practice: no source is named
	Right      []int // Single, Multiple: rows, from 1
	Unit       string
	Units      string // parted by commas
	Low, High  string
	Said       map[string]TypedText // by language
}

// TypedText is what is typed in one language. Of rows beyond those there are nothing was
// typed.
type TypedText struct {
	Ask, Teach string
	Options    []string // Single, Multiple, Order; Match: what is on the left
	Pairs      []string // Match: what belongs to it
}

func (t TypedText) option(row int) string { return rowOf(t.Options, row) }
func (t TypedText) pair(row int) string   { return rowOf(t.Pairs, row) }

func rowOf(all []string, row int) string {
	if row >= len(all) {
		return ""
	}
	return strings.TrimSpace(all[row])
}

// Passages are what somebody reads, one each.
func (t TypedText) Passages() []string {
	return append(append([]string{t.Ask, t.Teach}, t.Options...), t.Pairs...)
}

// empty reports whether nothing was typed.
func (t TypedText) empty() bool {
	return strings.TrimSpace(strings.Join(t.Passages(), "")) == ""
}

// TypedOf is an item as a form shows it.
func TypedOf(i Item) Typed {
	t := Typed{ID: i.ID, Kind: i.Kind, Critical: i.Critical, Source: i.Source, Right: i.Right, Unit: i.Unit, Units: strings.Join(i.Units, ", "), Low: decimalOf(i.Low), High: decimalOf(i.High), Said: map[string]TypedText{}}
	if i.Difficulty > 0 {
		t.Difficulty = strconv.Itoa(i.Difficulty)
	}
	if i.Source == NoSource {
		t.Source, t.NoSource = "", true
	}
	for language, text := range i.Texts {
		said := TypedText{Ask: text.Ask, Teach: text.Teach, Options: text.Options}
		if i.Kind == Match {
			said.Options, said.Pairs = text.Left, text.Right
		}
		t.Said[language] = said
	}
	return t
}

var idForm = regexp.MustCompile(`^[a-z0-9]+(-[a-z0-9]+)*$`)

// CheckID refuses an id that cannot stand in an address. It is asked of new items only:
// what is in a bank already keeps its id.
func CheckID(id string) error {
	if !idForm.MatchString(id) || len(id) > 60 {
		return faultIn("id", "Write small letters a to z, figures and single hyphens, such as suction-14.")
	}
	return nil
}

// Item is what was typed as an item. Each fault is named by the field it is in: ask-en,
// option-3-es, pair-1-en, right, low and so on.
func (t Typed) Item() (Item, error) {
	var f fault.Fields
	i := Item{ID: strings.TrimSpace(t.ID), Kind: t.Kind, Critical: t.Critical, Source: strings.TrimSpace(t.Source), Texts: map[string]Text{}}
	if t.NoSource {
		i.Source = NoSource
	}
	if i.Source == "" {
		f.Add("source", "Name the source, or say that there is none.")
	}
	if !slices.Contains([]string{"1", "2", "3"}, t.Difficulty) {
		f.Add("difficulty", "Choose how difficult it is.")
	}
	i.Difficulty, _ = strconv.Atoi(t.Difficulty)
	used := t.used()
	t.texts(&f, &i, used)
	switch t.Kind {
	case Single, Multiple:
		t.right(&f, &i, used)
	case Numeric:
		t.number(&f, &i)
	}
	if err := f.Err(); err != nil {
		return i, err
	}
	return i, i.Check()
}

// used are the rows in which anything was typed.
func (t Typed) used() []int {
	var all []int
	for row := 0; row < Rows && t.Kind != Numeric; row++ {
		for _, said := range t.Said {
			if said.option(row) != "" || t.Kind == Match && said.pair(row) != "" {
				all = append(all, row)
				break
			}
		}
	}
	return all
}

// texts reads both languages: English always, another where anything was typed in it.
func (t Typed) texts(f *fault.Fields, i *Item, used []int) {
	if t.Kind != Numeric && len(used) < 2 {
		f.Add("option-"+strconv.Itoa(min(len(used)+1, Rows))+"-en", "Write two answers at least.")
	}
	for _, language := range []string{"en", "es"} {
		said := t.Said[language]
		if language != "en" && said.empty() {
			continue
		}
		text := Text{Ask: strings.TrimSpace(said.Ask), Teach: strings.TrimSpace(said.Teach)}
		needs(f, "ask-"+language, text.Ask, "Write the question.")
		needs(f, "teach-"+language, text.Teach, "Write what it teaches: why, and never a scolding.")
		options, pairs := map[string]bool{}, map[string]bool{}
		for _, row := range used {
			field := strconv.Itoa(row+1) + "-" + language
			option := said.option(row)
			owns(f, "option-"+field, option, options)
			if t.Kind != Match {
				text.Options = append(text.Options, option)
				continue
			}
			owns(f, "pair-"+field, said.pair(row), pairs)
			text.Left, text.Right = append(text.Left, option), append(text.Right, said.pair(row))
		}
		i.Texts[language] = text
	}
}

func needs(f *fault.Fields, field, text, missing string) {
	switch {
	case text == "":
		f.Add(field, "%s", missing)
	case utf8.RuneCountInString(text) > longestText:
		f.Add(field, "This is too long. Say it in at most %d letters.", longestText)
	}
}

// owns asks that a row says something, and nothing that another row says.
func owns(f *fault.Fields, field, text string, seen map[string]bool) {
	needs(f, field, text, "Write it in this language too, or empty the whole row.")
	if text != "" && seen[strings.ToLower(text)] {
		f.Add(field, "Another row says the same.")
	} else {
		seen[strings.ToLower(text)] = true
	}
}

func (t Typed) right(f *fault.Fields, i *Item, used []int) {
	for _, row := range t.Right {
		if n := slices.Index(used, row-1); n >= 0 && !slices.Contains(i.Right, n+1) {
			i.Right = append(i.Right, n+1)
		}
	}
	slices.Sort(i.Right)
	switch {
	case len(i.Right) == 0:
		f.Add("right", "Say what is right.")
	case t.Kind == Single && len(i.Right) > 1:
		f.Add("right", "One answer is right. For several, write an item of another kind.")
	case t.Kind == Multiple && len(i.Right) == len(used):
		f.Add("right", "Not all of them can be right: write one that is not.")
	}
}

func (t Typed) number(f *fault.Fields, i *Item) {
	i.Unit = strings.TrimSpace(t.Unit)
	for _, u := range strings.Split(t.Units, ",") {
		if u = strings.TrimSpace(u); u != "" && !slices.Contains(i.Units, u) {
			i.Units = append(i.Units, u)
		}
	}
	switch {
	case i.Unit == "":
		f.Add("unit", "Write the unit that is right, such as s or cmH2O.")
	case !slices.Contains(i.Units, i.Unit):
		i.Units = append([]string{i.Unit}, i.Units...)
	}
	if len(i.Units) > mostOptions {
		f.Add("units", "Offer at most %d units.", mostOptions)
	}
	i.Low, i.High = t.bound(f, "low", t.Low), t.bound(f, "high", t.High)
	if i.Low != nil && i.High != nil && i.Low.Cmp(*i.High) > 0 {
		f.Add("high", "The highest is below the lowest.")
	}
}

func (t Typed) bound(f *fault.Fields, field, typed string) *assessment.Number {
	n, err := assessment.ParseNumber(decimal(typed))
	if err != nil {
		f.Add(field, "Write a number, such as 12 or 2.5.")
		return nil
	}
	return &n
}
