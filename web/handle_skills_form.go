package web

import (
	"slices"
	"strconv"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
)

func (s *Site) newSkillsDay(v *visit) error {
	page, err := s.skillsDayForm(v, "")
	if err != nil {
		return err
	}
	page.fill(v)
	return v.show(page)
}

// fill takes what a proposal has put into the address: a day, a skill for the first
// station, and who comes. What does not fit is left out.
func (p *SkillsDayFormPage) fill(v *visit) {
	if on, err := v.day("on"); err == nil && !on.IsZero() {
		p.On = isoDay(on)
	}
	come := v.c.QueryArray("learner")
	for i, l := range p.Learners {
		p.Learners[i].Chosen = slices.Contains(come, l.Value)
	}
	skill := v.query("skill")
	if len(p.Stations) > 0 && slices.ContainsFunc(p.Stations[0].Skills, func(o Option) bool { return o.Value == skill }) {
		p.Stations[0].Skill = skill
	}
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
	if err := v.take(&faults, refused, "The skills day was not saved.", label("on", "Day"), label("name", "Name"), label("place", "Place"),
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
