package web

import (
	"slices"
	"strconv"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/assessment/postgres"
)

func (s *Site) skillsDays(v *visit) error {
	d, err := s.office.SkillsDays(v.ctx(), v.by())
	if err != nil {
		return err
	}
	page := SkillsDaysPage{Frame: v.frame("today")}
	if v.may(assessment.PlanSkillsDays) {
		page.New = "/skills-days/new"
	}
	for _, k := range d.Days {
		line := SkillsDayLine{Name: k.Name, Href: skillsDayAt(k.ID), Day: longDay(k.HeldOn), Place: k.Place, Stations: k.Stations, Learners: k.Learners, Ended: k.Ender}
		switch {
		case k.EndedAt != nil || k.HeldOn.Before(d.Today):
			page.Past = append(page.Past, line)
		case k.HeldOn == d.Today:
			page.Today = append(page.Today, line)
		default:
			page.Coming = append(page.Coming, line)
		}
	}
	slices.Reverse(page.Coming)
	return v.show(page)
}

func skillsDayAt(id assessment.SkillsDayID) string { return "/skills-days/" + string(id) }

func (s *Site) newSkillsDay(v *visit) error {
	page, err := s.skillsDayForm(v, "")
	if err != nil {
		return err
	}
	return v.show(page)
}

func (s *Site) editSkillsDay(v *visit) error {
	id, err := pathID[assessment.SkillsDayID](v, "id")
	if err != nil {
		return err
	}
	page, err := s.skillsDayForm(v, id)
	if err != nil {
		return err
	}
	return v.show(page)
}

// skillsDayForm draws the form with what is kept; the empty id is a new day.
func (s *Site) skillsDayForm(v *visit, id assessment.SkillsDayID) (SkillsDayFormPage, error) {
	d, err := s.office.SkillsDayDesk(v.ctx(), v.by(), id)
	if err != nil {
		return SkillsDayFormPage{}, err
	}
	page := SkillsDayFormPage{Frame: v.frame("today"), New: id == "", Action: "/skills-days", Back: "/skills-days", ID: string(d.ID), On: isoDay(d.Today)}
	if id != "" {
		page.Action, page.Back = skillsDayAt(id), skillsDayAt(id)
		page.Version, page.Name, page.Place, page.On = d.Version, d.Day.Name, d.Day.Place, isoDay(d.Day.HeldOn)
	}
	for _, p := range d.Learners {
		page.Learners = append(page.Learners, Option{Value: string(p.ID), Text: p.Name, Hint: kindOf(p), Chosen: slices.Contains(d.Comes, p.ID)})
	}
	var stations []office.StationForm
	for _, k := range d.Stations {
		stations = append(stations, office.StationForm{No: k.No, Skill: k.Code, Observer: k.ObserverID, Client: k.ClientID})
	}
	page.Stations = stationFields(d, stations)
	return page, nil
}

// spareStations are the empty lines of the form.
const spareStations = 4

// stationFields are the fields of the stations there are, and some empty ones.
func stationFields(d office.SkillsDayDesk, stations []office.StationForm) []StationFields {
	skills, observers, clients := []Option{{Text: "no station"}}, []Option{{Text: "Choose who observes"}}, []Option{{Text: "no child"}}
	for _, k := range d.Skills {
		text := k.Title
		if k.Specific {
			text += ", for one child"
		}
		skills = append(skills, Option{Value: k.Code, Text: text})
	}
	for _, p := range d.Observers {
		observers = append(observers, Option{Value: string(p.ID), Text: p.Name})
	}
	for _, c := range d.Clients {
		clients = append(clients, Option{Value: string(c.ID), Text: clientName(c)})
	}
	last := 0
	for _, s := range stations {
		last = max(last, s.No)
	}
	var all []StationFields
	for no := 1; no <= min(last+spareStations, office.MostStations); no++ {
		f := StationFields{No: no, Skills: skills, Observers: observers, Clients: clients}
		for _, s := range stations {
			if s.No == no {
				f.Skill, f.Observer, f.Client = s.Skill, string(s.Observer), string(s.Client)
			}
		}
		all = append(all, f)
	}
	return all
}

