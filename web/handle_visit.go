package web

import (
	"fmt"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
)

func (s *Site) oneVisit(v *visit) error {
	page, err := s.visitMovePage(v, office.VisitMove{On: v.query("on"), Educator: assessment.PersonID(v.query("educator"))})
	if err != nil {
		return err
	}
	return v.show(page)
}

func (s *Site) visitMovePage(v *visit, m office.VisitMove) (VisitMovePage, error) {
	id, err := pathID[assessment.VisitID](v, "id")
	if err != nil {
		return VisitMovePage{}, err
	}
	d, err := s.office.VisitDesk(v.ctx(), v.by(), id, m)
	if err != nil {
		return VisitMovePage{}, err
	}
	at := "/visits/" + string(id)
	page := VisitMovePage{Frame: v.frame("today"), Line: visitLine(d.Visit), Back: "/visits", Here: at, On: isoDay(d.On), Educator: string(d.To.ID), Version: d.Version, Cannot: d.Faults,
		Asked: m != office.VisitMove{}, Then: d.On.Format("Mon 2 Jan 2006") + " by " + d.To.Name}
	if d.Visit.On == d.Today && d.Visit.Educator.ID == v.by().Person && v.may(assessment.Observe) {
		for i, s := range d.Visit.Sees {
			page.Line.Sees[i].Start = startAddress(s.Person.ID, s.Skill.Code, s.With.ID)
		}
	}
	for _, w := range d.Observe {
		page.Who = append(page.Who, Option{Value: string(w.ID), Text: w.Name})
	}
	for _, b := range d.Breaks {
		page.Breaks = append(page.Breaks, visitDue(b))
	}
	for _, g := range d.Gains {
		page.Gains = append(page.Gains, visitDue(g))
	}
	switch {
	case d.Longer > 0:
		page.Longer = fmt.Sprintf("%s more on the way.", count(d.Longer, "minute", "minutes"))
	case d.Longer < 0:
		page.Longer = fmt.Sprintf("%s less on the way.", count(-d.Longer, "minute", "minutes"))
	}
	if v.may(assessment.PlanVisits) {
		page.Cancel = at + "/cancelling"
		if page.Asked && len(page.Cannot) == 0 {
			page.Move = at
		}
	}
	return page, nil
}

func (s *Site) moveVisit(v *visit) error {
	id, err := pathID[assessment.VisitID](v, "id")
	if err != nil {
		return err
	}
	m := office.VisitMove{On: v.form("on"), Educator: assessment.PersonID(v.form("educator")), Version: v.form("version")}
	refused := s.office.MoveVisit(v.ctx(), v.by(), id, m)
	if refused == nil {
		return v.to("/visits", "The visit is moved.")
	}
	return s.visitAgain(v, m, refused, "The visit was not moved.")
}

// visitAgain shows a visit again after something about it was refused.
func (s *Site) visitAgain(v *visit, m office.VisitMove, refused error, what string) error {
	m.Version = ""
	page, err := s.visitMovePage(v, m)
	if fault.KindOf(err) == fault.Invalid {
		page, err = s.visitMovePage(v, office.VisitMove{})
	}
	if err != nil {
		return err
	}
	if err := v.take(&page.Faults, refused, what, label("on", "Day"), label("educator", "Who goes there")); err != nil {
		return err
	}
	return v.again(page)
}

func (s *Site) cancelVisit(v *visit) error {
	id, err := pathID[assessment.VisitID](v, "id")
	if err != nil {
		return err
	}
	if err := s.office.CancelVisit(v.ctx(), v.by(), id); err != nil {
		return err
	}
	return v.to("/visits", "The visit is off the plan. What it met is proposed anew.")
}
