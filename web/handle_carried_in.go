package web

import (
	"net/http"
	"path"
	"strconv"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

// carriedPaperPath takes photos and scans of old papers.
const carriedPaperPath = "/people/:id/carried-in/papers"

func carriedAt(id assessment.PersonID) string { return "/people/" + string(id) + "/carried-in" }

func (s *Site) carriedIn(v *visit) error {
	page, err := s.carriedInPage(v)
	if err != nil {
		return err
	}
	return v.show(page)
}

func (s *Site) carriedInPage(v *visit) (CarriedInPage, error) {
	id, err := pathID[assessment.PersonID](v, "id")
	if err != nil {
		return CarriedInPage{}, err
	}
	c, err := s.office.CarriedIn(v.ctx(), v.by(), id)
	if err != nil {
		return CarriedInPage{}, err
	}
	here := "people"
	if !v.may(assessment.ReadReports) {
		here = ""
	}
	page := CarriedInPage{Frame: v.frame(here), ID: string(id), Name: c.Person.Name, May: v.may(assessment.BringIn)}
	page.TakeIn, page.Children = v.may(assessment.TakeIn), []Option{{Text: "Nobody here"}}
	for _, c := range c.Children {
		page.Children = append(page.Children, Option{Value: string(c.ID), Text: c.FirstName + ", " + c.Code})
	}
	if page.May {
		page.Import = importsPath + "?kind=carried-in"
	}
	for _, p := range c.Papers {
		page.Papers = append(page.Papers, CarriedPaper{p.Number, pageKind(p.MediaType, p.Sheets) + ", attached " + instant(p.At, c.Zone), carriedAt(id) + "/papers/" + string(p.ID)})
	}
	for _, e := range c.Lines {
		line := carriedLine(e)
		line.By = e.BroughtBy + ", " + instant(e.BroughtAt, c.Zone)
		for _, n := range e.Papers {
			line.Papers = append(line.Papers, Link{Text: "paper " + strconv.Itoa(n), Href: page.Papers[n-1].Href})
		}
		if page.May {
			line.Remove = carriedAt(id) + "/" + string(e.ID) + "/removal"
			page.Shows = append(page.Shows, Option{Value: string(e.ID), Text: line.Title + " " + line.For, Hint: line.Shown})
		}
		page.Lines = append(page.Lines, line)
	}
	return page, nil
}

// carriedLine says what an old paper says, in words that no standing is told in.
func carriedLine(e office.CarriedEntry) CarriedLine {
	line := CarriedLine{Title: e.Skill.Title, Shown: "shown on " + day(e.ObservedOn) + " at " + e.Place, Paper: "signed by " + e.Signer + "; by the old paper "}
	if e.Client.ID != "" {
		line.For = "for " + e.Client.FirstName + ", " + e.Client.Code
	}
	if e.ThroughOn.IsZero() {
		line.Paper += "without an end"
	} else {
		line.Paper += "through " + day(e.ThroughOn)
	}
	return line
}

// attachCarriedPaper puts a photo or scan to the lines that it shows.
func (s *Site) attachCarriedPaper(v *visit) error {
	id, err := pathID[assessment.PersonID](v, "id")
	if err != nil {
		return err
	}
	sent, err := v.sentPage()
	var shows []assessment.RecordID
	for _, ticked := range v.c.PostFormArray("shows") {
		shows = append(shows, assessment.RecordID(ticked))
	}
	if err == nil {
		err = s.office.AttachCarriedPaper(v.ctx(), v.by(), id, shows, sent)
	}
	if err == nil {
		return v.to(carriedAt(id), "The paper is attached.")
	}
	faults, unknown := v.wrong(err, "The paper was not attached.", label("shows", "It shows"))
	if unknown != nil {
		return unknown
	}
	page, err := s.carriedInPage(v)
	if err != nil {
		return err
	}
	for i, o := range page.Shows {
		for _, ticked := range shows {
			page.Shows[i].Chosen = page.Shows[i].Chosen || o.Value == string(ticked)
		}
	}
	page.Faults = faults
	return v.again(page)
}

func (s *Site) removeCarriedIn(v *visit) error {
	id, err := pathID[assessment.PersonID](v, "id")
	if err != nil {
		return err
	}
	entry, err := pathID[assessment.RecordID](v, "entry")
	if err != nil {
		return err
	}
	if err := s.office.RemoveCarriedIn(v.ctx(), v.by(), id, entry); err != nil {
		return err
	}
	return v.to(carriedAt(id), "It is taken off. The ledger keeps that it was there.")
}

// carriedPaper hands an old paper out as a file.
func (s *Site) carriedPaper(v *visit) error {
	id, err := pathID[assessment.PersonID](v, "id")
	if err != nil {
		return err
	}
	paper, err := pathID[assessment.RecordID](v, "paper")
	if err != nil {
		return err
	}
	body, name, err := s.opt.Papers.CarriedPaper(v.ctx(), v.by(), id, paper)
	if err != nil {
		return err
	}
	v.asFile(name)
	v.c.Data(http.StatusOK, pageTypes[path.Ext(name)], body)
	return nil
}

// asFile has a paper that somebody sent be kept as a file: nothing that shows it may run anything.
func (v *visit) asFile(name string) {
	v.c.Header("Content-Disposition", `attachment; filename="`+name+`"`)
	v.c.Header("Content-Security-Policy", "default-src 'none'; sandbox")
	v.c.Header("Cache-Control", "no-store")
}
