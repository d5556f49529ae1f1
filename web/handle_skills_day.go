package web

import (
	"fmt"
	"strconv"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

func (s *Site) skillsDay(v *visit) error {
	id, err := pathID[assessment.SkillsDayID](v, "id")
	if err != nil {
		return err
	}
	page, err := s.skillsDayPage(v, id)
	if err != nil {
		return err
	}
	return v.show(page)
}

func (s *Site) skillsDayPage(v *visit, id assessment.SkillsDayID) (SkillsDayPage, error) {
	d, err := s.office.SkillsDay(v.ctx(), v.by(), id)
	if err != nil {
		return SkillsDayPage{}, err
	}
	at := skillsDayAt(id)
	page := SkillsDayPage{Frame: v.frame("today"), Name: d.Name, Day: longDay(d.HeldOn), Place: d.Place, When: when(d), Ended: d.Ender, Cards: at + "/cards.pdf"}
	if v.may(assessment.PlanSkillsDays) && d.EndedAt == nil {
		page.End = at + "/end"
		if page.When != "over" {
			page.Edit = at + "/edit"
		}
	}
	for _, k := range d.Stations {
		line := StationLine{No: k.No, Href: stationAt(id, k.No), Skill: k.Skill.Title, Client: clientName(k.Client), Observer: k.Observer.Name, Closed: k.Closed}
		floor := d.Floor(k)
		line.ToCome, line.Here, line.Done = len(floor.ToCome), len(floor.Here), len(floor.Done)
		page.Stations = append(page.Stations, line)
	}
	for _, l := range d.Learners {
		line := dayLearner(d, l)
		page.Learners = append(page.Learners, line)
		if len(line.Shown) > 0 {
			page.Shown++
		}
		page.Due += due(l)
	}
	return page, nil
}

func stationAt(id assessment.SkillsDayID, no int) string {
	return skillsDayAt(id) + "/stations/" + strconv.Itoa(no)
}

// due counts the stations at which somebody has something to show that can count.
func due(l office.LearnerOfDay) int {
	n := 0
	for _, r := range l.Round {
		if r.Asking == assessment.AskedNow && len(r.Cannot) == 0 && !r.Passed() {
			n++
		}
	}
	return n
}

func dayLearner(d office.SkillsDayView, l office.LearnerOfDay) DayLearner {
	line := DayLearner{Name: l.Person.Name, Href: skillsDayAt(d.ID) + "/learners/" + string(l.Person.ID), Kind: kindOf(l.Person), Where: where(l.At), Onward: onward(d, l)}
	for _, r := range l.Round {
		for _, s := range dayShown(r.Shown) {
			line.Shown = append(line.Shown, r.Station.Title+": "+lower(s.Text))
		}
		if r.Asking == assessment.AskedNow && len(r.Cannot) > 0 {
			line.Vain++
		}
	}
	switch {
	case due(l) > 0 && l.Onward.Station == 0:
		line.Shape = "learning"
	case due(l) > 0 || len(l.Onward.Unsigned) > 0:
		line.Shape = "open"
	case line.Vain > 0:
		line.Shape = "stopped"
	default:
		line.Shape = "met"
	}
	return line
}

// lower has a sentence go on within another.
func lower(text string) string {
	if text == "" {
		return ""
	}
	return strings.ToLower(text[:1]) + text[1:]
}

func where(station int) string {
	if station == 0 {
		return ""
	}
	return fmt.Sprintf("at station %d", station)
}

// onward says where somebody goes next.
func onward(d office.SkillsDayView, l office.LearnerOfDay) string {
	switch next, err := d.Station(l.Onward.Station); {
	case err == nil && l.Onward.Again:
		return fmt.Sprintf("Once more at station %d, %s, if there is time.", next.No, next.Skill.Title)
	case err == nil:
		return fmt.Sprintf("Next: station %d, %s.", next.No, next.Skill.Title)
	case len(l.Onward.Unsigned) > 0:
		return "Waits: what was shown at " + stations(l.Onward.Unsigned) + " must be signed first."
	case len(l.Round) == 0:
		return "There is no station yet."
	case due(l) > 0:
		return "Waits for what comes first."
	}
	for _, r := range l.Round {
		if r.Tried() {
			return "Has been everywhere."
		}
	}
	return "Has nothing to show here."
}

func stations(numbers []int) string {
	var names []string
	for _, n := range numbers {
		names = append(names, strconv.Itoa(n))
	}
	if len(names) == 1 {
		return "station " + names[0]
	}
	return "stations " + listed(names)
}

func caresFor(children []office.ClientRef) string {
	var names []string
	for _, c := range children {
		names = append(names, clientName(c))
	}
	return listed(names)
}

func (s *Site) skillsCard(v *visit) error {
	id, err := pathID[assessment.SkillsDayID](v, "id")
	if err != nil {
		return err
	}
	learner, err := pathID[assessment.PersonID](v, "learner")
	if err != nil {
		return err
	}
	c, err := s.office.SkillsDayCard(v.ctx(), v.by(), id, learner)
	if err != nil {
		return err
	}
	l := c.Learner
	page := SkillsCardPage{Frame: v.frame("today"), Name: l.Person.Name, Kind: kindOf(l.Person), Cares: caresFor(l.Cares), Own: "/people/" + string(learner), Title: c.Day.Name,
		Day: longDay(c.Day.HeldOn), Place: c.Day.Place, Back: skillsDayAt(id), Where: where(l.At), Onward: onward(c.Day, l), Due: due(l)}
	for _, r := range l.Round {
		k, _ := c.Day.Station(r.Station.No)
		line := DayVisit{No: k.No, Href: stationAt(id, k.No), Skill: k.Skill.Title, Client: clientName(k.Client), Observer: k.Observer.Name, Standing: string(r.Stand.Word),
			Why: why(r), First: afterStations(r.First), Shown: dayShown(r.Shown)}
		if r.Asking == assessment.AskedNow {
			line.Cannot = r.Cannot
		}
		if r.Open != nil {
			line.Open = r.Open.Observer
		}
		page.Visits = append(page.Visits, line)
	}
	return v.show(page)
}

func (s *Site) skillsDayCards(v *visit) error {
	id, err := pathID[assessment.SkillsDayID](v, "id")
	if err != nil {
		return err
	}
	body, name, err := s.opt.Papers.SkillsDayCards(v.ctx(), v.by(), id)
	if err != nil {
		return err
	}
	return file(v.c, body, name, "application/pdf")
}
