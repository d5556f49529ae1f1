package web

import (
	"strconv"

	"wellshown/assessment/civil"
	"wellshown/assessment/office"
	"wellshown/assessment/postgres"
)

// when is how a skills day stands to today.
func when(v office.SkillsDayView) string {
	switch {
	case v.EndedAt != nil:
		return "ended"
	case v.HeldOn.Before(v.Today):
		return "over"
	case v.HeldOn == v.Today:
		return "today"
	}
	return "coming"
}

// dayShown is what somebody showed on the day, for the reader.
func dayShown(all []postgres.Shown) []DayShown {
	var shown []DayShown
	for _, s := range all {
		text := sentence(string(s.Outcome))
		text = text[:len(text)-1]
		switch {
		case s.Corrected:
			text += ", taken back since"
		case !s.Formal:
			text += ", as practice"
		case !s.ByObserver || !s.ByLearner:
			text += ", waits for a signature"
		default:
			text += ", signed"
		}
		shown = append(shown, DayShown{Href: demonstrationAt(s.ID), Text: text})
	}
	return shown
}

// why is why somebody should show a skill, with days as on pages.
func why(v office.VisitView) string {
	return sentence(v.WhyAsked(func(d civil.Date) string { return day(d) }))
}

// afterStations says what comes first.
func afterStations(numbers []int) string {
	if len(numbers) == 0 {
		return ""
	}
	var names []string
	for _, n := range numbers {
		names = append(names, strconv.Itoa(n))
	}
	if len(names) == 1 {
		return "After station " + names[0] + ", once that is signed."
	}
	return "After stations " + listed(names) + ", once they are signed."
}
