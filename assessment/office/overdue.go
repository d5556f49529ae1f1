package office

import (
	"cmp"
	"context"
	"slices"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/postgres"
)

// OverdueQuery asks what is overdue on a day and what comes due after it.
type OverdueQuery struct {
	On      civil.Date // zero: today
	Within  int        // days ahead; 0: 90
	BySkill bool       // grouped by skill, else by caregiver
	Client  assessment.ClientID
	Kind    assessment.CaregiverKind
}

// Overdue is what caregivers have to hold and do not, or will not for long.
type Overdue struct {
	Agency  AgencyView
	On      civil.Date
	Today   civil.Date
	Through civil.Date // last day looked at
	BySkill bool
	Lines   []OverdueLine // ordered by group, worst first within it
	Counts  OverdueCounts
}

// OverdueCounts sums it up. Waived is told and counted nowhere else.
type OverdueCounts struct {
	Lapsed, Withdrawn, NotYet int // required and not held
	Week, Month, TwoMonths    int // end within 7, 30 and 60 days
	All                       int // end within the days asked for
	Current, Waived           int
	Caregivers                int // who had to hold anything at all
}

// OverdueLine is one requirement that is not met, or soon will not be.
type OverdueLine struct {
	Person   PersonRef
	Skill    SkillRef
	Client   ClientRef
	Word     assessment.StandingWord
	Through  civil.Date // zero where nothing was ever held
	DaysLeft int        // negative: days since it ended
}

// Overdue answers from the index. Waived requirements are not overdue.
func (o *Office) Overdue(ctx context.Context, by assessment.Actor, q OverdueQuery) (Overdue, error) {
	var v Overdue
	err := o.as(ctx, by, assessment.ReadReports, func(tx *postgres.Tx, now Moment) error {
		if q.On.IsZero() {
			q.On = now.Today
		}
		if q.Within <= 0 {
			q.Within = 90
		}
		t, err := o.table(ctx, tx, q.On, nil)
		if err != nil {
			return err
		}
		team, err := o.teamOn(ctx, tx, q.Client, q.On)
		if err != nil {
			return err
		}
		v = t.overdue(q, team)
		v.Agency, v.Today = viewAgency(now.Agency), now.Today
		return nil
	})
	return v, err
}

func (t *table) overdue(q OverdueQuery, team map[assessment.PersonID]bool) Overdue {
	v := Overdue{On: q.On, Through: q.On.AddDays(q.Within), BySkill: q.BySkill}
	v.Counts = t.missing(q, team, func(l OverdueLine) { v.Lines = append(v.Lines, l) })
	v.Lines = sorted(v.Lines, t.order(q.BySkill))
	return v
}

// missing counts what is required and hands on each line that belongs in the report.
func (t *table) missing(q OverdueQuery, team map[assessment.PersonID]bool, line func(OverdueLine)) OverdueCounts {
	var counts OverdueCounts
	for _, p := range t.people {
		if !t.shows(p, GridQuery{On: q.On, Kind: q.Kind, Client: q.Client}, team) {
			continue
		}
		asked := false
		for _, need := range t.needs[p.ID] {
			if q.Client != "" && need.Client != "" && need.Client != q.Client {
				continue
			}
			asked = true
			if l := t.line(p.ID, t.skill(need.Skill), need.Client); counts.add(l, q.Within) {
				line(l)
			}
		}
		if asked {
			counts.Caregivers++
		}
	}
	return counts
}

// order runs by group, worst first within it.
func (t *table) order(bySkill bool) func(a, b *OverdueLine) int {
	return func(a, b *OverdueLine) int {
		who := cmp.Or(cmp.Compare(a.Person.Name, b.Person.Name), cmp.Compare(a.Person.ID, b.Person.ID))
		what := cmp.Compare(t.byCode[a.Skill.Code], t.byCode[b.Skill.Code])
		worst := int(rankOf(a.Word)) - int(rankOf(b.Word))
		when := a.Through.Compare(b.Through)
		whose := cmp.Compare(a.Client.Code, b.Client.Code)
		if bySkill {
			return cmp.Or(what, worst, when, who, whose)
		}
		return cmp.Or(who, worst, when, what, whose)
	}
}

// sorted sorts lines, which are large, by their places.
func sorted(lines []OverdueLine, order func(a, b *OverdueLine) int) []OverdueLine {
	places := make([]*OverdueLine, len(lines))
	for i := range lines {
		places[i] = &lines[i]
	}
	slices.SortStableFunc(places, order)
	in := make([]OverdueLine, len(lines))
	for i, l := range places {
		in[i] = *l
	}
	return in[:len(in):len(in)]
}

func (t *table) line(person assessment.PersonID, skill SkillRef, client assessment.ClientID) OverdueLine {
	cell := t.one(person, skill, client, true)
	line := OverdueLine{Person: t.names.people[person], Skill: skill, Client: cell.Client, Word: cell.Word, Through: cell.Through}
	if !cell.Through.IsZero() {
		line.DaysLeft = cell.Through.Sub(t.on)
	}
	return line
}

// add counts a line and says whether it belongs in the report.
func (c *OverdueCounts) add(l OverdueLine, within int) bool {
	switch l.Word {
	case assessment.Waived:
		c.Waived++
		return false
	case assessment.Lapsed:
		c.Lapsed++
		return true
	case assessment.Withdrawn:
		c.Withdrawn++
		return true
	case assessment.NotStarted, assessment.Learning:
		c.NotYet++
		return true
	}
	c.Current++
	for _, n := range []struct {
		days int
		at   *int
	}{{7, &c.Week}, {30, &c.Month}, {60, &c.TwoMonths}, {within, &c.All}} {
		if l.DaysLeft <= n.days {
			*n.at++
		}
	}
	return l.DaysLeft <= within
}
