package web

import (
	"wellshown/assessment"
	"wellshown/assessment/office"
)

func (v *visit) resultPage(d office.SittingView) SittingResultPage {
	w, language := v.words(), string(v.language())
	page := SittingResultPage{Frame: v.frame("home"), Title: d.Called.In(language), On: w.Instant(d.HandedIn, d.Zone), Passed: d.Result.Passed, Waits: d.Waits && !d.Easier, Right: d.Result.Right, Of: d.Result.All}
	page.Print = sittingAt(d.ID) + "/check.pdf"
	if !d.Mine {
		page.Whose = d.Person.Name
	}
	if d.Called.Lesson() {
		page.Learn = "/learn/" + d.Skill.Code
	}
	if !d.Through.IsZero() {
		page.Through = w.Day(d.Through)
	}
	if d.Easier {
		page.Easier = v.say("Passed before. More is asked now, so it is to be taken again.")
	}
	if d.Result.Late {
		page.Late = v.say("It was open until %s and was handed in after that. So it is no pass, whatever was answered. All that was answered in time is kept.", w.Instant(d.Ends, d.Zone))
	}
	page.Reader = w.Of(d.ReadItems())
	for _, q := range d.Questions {
		t := q.Item.In(language)
		if q.Item.Critical && !q.Right {
			page.Critical = append(page.Critical, t.Ask)
		}
		item := ResultItem{Right: q.Right, Critical: q.Item.Critical, Ask: t.Ask, Given: q.Said(language, q.Answer), Teach: t.Teach, Source: q.Item.Source}
		if !q.Right {
			item.Wanted = q.RightAnswer(language)
		}
		page.Items = append(page.Items, item)
	}
	switch {
	case d.Present == nil:
		page.Present = v.say("What was answered is written down. Whether somebody helped, it cannot tell.")
	case *d.Present:
		page.Present = v.say("%s says that a trainer was there.", d.PresentBy)
	default:
		page.Present = v.say("%s says that no trainer was there.", d.PresentBy)
	}
	if !d.Result.Passed {
		page.Next = v.nextTry(d.Next, office.ChecksView{At: d.Now, Zone: d.Zone})
		if d.Mine && !d.Next.Teach && !d.Next.Waits(d.Now) {
			page.Begin = checksAt + "/" + d.Skill.Code + "/sittings"
		}
	}
	if !d.Mine && v.may(assessment.EditChecks) {
		page.Say = &PresenceForm{Action: sittingAt(d.ID) + "/presence"}
	}
	return page
}

// sayPresence writes down whether a trainer was there.
func (s *Site) sayPresence(v *visit) error {
	id, err := pathID[assessment.RecordID](v, "id")
	if err != nil {
		return err
	}
	if err := s.office.SayPresence(v.ctx(), v.by(), id, v.form("present") == "yes"); err != nil {
		return err
	}
	return v.to(sittingAt(id), "It is written down.")
}

func (s *Site) sittingPDF(v *visit) error {
	id, err := pathID[assessment.RecordID](v, "id")
	if err != nil {
		return err
	}
	body, name, err := s.opt.Papers.Sitting(v.ctx(), v.by(), id)
	if err != nil {
		return err
	}
	return file(v.c, body, name, "application/pdf")
}
