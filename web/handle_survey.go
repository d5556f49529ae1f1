package web

import (
	"wellshown/assessment"
	"wellshown/assessment/office"
)

// survey is a surveyor's first page: who was competent, on that day.
func (s *Site) survey(v *visit) error {
	page := SurveyorHomePage{Frame: v.frame("survey"), Find: v.query("find"), On: v.query("on"), Duties: duties(v.by(), "/survey"),
		Whole: v.whole(assessment.ReadReports), Access: v.by().Survey != nil}
	on, err := v.day("on")
	if err != nil {
		page.Faults = Faults{What: "Nothing was looked up.", Next: "Give the day as YYYY-MM-DD, or leave it empty for today.",
			Fields: []FieldFault{{"on", "On the day", err.Error()}}}
		return v.again(page)
	}
	if page.Find == "" {
		return v.show(page)
	}
	page.Asked = true
	people, next, err := s.office.People(v.ctx(), v.by(), office.PeopleQuery{Find: page.Find, Left: true})
	if err != nil {
		faults, unknown := v.wrong(err, "Nothing was looked up.", label("find", "Name"))
		if unknown != nil {
			return unknown
		}
		page.Faults, page.Asked = faults, false
		return v.again(page)
	}
	for _, p := range people {
		found := FoundPerson{Name: p.Name, Kind: whatIs(p), Href: "/people/" + string(p.ID)}
		if !on.IsZero() {
			found.Href += "?on=" + on.String()
		}
		page.Found = append(page.Found, found)
	}
	page.More = next != ""
	return v.show(page)
}
