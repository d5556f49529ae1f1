package assessment

import "wellshown/assessment/civil"

// Station is one table of a skills day: a skill, who observes it, and the child whose
// values it is judged by.
type Station struct {
	No       int // on the table; 1 and up
	Skill    Need
	Title    string
	Observer PersonID
	First    []Need // what comes before it
	Closed   string // why nothing that is shown here can count; empty: it can
}

// Stand is how somebody stands in a skill on the day, and whether they must hold it.
type Stand struct {
	Standing
	Title    string
	Required bool
	Can      bool   // competent demonstrations at this day's stations make it current on the day
	Check    string // why the knowledge check that comes first keeps it from counting; empty: it does not
}

// Comer is somebody who comes to a skills day.
type Comer struct {
	Person PersonID
	Gone   string         // why nothing of theirs can count; empty: it can
	Stands map[Need]Stand // in what the stations show and in what comes before that
}

// Asking is whether somebody should go to a station.
type Asking string

// The answers. Free is never shown and not required: nobody asks for it.
const (
	AskedNow Asking = "due"
	Free     Asking = "free"
	Held     Asking = "held"
	Excused  Asking = "excused"
)

// Visit is one station for one learner.
type Visit struct {
	Station Station
	Stand   Stand
	Asking  Asking
	First   []int    // stations that come before it for them
	Leads   bool     // asked for because it comes before another that is due
	Cannot  []string // why what they show here would make nobody current; empty: it could
}

// asking tells whether a standing asks for a demonstration.
func (s Stand) asking() Asking {
	switch s.Word {
	case Current:
		return Held
	case Waived:
		return Excused
	case NotStarted:
		if !s.Required {
			return Free
		}
	}
	return AskedNow
}

// WhyAsked says in words why somebody should show a skill, or why not; day writes a
// day as the reader writes days.
func (v Visit) WhyAsked(day func(civil.Date) string) string {
	why := v.Stand.inWords(day)
	if v.Leads {
		return why + "; it comes before another that is due"
	}
	return why
}

func (s Stand) inWords(day func(civil.Date) string) string {
	switch s.Word {
	case Due:
		return "ends on " + day(s.Through)
	case Lapsed:
		if s.Through.IsZero() || !s.Through.Before(s.On) {
			return "lapsed"
		}
		return "lapsed after " + day(s.Through)
	case Withdrawn:
		return "withdrawn"
	case Learning:
		return "begun, not yet held"
	case Current:
		return "current through " + day(s.Through)
	case Waived:
		return "waived"
	}
	if s.Required {
		return "required, never shown"
	}
	return "never shown, not required"
}
