package office_test

import (
	"cmp"
	"os"
	"slices"
	"strconv"
	"testing"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/office"
	"wellshown/integration/crowd"
)

// Today, the grid and the overdue report of an agency of 500 caregivers say what the fold of
// the records says, case by case, on every day tried. WELLSHOWN_DAYS tries more days.
func TestTheDayOfACrowdIsWhatTheFoldSays(t *testing.T) {
	t.Parallel()
	c := crowd.New(t, crowd.Usual, 1)
	days := []civil.Date{crowd.Now, crowd.Opened, crowd.Now.AddDays(-400), crowd.Now.AddDays(-1), crowd.Now.AddDays(45), crowd.Now.AddDays(500)}
	more, _ := strconv.Atoi(os.Getenv("WELLSHOWN_DAYS"))
	for i := range more {
		days = append(days, crowd.Opened.AddDays(i*1500/max(more, 1)))
	}
	folded := must(c.Office.FoldEverything(t.Context(), c.Coordinator, days))(t)
	a := &agreement{T: t, c: c}
	for _, day := range days {
		a.day, a.fold = day, folded[day]
		a.grid(must(c.Office.Grid(t.Context(), c.Coordinator, office.GridQuery{On: day}))(t))
		a.overdue(must(c.Office.Overdue(t.Context(), c.Coordinator, office.OverdueQuery{On: day}))(t))
	}
	for _, ahead := range []int{0, 45, 500} {
		c.Day(crowd.Now.AddDays(ahead).String())
		a.day, a.fold = crowd.Now.AddDays(ahead), folded[crowd.Now.AddDays(ahead)]
		a.today(must(c.Office.CoordinatorDesk(t.Context(), c.Coordinator))(t), must(c.Office.Overdue(t.Context(), c.Coordinator, office.OverdueQuery{}))(t))
	}
	t.Logf("%d comparisons on %d days agree: %v", a.compared, len(days), a.words)
	for _, w := range []assessment.StandingWord{assessment.NotStarted, assessment.Learning, assessment.Current, assessment.Due, assessment.Lapsed, assessment.Withdrawn, assessment.Waived} {
		if a.words[w] == 0 {
			t.Errorf("nobody was %s on any day: this tries less than it says", w)
		}
	}
}

type agreement struct {
	*testing.T
	c        *crowd.Crowd
	day      civil.Date
	fold     office.FoldedDay
	compared int
	words    map[assessment.StandingWord]int
}

// worstFirst is the order in which a cell tells of several children.
var worstFirst = []assessment.StandingWord{assessment.Withdrawn, assessment.Lapsed, assessment.NotStarted, assessment.Learning, assessment.Waived, assessment.Due, assessment.Current}

// grid compares each cell with the cases that the fold knows of it, and the counts with the cells.
func (a *agreement) grid(g office.Grid) {
	a.Helper()
	if a.words == nil {
		a.words = map[assessment.StandingWord]int{}
	}
	cases := map[assessment.PersonID][]assessment.CaseKey{}
	for key := range a.fold.Standings {
		cases[key.Person] = append(cases[key.Person], key)
	}
	var counts office.GridCounts
	for _, row := range g.Rows {
		counts.People++
		for i, cell := range row.Cells {
			a.compared++
			a.words[cell.Word]++
			want := a.told(row.Person.ID, g.Skills[i], cases[row.Person.ID])
			if cell.Known != want.Known || cell.Word != want.Word || cell.Required != want.Required || cell.Through != want.Through {
				a.Fatalf("on %s %s in %s is %+v in the grid, and by the fold %+v", a.day, row.Person.Name, g.Skills[i].Code, cell, want)
			}
			count(&counts, cell)
		}
	}
	if g.Counts != counts {
		a.Errorf("on %s the grid counts %+v, its cells %+v", a.day, g.Counts, counts)
	}
}

