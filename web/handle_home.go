package web

import (
	"wellshown/assessment"
	"wellshown/assessment/office"
	"wellshown/assessment/wording"
)

// home is a caregiver's first page: what is done, what is left, what next.
func (s *Site) home(v *visit) error {
	d, err := s.office.FamilyDesk(v.ctx(), v.by())
	if err != nil {
		return err
	}
	page := FamilyHomePage{Frame: v.frame("home"), Name: d.Person.Name, ToSign: v.waiting(d.ToSign), Waits: d.ToSign.All,
		AllWaits: moreWaits(d.ToSign, myWaits), CannotSign: v.words().Of(d.Says), Next: v.words().Of(d.Next), Duties: duties(v.by(), "/home")}
	shown := evidence{d.Records, v.zone(), v.words()}
	for _, row := range d.Rows {
		line := standing(v.words(), row)
		line.Evidence = shown.links(row.Because)
		if row.Required {
			page.Asked++
		}
		switch {
		case row.Word.Holds():
			page.Done = append(page.Done, line)
		case row.Required && row.Word == assessment.Waived:
			page.Excused = append(page.Excused, line)
		case row.Required:
			page.Left = append(page.Left, line)
		case row.Word != assessment.NotStarted:
			page.Begun = append(page.Begun, line)
		}
		if row.Required && row.Word == assessment.Due {
			page.Due++
		}
	}
	page.ways(v.words(), d)
	if v.may(assessment.ReadRecords) && d.Person.Kind != "" {
		page.Transcript = transcriptOf(d.Person.ID, "")
	}
	return v.show(page)
}

// ways names the reader's children, and tells how far each is: to family always,
// to others where there is a plan.
func (p *FamilyHomePage) ways(w wording.Words, d office.FamilyDesk) {
	var names []string
	for _, way := range d.Ways {
		names = append(names, way.Client.FirstName)
		if way.All == 0 && d.Person.Kind != assessment.Family {
			continue
		}
		at := "/clients/" + string(way.Client.ID)
		line := Way{Client: way.Client.FirstName, Href: at + "/readiness", PDF: at + "/readiness.pdf", Left: way.Left, All: way.All, Signed: way.Signed}
		if d.Person.Kind == assessment.Family {
			line.Household, line.Papers = at+"/household", at+"/home-papers"
		}
		p.Ways = append(p.Ways, line)
	}
	p.Client = w.List(names)
}

// transcriptOf is the address of all that somebody has shown, by a day; empty for
// today.
func transcriptOf(person assessment.PersonID, on string) string {
	at := "/transcript.pdf?person=" + string(person)
	if on != "" {
		at += "&on=" + on
	}
	return at
}
