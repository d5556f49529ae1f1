package api

import "wellshown/assessment/office"

// Standing is the answer for one caregiver, one skill, one child where the skill is
// held for each child, and one day.
type Standing struct {
	Person   PersonRef  `json:"person"`
	Skill    SkillRef   `json:"skill"`
	Client   *ClientRef `json:"client,omitempty"`
	On       string     `json:"on" format:"date"`
	Standing string     `json:"standing" enum:"not started,learning,current,due,lapsed,withdrawn,waived"`
	Holds    bool       `json:"holds" doc:"Whether they may do it alone: current and due only."`
	Required bool       `json:"required" doc:"Whether they must hold it."`
	Through  string     `json:"through,omitempty" format:"date" doc:"Last day of the competency as it stands."`
	Since    string     `json:"since,omitempty" format:"date" doc:"First of the unbroken days of this standing."`
	DaysLeft int        `json:"days_left" doc:"To the last day where they hold it, else 0."`
	Because  []string   `json:"because" doc:"Ids of the records that made it so."`
	Next     Next       `json:"next" doc:"What it takes to hold it, or to go on holding it."`
}

// Next is what is needed. Nothing is needed where all is 0, false and empty.
type Next struct {
	Demonstrations int    `json:"demonstrations" doc:"Competent, formal ones."`
	OnOtherDays    int    `json:"on_other_days" doc:"Of them, on days not yet used."`
	ByOthers       int    `json:"by_others" doc:"Of them, seen by observers not yet counted."`
	WithClient     int    `json:"with_client" doc:"Of them, with the real child."`
	Reinstatement  bool   `json:"reinstatement"`
	LaterDay       bool   `json:"later_day" doc:"Not on the day of the withdrawal."`
	Card           bool   `json:"card" doc:"A current resuscitation card."`
	Says           string `json:"says" doc:"In words; empty for nothing."`
}

// PersonStandings is everything that one person holds or has to hold on a day.
type PersonStandings struct {
	Person Person     `json:"person"`
	On     string     `json:"on" format:"date"`
	Today  string     `json:"today" format:"date" doc:"The day it is where the agency is."`
	Items  []Standing `json:"items"`
	Part   bool       `json:"part,omitempty" doc:"What is held for other children is left out: whoever asks is a surveyor who was not let in for them."`
}

// Grid is people by skills on a day.
type Grid struct {
	On     string     `json:"on" format:"date"`
	Today  string     `json:"today" format:"date"`
	Skills []SkillRef `json:"skills"`
	Rows   []GridRow  `json:"rows"`
	Next   string     `json:"next,omitempty" doc:"Where the next page begins: send it as after. Left out on the last page."`
	Counts GridCounts `json:"counts" doc:"Of all who fit, on this page or not."`
}

// GridCounts sums up the cells that are required.
type GridCounts struct {
	People  int `json:"people" doc:"Who fits."`
	Needed  int `json:"needed"`
	Current int `json:"current" doc:"Due ones included."`
	Due     int `json:"due"`
	Lapsed  int `json:"lapsed" doc:"Withdrawn ones included."`
	NotYet  int `json:"not_yet" doc:"Never held."`
	Waived  int `json:"waived"`
}

// GridRow is one person.
type GridRow struct {
	Person PersonRef  `json:"person"`
	Cells  []GridCell `json:"cells" doc:"One for each skill, in their order."`
}

// GridCell is what stands where a person meets a skill: of several children the
// worst case that is required, else the best one that is held.
type GridCell struct {
	Required bool       `json:"required"`
	Standing string     `json:"standing,omitempty" enum:"not started,learning,current,due,lapsed,withdrawn,waived" doc:"Left out where it is neither required nor begun."`
	Holds    bool       `json:"holds"`
	Through  string     `json:"through,omitempty" format:"date"`
	DaysLeft int        `json:"days_left"`
	Client   *ClientRef `json:"client,omitempty" doc:"The child whose case this is."`
}

func standing(v office.StandingView) Standing {
	n := v.Next
	return Standing{Person: personRef(v.Person), Skill: skillRef(v.Skill), Client: clientRef(v.Client), On: v.On.String(), Standing: string(v.Word),
		Holds: v.Word.Holds(), Required: v.Required, Through: v.Through.String(), Since: v.Since.String(), DaysLeft: v.DaysLeft, Because: texts(v.Because),
		Next: Next{n.Demonstrations, n.OnOtherDays, n.ByOthers, n.WithClient, n.Reinstatement, n.LaterDay, n.Card, n.InWords()}}
}

func personStandings(v office.PersonStandings) PersonStandings {
	return PersonStandings{Person: person(v.Person), On: v.On.String(), Today: v.Today.String(), Items: each(v.Rows, standing), Part: v.Part}
}

func grid(v office.Grid) Grid {
	return Grid{On: v.On.String(), Today: v.Today.String(), Next: string(v.Next), Counts: GridCounts(v.Counts), Skills: each(v.Skills, skillRef), Rows: each(v.Rows, func(r office.GridRow) GridRow {
		return GridRow{Person: personRef(r.Person), Cells: each(r.Cells, gridCell)}
	})}
}

func gridCell(c office.GridCell) GridCell {
	if !c.Known {
		return GridCell{Required: c.Required}
	}
	return GridCell{Required: c.Required, Standing: string(c.Word), Holds: c.Word.Holds(), Through: c.Through.String(), DaysLeft: c.DaysLeft, Client: clientRef(c.Client)}
}
