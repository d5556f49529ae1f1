package web

import (
	"errors"
	"strconv"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/assessment/phrase"
	"wellshown/assessment/wording"
)

func (s *Site) review(v *visit) error {
	page, err := s.reviewPage(v)
	if err != nil {
		return v.unlessRecorded(err)
	}
	return v.show(page)
}

func (s *Site) reviewPage(v *visit) (ReviewPage, error) {
	id, err := pathID[assessment.DemonstrationID](v, "id")
	if err != nil {
		return ReviewPage{}, err
	}
	r, err := s.office.Review(v.ctx(), v.by(), id)
	if err != nil {
		return ReviewPage{}, err
	}
	at := demonstrationAt(id)
	page := ReviewPage{Frame: v.frame(""), Skill: r.Title, Learner: r.Learner, Client: r.Client, Practice: !r.Formal, Action: at + "/record",
		Version: r.Version, Steps: len(r.Checklist.Steps()), Marks: tally(r.SheetView), Back: at + "/marks"}
	page.Paper = paperForm(r)
	if r.MayDiscard {
		page.Discard = at + "/discarding"
	}
	if r.Stopped {
		page.Ended, page.Stopped, page.Say, page.Resume = true, r.StopReason, at+"/stop", at+"/resumption"
	} else {
		page.Open = openSteps(r.SheetView)
	}
	if r.Result.Outcome != "" {
		page.Outcome, page.Score = string(r.Result.Outcome), scoreWords(v.words(), r.Result.Score, r.Checklist)
		page.Reasons = reasons(v.words(), r.Result, r.Checklist, judged{r.Parameters, r.Words, func(step int) map[string]assessment.Quantity { return sheetValues(r.SheetView, step) }})
	}
	return page, nil
}

// openSteps lists what keeps a sheet from being recorded, one line a step.
func openSteps(sheet office.SheetView) []OpenStep {
	var open []OpenStep
	for _, o := range sheet.Open {
		why := openWords(o, sheet.Checklist)
		if n := len(open); n > 0 && open[n-1].Number == o.Step {
			open[n-1].Why += "; " + why
			continue
		}
		step, _ := sheet.Checklist.Step(o.Step)
		open = append(open, OpenStep{o.Step, spoken(step.Text, sheet.Checklist, sheet.Words), why, demonstrationAt(sheet.ID) + "/marks/" + strconv.Itoa(o.Step)})
	}
	return open
}

func tally(sheet office.SheetView) []MarkCount {
	count := map[string]int{}
	for _, m := range sheet.Marks {
		count[markOf(m.Mark, m.NotApplicable)]++
	}
	var all []MarkCount
	for _, mark := range assessment.Marks {
		if n := count[string(mark)]; n > 0 {
			all = append(all, MarkCount{string(mark), n})
		}
	}
	if n := count[notApplicable]; n > 0 {
		all = append(all, MarkCount{notApplicable, n})
	}
	return all
}

// scoreWords is a score beside its pass mark, both exact or cut and never rounded up.
func scoreWords(w wording.Words, score *assessment.Number, list assessment.Checklist) string {
	if score == nil {
		return ""
	}
	return w.Say("%s %%, pass mark %s %%", score.Percent(), list.Policy.Scoring.PassMark.Percent())
}

// judged is what a sheet was judged by.
type judged struct {
	known  assessment.Parameters
	words  map[string]string
	values func(step int) map[string]assessment.Quantity
}

// reasons says every rule that failed, with what was seen.
func reasons(w wording.Words, r assessment.Result, list assessment.Checklist, by judged) []Reason {
	var all []Reason
	for _, why := range r.Reasons {
		step, _ := list.Step(why.Step)
		text := whole(why.Phrase(list))
		switch why.Rule {
		case assessment.RuleCritical:
			text = phrase.Of("%s It counts as %s; it must be %s.", text, r.Effective[why.Step].Phrase(), least(step.Least))
		case assessment.RuleValue:
			if said := by.said(step, why.Of); !said.IsZero() {
				text = phrase.Of("%s %s", text, said)
			}
		}
		all = append(all, Reason{why.Step, spokenIn(w, text, list, by.words)})
	}
	return all
}

// whole is a reason as a sentence of its own.
func whole(p phrase.Phrase) phrase.Phrase {
	if strings.HasSuffix(p.String(), ".") {
		return p
	}
	return phrase.Of("%s.", p)
}

