package reports

import (
	"fmt"
	"strings"
	"testing"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/office"
)

var (
	theDay = civil.MustParse("2027-01-15")
	lan    = office.PersonRef{ID: "p1", Name: "Nguyễn Thị Lan", Kind: assessment.Family, Relation: "mother"}
	lucja  = office.PersonRef{ID: "p2", Name: "Łucja Żak", Kind: assessment.Nurse}
	zoe    = office.PersonRef{ID: "p3", Name: "Zoë Adeyemi", Kind: assessment.Aide}
	olga   = office.PersonRef{ID: "p4", Name: "Ольга Мартин", Kind: assessment.Nurse}

	suctioning = office.SkillRef{ID: "s1", Code: "suction", Title: "Tracheostomy suctioning"}
	tubeChange = office.SkillRef{ID: "s2", Code: "tube-change", Title: "Planned tracheostomy tube change"}
	bagging    = office.SkillRef{ID: "s3", Code: "bagging", Title: "Manual ventilation with a self-inflating bag"}

	ofMira = office.ClientRef{ID: "c1", Code: "7K", FirstName: "Mira"}
	ofTeo  = office.ClientRef{ID: "c2", Code: "3B", FirstName: "Teo"}
)

func owed(p office.PersonRef, s office.SkillRef, c office.ClientRef, w assessment.StandingWord, through string) office.OverdueLine {
	l := office.OverdueLine{Person: p, Skill: s, Client: c, Word: w}
	if through != "" {
		l.Through = civil.MustParse(through)
		l.DaysLeft = l.Through.Sub(theDay)
	}
	return l
}

// january is the report of an invented agency on 15 January 2027.
func january() office.Overdue {
	return office.Overdue{
		Agency: office.AgencyView{Name: "Larkmoor Home Nursing", Zone: "America/Denver"}, On: theDay, Today: theDay, Through: theDay.AddDays(90),
		Counts: office.OverdueCounts{Lapsed: 2, Withdrawn: 1, NotYet: 2, Week: 1, Month: 2, TwoMonths: 2, All: 3, Current: 310, Waived: 1, Caregivers: 40},
		Lines: []office.OverdueLine{
			owed(lan, suctioning, ofMira, assessment.Lapsed, "2026-12-12"),
			owed(lan, tubeChange, ofMira, assessment.Learning, ""),
			owed(lan, bagging, office.ClientRef{}, assessment.Due, "2027-01-15"),
			owed(lucja, suctioning, ofTeo, assessment.Withdrawn, "2027-08-01"),
			owed(lucja, tubeChange, ofTeo, assessment.Due, "2027-02-10"),
			owed(zoe, bagging, office.ClientRef{}, assessment.NotStarted, ""),
			owed(olga, suctioning, ofMira, assessment.Lapsed, "2027-01-14"),
			owed(olga, bagging, office.ClientRef{}, assessment.Current, "2027-04-15"),
		},
	}
}

func drawnOverdue(t *testing.T, called string, v office.Overdue, q office.OverdueQuery) string {
	t.Helper()
	return drawn(t, called, func() (*paper, error) { return overdue(v, q) })
}

func TestOverdue(t *testing.T) {
	path := drawnOverdue(t, "overdue", january(), office.OverdueQuery{})
	golden(t, "overdue", path)
	says(t, path, "Four of 40 caregivers lack a required skill on 15 January 2027", "3 skills no longer hold", "2 lapsed, 1 withdrawn", "not held yet 2 skills",
		"3 skills end by 15 April 2027", "1 within 7 days, 2 within 30, 2 within 60, 3 by 15 April 2027", "310, those coming due among them",
		"Nguyễn Thị Lan", "Łucja Żak", "Zoë Adeyemi", "Ольга Мартин", "Mira, 7K", "12 Dec 2026", "34 days ago", "1 day ago", "ends that day", "26 days left",
		"90 days left", "As of 15 January 2027")
	// A withdrawn holding has no last day, though it was once good through August.
	saysNot(t, path, "2027-08-01", "Aug 2027")
}

func TestOverdueBySkill(t *testing.T) {
	v := january()
	v.BySkill = true
	v.Lines = []office.OverdueLine{v.Lines[3], v.Lines[0], v.Lines[6], v.Lines[1], v.Lines[4], v.Lines[5], v.Lines[2], v.Lines[7]}
	path := drawnOverdue(t, "overdue-by-skill", v, office.OverdueQuery{BySkill: true})
	golden(t, "overdue-by-skill", path)
	says(t, path, "Four of 40 caregivers", "Łucja Żak, nurse", "Teo, 3B", "Nguyễn Thị Lan, mother")
	if n := strings.Count(said(t, path), "Tracheostomy suctioning"); n != 1 {
		t.Errorf("the skill heads %d groups", n)
	}
}

