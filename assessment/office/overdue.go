package office

import (
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
	var found []demanded
	v.Counts = t.missing(q, team, func(d demanded) { found = append(found, d) })
	slices.SortFunc(found, t.order(q.BySkill))
	v.Lines = t.lines(found)
	return v
}

// add counts what is required and says whether it belongs in the report.
func (c *OverdueCounts) add(word assessment.StandingWord, daysLeft, within int) bool {
	switch {
	case word == assessment.Waived:
		c.Waived++
		return false
	case word == assessment.Lapsed:
		c.Lapsed++
		return true
	case word == assessment.Withdrawn:
		c.Withdrawn++
		return true
	case !word.Holds(): // not started or learning
		c.NotYet++
		return true
	}
	c.Current++
	for _, n := range []struct {
		days int
		at   *int
	}{{7, &c.Week}, {30, &c.Month}, {60, &c.TwoMonths}, {within, &c.All}} {
		if daysLeft <= n.days {
			*n.at++
		}
	}
	return daysLeft <= within
}
