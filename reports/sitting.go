package reports

import (
	"context"
	"fmt"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/office"
	"wellshown/assessment/wording"
)

// Sitting prints a knowledge check that was handed in, in the language in which it was
// taken: what was asked and answered, what is right, and what it teaches.
func (r *Reports) Sitting(ctx context.Context, by assessment.Actor, id assessment.RecordID) ([]byte, string, error) {
	v, err := r.office.HandedIn(ctx, by, id)
	if err != nil {
		return nil, "", fmt.Errorf("print a knowledge check: %w", err)
	}
	p, err := sitting(v)
	return r.handOut(ctx, by, office.Export{Act: assessment.ReadChecks, Paper: "knowledge check", Subject: string(v.Person.ID)})(document(p, err, "knowledge-check", v.Skill.Code, civil.DayOf(v.HandedIn, v.Zone).String()))
}

func sitting(v office.SittingView) (*paper, error) {
	w := wording.In(wording.Of(v.Language))
	language := string(w.Language())
	called := v.Called.In(language)
	p, err := newPaper(meta{Title: w.Say("Knowledge check: %s", called), Language: language, Agency: v.Agency.Name, Demo: v.Agency.Demo, Issued: v.Now, Zone: v.Zone})
	if err != nil {
		return nil, err
	}
	finding := w.Say("Passed: %d of %d right", v.Result.Right, v.Result.All)
	if v.Waits {
		finding = w.Say("Passed, and it does not count yet: %d of %d right", v.Result.Right, v.Result.All)
	}
	if !v.Result.Passed {
		finding = w.Say("Not passed yet: %d of %d right", v.Result.Right, v.Result.All)
	}
	p.letterhead(finding)
	p.running(big(w.Say("Passing a check makes nobody competent: the skill is shown to an educator.")))
	p.running(bigStrong(w.Say("In an emergency, call the local emergency number first.")))
	p.gap(4)
	p.row(label(w.Say("who")), bigStrong(v.Person.Name))
	p.row(label(w.Say("skill")), big(called))
	p.row(label(w.Say("handed in")), big(w.Instant(v.HandedIn, v.Zone)), bigSoft(presence(v, w)))
	if v.Result.Late {
		p.row(label(w.Say("too late")), big(w.Say("It was open until %s and was handed in after that. So it is no pass, whatever was answered. All that was answered in time is kept.", w.Instant(v.Ends, v.Zone))))
	}
	if v.Reader {
		p.row(label(w.Say("please note")), bigStrong(w.Of(v.ReadItems())))
	}
	switch {
	case !v.Result.Passed:
	case v.Waits:
		p.row(label(w.Say("it holds")), big(w.Say("not yet")))
	case v.Easier:
		p.row(label(w.Say("it holds")), big(w.Say("Passed before. More is asked now, so it is to be taken again.")))
	case v.Through.IsZero():
		p.row(label(w.Say("it holds")), big(w.Say("without an end")))
	default:
		p.row(label(w.Say("it holds")), big(w.Say("through %s", v.Through)))
	}
	p.mustBeKnown(v, w)
	p.heading(w.Say("Your answers, and what they teach"))
	for _, q := range v.Questions {
		p.question(q, w)
	}
	return p, nil
}

// presence is what is known of whether a trainer was there.
func presence(v office.SittingView, w wording.Words) string {
	switch {
	case v.Present == nil:
		return w.Say("What was answered is written down. Whether somebody helped, it cannot tell.")
	case *v.Present:
		return w.Say("%s says that a trainer was there.", v.PresentBy)
	}
	return w.Say("%s says that no trainer was there.", v.PresentBy)
}

// mustBeKnown names what is critical and was not right.
func (p *paper) mustBeKnown(v office.SittingView, w wording.Words) {
	var pieces []words
	for _, q := range v.Questions {
		if q.Item.Critical && !q.Right {
			pieces = append(pieces, bigStrong(q.Item.In(v.Language).Ask))
		}
	}
	if len(pieces) == 0 {
		return
	}
	p.heading(w.Say("This must be known before the skill is done alone"))
	p.row(words{style: labelStyle, shape: shapeNotMet}, append(pieces, bigSoft(w.Say("It keeps the child safe. That is why it counts by itself. What is right is below.")))...)
}

// question is one question with its answer, and what it teaches.
func (p *paper) question(q office.Question, w wording.Words) {
	language := string(w.Language())
	t := q.Item.In(language)
	shape, is := shapeMet, w.Say("Right")
	if !q.Right {
		shape, is = shapeNotMet, w.Say("Not right yet")
	}
	pieces := []words{bigStrong(fmt.Sprintf("%d. %s", q.Place, t.Ask))}
	if q.Given {
		pieces = append(pieces, lined(big, w.Say("The answer"), q.Said(language, q.Answer))...)
	} else {
		pieces = append(pieces, big(w.Say("No answer")))
	}
	if !q.Right {
		pieces = append(pieces, lined(bigStrong, w.Say("What is right"), q.RightAnswer(language))...)
	}
	pieces = append(pieces, big(t.Teach))
	if q.Item.Critical {
		pieces = append(pieces, bigSoft(w.Say("It must be known.")))
	}
	p.row(words{style: labelStyle, shape: shape, text: is}, pieces...)
}

// lined is an answer of one line after its name, or of several below it.
func lined(set func(string) words, name string, lines []string) []words {
	if len(lines) == 1 {
		return []words{set(name + ": " + lines[0])}
	}
	all := []words{set(name + ":")}
	for _, l := range lines {
		all = append(all, set(l))
	}
	return all
}