// sentSkillsDay is a skills day as it was typed. A line without anything is no station.
func sentSkillsDay(v *visit) (office.SkillsDayForm, error) {
	f := office.SkillsDayForm{ID: v.form("id"), Version: v.form("version"), On: v.form("on"), Name: v.form("name"), Place: v.form("place")}
	for no := 1; no <= office.MostStations; no++ {
		n := "-" + strconv.Itoa(no)
		s := office.StationForm{No: no, Skill: v.form("skill" + n)}
		var err error
		if s.Observer, err = formID[assessment.PersonID](v, "observer"+n); err != nil {
			return f, err
		}
		if s.Client, err = formID[assessment.ClientID](v, "client"+n); err != nil {
			return f, err
		}
		if s.Skill != "" || s.Observer != "" || s.Client != "" {
			f.Stations = append(f.Stations, s)
		}
	}
	for _, text := range v.c.PostFormArray("learners") {
		id, err := assessment.ParseID[assessment.PersonID](text)
		if err != nil {
			return f, err
		}
		f.Learners = append(f.Learners, id)
	}
	return f, nil
}

func (s *Site) planSkillsDay(v *visit) error {
	form, err := sentSkillsDay(v)
	if err != nil {
		return err
	}
	day, refused := s.office.PlanSkillsDay(v.ctx(), v.by(), form)
	if refused == nil {
		return v.to(skillsDayAt(day.ID), "The skills day is planned.")
	}
	return s.skillsDayAgain(v, "", form, refused)
}

func (s *Site) saveSkillsDay(v *visit) error {
	id, err := pathID[assessment.SkillsDayID](v, "id")
	if err != nil {
		return err
	}
	form, err := sentSkillsDay(v)
	if err != nil {
		return err
	}
	_, refused := s.office.ChangeSkillsDay(v.ctx(), v.by(), id, form)
	if refused == nil {
		return v.to(skillsDayAt(id), "The skills day is changed.")
	}
	return s.skillsDayAgain(v, id, form, refused)
}

// skillsDayAgain draws the form as it was typed.
func (s *Site) skillsDayAgain(v *visit, id assessment.SkillsDayID, f office.SkillsDayForm, refused error) error {
	var faults Faults
	if err := take(&faults, refused, "The skills day was not saved.", label("on", "Day"), label("name", "Name"), label("place", "Place"),
		label("stations", "Stations"), label("learners", "Learners")); err != nil {
		return err
	}
	d, err := s.office.SkillsDayDesk(v.ctx(), v.by(), id)
	if err != nil {
		return err
	}
	page := SkillsDayFormPage{Frame: v.frame("today"), Faults: faults, New: id == "", Action: "/skills-days", Back: "/skills-days", ID: f.ID, Version: f.Version,
		Name: f.Name, Place: f.Place, On: f.On, Stations: stationFields(d, f.Stations)}
	if id != "" {
		page.Action, page.Back = skillsDayAt(id), skillsDayAt(id)
	}
	if fault.KindOf(refused) == fault.Conflict {
		page.Changed = page.Back
	}
	for _, p := range d.Learners {
		page.Learners = append(page.Learners, Option{Value: string(p.ID), Text: p.Name, Hint: kindOf(p), Chosen: slices.Contains(f.Learners, p.ID)})
	}
	return v.again(page)
}

func (s *Site) endSkillsDay(v *visit) error {
	id, err := pathID[assessment.SkillsDayID](v, "id")
	if err != nil {
		return err
	}
	refused := s.office.EndSkillsDay(v.ctx(), v.by(), id)
	if refused == nil {
		return v.to(skillsDayAt(id), "The skills day is ended. What was shown stays.")
	}
	page, err := s.skillsDayPage(v, id)
	if err != nil {
		return err
	}
	if err := take(&page.Faults, refused, "The skills day was not ended."); err != nil {
		return err
	}
	return v.again(page)
}

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
