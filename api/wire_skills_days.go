package api

import (
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/office"
	"wellshown/assessment/postgres"
)

// SkillsDayForm is a skills day as it is planned.
type SkillsDayForm struct {
	On       string        `json:"on" format:"date" doc:"The day: today or later."`
	Name     string        `json:"name" maxLength:"1000"`
	Place    string        `json:"place" maxLength:"1000" doc:"Where it is; sheets that begin at its stations say so."`
	Stations []StationForm `json:"stations" maxItems:"24"`
	Learners []string      `json:"learners" maxItems:"200" doc:"The ids of those who come."`
}

// NewSkillsDay is a skills day to be planned.
type NewSkillsDay struct {
	SkillsDayForm
	ID string `json:"id,omitempty" doc:"A UUID of your own, so that sending twice plans one day."`
}

// ChangedSkillsDay is a skills day as it is to be from now on.
type ChangedSkillsDay struct {
	SkillsDayForm
	Version string `json:"version" doc:"Of the day as it was read."`
}

// StationForm is one station.
type StationForm struct {
	No       int    `json:"no" doc:"Its number, from 1 to 24. It stays with the station."`
	Skill    string `json:"skill" doc:"A code." example:"bagging"`
	Observer string `json:"observer" doc:"The id of an educator who may observe the skill on that day."`
	Client   string `json:"client,omitempty" doc:"The id of the child whose values it is judged by, also on a manikin. Asked for where the skill is held for one child."`
}

// SkillsDaySummary is a skills day in a list.
type SkillsDaySummary struct {
	ID           string     `json:"id" format:"uuid"`
	On           string     `json:"on" format:"date"`
	Name         string     `json:"name"`
	Place        string     `json:"place"`
	Planner      Named      `json:"planned_by"`
	StationCount int        `json:"station_count"`
	LearnerCount int        `json:"learner_count"`
	EndedAt      *time.Time `json:"ended_at,omitempty" doc:"Left out: it was not ended."`
}

// SkillsDay is a skills day with where everybody is and goes.
type SkillsDay struct {
	SkillsDaySummary
	Version  string             `json:"version" doc:"Of the plan: the same while it is the same."`
	Stations []Station          `json:"stations"`
	Learners []SkillsDayLearner `json:"learners"`
}

// Station is one station of a skills day.
type Station struct {
	No       int        `json:"no"`
	Skill    SkillRef   `json:"skill"`
	Observer PersonRef  `json:"observer"`
	Client   *ClientRef `json:"client,omitempty" doc:"Whose values it is judged by."`
	Closed   string     `json:"closed,omitempty" doc:"Why nothing that is shown here can count."`
}

// SkillsDayLearner is somebody who comes to a skills day.
type SkillsDayLearner struct {
	Person   PersonRef `json:"person"`
	At       int       `json:"at,omitempty" doc:"The station where they are; left out: at none."`
	Next     int       `json:"next,omitempty" doc:"The station where they go next; left out: nowhere now."`
	Unsigned []int     `json:"unsigned" doc:"Stations whose demonstration must be signed before they can go on."`
	Visits   []Visit   `json:"visits" doc:"In the order in which they go."`
}

// Visit is one station for one learner.
type Visit struct {
	Station  int        `json:"station"`
	Asking   string     `json:"asking" enum:"due,free,held,excused" doc:"Whether they should show it: due; free, never shown and not required; held; excused by a waiver."`
	Standing string     `json:"standing" enum:"not started,learning,current,due,lapsed,withdrawn,waived" doc:"On the day."`
	Why      string     `json:"why"`
	First    []int      `json:"first" doc:"Stations that come before it for them."`
	Cannot   []string   `json:"cannot" doc:"Why what they show here would make nobody current."`
	Shown    []DayShown `json:"shown" doc:"What they showed of it on the day, oldest first."`
}

// DayShown is a demonstration as a skills day tells of it.
type DayShown struct {
	ID        string    `json:"id" format:"uuid"`
	Outcome   string    `json:"outcome" enum:"competent,not yet competent,stopped for safety"`
	Formal    bool      `json:"formal"`
	At        time.Time `json:"performed_at"`
	Observer  string    `json:"observer"`
	Signed    bool      `json:"signed" doc:"By both."`
	TakenBack bool      `json:"taken_back"`
}

// StationFloor is one station as whoever stands at it sees it.
type StationFloor struct {
	Station Station     `json:"station"`
	ToCome  []PersonRef `json:"to_come" doc:"Due here and not shown yet; whoever goes here next comes first."`
	Here    []PersonRef `json:"here"`
	Done    []PersonRef `json:"done" doc:"Who showed it on the day, well or not."`
	InVain  []PersonRef `json:"in_vain" doc:"For whom it is due, and what they show here cannot count."`
}

func (f SkillsDayForm) read() (office.SkillsDayForm, error) {
	o := office.SkillsDayForm{On: f.On, Name: f.Name, Place: f.Place}
	var err error
	if o.Learners, err = ids[assessment.PersonID](f.Learners); err != nil {
		return o, err
	}
	for _, s := range f.Stations {
		n := office.StationForm{No: s.No, Skill: s.Skill}
		if n.Observer, err = assessment.ParseID[assessment.PersonID](s.Observer); err != nil {
			return o, err
		}
		if n.Client, err = maybeID[assessment.ClientID](s.Client); err != nil {
			return o, err
		}
		o.Stations = append(o.Stations, n)
	}
	return o, nil
}

func skillsDaySummary(d postgres.SkillsDay) SkillsDaySummary {
	return SkillsDaySummary{ID: string(d.ID), On: d.HeldOn.String(), Name: d.Name, Place: d.Place, Planner: Named{string(d.PlannedBy), d.Planner},
		StationCount: d.Stations, LearnerCount: d.Learners, EndedAt: maybeInstant(d.EndedAt)}
}

func skillsDay(v office.SkillsDayView) SkillsDay {
	return SkillsDay{SkillsDaySummary: skillsDaySummary(v.SkillsDay), Version: v.Version, Stations: each(v.Stations, skillsDayStation), Learners: each(v.Learners, skillsDayLearner)}
}

func skillsDayStation(s office.StationView) Station {
	return Station{No: s.No, Skill: skillRef(s.Skill), Observer: personRef(s.Observer), Client: clientRef(s.Client), Closed: s.Closed}
}

func skillsDayLearner(l office.LearnerOfDay) SkillsDayLearner {
	return SkillsDayLearner{Person: personRef(l.Person), At: l.At, Next: l.Onward.Station, Unsigned: numbers(l.Onward.Unsigned), Visits: each(l.Round, visit)}
}

func visit(v office.VisitView) Visit {
	return Visit{Station: v.Station.No, Asking: string(v.Asking), Standing: string(v.Stand.Word), Why: v.WhyAsked(civil.Date.String), First: numbers(v.First),
		Cannot: texts(v.Cannot), Shown: each(v.Shown, dayShown)}
}

func dayShown(s postgres.Shown) DayShown {
	return DayShown{ID: string(s.ID), Outcome: string(s.Outcome), Formal: s.Formal, At: s.PerformedAt.UTC(), Observer: s.Observer, Signed: s.ByObserver && s.ByLearner, TakenBack: s.Corrected}
}

// numbers is a list of numbers that is never null.
func numbers(all []int) []int { return append([]int{}, all...) }
