package web

import (
	"wellshown/assessment"
	"wellshown/assessment/office"
)

func (s *Site) practice(v *visit) error {
	page, err := s.practicePage(v)
	if err != nil {
		return err
	}
	return v.show(page)
}

func (s *Site) practicePage(v *visit) (PracticePage, error) {
	p, err := s.office.Practice(v.ctx(), v.by())
	page := PracticePage{Frame: v.frame("today"), Answer: practiceAnswer(p), Incident: "It withdraws " + scopeWords(p.IncidentWithdraws) + "."}
	if !p.IncidentByItself {
		page.Incident = "Whoever records one says what it withdraws."
	}
	page.InService, page.Supervision = "In-service hours are not counted.", "Supervision of aides is not kept here."
	if p.InService {
		page.InService = office.HoursOf(p.InServiceRule.Minutes) + " hours in each " + yearWords(p.InServiceRule.Year) + "."
		if !p.InServiceRule.Orientation {
			page.InService += " Orientation does not count."
		}
	}
	if p.Supervision {
		page.Supervision = "Assessments of aides’ services are kept, with the day by which the next one is due."
	}
	if p.SetBy.ID != "" {
		page.Set = p.SetBy.Name + ", " + v.instant(p.SetAt)
	}
	if v.may(assessment.SetPractice) {
		page.Action = "/practice"
	}
	page.Form = PracticeForm{Withdraws: string(p.IncidentWithdraws), Scopes: []Option{{Value: string(assessment.SkillAndRelated), Text: "the skill and all related ones", Hint: "with every child"}, {Value: string(assessment.SkillAlone), Text: "the skill alone", Hint: "with the child that is named"}},
		ByItself: tick(p.IncidentByItself), InService: tick(p.InService), Hours: office.HoursOf(p.InServiceRule.Minutes), Year: string(p.InServiceRule.Year), Orientation: tick(p.InServiceRule.Orientation), Supervision: tick(p.Supervision)}
	for _, y := range assessment.InServiceYears {
		page.Form.Years = append(page.Form.Years, Option{Value: string(y), Text: "the " + yearWords(y)})
	}
	return page, err
}

// tick is what a box that may be ticked is given.
func tick(on bool) string {
	if on {
		return "yes"
	}
	return ""
}

func yearWords(y assessment.InServiceYear) string {
	if y == assessment.CalendarYear {
		return "calendar year"
	}
	return "year from the day of hire"
}

func practiceAnswer(p office.Practice) string {
	answer := "An incident withdraws " + scopeWords(p.IncidentWithdraws)
	if !p.IncidentByItself {
		answer = "Whoever records an incident says what it withdraws"
	}
	switch {
	case p.InService && p.Supervision:
		return answer + "; in-service hours and supervision of aides are kept"
	case p.InService:
		return answer + "; in-service hours are kept"
	case p.Supervision:
		return answer + "; supervision of aides is kept"
	}
	return answer + "; rules for aides are off"
}

func (s *Site) setPractice(v *visit) error {
	f := office.PracticeForm{IncidentWithdraws: v.form("incident_withdraws"), IncidentByItself: v.ticked("incident_by_itself"), InService: v.ticked("in_service"), InServiceHours: v.form("in_service_hours"),
		InServiceYear: v.form("in_service_year"), OrientationCounts: v.ticked("orientation_counts"), Supervision: v.ticked("supervision")}
	refused := s.office.SetPractice(v.ctx(), v.by(), f)
	if refused == nil {
		return v.to("/practice", "The rules are set. Nobody’s standing changed by it.")
	}
	page, err := s.practicePage(v)
	if err != nil {
		return err
	}
	form := &page.Form
	form.Withdraws, form.ByItself, form.InService, form.Hours, form.Year, form.Orientation, form.Supervision = f.IncidentWithdraws, tick(f.IncidentByItself), tick(f.InService), f.InServiceHours, f.InServiceYear, tick(f.OrientationCounts), tick(f.Supervision)
	if err := v.take(&page.Faults, refused, "The rules are as they were.", label("incident_withdraws", "An incident withdraws"), label("in_service_hours", "Hours"), label("in_service_year", "In each")); err != nil {
		return err
	}
	return v.again(page)
}

// aideLinks lead to what of the rules for aides waits for somebody; none where they are off.
func aideLinks(c office.PracticeCounts) []Link {
	var links []Link
	if c.Supervision {
		l := Link{"Supervision of aides", supervisionAt}
		switch {
		case c.Overdue > 0:
			l.Text += ": " + count(c.Overdue, "assessment is", "assessments are") + " overdue"
		case c.Soon > 0:
			l.Text += ": " + count(c.Soon, "assessment is", "assessments are") + " due within 7 days"
		}
		links = append(links, l)
	}
	if c.InService {
		l := Link{"In-service hours", inServiceAt}
		if c.Ending > 0 {
			l.Text += ": " + count(c.Ending, "aide is", "aides are") + " short, with less than 90 days to go"
		}
		links = append(links, l)
	}
	return links
}
