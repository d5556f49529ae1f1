package api

import (
	"wellshown/assessment/office"
)

// Visits is the plan of visits, and what is proposed besides.
type Visits struct {
	Until    string       `json:"until" format:"date" doc:"The last day looked at."`
	Version  string       `json:"version" doc:"Of all that the proposal was made of."`
	Planned  []HomeVisit  `json:"planned"`
	Proposed []HomeVisit  `json:"proposed"`
	Unmet    []UnmetVisit `json:"unmet" doc:"By last day."`
	Renewals int          `json:"renewals" doc:"How many are met before they lapse."`
	Gaps     int          `json:"gaps" doc:"How many skills are met that are not held today."`
	Proven   bool         `json:"proven" doc:"No plan meets more, or as much with fewer visits."`
	Minutes  int          `json:"minutes" doc:"Of travel for what is proposed."`
	Weeks    []VisitWeeks `json:"weeks" doc:"How educators' weeks are."`
	Ways     []Way        `json:"ways" doc:"How long the ways are that somebody has measured."`
}

// HomeVisit is an educator at a home on a day. It makes nobody current.
type HomeVisit struct {
	ID       string     `json:"id,omitempty" format:"uuid" doc:"Left out for what is proposed."`
	Key      string     `json:"key" doc:"Names a proposed visit."`
	On       string     `json:"on" format:"date"`
	Client   *ClientRef `json:"client"`
	Educator PersonRef  `json:"educator"`
	Sees     []DueVisit `json:"sees" doc:"What is due there, by last day."`
	Faults   []string   `json:"faults" doc:"Why it cannot be made as it is planned."`
}

// DueVisit is what somebody has to show.
type DueVisit struct {
	Person  PersonRef  `json:"person"`
	Skill   SkillRef   `json:"skill"`
	Client  *ClientRef `json:"client,omitempty" doc:"The child it is held for."`
	Word    string     `json:"word" enum:"not started,learning,current,due,lapsed,withdrawn,waived"`
	Opens   string     `json:"opens" format:"date"`
	Through string     `json:"through" format:"date"`
	Lapses  bool       `json:"lapses" doc:"It is held, and over after the last day."`
	Needs   string     `json:"needs,omitempty"`
	Before  string     `json:"before,omitempty" doc:"What comes first and is not held yet; it is due as well."`
}

// UnmetVisit is something due that no visit meets.
type UnmetVisit struct {
	DueVisit
	Why string `json:"why"`
}

// VisitWeeks is how an educator's weeks are.
type VisitWeeks struct {
	Educator PersonRef `json:"educator"`
	Set      bool      `json:"set" doc:"Somebody has said so; else it is taken for granted."`
	DaysOff  []int     `json:"days_off" doc:"Each week: 1 is Monday, 7 is Sunday."`
	PerDay   int       `json:"per_day" doc:"Visits on one day at most."`
	Base     string    `json:"base,omitempty" doc:"The place that they start from."`
	Off      []DaysOff `json:"off" doc:"Days on which they make no visits."`
}

// DaysOff is days on which an educator makes no visits.
type DaysOff struct {
	ID      string `json:"id" format:"uuid"`
	From    string `json:"from" format:"date"`
	Through string `json:"through" format:"date"`
}

// Way is how long a way is, the same both ways.
type Way struct {
	ID      string     `json:"id" format:"uuid"`
	Client  *ClientRef `json:"client" doc:"From this home."`
	To      string     `json:"to" doc:"Another child's code, or a place that educators start from."`
	Minutes int        `json:"minutes"`
}

// WeeksForm says how an educator's weeks are.
type WeeksForm struct {
	DaysOff []int  `json:"days_off" maxItems:"7" doc:"Each week: 1 is Monday, 7 is Sunday."`
	PerDay  int    `json:"per_day" minimum:"0" maximum:"12" doc:"Visits on one day at most."`
	Base    string `json:"base,omitempty" doc:"The place that they start from, by its name; not where somebody lives."`
}

// DaysOffForm writes days off down.
type DaysOffForm struct {
	Educator string `json:"educator" doc:"The id."`
	From     string `json:"from" format:"date"`
	Through  string `json:"through,omitempty" format:"date" doc:"Left out: that day only."`
}

