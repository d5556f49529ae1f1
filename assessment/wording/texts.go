package wording

import (
	"embed"
	"fmt"
	"io/fs"
	"maps"
	"path"
	"slices"

	"go.yaml.in/yaml/v3"
	"golang.org/x/text/feature/plural"
	"golang.org/x/text/language"
	"golang.org/x/text/message/catalog"
)

//go:embed es
var files embed.FS

// Starters stand in two places: what skills and a child's values are called goes into
// sentences too; the texts of checklists only where they are said to be such.
const (
	calledIn     = "starters.yaml"
	checklistsIn = "checklists/*.yaml"
)

// text is one sentence in a language: one form, or one for each number.
type text struct {
	Plain      string
	One, Other string
}

// UnmarshalYAML reads a sentence, or its forms for one and for others.
func (t *text) UnmarshalYAML(node *yaml.Node) error {
	if node.Kind == yaml.ScalarNode {
		return node.Decode(&t.Plain)
	}
	var forms struct{ One, Other string }
	if err := node.Decode(&forms); err != nil {
		return fmt.Errorf("line %d: a sentence, or its forms one and other: %w", node.Line, err)
	}
	t.One, t.Other = forms.One, forms.Other
	return nil
}

// read reads the files of a language that a pattern names. A sentence that stands in two
// of them must be the same in both.
func read(l Language, pattern string) (map[string]text, error) {
	all := map[string]text{}
	names, err := fs.Glob(files, path.Join(string(l), pattern))
	if err != nil {
		return nil, fmt.Errorf("list the texts in %s: %w", l, err)
	}
	for _, name := range names {
		some, err := readFile(name)
		if err != nil {
			return nil, err
		}
		for key, t := range some {
			if before, twice := all[key]; twice && before != t {
				return nil, fmt.Errorf("read %s: %q is said otherwise in another file", name, key)
			}
			all[key] = t
		}
	}
	return all, nil
}

func readFile(name string) (map[string]text, error) {
	src, err := files.ReadFile(name)
	if err != nil {
		return nil, fmt.Errorf("read %s: %w", name, err)
	}
	var some map[string]text
	if err := yaml.Unmarshal(src, &some); err != nil {
		return nil, fmt.Errorf("read %s: %w", name, err)
	}
	return some, nil
}

// known has every sentence in every language but English, which is the names themselves;
// starters names what an agency may have taken over as its own words, checklists what its
// checklists say.
var known, starters, checklists = readAll("*.yaml"), readAll(calledIn), readAll(checklistsIn)

func readAll(pattern string) map[Language]map[string]text {
	all := map[Language]map[string]text{}
	for _, l := range Languages[1:] {
		some, err := read(l, pattern)
		if err != nil {
			panic(err) // fixed texts: such a program must not start
		}
		all[l] = some
	}
	return all
}

// texts is the catalogue of every sentence.
var texts = func() *catalog.Builder {
	b := catalog.NewBuilder(catalog.Fallback(language.English))
	for l, all := range known {
		if err := set(b, language.Make(string(l)), all); err != nil {
			panic(err) // fixed texts: such a program must not start
		}
	}
	return b
}()

func set(b *catalog.Builder, tag language.Tag, all map[string]text) error {
	for key, t := range all {
		var err error
		if t.Plain != "" {
			err = b.SetString(tag, key, t.Plain)
		} else {
			err = b.Set(tag, key, plural.Selectf(1, "%d", plural.One, t.One, plural.Other, t.Other))
		}
		if err != nil {
			return fmt.Errorf("set %q in %s: %w", key, tag, err)
		}
	}
	return nil
}

// Known is what a sentence is in a language, by its English text: its form for one,
// empty where nothing is counted, and the form for others; false where it has none.
func Known(l Language, format string) (one, other string, ok bool) {
	t, ok := known[l][format]
	if t.Plain != "" {
		return "", t.Plain, ok
	}
	return t.One, t.Other, ok
}

// Keys are the English texts of all sentences that have a translation.
func Keys(l Language) []string { return slices.Sorted(maps.Keys(known[l])) }