// told is a cell by the fold, chosen by sorting: a withdrawal first, then the worst that is
// required, else the best.
func (a *agreement) told(person assessment.PersonID, skill office.SkillRef, cases []assessment.CaseKey) office.GridCell {
	var cells []office.GridCell
	for _, key := range cases {
		s := a.fold.Standings[key]
		required := slices.Contains(a.fold.Needs[person], assessment.Need{Skill: skill.Code, Client: key.Client})
		if key.Skill == skill.ID && (required || s.Word != assessment.NotStarted) {
			cells = append(cells, office.GridCell{Required: required, Known: true, Word: s.Word, Through: s.Through, Client: office.ClientRef{ID: key.Client, Code: a.codeOf(key.Client)}})
		}
	}
	slices.SortFunc(cells, func(x, y office.GridCell) int {
		return cmp.Or(slices.Index(worstFirst, x.Word)-slices.Index(worstFirst, y.Word), x.Through.Compare(y.Through), cmp.Compare(x.Client.Code, y.Client.Code))
	})
	if len(cells) == 0 {
		return office.GridCell{}
	}
	if i := slices.IndexFunc(cells, func(c office.GridCell) bool { return c.Required }); i >= 0 && cells[0].Word != assessment.Withdrawn {
		return cells[i]
	} else if i < 0 && cells[0].Word != assessment.Withdrawn {
		return cells[len(cells)-1]
	}
	return cells[0]
}

func (a *agreement) codeOf(id assessment.ClientID) string {
	for _, child := range a.c.Children {
		if child.ID == id {
			return child.Code
		}
	}
	return ""
}

func count(n *office.GridCounts, c office.GridCell) {
	if !c.Required {
		return
	}
	n.Needed++
	switch c.Word {
	case assessment.Due:
		n.Due++
		n.Current++
	case assessment.Current:
		n.Current++
	case assessment.Lapsed, assessment.Withdrawn:
		n.Lapsed++
	case assessment.Waived:
		n.Waived++
	default:
		n.NotYet++
	}
}

// overdue compares each line, and how many there are of each kind among all that is required.
func (a *agreement) overdue(v office.Overdue) {
	a.Helper()
	for _, l := range v.Lines {
		a.compared++
		s := a.fold.Standings[assessment.CaseKey{Person: l.Person.ID, Skill: l.Skill.ID, Client: l.Client.ID}]
		if s.Word != l.Word || s.Through != l.Through {
			a.Fatalf("on %s %s in %s is %+v in the report, and by the fold %+v", a.day, l.Person.Name, l.Skill.Code, l, s)
		}
	}
	want := office.OverdueCounts{Caregivers: v.Counts.Caregivers}
	for person, needs := range a.fold.Needs {
		for _, n := range needs {
			a.compared++
			s := a.fold.Standings[assessment.CaseKey{Person: person, Skill: a.fold.Skills[n.Skill], Client: n.Client}]
			switch left := s.Through.Sub(a.day); s.Word {
			case assessment.Lapsed:
				want.Lapsed++
			case assessment.Withdrawn:
				want.Withdrawn++
			case assessment.Waived:
				want.Waived++
			case assessment.NotStarted, assessment.Learning:
				want.NotYet++
			default:
				want.Current++
				for days, at := range map[int]*int{7: &want.Week, 30: &want.Month, 60: &want.TwoMonths, 90: &want.All} {
					if left <= days {
						*at++
					}
				}
			}
		}
	}
	if v.Counts != want || len(v.Lines) != want.Lapsed+want.Withdrawn+want.NotYet+want.All {
		a.Errorf("on %s the report counts %+v in %d lines, the fold %+v", a.day, v.Counts, len(v.Lines), want)
	}
}

// today compares the first page with the report of the same day, and its lines with the fold.
func (a *agreement) today(v office.CoordinatorDesk, report office.Overdue) {
	a.Helper()
	a.compared += 9
	if v.Counts != report.Counts || v.Today != a.day {
		a.Errorf("on %s today counts %+v, the report %+v", a.day, v.Counts, report.Counts)
	}
	for _, line := range v.Troubles {
		a.compared++
		s := a.fold.Standings[assessment.CaseKey{Person: line.Person.ID, Skill: line.Skill.ID, Client: line.Client.ID}]
		if s.Word != line.Word || s.Through != line.Through || s.Word == assessment.Waived {
			a.Errorf("on %s %s in %s is %s through %s on the first page, and by the fold %s through %s", a.day, line.Person.Name, line.Skill.Code, line.Word, line.Through, s.Word, s.Through)
		}
	}
	if len(v.Troubles) == 0 {
		a.Errorf("nothing is wrong with 500 people on %s", a.day)
	}
}
