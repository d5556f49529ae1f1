package api

import (
	"slices"

	"wellshown/assessment/office"
)

// PackDay is a skills day of today with the stations at which the observer observes.
type PackDay struct {
	ID       string        `json:"id" format:"uuid"`
	On       string        `json:"on" format:"date" doc:"On no other day is anything begun at its stations."`
	Name     string        `json:"name"`
	Place    string        `json:"place"`
	Stations []PackStation `json:"stations"`
}

// PackStation is one station with whoever is to come to it.
type PackStation struct {
	No          int         `json:"no"`
	Skill       string      `json:"skill" doc:"The code. Where the observer may not observe it, it is not among the skills of the pack."`
	Title       string      `json:"title"`
	Specific    bool        `json:"specific"`
	ManikinOnly bool        `json:"manikin_only"`
	Client      *ClientRef  `json:"client,omitempty" doc:"Whose values it is judged by; left out: it is for no child."`
	Closed      string      `json:"closed,omitempty" doc:"Why nothing that is shown here can count."`
	Learners    []PackVisit `json:"learners" doc:"Who is here, then who is to come, whoever goes here next first, then who showed it, then for whom it cannot count."`
}

// PackVisit is a station for one learner.
type PackVisit struct {
	ID      string     `json:"id" format:"uuid" doc:"Of the learner."`
	Name    string     `json:"name"`
	Kind    string     `json:"kind" enum:"family,nurse,aide"`
	Word    string     `json:"word" enum:"not started,learning,current,due,lapsed,withdrawn,waived"`
	Through string     `json:"through,omitempty" format:"date"`
	At      int        `json:"at,omitempty" doc:"The station where they are; left out: at none."`
	Next    int        `json:"next,omitempty" doc:"The station where they go next; left out: nowhere now."`
	Leads   bool       `json:"leads" doc:"Asked for because it comes before another that is due."`
	First   []int      `json:"first" doc:"Stations that come before it for them, and must be signed."`
	Cannot  []string   `json:"cannot" doc:"Why what they show here would make nobody current."`
	Shown   []DayShown `json:"shown" doc:"What they showed of it on the day, oldest first."`
	Open    string     `json:"marked_by,omitempty" doc:"Who marks a sheet of it on the site's own pages; left out: nobody."`
}

func packDay(v office.SkillsDayView) PackDay {
	return PackDay{string(v.ID), v.HeldOn.String(), v.Name, v.Place, each(v.Stations, func(s office.StationView) PackStation { return packStation(v.Floor(s)) })}
}

func packStation(f office.StationFloor) PackStation {
	s := f.Station
	return PackStation{s.No, s.Skill.Code, s.Skill.Title, s.Specific, s.ManikinOnly, clientRef(s.Client), s.Closed,
		each(slices.Concat(f.Here, f.ToCome, f.Done, f.Not), func(l office.LearnerOfDay) PackVisit { return packVisit(l, l.Visit(s.No)) })}
}

func packVisit(l office.LearnerOfDay, v office.VisitView) PackVisit {
	p := PackVisit{string(l.Person.ID), l.Person.Name, string(l.Person.Kind), string(v.Stand.Word), v.Stand.Through.String(), l.At, l.Onward.Station, v.Leads,
		numbers(v.First), texts(v.Cannot), each(v.Shown, dayShown), ""}
	if v.Open != nil {
		p.Open = v.Open.Observer
	}
	return p
}
