package catalog_test

import (
	"regexp"
	"strings"
	"testing"

	"wellshown/assessment"
	"wellshown/assessment/catalog"
	"wellshown/assessment/phrase"
	"wellshown/assessment/wording"
)

// Families read each line of a starter checklist in their language: what it is for, what it
// says about safety, its parts, its steps with what is measured and in what, why a step is
// critical and when it may be left out, what whoever observes is told, what is laid out, and
// where it comes from. Common practice, no source.
func TestStarterChecklistsAreSaidInEveryLanguage(t *testing.T) {
	var texts []string
	for _, c := range all(t) {
		texts = append(append(append(append(append(texts, c.Purpose), c.Safety...), c.Equipment...), c.Fitted...), c.Sources...)
		for _, section := range c.Sections {
			texts = append(texts, section.Title)
			for _, s := range section.Steps {
				texts = append(texts, s.Text, s.Because, s.MayNotApply, s.Note)
				for _, m := range s.Measures {
					texts = append(texts, m.Name)
					texts = append(texts, units(assessment.UnitPhrase(m.Unit))...)
				}
			}
		}
	}
	for _, l := range wording.Languages {
		for _, said := range texts {
			in, known := wording.In(l).Theirs(said)
			if said != "" && !known {
				t.Errorf("%q is not known in %s", said, l.Own())
			}
			for _, place := range places.FindAllString(said, -1) {
				if !strings.Contains(in, place) {
					t.Errorf("in %s %q lacks %s", l.Own(), in, place)
				}
			}
		}
	}
	if said, known := wording.In(wording.Spanish).Theirs("Clean hands, twice"); known || said != "Clean hands, twice" {
		t.Errorf("what an agency has changed is said as %q", said)
	}
}

var places = regexp.MustCompile(`\{[a-z0-9_]+\}`)

// units are the words of a unit that are counted, not measured.
func units(p phrase.Phrase) []string {
	var all []string
	for _, a := range p.Args {
		if s, ok := a.(phrase.Step); ok {
			all = append(all, string(s))
		}
	}
	return all
}

// Families read what a starter skill is called, and what a child's values are, in their
// language.
func TestStartersAreCalledSomethingInEveryLanguage(t *testing.T) {
	var named []string
	for _, c := range all(t) {
		named = append(named, c.Title)
	}
	for _, p := range catalog.Parameters() {
		says, _, _ := strings.Cut(p.Says, ",") // as pages say it in short
		named = append(named, says)
	}
	for _, l := range wording.Languages {
		for _, n := range named {
			if _, known := wording.In(l).Theirs(n); !known {
				t.Errorf("%q is not known in %s", n, l.Own())
			}
		}
	}
}