// WayForm says how long a way is: from a home to another, or to a place.
type WayForm struct {
	Client  string `json:"client" doc:"The id of the child."`
	Other   string `json:"other,omitempty" doc:"The id of another child; or else a base."`
	Base    string `json:"base,omitempty" doc:"A place by its name."`
	Minutes int    `json:"minutes" minimum:"0" maximum:"720"`
}

// VisitForm plans a visit by hand.
type VisitForm struct {
	ID       string `json:"id,omitempty" doc:"A UUID of your own, so that sending twice plans one."`
	Client   string `json:"client" doc:"The id of the child."`
	Educator string `json:"educator" doc:"The id of who goes there."`
	On       string `json:"on" format:"date" doc:"The day: today or later."`
}

// KeptVisits says which proposed visits are put on the plan.
type KeptVisits struct {
	Weeks   int      `json:"weeks,omitempty" minimum:"0" maximum:"26" doc:"That were asked for. Left out: 8."`
	Version string   `json:"version" doc:"Of the proposal as it was read."`
	Visits  []string `json:"visits,omitempty" maxItems:"1000" doc:"Their keys. Left out: all."`
}

// VisitMoved says where a visit is moved to.
type VisitMoved struct {
	On       string `json:"on" format:"date"`
	Educator string `json:"educator" doc:"The id of who goes there."`
	Version  string `json:"version" doc:"Of what was read to come of it."`
}

// VisitThen is one visit, and what comes of moving it.
type VisitThen struct {
	Visit    HomeVisit  `json:"visit"`
	On       string     `json:"on" format:"date"`
	Educator PersonRef  `json:"educator"`
	Faults   []string   `json:"faults" doc:"Why it cannot be there."`
	Breaks   []DueVisit `json:"breaks" doc:"Met before, and by no visit then."`
	Gains    []DueVisit `json:"gains"`
	Longer   int        `json:"longer" doc:"Minutes of travel; negative: less."`
	Version  string     `json:"version"`
}

func visits(v office.VisitsView) Visits {
	return Visits{Until: v.Until.String(), Version: v.Version, Planned: each(v.Kept, homeVisit), Proposed: each(v.Proposed, homeVisit),
		Unmet: each(v.Unmet, func(u office.UnmetVisit) UnmetVisit { return UnmetVisit{dueVisit(u.DueVisit), u.Why} }), Renewals: v.Renewals, Gaps: v.Gaps, Proven: v.Proven, Minutes: v.Minutes,
		Weeks: each(v.Educators, visitWeeks), Ways: each(v.Ways, func(w office.WayView) Way { return Way{string(w.ID), clientRef(w.From), w.To, w.Minutes} })}
}

func homeVisit(v office.HomeVisitView) HomeVisit {
	return HomeVisit{ID: string(v.ID), Key: v.Key, On: v.On.String(), Client: clientRef(v.Client), Educator: personRef(v.Educator), Sees: each(v.Sees, dueVisit), Faults: texts(v.Faults)}
}

func dueVisit(d office.DueVisit) DueVisit {
	return DueVisit{Person: personRef(d.Person), Skill: skillRef(d.Skill), Client: clientRef(d.With), Word: string(d.Word), Opens: d.Opens.String(), Through: d.Through.String(), Lapses: d.Lapses, Needs: d.Needs, Before: d.Before}
}

func visitThen(m office.MovedVisit) VisitThen {
	return VisitThen{Visit: homeVisit(m.Visit), On: m.On.String(), Educator: personRef(m.To), Faults: texts(m.Faults), Breaks: each(m.Breaks, dueVisit), Gains: each(m.Gains, dueVisit), Longer: m.Longer, Version: m.Version}
}

func visitWeeks(v office.VisitWeeksView) VisitWeeks {
	return VisitWeeks{Educator: personRef(v.Educator), Set: v.Set, DaysOff: append([]int{}, v.DaysOff...), PerDay: v.PerDay, Base: v.Base.Name,
		Off: each(v.Off, func(d office.DaysOffView) DaysOff { return DaysOff{string(d.ID), d.From.String(), d.Through.String()} })}
}
