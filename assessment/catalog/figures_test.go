package catalog_test

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"wellshown/assessment/catalog"
	"wellshown/assessment/knowledge"
	"wellshown/assessment/wording"
)

var (
	figure     = regexp.MustCompile(`[0-9]+(?:[.,][0-9]+)*(?:/[0-9]+)?`)
	verb       = regexp.MustCompile(`%(\[[0-9]+\])?[-+ 0#]*[0-9]*(\.[0-9]+)?[a-zA-Z%]`)
	ofSections = regexp.MustCompile(`(?m)^## .*$`)
)

// figures are the numbers in a text, as they are written in English, in order of their size as text.
func figures(text string) []string {
	all := figure.FindAllString(verb.ReplaceAllString(text, ""), -1)
	for i := range all {
		all[i] = strings.ReplaceAll(all[i], ",", ".")
	}
	slices.Sort(all)
	return all
}

// A number that a translation changes is a dose, a depth or a time that somebody follows. So each
// figure that stands in an English text stands in the Spanish one, and no other (common practice
// in checking translated health texts, no source). They may stand in another order.
func TestFiguresAreTheSameInEveryLanguage(t *testing.T) {
	same := func(where, english, spanish string) {
		if e, s := figures(english), figures(spanish); !slices.Equal(e, s) {
			t.Errorf("%s: the English has %v, the Spanish %v:\n%s\n%s", where, e, s, english, spanish)
		}
	}
	for _, key := range wording.Keys(wording.Spanish) {
		one, other, _ := wording.Known(wording.Spanish, key)
		same("wording", key, other)
		if forOne := figures(one); one != "" && !slices.Equal(forOne, figures(key)) && !slices.Equal(forOne, []string{"1"}) {
			t.Errorf("for one, %q is said with %v: %q", key, forOne, one)
		}
	}
	for _, code := range catalog.Codes() {
		var lessons [2][]string
		for i, l := range []wording.Language{wording.English, wording.Spanish} {
			source, err := catalog.LessonSource(code, l)
			if err != nil {
				t.Fatal(err)
			}
			lessons[i] = ofSections.Split(string(source), -1)
		}
		if len(lessons[0]) != len(lessons[1]) || len(lessons[0]) < 2 {
			t.Fatalf("%s: the lesson has %d and %d parts", code, len(lessons[0]), len(lessons[1]))
		}
		for i := range lessons[0] {
			same("lesson "+code, lessons[0][i], lessons[1][i])
		}
		bank, err := catalog.Items(code)
		if err != nil {
			t.Fatal(err)
		}
		for _, item := range bank.Items {
			english, spanish := saidOf(item, "en"), saidOf(item, "es")
			if len(english) != len(spanish) {
				t.Fatalf("%s says %d things in English and %d in Spanish", item.ID, len(english), len(spanish))
			}
			for i := range english {
				same(item.ID, english[i], spanish[i])
			}
		}
		if !slices.Contains(catalog.Emergencies, code) {
			continue
		}
		scenarios, err := catalog.Scenarios(code)
		if err != nil {
			t.Fatal(err)
		}
		for _, s := range scenarios {
			e, n := s.In("en"), s.In("es")
			for _, pair := range [][2]string{{e.Title, n.Title}, {e.Read, n.Read}, {e.Then, n.Then}, {e.Recognise, n.Recognise}, {e.Act, n.Act}, {e.Call, n.Call}} {
				same(s.ID, pair[0], pair[1])
			}
		}
	}
}

func saidOf(i knowledge.Item, language string) []string {
	t := i.In(language)
	return slices.Concat([]string{t.Ask, t.Teach}, t.Options, t.Left, t.Right)
}

// Each kind of change that was thought of is found.
func TestAChangedFigureIsFound(t *testing.T) {
	for _, c := range []struct {
		english, spanish string
		same             bool
	}{
		{"At most 15 s, 2.5 mm", "A lo sumo 2,5 mm y 15 s", true},
		{"%d of 10", "%[1]d de 10", true},
		{"At most 15 s", "A lo sumo 50 s", false},
		{"At most 15 s", "A lo sumo quince segundos", false},
		{"2.5 mm", "25 mm", false},
		{"Wait", "Espere 10 s", false},
		{"1/2 size up", "1/3 más", false},
	} {
		if got := slices.Equal(figures(c.english), figures(c.spanish)); got != c.same {
			t.Errorf("%q and %q: the same is %v", c.english, c.spanish, got)
		}
	}
}
