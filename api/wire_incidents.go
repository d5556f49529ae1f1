package api

import (
	"time"

	"wellshown/assessment/office"
)

// IncidentForm records something that was seen to go wrong in a skill.
type IncidentForm struct {
	ID        string `json:"id,omitempty" doc:"A UUID of your own, so that sending twice is harmless."`
	Person    string `json:"person" doc:"Whose hands: an id."`
	Skill     string `json:"skill" maxLength:"200" doc:"The code."`
	Client    string `json:"client,omitempty" doc:"The child: an id. Needed where the skill is held for each child."`
	Happened  string `json:"happened" maxLength:"40" doc:"Day and time; without an offset on the agency's clocks."`
	Seen      string `json:"seen" maxLength:"4000" doc:"What was seen, without a diagnosis."`
	Withdraws string `json:"withdraws,omitempty" enum:"skill and related,skill alone,nothing" doc:"Left out: as the agency's rules of practice say. Less than they say is refused."`
	Signing
}

// IncidentID names an incident that was recorded.
type IncidentID struct {
	ID string `json:"id" format:"uuid"`
}

// Incident is something that was seen to go wrong in a skill.
type Incident struct {
	ID        string     `json:"id" format:"uuid"`
	Person    PersonRef  `json:"person"`
	Skill     SkillRef   `json:"skill"`
	Client    *ClientRef `json:"client,omitempty"`
	Happened  time.Time  `json:"happened"`
	Seen      string     `json:"seen"`
	Withdraws string     `json:"withdraws" enum:"skill and related,skill alone,nothing"`
	Recorded  time.Time  `json:"recorded"`
	By        string     `json:"by" doc:"Name as signed."`
	Open      bool       `json:"open" doc:"It waits for somebody to close it."`
	Closed    *SaidAt    `json:"closed,omitempty"`
	Record    string     `json:"record,omitempty" format:"uuid" doc:"The demonstration that evaluated it again."`
	TakenBack *SaidAt    `json:"taken_back,omitempty"`
}

// SaidAt is what somebody said and signed.
type SaidAt struct {
	At    time.Time `json:"at"`
	By    string    `json:"by" doc:"Name as signed."`
	Words string    `json:"words"`
}

// IncidentNow is an incident with what came of it.
type IncidentNow struct {
	Incident
	Took     []IncidentTook `json:"took" doc:"What it withdrew, its own skill first."`
	Breaks   []CoverLine    `json:"breaks" doc:"Shifts of the coming 60 days that break by it. For whoever reads reports."`
	Visits   []HomeVisit    `json:"visits" doc:"On the plan, at which it can be shown again."`
	Proposed []HomeVisit    `json:"proposed" doc:"The same, that nobody has planned yet."`
	Records  []string       `json:"records" doc:"Demonstrations by which it could be closed."`
	Waits    string         `json:"waits,omitempty" doc:"Why it cannot be closed yet."`
}

// IncidentTook is one standing that an incident took away.
type IncidentTook struct {
	Skill    SkillRef   `json:"skill"`
	Client   *ClientRef `json:"client,omitempty"`
	Before   string     `json:"before" enum:"not started,learning,current,due,lapsed,withdrawn,waived" doc:"On the day before it happened."`
	Now      string     `json:"now" enum:"not started,learning,current,due,lapsed,withdrawn,waived"`
	Stands   bool       `json:"stands" doc:"It is not shown again yet."`
	Required bool       `json:"required"`
}

// IncidentClosing closes an incident.
type IncidentClosing struct {
	Record string `json:"record" doc:"The demonstration that evaluated it again: an id."`
	Note   string `json:"note" maxLength:"4000" doc:"How they were taught again, and what the record shows."`
	Signing
}

// Practice is which rules of practice the agency uses.
type Practice struct {
	IncidentWithdraws string `json:"incident_withdraws" enum:"skill and related,skill alone"`
	IncidentByItself  bool   `json:"incident_by_itself" doc:"False: whoever records one says what it withdraws."`
	InService         bool   `json:"in_service" doc:"In-service hours of aides are counted."`
	InServiceHours    string `json:"in_service_hours" maxLength:"20" doc:"Asked for in 12 months, such as 12 or 7:30."`
	InServiceYear     string `json:"in_service_year" enum:"calendar year,employment anniversary"`
	OrientationCounts bool   `json:"orientation_counts"`
	Supervision       bool   `json:"supervision" doc:"Supervision of aides is kept."`
}

func incident(i office.IncidentView) Incident {
	return Incident{ID: string(i.ID), Person: personRef(i.Person), Skill: skillRef(i.Skill), Client: clientRef(i.Client), Happened: i.Happened, Seen: i.Seen, Withdraws: string(i.Withdraws),
		Recorded: i.Recorded, By: i.By, Open: i.Open, Closed: saidAt(i.Closed, i.ClosedBy, i.Note), Record: string(i.Record), TakenBack: saidAt(i.TakenBack, i.BackBy, i.BackWhy)}
}

func saidAt(at time.Time, by, words string) *SaidAt {
	if at.IsZero() {
		return nil
	}
	return &SaidAt{at, by, words}
}

func incidentNow(d office.IncidentDesk) IncidentNow {
	return IncidentNow{Incident: incident(d.IncidentView), Waits: d.Waits.String(), Visits: each(d.Visits, homeVisit), Proposed: each(d.Proposed, homeVisit), Breaks: each(d.Breaks, coverLine),
		Records: each(d.Records, func(r office.RecordRef) string { return string(r.ID) }),
		Took: each(d.Took, func(t office.IncidentTook) IncidentTook {
			return IncidentTook{Skill: skillRef(t.Skill), Client: clientRef(t.Client), Before: string(t.Before), Now: string(t.Now.Word), Stands: t.Stands, Required: t.Required}
		})}
}
