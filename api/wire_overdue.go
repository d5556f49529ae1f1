package api

import "wellshown/assessment/office"

// Overdue is what caregivers have to hold and do not, or will not for long.
type Overdue struct {
	On      string        `json:"on" format:"date"`
	Today   string        `json:"today" format:"date" doc:"The day it is where the agency is."`
	Through string        `json:"through" format:"date" doc:"Last day looked at."`
	Counts  OverdueCounts `json:"counts"`
	Items   []OverdueLine `json:"items" doc:"In groups, the worst first within each."`
}

// OverdueCounts sums it up. What is waived is told and counted nowhere else.
type OverdueCounts struct {
	Lapsed    int `json:"lapsed"`
	Withdrawn int `json:"withdrawn"`
	NotYet    int `json:"not_yet" doc:"Required and never held."`
	Within7   int `json:"within_7_days"`
	Within30  int `json:"within_30_days"`
	Within60  int `json:"within_60_days"`
	Within    int `json:"within" doc:"Ends within the days asked for."`
	Current   int `json:"current"`
	Waived    int `json:"waived"`
}

// OverdueLine is one requirement that is not met, or soon will not be.
type OverdueLine struct {
	Person   PersonRef  `json:"person"`
	Skill    SkillRef   `json:"skill"`
	Client   *ClientRef `json:"client,omitempty"`
	Standing string     `json:"standing" enum:"not started,learning,current,due,lapsed,withdrawn,waived"`
	Through  string     `json:"through,omitempty" format:"date" doc:"Left out where nothing was ever held."`
	DaysLeft int        `json:"days_left" doc:"Below zero: the days since it ended."`
}

func overdue(v office.Overdue) Overdue {
	c := v.Counts
	return Overdue{On: v.On.String(), Today: v.Today.String(), Through: v.Through.String(),
		Counts: OverdueCounts{c.Lapsed, c.Withdrawn, c.NotYet, c.Week, c.Month, c.TwoMonths, c.All, c.Current, c.Waived},
		Items: each(v.Lines, func(l office.OverdueLine) OverdueLine {
			return OverdueLine{Person: personRef(l.Person), Skill: skillRef(l.Skill), Client: clientRef(l.Client), Standing: string(l.Word),
				Through: l.Through.String(), DaysLeft: l.DaysLeft}
		})}
}
