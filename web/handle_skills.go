package web

import (
	"slices"

	"wellshown/assessment"
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
	if err := v.take(&page.Faults, refused, "The skills day was not ended."); err != nil {
		return err
	}
	return v.again(page)
}