func TestOverdueFindings(t *testing.T) {
	yesterday, tomorrow := theDay.AddDays(-1), theDay.AddDays(1)
	one := office.Overdue{On: theDay, Today: theDay, Counts: office.OverdueCounts{Caregivers: 1, Lapsed: 1}, Lines: january().Lines[:1]}
	none := office.Overdue{On: theDay, Today: theDay, Counts: office.OverdueCounts{Caregivers: 40, Current: 300}}
	many := one
	many.Counts.Caregivers, many.Lines = 40, nil
	for i := range 13 {
		many.Lines = append(many.Lines, owed(office.PersonRef{ID: assessment.PersonID(fmt.Sprint(i))}, suctioning, ofMira, assessment.Lapsed, "2026-12-12"))
	}
	ahead := none // something comes due, which is not overdue
	ahead.Lines = january().Lines[2:3]
	if got := overdueFinding(english, ahead); got != "Nobody lacks a required skill on 15 January 2027" {
		t.Errorf("what comes due is called overdue: %q", got)
	}
	for want, v := range map[string]office.Overdue{
		"One of 1 caregiver lacks a required skill on 15 January 2027":                                  one,
		"13 of 40 caregivers lack a required skill on 15 January 2027":                                  many,
		"13 of 40 caregivers lacked a required skill on 15 January 2027":                                onToday(many, tomorrow),
		"13 of 40 caregivers will lack a required skill on 15 January 2027, unless they show it before": onToday(many, yesterday),
		"Nobody lacks a required skill on 15 January 2027":                                              none,
		"Nobody lacked a required skill on 15 January 2027":                                             onToday(none, tomorrow),
		"Nobody will lack a required skill on 15 January 2027":                                          onToday(none, yesterday),
		"Nobody has to hold any skill on 15 January 2027":                                               {On: theDay, Today: theDay},
	} {
		if got := overdueFinding(english, v); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

func onToday(v office.Overdue, today civil.Date) office.Overdue {
	v.Today = today
	return v
}

func TestOverdueWithNothingToTell(t *testing.T) {
	v := office.Overdue{Agency: january().Agency, On: theDay, Today: theDay, Through: theDay.AddDays(90), Counts: office.OverdueCounts{Caregivers: 40, Current: 312}}
	says(t, drawnOverdue(t, "overdue-none", v, office.OverdueQuery{}), "Nobody lacks a required skill on 15 January 2027",
		"Nothing ends by 15 April 2027.", "Everything that is required is held, and stays so through 15 April 2027.")
	v.Counts = office.OverdueCounts{}
	path := drawnOverdue(t, "overdue-nobody", v, office.OverdueQuery{})
	says(t, path, "Nobody has to hold any skill on 15 January 2027", "look at the requirements and the teams")
	saysNot(t, path, "Everything that is required is held")
}

func TestOverdueSaysWhatItWasNarrowedTo(t *testing.T) {
	for want, q := range map[string]office.OverdueQuery{
		"Only nurses.":                             {Kind: assessment.Nurse},
		"Only family caregivers for Mira, 7K.":     {Kind: assessment.Family, Client: "c1"},
		"Only what caregivers need for one child.": {Client: "c9"},
	} {
		says(t, drawnOverdue(t, "overdue-only", january(), q), want)
	}
}

// Two hundred lines over pages: each is there once, each group is named again
// where it goes on.
func TestOverdueOfTwoHundredLines(t *testing.T) {
	v := january()
	v.Lines = nil
	for i := range 200 {
		p := office.PersonRef{ID: assessment.PersonID(fmt.Sprint(i / 9)), Name: fmt.Sprintf("Caregiver Number%02d of the Long and Winding Name", i/9), Kind: assessment.Nurse}
		s := office.SkillRef{ID: assessment.SkillID(fmt.Sprint(i)), Code: fmt.Sprint(i), Title: fmt.Sprintf("Skill number %d with a title that is rather long", i)}
		l := owed(p, s, ofMira, assessment.Lapsed, "2027-01-14")
		if i%3 == 1 {
			l = owed(p, s, ofMira, assessment.Due, "2027-02-14")
		}
		v.Lines = append(v.Lines, l)
	}
	path := drawnOverdue(t, "overdue-long", v, office.OverdueQuery{})
	got := said(t, path)
	for i := range 200 {
		if n := strings.Count(got, fmt.Sprintf("Skill number %d with", i)); n != 1 {
			t.Errorf("line %d is there %d times", i, n)
		}
	}
	if !strings.Contains(got, "(continued)") {
		t.Error("no group is named again on the next page")
	}
}

func TestOverdueInAnUnknownZone(t *testing.T) {
	v := january()
	v.Agency.Zone = "Larkmoor/Nowhere"
	if _, err := overdue(v, office.OverdueQuery{}); err == nil {
		t.Error("drawn")
	}
}
