package reports

import (
	"fmt"
	"strings"
	"testing"

	"wellshown/assessment"
	"wellshown/assessment/catalog"
	"wellshown/assessment/office"
)

// revision is a checklist in force as the office answers it.
func revision(t testing.TB, c assessment.Checklist, change ...func(*office.ChecklistView)) office.ChecklistView {
	t.Helper()
	since := issued
	v := office.ChecklistView{Checklist: c, Zone: denver(t), Agency: office.AgencyView{Name: "Larkmoor Home Nursing"},
		RevisionView: office.RevisionView{ID: "019a9a3e-0000-7000-8000-000000000004", Version: strings.Repeat("3f2a9c0177de81b5", 4), Number: 4, State: assessment.InForce, Title: c.Title, Code: c.Code, DraftedAt: issued.AddDate(0, -1, 0), InForceAt: &since}}
	for _, f := range change {
		f(&v)
	}
	return v
}

func drawnBlank(t *testing.T, called string, v office.ChecklistView) string {
	t.Helper()
	return drawn(t, called, func() (*paper, error) { return blank(v) })
}

func TestBlank(t *testing.T) {
	path := drawnBlank(t, "blank", revision(t, starter(t, "circuit-change")))
	golden(t, "blank", path)
	says(t, path, "Single-limb heated-humidified ventilator circuit change", "revision 4, in force since 18 November 2026",
		"caregiver, printed name", "child, first name and code", "with the child", "in simulation",
		"In a real emergency call the local emergency number.",
		"rub: _________ s · at least 20 s", "or wash: _________ s · at least 40 s",
		"saturation: _________ % · between ______ (A) and ______ (B)", "heart rate: _________ per minute", "old off to new on: _________ s · at most ______ (N)",
		"Critical: Infection.", "Not applicable where: The maker says no filter.", "“I observed and judged this.”", "“I showed this and we talked it over.”",
		"why it does not apply", "what was done at once", "stopped at step", "because", "what is to be practised next",
		"Revision 019a9a3e-0000-7000-8000-000000000004", "Enter it as marked on paper, with a photo or scan of every page",
		"At most 2 steps may be cued.", "not by this paper alone")
	saysNot(t, path, "{", "}", "not in force")
}

// Every starter checklist prints whole: all steps, all reasons, all values, no
// brace left over, and a box for "not applicable" only where a step allows it.
func TestBlankOfEveryStarter(t *testing.T) {
	all, err := catalog.All()
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range all {
		v := revision(t, c)
		path := drawnBlank(t, "blank-"+c.Code, v)
		saysNot(t, path, "{", "}")
		p, err := blank(v)
		if err != nil {
			t.Fatal(err)
		}
		got := flat(strings.Join(pageTexts(p), " "))
		keys := letters(c.Parameters)
		for _, s := range c.Steps() {
			want := []string{s.Text, s.Because, s.MayNotApply, s.Note}
			for _, m := range s.Measures {
				want = append(want, m.Name+": "+longBlank)
				if r := m.RangeInWords(); !strings.Contains(r, "{") {
					want = append(want, r)
				}
				for _, b := range []*assessment.Bound{m.Low, m.High} {
					if b != nil && b.Parameter != "" {
						want = append(want, "{"+b.Parameter+"}")
					}
				}
			}
			for _, w := range want {
				if w = flat(toFill(w, keys)); !strings.Contains(got, w) {
					t.Errorf("%s, step %d: %q is missing", c.Code, s.No, w)
				}
			}
		}
		for _, s := range append(c.Safety, c.Equipment...) {
			if !strings.Contains(got, flat(s)) {
				t.Errorf("%s: %q is missing", c.Code, s)
			}
		}
		if want, boxes := boxesOf(c), countBoxes(p); boxes != want {
			t.Errorf("%s: %d boxes, want %d", c.Code, boxes, want)
		}
	}
}

// Every page tells which text it was printed from and whose it is, so that pages that
// were taken apart can be told from another's (common practice, no source).
func TestEveryPageOfABlankTellsItsRevision(t *testing.T) {
	p, err := blank(revision(t, starter(t, "suction")))
	if err != nil {
		t.Fatal(err)
	}
	finished(t, p)
	path := drawnBlank(t, "blank-pages", revision(t, starter(t, "suction")))
	got := said(t, path)
	if n := strings.Count(got, "text 3f2a-9c01-77de · Page "); n != len(p.pages) || n < 2 {
		t.Errorf("%d of %d pages tell their revision", n, len(p.pages))
	}
	for i := range p.pages {
		one := t.TempDir() + "/one.pdf"
		tool(t, "qpdf", path, "--pages", ".", fmt.Sprint(i+1), "--", one)
		says(t, one, "Checklist revision 4", "caregiver", "day", fmt.Sprintf("Page %d of %d", i+1, len(p.pages)))
	}
}

// flat is a text without its spaces: lines may also end behind a hyphen.
func flat(s string) string { return strings.Join(strings.Fields(s), "") }

func boxesOf(c assessment.Checklist) int {
	n := 2 + 4 + len(c.Equipment) // how it ended, how it was shown, what to lay out
	if c.ManikinOnly {
		n -= 2
	}
	for _, s := range c.Steps() {
		n += len(assessment.Marks)
		if s.MayNotApply != "" {
			n++
		}
	}
	return n
}

func countBoxes(p *paper) int {
	n := 0
	for _, d := range p.pages {
		for _, it := range d {
			if f, ok := it.(figure); ok && len(f.path) == len(boxOutline.path) && f.pen == boxOutline.pen && f.path[0] == boxOutline.path[0] {
				n++
			}
		}
	}
	return n
}

// A revision that is not in force says so before anything else.
func TestBlankThatIsNotInForce(t *testing.T) {
	retired := issued.AddDate(0, 2, 0)
	for state, change := range map[string]func(*office.ChecklistView){
		"draft of 18 October 2026":   func(v *office.ChecklistView) { v.State, v.InForceAt = assessment.Draft, nil },
		"retired on 18 January 2027": func(v *office.ChecklistView) { v.State, v.RetiredAt = assessment.Retired, &retired },
	} {
		path := drawnBlank(t, "blank-"+state[:5], revision(t, starter(t, "suction"), change))
		says(t, path, state, "not in force", "A demonstration on this revision does not count.")
	}
}

func TestBlankOfSixtySteps(t *testing.T) {
	path := drawnBlank(t, "blank-sixty", revision(t, sixtySteps()))
	got := said(t, path)
	for no := 1; no <= 60; no++ {
		if want := fmt.Sprintf("Step number %d of the long list", no); !strings.Contains(got, want) {
			t.Errorf("%q is lost", want)
		}
	}
	saysNot(t, path, "child, first name and code", "From the child’s signed orders", "Lay out")
}

func TestBlankWithoutSteps(t *testing.T) {
	says(t, drawnBlank(t, "blank-empty", revision(t, assessment.Checklist{Code: "x", Title: "Empty"})), "This checklist has no steps yet.")
}

func TestLetters(t *testing.T) {
	var all []assessment.Parameter
	for i := range 60 {
		all = append(all, assessment.Parameter{Name: fmt.Sprint(i)})
	}
	keys := letters(all)
	for i, want := range map[int]string{0: "A", 25: "Z", 26: "AA", 51: "AZ", 52: "BA"} {
		if got := keys[fmt.Sprint(i)]; got != want {
			t.Errorf("parameter %d is %s, want %s", i, got, want)
		}
	}
	if got := toFill("{unknown_name} and {3}", keys); got != "______\u00a0(unknown name) and ______\u00a0(D)" {
		t.Errorf("%q", got)
	}
}
