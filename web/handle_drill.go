package web

import (
	"errors"
	"strconv"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/office"
	"wellshown/assessment/wording"
)

// drill shows the scenario with the clock.
func (s *Site) drill(v *visit) error {
	page, err := s.drillPage(v)
	if err != nil {
		return v.unlessRecorded(err)
	}
	return v.show(page)
}

func (s *Site) drillPage(v *visit) (DrillPage, error) {
	id, err := pathID[assessment.DemonstrationID](v, "id")
	if err != nil {
		return DrillPage{}, err
	}
	d, err := s.office.Drill(v.ctx(), v.by(), id)
	if err != nil {
		return DrillPage{}, err
	}
	at := demonstrationAt(d.ID)
	page := DrillPage{Frame: v.frame(""), ID: string(d.ID), Action: at + "/drill", Skill: d.Title, Learner: d.Learner, Client: d.Client, Practice: !d.Formal, ThenAfter: d.Scenario.ThenAfter,
		Text: scenarioIn(d.Scenario.Scenario, "en"), Other: scenarioIn(d.Scenario.Scenario, "es"), How: "Chosen.", Timed: d.Timed, Stop: at + "/stop", Leave: "/", Marks: at + "/marks"}
	if d.Language == "es" {
		page.Text, page.Other = page.Other, page.Text
	}
	if d.Drawn {
		page.How = "Drawn at random out of " + strconv.Itoa(d.DrawnOf) + "."
	}
	t, text := d.Times, scenarioIn(d.Scenario.Scenario, "en")
	page.Moments = []DrillMoment{{"recognised", "Recognised", text.Recognise, ""}, {"acted", "Acted", text.Act, ""}, {"called", "Called", text.Call, ""}}
	for i, at := range []int{t.Recognised, t.Acted, t.Called} {
		if at != assessment.NotInDrill {
			page.Moments[i].Value = strconv.Itoa(at)
		}
	}
	for _, b := range d.TakenBack {
		page.TakenBack = append(page.TakenBack, b.Phrase().String())
	}
	return page, nil
}

// timeDrill puts down the moments and goes on to the marks.
func (s *Site) timeDrill(v *visit) error {
	id, err := pathID[assessment.DemonstrationID](v, "id")
	if err != nil {
		return err
	}
	f := office.DrillTimesForm{Recognised: v.form("recognised"), Acted: v.form("acted"), Called: v.form("called"), TakenBack: sentBack(v.form("taken_back"))}
	_, refused := s.office.TimeDrill(v.ctx(), v.by(), id, f)
	switch {
	case refused == nil:
		return v.to(demonstrationAt(id)+"/marks", "The moments are kept. Mark the steps now.")
	case errors.Is(refused, office.ErrRecorded):
		return v.unlessRecorded(refused)
	}
	page, err := s.drillPage(v)
	if err != nil {
		return v.unlessRecorded(err)
	}
	for i, typed := range []string{f.Recognised, f.Acted, f.Called} {
		page.Moments[i].Value = typed
	}
	if err := v.take(&page.Faults, refused, "The moments were not kept.", label("recognised", "Recognised"), label("acted", "Acted"), label("called", "Called"), label("taken_back", "Taken back")); err != nil {
		return err
	}
	return v.again(page)
}

// sentBack reads what the clock of the page sends: "acted 2, called 5".
func sentBack(text string) []assessment.DrillTap {
	var all []assessment.DrillTap
	for part := range strings.SplitSeq(text, ",") {
		if strings.TrimSpace(part) == "" {
			continue
		}
		moment, seconds, _ := strings.Cut(strings.TrimSpace(part), " ")
		n, err := strconv.Atoi(seconds)
		if err != nil {
			n = assessment.NotInDrill // refused as what no tap can be
		}
		all = append(all, assessment.DrillTap{Moment: assessment.DrillMoment(moment), Seconds: n})
	}
	return all
}

// drill says of which drill a record is.
func (p *RecordPage) drill(w wording.Words, r office.RecordReading) {
	if r.Drill == nil {
		return
	}
	lang := string(w.Language())
	p.Drill = &DrillShown{Text: scenarioIn(r.Drill.Scenario, lang), Times: drillTimes(w, *r.Drill), Says: w.Say("Version %d of the scenario, chosen by the observer.", r.Drill.Version)}
	if r.Drill.Drawn {
		p.Drill.Says = w.Say("Version %d of the scenario, drawn at random.", r.Drill.Version)
	}
	for _, t := range r.Drill.TakenBack {
		p.Drill.TakenBack = append(p.Drill.TakenBack, w.Of(t.Phrase()))
	}
}
