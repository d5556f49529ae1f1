package catalog_test

import (
	"bytes"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/goccy/go-yaml"

	"wellshown/assessment"
	"wellshown/assessment/catalog"
	"wellshown/assessment/fault"
	"wellshown/assessment/written"
)

func TestAnUnknownSkillIsNotFound(t *testing.T) {
	for _, code := range []string{"", "juggling", "../catalog/bagging", "bagging.yaml"} {
		if _, err := catalog.Get(code); fault.KindOf(err) != fault.NotFound {
			t.Errorf("%q gives %v", code, err)
		}
	}
}

func TestStepsAreNumberedAndFew(t *testing.T) {
	for _, c := range all(t) {
		list := c.Steps()
		if len(list) < 12 || len(list) > 30 {
			t.Errorf("%s has %d steps", c.Code, len(list))
		}
		for i, s := range list {
			if s.No != i+1 || s.Weight != 1 {
				t.Errorf("%s: step %d is numbered %d and weighs %d", c.Code, i+1, s.No, s.Weight)
			}
			if s.Critical && s.Least != assessment.Independent {
				t.Errorf("%s, step %d is critical and accepts %s", c.Code, s.No, s.Least)
			}
		}
	}
}

func TestSafetyComesFirstAndIsNotAll(t *testing.T) {
	for _, c := range all(t) {
		if c.Safety[0] != catalog.Safety {
			t.Errorf("%s begins with the caution %q", c.Code, c.Safety[0])
		}
		if len(c.Safety) < 2 || c.Purpose == "" || len(c.Equipment) < 5 || len(c.Sources) < 5 {
			t.Errorf("%s lacks cautions of its own, purpose, equipment or sources", c.Code)
		}
	}
	for _, must := range []string{"signed orders", "maker's instructions", "local codes", "licensed", "local emergency number", "in force by default"} {
		if !strings.Contains(catalog.Safety, must) {
			t.Errorf("the general caution does not speak of %s", must)
		}
	}
}

// A skill comes after all it builds on, so that no circle can be.
func TestSkillsAreInTeachingOrder(t *testing.T) {
	seen := map[string]bool{}
	for _, c := range all(t) {
		for _, p := range c.Prerequisites {
			if !seen[p] {
				t.Errorf("%s needs %s, which is not taught before it", c.Code, p)
			}
		}
		for _, r := range c.Related {
			if !slices.Contains(catalog.Codes(), r) || r == c.Code {
				t.Errorf("%s is related to %q", c.Code, r)
			}
		}
		seen[c.Code] = true
	}
}

var braces = regexp.MustCompile(`\{([a-z0-9_]+)\}`)

// used lists the parameters that a step's words and ranges name.
func used(s assessment.Step) []string {
	var names []string
	for _, m := range braces.FindAllStringSubmatch(s.Text+s.Because+s.Note+s.MayNotApply, -1) {
		names = append(names, m[1])
	}
	for _, m := range s.Measures {
		for _, b := range []*assessment.Bound{m.Low, m.High} {
			if b != nil {
				names = append(names, b.Uses()...)
			}
		}
	}
	return names
}

func TestParametersAreThoseOfTheTableAndAllAreUsed(t *testing.T) {
	table := catalog.Parameters()
	wanted := map[string]bool{}
	for _, c := range all(t) {
		inThis := map[string]bool{}
		for _, s := range c.Steps() {
			for _, name := range used(s) {
				inThis[name], wanted[name] = true, true
			}
		}
		var declared []string
		for _, p := range c.Parameters {
			declared = append(declared, p.Name)
			if !slices.ContainsFunc(table, func(q assessment.Parameter) bool { return q.Name == p.Name && q.Says == p.Says && q.Unit == p.Unit }) {
				t.Errorf("%s: parameter %s is not as in the table", c.Code, p.Name)
			}
			if !inThis[p.Name] {
				t.Errorf("%s declares %s and does not use it", c.Code, p.Name)
			}
		}
		for name := range inThis {
			if !slices.Contains(declared, name) {
				t.Errorf("%s uses %s undeclared", c.Code, name)
			}
		}
		for _, words := range append(append(c.Safety, c.Equipment...), c.Purpose, c.Title) {
			if braces.MatchString(words) {
				t.Errorf("%s: braces where no value of a child can stand: %s", c.Code, words)
			}
		}
	}
	for _, p := range table {
		if !wanted[p.Name] {
			t.Errorf("no skill uses the parameter %s", p.Name)
		}
	}
}

