package knowledge_test

import (
	"slices"
	"strings"
	"testing"

	"wellshown/assessment/fault"
	"wellshown/assessment/knowledge"
)

// typedItem is a form that is all right, of a kind.
func typedItem(kind knowledge.Kind) knowledge.Typed {
	t := knowledge.Typed{ID: "ours-1", Kind: kind, Difficulty: "1", NoSource: true, Said: map[string]knowledge.TypedText{
		"en": {Ask: "Which?", Teach: "Because.", Options: []string{"one", "", "two", "three"}}, "es": {Ask: "¿Cuál?", Teach: "Porque sí.", Options: []string{"uno", "", "dos", "tres"}}}}
	switch kind {
	case knowledge.Single:
		t.Right = []int{3}
	case knowledge.Multiple:
		t.Right = []int{4, 1}
	case knowledge.Numeric:
		t.Unit, t.Units, t.Low, t.High = "s", "min, s", "0", "2,5"
		for language, said := range t.Said {
			said.Options = nil
			t.Said[language] = said
		}
	case knowledge.Match:
		for language, said := range t.Said {
			said.Pairs = []string{"I " + language, "", "II " + language, "III " + language}
			t.Said[language] = said
		}
	}
	return t
}

// Rows that are empty are left out, and what is right goes with its row (no source: it is
// our form).
func TestTypedItems(t *testing.T) {
	for _, kind := range knowledge.Kinds {
		i, err := typedItem(kind).Item()
		if err != nil || i.Check() != nil || i.Source != knowledge.NoSource {
			t.Errorf("%s: %+v, %v", kind, i, err)
			continue
		}
		want := map[knowledge.Kind][]int{knowledge.Single: {2}, knowledge.Multiple: {1, 3}}[kind]
		if !slices.Equal(i.Right, want) || kind != knowledge.Numeric && i.Options() != 3 || len(i.Texts) != 2 {
			t.Errorf("%s: %+v", kind, i)
		}
	}
	i, err := typedItem(knowledge.Numeric).Item()
	if err != nil || i.High.String() != "2.5" || !slices.Equal(i.Units, []string{"min", "s"}) {
		t.Errorf("a comma and units: %+v, %v", i, err)
	}
}

// A letter is a letter, however many bytes it takes: the limit is the one that is said (no
// source: it is our form).
func TestLettersAreCountedAsPeopleCountThem(t *testing.T) {
	for letters, fits := range map[int]bool{600: true, 601: false} {
		typed := typedItem(knowledge.Single)
		said := typed.Said["es"]
		said.Teach = strings.Repeat("ñ", letters)
		typed.Said["es"] = said
		if i, err := typed.Item(); (err == nil) != fits {
			t.Errorf("%d letters as typed: %v", letters, err)
		} else if (i.Check() == nil) != fits {
			t.Errorf("%d letters as kept: %v", letters, i.Check())
		}
	}
}

// Each fault is named at its field.
func TestTypedItemsThatAreWrong(t *testing.T) {
	said := func(t *knowledge.Typed, language string, change func(*knowledge.TypedText)) {
		one := t.Said[language]
		one.Options, one.Pairs = slices.Clone(one.Options), slices.Clone(one.Pairs)
		change(&one)
		t.Said[language] = one
	}
	for field, c := range map[string]struct {
		kind  knowledge.Kind
		wrong func(*knowledge.Typed)
	}{
		"source":      {knowledge.Single, func(t *knowledge.Typed) { t.NoSource = false }},
		"difficulty":  {knowledge.Single, func(t *knowledge.Typed) { t.Difficulty = "4" }},
		"right":       {knowledge.Single, func(t *knowledge.Typed) { t.Right = []int{2} }}, // an empty row
		"ask-en":      {knowledge.Order, func(t *knowledge.Typed) { delete(t.Said, "en") }},
		"teach-es":    {knowledge.Order, func(t *knowledge.Typed) { said(t, "es", func(s *knowledge.TypedText) { s.Teach = " " }) }},
		"option-3-es": {knowledge.Multiple, func(t *knowledge.Typed) { said(t, "es", func(s *knowledge.TypedText) { s.Options[2] = "" }) }},
		"option-4-en": {knowledge.Order, func(t *knowledge.Typed) { said(t, "en", func(s *knowledge.TypedText) { s.Options[3] = "ONE" }) }},
		"pair-1-en":   {knowledge.Match, func(t *knowledge.Typed) { said(t, "en", func(s *knowledge.TypedText) { s.Pairs[0] = "" }) }},
		"low":         {knowledge.Numeric, func(t *knowledge.Typed) { t.Low = "few" }},
		"high":        {knowledge.Numeric, func(t *knowledge.Typed) { t.Low = "9" }},
		"unit":        {knowledge.Numeric, func(t *knowledge.Typed) { t.Unit = "" }},
	} {
		typed := typedItem(c.kind)
		c.wrong(&typed)
		_, err := typed.Item()
		if f, ok := fault.As(err); !ok || f.Fields[field] == "" {
			t.Errorf("%s: %v", field, err)
		}
	}
	all := typedItem(knowledge.Multiple)
	all.Right = []int{1, 3, 4}
	if _, err := all.Item(); err == nil {
		t.Error("all of them are right")
	}
	for _, id := range []string{"", "Ours", "a b", "a/b", "-a", "a--b", "señal"} {
		if knowledge.CheckID(id) == nil {
			t.Errorf("the id %q is taken", id)
		}
	}
}
