package web

import (
	"context"
	"net/url"
	"slices"
	"strconv"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
)

func (s *Site) visits(v *visit) error {
	educator := assessment.PersonID(v.query("educator"))
	page, err := s.visitsPage(v, v.query("weeks"), educator)
	if fault.KindOf(err) != fault.Invalid {
		if err != nil {
			return err
		}
		return v.show(page)
	}
	bad := err
	if page, err = s.visitsPage(v, "", educator); err != nil {
		return err
	}
	page.Weeks = v.query("weeks")
	if err := v.take(&page.Filter, bad, "This cannot be shown.", label("weeks", "Ahead"), label("educator", "Visits of")); err != nil {
		return err
	}
	return v.again(page)
}

// visitQuery reads what was asked for; nothing typed is as many weeks as usual.
func visitQuery(weeks string, educator assessment.PersonID) (office.VisitQuery, error) {
	n, err := strconv.Atoi(weeks)
	if weeks != "" && err != nil {
		return office.VisitQuery{}, mustChoose(false, "weeks", "Give the weeks as a number.")
	}
	return office.VisitQuery{Weeks: n, Educator: educator}, nil
}

func (s *Site) visitsPDF(v *visit) error {
	return s.visitsFile(v, s.opt.Papers.Visits, "application/pdf")
}

func (s *Site) visitsICS(v *visit) error {
	return s.visitsFile(v, s.opt.Papers.VisitsICS, "text/calendar; charset=utf-8")
}

// visitsFile is what the page shows, as a file.
func (s *Site) visitsFile(v *visit, draw func(context.Context, assessment.Actor, office.VisitQuery) ([]byte, string, error), kind string) error {
	q, err := visitQuery(v.query("weeks"), assessment.PersonID(v.query("educator")))
	if err != nil {
		return err
	}
	body, name, err := draw(v.ctx(), v.by(), q)
	if err != nil {
		return err
	}
	return file(v.c, body, name, kind)
}

func (s *Site) visitsPage(v *visit, weeks string, educator assessment.PersonID) (VisitsPage, error) {
	page := VisitsPage{Frame: v.frame("today"), Weeks: weeks, Educator: string(educator), Settings: "/visits/weeks"}
	q, err := visitQuery(weeks, educator)
	if err != nil {
		return page, err
	}
	ask := url.Values{"weeks": {weeks}, "educator": {string(educator)}}.Encode()
	page.PDF, page.ICS = "/visits.pdf?"+ask, "/visits.ics?"+ask
	d, err := s.office.Visits(v.ctx(), v.by(), q)
	if err != nil {
		return page, err
	}
	page.Until, page.Version, page.Best = longDay(d.Until), d.Version, d.Proven
	if weeks == "" {
		page.Weeks = strconv.Itoa(office.VisitWeeks)
	}
	page.Answer = visitsAnswer(d, educator != "")
	page.Educators = []Option{{Text: "everybody"}}
	page.Plan = VisitForm{On: isoDay(d.Today), Clients: clientOptions("Choose the child", d.Clients), Who: []Option{{Text: "Choose who goes there"}}}
	for _, e := range d.Educators {
		o := Option{Value: string(e.Educator.ID), Text: e.Educator.Name}
		page.Educators, page.Plan.Who = append(page.Educators, o), append(page.Plan.Who, o)
	}
	for _, k := range d.Kept {
		page.addKept(k, d, v.may(assessment.PlanVisits))
	}
	for _, p := range d.Proposed {
		page.Proposed = append(page.Proposed, Option{Value: p.Key, Text: day(p.On) + ": " + p.Educator.Name + " at " + clientName(p.Client), Hint: seesInWords(p.Sees), Chosen: true})
	}
	if d.Minutes > 0 && len(d.Proposed) > 0 {
		page.Travel = count(d.Minutes, "minute", "minutes")
	}
	for _, u := range d.Unmet {
		page.Unmet = append(page.Unmet, unmetLine(u))
	}
	for _, t := range d.Together {
		page.Together = append(page.Together, togetherLine(t, v.may(assessment.PlanSkillsDays)))
	}
	if v.may(assessment.PlanVisits) {
		page.Keep, page.Plan.Action = "/visits/proposal", "/visits"
		page.Plan.ID, err = s.office.NewID()
	}
	return page, err
}

func (p *VisitsPage) addKept(k office.HomeVisitView, d office.VisitsView, maySet bool) {
	monday := k.On.AddDays(-(int(k.On.Weekday()) + 6) % 7)
	title := "Week from " + day(monday)
	if n := len(p.Kept); n == 0 || p.Kept[n-1].Title != title {
		p.Kept = append(p.Kept, VisitWeek{Title: title, Board: boardOf(monday, d, maySet)})
	}
	week := &p.Kept[len(p.Kept)-1]
	week.Visits = append(week.Visits, visitLine(k))
}

func (s *Site) keepVisits(v *visit) error {
	weeks, _ := strconv.Atoi(v.form("weeks"))
	chosen := v.c.PostFormArray("visits")
	refused := error(fault.Of(fault.Invalid, "Choose at least one visit."))
	if len(chosen) > 0 {
		refused = s.office.KeepVisits(v.ctx(), v.by(), office.KeepVisitsForm{Weeks: weeks, Version: v.form("version"), Visits: chosen})
	}
	if refused == nil {
		return v.to("/visits", count(len(chosen), "visit is", "visits are")+" on the plan.")
	}
	page, err := s.visitsPage(v, "", "")
	if err != nil {
		return err
	}
	if err := v.take(&page.Faults, refused, "No visit was kept."); err != nil {
		return err
	}
	for i, p := range page.Proposed {
		page.Proposed[i].Chosen = slices.Contains(chosen, p.Value)
	}
	return v.again(page)
}

func (s *Site) planVisit(v *visit) error {
	client, err := formID[assessment.ClientID](v, "client")
	if err != nil {
		return err
	}
	educator, err := formID[assessment.PersonID](v, "educator")
	if err != nil {
		return err
	}
	f := office.VisitForm{ID: v.form("id"), Client: client, Educator: educator, On: v.form("on")}
	planned, refused := s.office.PlanVisit(v.ctx(), v.by(), f)
	if refused == nil {
		return v.to("/visits/"+string(planned.Visit.ID), "The visit is on the plan.")
	}
	page, err := s.visitsPage(v, "", "")
	if err != nil {
		return err
	}
	page.Plan.On, page.Plan.Client, page.Plan.Educator = f.On, string(client), string(educator)
	if err := v.take(&page.Plan.Faults, refused, "No visit was planned.", label("client", "Child"), label("educator", "Who goes there"), label("on", "Day")); err != nil {
		return err
	}
	return v.again(page)
}
