package office_test

import (
	"fmt"
	"testing"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/office"
	"wellshown/integration/crowd"
)

// Coverage and visits of an agency of 500 caregivers say what the fold of the records says:
// a shift is covered where, on each civil day it touches, whoever is on it holds all that is
// required of them for the child, and what is due somewhere within the plan's days is at a
// visit or named as what cannot be met. The first page says of shifts what coverage says.
func TestShiftsAndVisitsOfACrowdAreWhatTheFoldSays(t *testing.T) {
	t.Parallel()
	c := crowd.New(t, crowd.Usual, 2)
	weekOfNights(t, c)
	const ahead = 6
	until := crowd.Now.AddDays(7*office.VisitWeeks - 1)
	days := []civil.Date{until.AddDays(1)}
	for n := range ahead + 2 {
		days = append(days, crowd.Now.AddDays(n))
	}
	folded := must(c.Office.FoldEverything(t.Context(), c.Coordinator, days))(t)
	b := &shiftAgreement{T: t, folded: folded, words: map[assessment.CoverWord]int{}, left: map[assessment.PersonID]civil.Date{}}
	for _, p := range c.Caregivers {
		b.left[p.ID] = p.Left
	}
	q := office.CoverageQuery{From: crowd.Now, Through: crowd.Now.AddDays(ahead)}
	cover := must(c.Office.Coverage(t.Context(), c.Coordinator, q))(t)
	for _, l := range cover.Lines {
		b.shift(l)
	}
	b.counts(cover)
	b.today(must(c.Office.CoordinatorDesk(t.Context(), c.Coordinator))(t), must(c.Office.Coverage(t.Context(), c.Coordinator, office.CoverageQuery{}))(t))
	b.visits(must(c.Office.Visits(t.Context(), c.Coordinator, office.VisitQuery{}))(t), until)
	t.Logf("%d comparisons agree: shifts %v, due things at visits or named %d", b.compared, b.words, b.due)
	if b.words[assessment.Covered] < 10 || b.words[assessment.Breaks] < 10 || b.words[assessment.OpenYet] < 5 || b.due < 500 {
		t.Error("this tries less than it says")
	}
}

// weekOfNights gives half of the children a shift each night, over two civil days, with
// somebody of their team or nobody on it.
func weekOfNights(t *testing.T, c *crowd.Crowd) {
	t.Helper()
	carers := map[int][]crowd.Caregiver{}
	for _, p := range c.Caregivers {
		for _, child := range p.Cares {
			if p.Left.IsZero() {
				carers[child] = append(carers[child], p)
			}
		}
	}
	busy := map[assessment.PersonID]bool{}
	for i, child := range c.Children {
		if i%2 == 1 || !child.Left.IsZero() {
			continue
		}
		form := office.PatternForm{Client: child.ID, Weekdays: []int{1, 2, 3, 4, 5, 6, 7}, From: "22:00", Until: "06:00", FromOn: crowd.Now.String()}
		for _, p := range carers[i] {
			if form.Person == "" && i%8 != 0 && !busy[p.ID] {
				form.Person, busy[p.ID] = p.ID, true
			}
		}
		must(c.Office.AddPattern(t.Context(), c.Coordinator, form))(t)
	}
}

type shiftAgreement struct {
	*testing.T
	folded   map[civil.Date]office.FoldedDay
	compared int
	due      int
	words    map[assessment.CoverWord]int
	left     map[assessment.PersonID]civil.Date
}

// shift holds one line to the fold on both days that it touches.
func (b *shiftAgreement) shift(l office.CoverLine) {
	b.Helper()
	b.words[l.Word]++
	want := assessment.Covered
	if l.Person.ID == "" {
		want = assessment.OpenYet
	}
	zone := l.Starts.Location()
	for _, on := range []civil.Date{civil.DayOf(l.Starts, zone), civil.DayOf(l.Ends, zone)} {
		b.compared++
		if want == assessment.Covered && !b.holdsAll(l.Person.ID, l.Client.ID, on) {
			want = assessment.Breaks
		}
	}
	if l.Word != want {
		b.Fatalf("the shift of %s with %s on %s is %s, and by the fold %s: %+v", l.Person.Name, l.Client.Code, l.Starts, l.Word, want, l.Lacks)
	}
}