// numbered is what may stand behind a number of our own or of others in a note.
var numbered = regexp.MustCompile(`no source|WHO 2009|AARC 20|ATS 20|AHA 20|common teaching|common practice`)

// Each timed and measured step has a comparison and a unit, or says that it is
// for the record only; a number that is written into it says where it is from.
func TestEveryValueHasARangeAUnitAndASource(t *testing.T) {
	for _, c := range all(t) {
		for _, s := range c.Steps() {
			for i, m := range s.Measures {
				if m.Unit == "" {
					t.Errorf("%s, step %d: %s has no unit", c.Code, s.No, m.Name)
				}
				referred := i+1 < len(s.Measures) && s.Measures[i+1].Low != nil && s.Measures[i+1].Low.Measure == m.Name
				if !m.Judged() && !referred && !strings.Contains(s.Note, "For the record only") {
					t.Errorf("%s, step %d: %s has no range and the note does not say so", c.Code, s.No, m.Name)
				}
				for _, b := range []*assessment.Bound{m.Low, m.High} {
					own := b != nil && (b.Parameter == "" || b.Times != nil)
					if own && !numbered.MatchString(s.Note) {
						t.Errorf("%s, step %d: %s is %s, from where?", c.Code, s.No, m.Name, m.RangeInWords())
					}
				}
			}
		}
	}
}

// What stands in the catalogue is read by a second library too, and comes to
// the same words: github.com/goccy/go-yaml shares no code with the reader.
func TestASecondReaderSeesTheSame(t *testing.T) {
	for _, c := range all(t) {
		src, err := catalog.Source(c.Code)
		if err != nil {
			t.Fatal(err)
		}
		var raw struct {
			Title    string
			Safety   []string
			Sections []struct {
				Title string
				Steps []struct {
					No                         int
					Text, Kind, Critical, Note string
					MayNotApply                string `yaml:"may_not_apply"`
				}
			}
		}
		if err := yaml.Unmarshal(src, &raw); err != nil {
			t.Fatalf("%s: %v", c.Code, err)
		}
		if raw.Title != c.Title || !slices.Equal(raw.Safety, c.Safety) || len(raw.Sections) != len(c.Sections) {
			t.Fatalf("%s: head or sections differ", c.Code)
		}
		for i, section := range raw.Sections {
			for j, s := range section.Steps {
				got := c.Sections[i].Steps[j]
				if s.No != got.No || s.Text != got.Text || s.Kind != string(got.Kind) || s.Critical != got.Because || s.Note != got.Note || s.MayNotApply != got.MayNotApply {
					t.Errorf("%s, step %d: %+v and %+v", c.Code, s.No, s, got)
				}
			}
		}
	}
}

func TestTheCatalogueKeepsThroughBothWrittenForms(t *testing.T) {
	for _, c := range all(t) {
		asJSON, err := written.EncodeJSON(c)
		if err != nil {
			t.Fatal(err)
		}
		fromJSON, err := written.DecodeJSON(asJSON)
		if err != nil {
			t.Fatal(err)
		}
		asYAML, err := written.EncodeYAML(fromJSON)
		if err != nil {
			t.Fatal(err)
		}
		fromYAML, err := written.DecodeYAML("", asYAML)
		if err != nil {
			t.Fatal(err)
		}
		if d := assessment.Diff(c, fromYAML); len(d) > 0 {
			t.Errorf("%s changed on the way: %v", c.Code, d)
		}
		if again, err := written.EncodeJSON(fromYAML); err != nil || !bytes.Equal(asJSON, again) {
			t.Errorf("%s: the bytes differ, %v", c.Code, err)
		}
	}
}

func BenchmarkAll(b *testing.B) {
	for b.Loop() {
		if _, err := catalog.All(); err != nil {
			b.Fatal(err)
		}
	}
}