func least(m assessment.Mark) phrase.Phrase {
	if m == assessment.Independent {
		return m.Phrase()
	}
	return phrase.Of("%s or better", m.Phrase())
}

// said is a value beside what is accepted.
func (j judged) said(step assessment.Step, name string) phrase.Phrase {
	values := j.values(step.No)
	for _, m := range step.Measures {
		q, given := values[name]
		if m.Name != name || !given {
			continue
		}
		a, missing, err := m.Accepted(j.known, values)
		if err != nil || missing != "" {
			return phrase.Of("It was %s.", q.Phrase())
		}
		return phrase.Of("It was %s; accepted is %s.", q.Phrase(), a.Phrase())
	}
	return phrase.Phrase{}
}

// doRecord closes the sheet as it was looked over. What has become a record
// already is shown as it is.
func (s *Site) doRecord(v *visit) error {
	id, err := pathID[assessment.DemonstrationID](v, "id")
	if err != nil {
		return err
	}
	err = s.office.RecordReviewed(v.ctx(), v.by(), id, v.form("version"))
	if err == nil {
		return v.to(demonstrationAt(id)+"#sign-observer", "Recorded. Talk it over; then both of you sign.")
	}
	if errors.Is(err, office.ErrRecorded) {
		return v.unlessRecorded(err)
	}
	faults, unknown := v.wrong(err, "It was not recorded.", label("reason", "What happened"))
	if unknown != nil {
		return unknown
	}
	if fault.KindOf(err) == fault.Conflict {
		faults.Next = "Below it stands as it is now: look it over, then record."
	}
	page, err := s.reviewPage(v)
	if err != nil {
		return v.unlessRecorded(err)
	}
	page.Faults = faults
	return v.again(page)
}

func (s *Site) stop(v *visit) error {
	sheet, err := s.sheet(v)
	if err != nil {
		return v.unlessRecorded(err)
	}
	return v.show(stopPage(v, sheet))
}

func stopPage(v *visit, sheet office.SheetView) StopPage {
	at := demonstrationAt(sheet.ID)
	return StopPage{Frame: v.frame(""), Skill: sheet.Title, Learner: sheet.Learner, Client: sheet.Client, Practice: !sheet.Formal, Stopped: sheet.Stopped,
		Action: at + "/stop", Reason: sheet.StopReason, Back: at + "/marks"}
}

// doStop ends it for safety. The words on why may wait: a child may not.
func (s *Site) doStop(v *visit) error {
	id, err := pathID[assessment.DemonstrationID](v, "id")
	if err != nil {
		return err
	}
	sheet, err := s.office.Stop(v.ctx(), v.by(), id, true, v.form("reason"))
	if err == nil {
		return v.to(demonstrationAt(sheet.ID)+"/review", "It is ended for safety.")
	}
	if errors.Is(err, office.ErrRecorded) {
		return v.unlessRecorded(err)
	}
	faults, unknown := v.wrong(err, "It was not ended.", label("reason", "What happened"))
	if unknown != nil {
		return unknown
	}
	if sheet, err = s.sheet(v); err != nil {
		return v.unlessRecorded(err)
	}
	page := stopPage(v, sheet)
	page.Faults, page.Reason = faults, v.form("reason")
	return v.again(page)
}

func (s *Site) resume(v *visit) error {
	id, err := pathID[assessment.DemonstrationID](v, "id")
	if err != nil {
		return err
	}
	if _, err := s.office.Stop(v.ctx(), v.by(), id, false, ""); err != nil {
		return v.unlessRecorded(err)
	}
	return v.to(demonstrationAt(id)+"/marks", "It goes on.")
}

func (s *Site) discard(v *visit) error {
	id, err := pathID[assessment.DemonstrationID](v, "id")
	if err != nil {
		return err
	}
	err = s.office.Discard(v.ctx(), v.by(), id)
	if fault.KindOf(err) == fault.NotFound { // thrown away by the first of two clicks
		return v.to("/", "The sheet is thrown away.")
	}
	if err == nil {
		return v.to("/", "The sheet is thrown away.")
	}
	if errors.Is(err, office.ErrRecorded) {
		return v.unlessRecorded(err)
	}
	faults, unknown := v.wrong(err, "The sheet is not thrown away.")
	if unknown != nil {
		return unknown
	}
	page, err := s.reviewPage(v)
	if err != nil {
		return v.unlessRecorded(err)
	}
	page.Faults = faults
	return v.again(page)
}