// holdsAll reports whether somebody holds on a day all that is required of them for a
// child, and something is.
func (b *shiftAgreement) holdsAll(person assessment.PersonID, child assessment.ClientID, on civil.Date) bool {
	day, asked := b.folded[on], 0
	for _, n := range day.Needs[person] {
		if n.Client != "" && n.Client != child {
			continue
		}
		asked++
		if !day.Standings[assessment.CaseKey{Person: person, Skill: day.Skills[n.Skill], Client: n.Client}].Word.Holds() {
			return false
		}
	}
	return asked > 0
}

func (b *shiftAgreement) counts(v office.Coverage) {
	b.Helper()
	got := map[assessment.CoverWord]int{assessment.Covered: v.Counts.Covered, assessment.Breaks: v.Counts.Breaks, assessment.OpenYet: v.Counts.Open}
	for word, n := range b.words {
		b.compared++
		if got[word] != n {
			b.Errorf("%d shifts are %s, and %d counted", n, word, got[word])
		}
	}
}

// today holds the first page to the coverage of the same days.
func (b *shiftAgreement) today(v office.CoordinatorDesk, all office.Coverage) {
	b.Helper()
	known := map[assessment.ShiftID]assessment.CoverWord{}
	for _, l := range all.Lines {
		known[l.ID] = l.Word
	}
	if v.Coverage.Counts != all.Counts {
		b.Errorf("the first page counts %+v, coverage %+v", v.Coverage.Counts, all.Counts)
	}
	for _, l := range v.Coverage.Lines {
		b.compared++
		if known[l.ID] != l.Word {
			b.Errorf("shift %s is %s on the first page, and %q in coverage", l.ID, l.Word, known[l.ID])
		}
	}
}

// visits holds what is due by the fold to what a plan meets or names.
func (b *shiftAgreement) visits(v office.VisitsView, until civil.Date) {
	b.Helper()
	planned := map[string]office.DueVisit{}
	add := func(d office.DueVisit) {
		key := fmt.Sprint(d.Person.ID, d.Skill.Code, d.With.ID)
		if _, twice := planned[key]; twice {
			b.Errorf("%s in %s is planned twice", d.Person.Name, d.Skill.Code)
		}
		planned[key] = d
	}
	for _, x := range append(v.Kept, v.Proposed...) {
		for _, s := range x.Sees {
			add(s)
		}
	}
	for _, u := range v.Unmet {
		add(u.DueVisit)
	}
	first, last := b.folded[v.Today], b.folded[until.AddDays(1)]
	wanted := map[string]bool{}
	for _, needs := range []map[assessment.PersonID][]assessment.Need{first.Needs, last.Needs} {
		for person, asked := range needs {
			for _, n := range asked {
				key := assessment.CaseKey{Person: person, Skill: first.Skills[n.Skill], Client: n.Client}
				b.want(wanted, planned, key, n.Skill, last)
			}
		}
	}
	for key, d := range planned {
		if b.compared++; !wanted[key] {
			b.Errorf("%s in %s is planned, and by the fold nothing is due: %+v", d.Person.Name, d.Skill.Code, d)
		}
	}
	b.due = len(planned)
}

// want says of one case whether it is due, and compares what the plan says of it.
func (b *shiftAgreement) want(wanted map[string]bool, planned map[string]office.DueVisit, key assessment.CaseKey, code string, last office.FoldedDay) {
	b.Helper()
	name := fmt.Sprint(key.Person, code, key.Client)
	now, then := b.folded[crowd.Now].Standings[key], last.Standings[key]
	due := now.Word == assessment.Due || now.Word == assessment.Current && !then.Word.Holds() || !now.Word.Holds() && now.Word != assessment.Waived
	if left := b.left[key.Person]; !left.IsZero() && now.Word.Holds() && !left.After(now.Through.AddDays(1)) {
		due = false // it outlasts their time here
	}
	if !due || wanted[name] {
		return
	}
	wanted[name] = true
	b.compared++
	d, there := planned[name]
	switch {
	case !there:
		b.Errorf("%s in %s is %s through %s, and nobody plans for it", key.Person, code, now.Word, now.Through)
	case d.Word != now.Word, d.Lapses && d.Through != now.Through && then.Word.Holds():
		b.Errorf("%s in %s is %s through %s, and the plan has %+v", key.Person, code, now.Word, now.Through, d)
	}
}
