package web

import (
	"strings"
	"testing"

	"golang.org/x/net/html"

	"wellshown/assessment"
	"wellshown/assessment/catalog"
	"wellshown/assessment/office"
	"wellshown/assessment/wording"
)

// inEnglish lists what a page marks as being in English (WCAG 2.2, success criterion 3.1.2).
func inEnglish(node *html.Node) []*html.Node {
	var all []*html.Node
	for n := range node.Descendants() {
		if n.Type == html.ElementNode && n.Data != "html" && attrOf(n, "lang") == "en" {
			all = append(all, n)
		}
	}
	return all
}

// A caregiver who reads Spanish finds nothing in English on the page of a starter checklist,
// neither marked nor unmarked, but the names of publications. An agency that says it in
// words of its own has these shown as they stand, marked. Common practice, no source.
func TestStarterChecklistsHaveNoEnglishInSpanish(t *testing.T) {
	all, err := catalog.All()
	if err != nil || len(all) != 12 {
		t.Fatal(len(all), err)
	}
	titles := map[string]string{}
	for _, c := range all {
		titles[c.Code] = c.Title
	}
	for _, c := range all {
		r := office.ChecklistReading{ChecklistView: office.ChecklistView{Checklist: c}}
		for _, code := range c.Prerequisites {
			r.Before = append(r.Before, office.NamedSkill{Code: code, Title: titles[code]})
		}
		for _, code := range c.Related {
			r.Around = append(r.Around, office.NamedSkill{Code: code, Title: titles[code]})
		}
		page := starterIn(t, wording.Spanish, r)
		for _, n := range inEnglish(page) {
			t.Errorf("%s: in English: %s", c.Code, textOf(n))
		}
		said := strings.NewReplacer("life support with a tracheostomy", "").Replace(textOf(page)) // a title
		for _, english := range []string{" the ", " and ", " with ", " is ", " no source", " earns "} {
			if at := strings.Index(said, english); at >= 0 {
				t.Errorf("%s: in English without a mark: …%s…", c.Code, said[max(0, at-60):min(len(said), at+60)])
			}
		}
		for _, rule := range c.Policy.InWords() {
			if !strings.Contains(textOf(starterIn(t, wording.English, r)), rule) || strings.Contains(said, rule) {
				t.Errorf("%s: the rule %q is not in the page's language", c.Code, rule)
			}
		}
	}
	own := all[0]
	own.Safety, own.Sections = []string{"Our own caution."}, []assessment.Section{{Steps: []assessment.Step{{No: 1, Text: "Our own step", Note: "Our own note."}}}}
	own.Sources = []string{"Our own book."}
	var marked []string
	for _, n := range inEnglish(starterIn(t, wording.Spanish, office.ChecklistReading{ChecklistView: office.ChecklistView{Checklist: own}})) {
		marked = append(marked, textOf(n))
	}
	if strings.Join(marked, " ") != "Our own caution. Our own step Our own note. Our own book." {
		t.Errorf("an agency's own words are marked as %q", marked)
	}
}

func starterIn(t *testing.T, l wording.Language, r office.ChecklistReading) *html.Node {
	t.Helper()
	page := readingPage(Frame{Language: l}, r)
	page.State = "starter"
	_, pages := embedded()
	body, err := pages.HTML(page)
	if err != nil {
		t.Fatal(err)
	}
	return parsedHTML(t, body)
}
