package demo_test

import (
	"fmt"
	"slices"
	"testing"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/office"
)

// dates are fifty days from before the agency was founded to more than a year
// after the last one, so that standings to come are compared too.
func (m *made) dates() []civil.Date {
	var days []civil.Date
	for i := range 50 {
		days = append(days, m.Today.AddDays(-740+23*i+i%3))
	}
	return days
}

// tally counts comparisons and reports the first few that fail.
type tally struct {
	t               *testing.T
	compared, wrong int
}

func (c *tally) same(what, fold, index string) {
	c.compared++
	if fold == index {
		return
	}
	if c.wrong++; c.wrong <= 20 {
		c.t.Errorf("%s: the fold says %s, the index %s", what, fold, index)
	}
}

// said is an answer in one line; where nothing holds there are no days left.
func said(word assessment.StandingWord, through civil.Date, left int) string {
	if !word.Holds() {
		left = 0
	}
	return fmt.Sprintf("%s through %s, %d days left", word, through, left)
}

// foldAndIndexAgree compares, for every caregiver, skill and child on fifty days,
// what the fold says with what the grid and the overdue report say, which read the
// index. It also has the whole index made anew, which must find nothing wrong.
func foldAndIndexAgree(t *testing.T, m *made) {
	c := &tally{t: t}
	people := m.caregivers(t)
	children, err := m.office.Clients(t.Context(), m.desk, "")
	if err != nil {
		t.Fatal(err)
	}
	for _, day := range m.dates() {
		folds := map[assessment.PersonID][]office.StandingView{}
		for _, p := range people {
			v, err := m.office.StandingsOf(t.Context(), m.desk, p.ID, day)
			if err != nil {
				t.Fatal(err)
			}
			folds[p.ID] = v.Rows
		}
		c.wholeGrid(m, day, folds)
		for _, child := range children {
			c.childsGrid(m, day, child, folds)
		}
		c.overdue(m, day, people, folds)
	}
	c.oneByOne(m, people)
	t.Logf("%d comparisons of fold and index, %d wrong", c.compared, c.wrong)
	found, err := m.office.Rebuild(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	if len(found.Wrong) > 0 || found.Cases < 400 {
		t.Errorf("a rebuild of the index finds %d of %d cases wrong", len(found.Wrong), found.Cases)
	}
}

// severity is from worst to best, as the grid has it: of several children the
// worst that is required, else the best that is held.
var severity = []assessment.StandingWord{assessment.Withdrawn, assessment.Lapsed, assessment.NotStarted, assessment.Learning,
	assessment.Waived, assessment.Due, assessment.Current}

// expected is what a cell must say by the fold; nil where it must be empty.
func expected(rows []office.StandingView, skill assessment.SkillID) *office.StandingView {
	var best *office.StandingView
	for _, required := range []bool{true, false} {
		for i, r := range rows {
			if r.Skill.ID != skill || r.Required != required {
				continue
			}
			was := -1
			if best != nil {
				was = slices.Index(severity, best.Word)
			}
			is := slices.Index(severity, r.Word)
			if was < 0 || required && is < was || !required && is > was {
				best = &rows[i]
			}
		}
		if best != nil {
			return best
		}
	}
	return nil
}

func (c *tally) wholeGrid(m *made, day civil.Date, folds map[assessment.PersonID][]office.StandingView) {
	g, err := m.office.Grid(c.t.Context(), m.desk, office.GridQuery{On: day})
	if err != nil {
		c.t.Fatal(err)
	}
	for _, row := range g.Rows {
		for i, cell := range row.Cells {
			what := fmt.Sprintf("%s, %s on %s", row.Person.Name, g.Skills[i].Code, day)
			want := expected(folds[row.Person.ID], g.Skills[i].ID)
			switch {
			case want == nil && cell.Known:
				// A case whose first entry lies after the day is in the fold's list and not yet in the index.
				c.same(what, "nothing", string(cell.Word))
			case want == nil:
				c.same(what, "nothing", "nothing")
			case !cell.Known:
				c.same(what, string(want.Word), string(assessment.NotStarted))
			default:
				c.same(what, string(want.Word), string(cell.Word))
			}
		}
	}
}

// childsGrid compares cell by cell: with one child chosen there is only one case.
func (c *tally) childsGrid(m *made, day civil.Date, child office.ClientView, folds map[assessment.PersonID][]office.StandingView) {
	g, err := m.office.Grid(c.t.Context(), m.desk, office.GridQuery{On: day, Client: child.ID})
	if err != nil {
		c.t.Fatal(err)
	}
	for _, row := range g.Rows {
		for i, cell := range row.Cells {
			index := said(assessment.NotStarted, civil.Date{}, 0)
			if cell.Known {
				index = said(cell.Word, cell.Through, cell.DaysLeft)
			}
			fold := said(assessment.NotStarted, civil.Date{}, 0)
			for _, r := range folds[row.Person.ID] {
				if r.Skill.ID == g.Skills[i].ID && (r.Client.ID == "" || r.Client.ID == child.ID) {
					fold = said(r.Word, r.Through, r.DaysLeft)
				}
			}
			c.same(fmt.Sprintf("%s, %s for %s on %s", row.Person.Name, g.Skills[i].Code, child.Code, day), fold, index)
		}
	}
}

// overdue compares the whole report, line by line, with what the fold says of
// everything that is required.
func (c *tally) overdue(m *made, day civil.Date, people []office.PersonView, folds map[assessment.PersonID][]office.StandingView) {
	v, err := m.office.Overdue(c.t.Context(), m.desk, office.OverdueQuery{On: day})
	if err != nil {
		c.t.Fatal(err)
	}
	lines := map[string]string{}
	for _, l := range v.Lines {
		lines[fmt.Sprintf("%s, %s for %q on %s", l.Person.Name, l.Skill.Code, l.Client.Code, day)] = said(l.Word, l.Through, l.DaysLeft)
	}
	for _, p := range people {
		if !p.LeftOn.IsZero() && !day.Before(p.LeftOn) {
			continue
		}
		for _, r := range folds[p.ID] {
			if !r.Required || r.Word == assessment.Waived || r.Word.Holds() && r.DaysLeft > 90 {
				continue
			}
			what := fmt.Sprintf("%s, %s for %q on %s", p.Name, r.Skill.Code, r.Client.Code, day)
			c.same(what+" (overdue)", said(r.Word, r.Through, r.DaysLeft), lines[what])
			delete(lines, what)
		}
	}
	for what, line := range lines {
		c.same(what+" (overdue)", "nothing", line)
	}
}

// oneByOne asks for single standings, of a sample: they must be those of the list.
func (c *tally) oneByOne(m *made, people []office.PersonView) {
	days := m.dates()
	for i, p := range people {
		day := days[(i*7)%len(days)]
		v, err := m.office.StandingsOf(c.t.Context(), m.desk, p.ID, day)
		if err != nil {
			c.t.Fatal(err)
		}
		for _, r := range v.Rows {
			one, err := m.office.Standing(c.t.Context(), m.desk, p.ID, r.Skill.Code, r.Client.ID, day)
			if err != nil {
				c.t.Fatal(err)
			}
			c.same(fmt.Sprintf("%s, %s alone on %s", p.Name, r.Skill.Code, day), said(one.Word, one.Through, one.DaysLeft), said(r.Word, r.Through, r.DaysLeft))
		}
	}
}
