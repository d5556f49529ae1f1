package reports

import (
	"context"
	"fmt"
	"slices"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/office"
	"wellshown/assessment/wording"
)

// Readiness prints whether a child can go home, for the meeting about it and as a family
// reads it, in a language: the answer on the first page, then what is left with who and
// by when, then what is done and on what that rests. The zero instant is now.
func (r *Reports) Readiness(ctx context.Context, by assessment.Actor, client assessment.ClientID, at time.Time, in wording.Language) ([]byte, string, error) {
	v, err := r.office.Readiness(ctx, by, client, at)
	if err != nil {
		return nil, "", fmt.Errorf("print readiness: %w", err)
	}
	p, err := readiness(v, wording.In(in))
	return r.handOut(ctx, by, office.Export{Act: assessment.ReadReadiness, Paper: "readiness", Subject: string(client)})(document(p, err, "readiness", v.Client.Code, civil.DayOf(v.At, v.At.Location()).String()))
}

// readiness draws the answer; v.At tells the time by the agency's clocks.
func readiness(v office.ReadinessView, w wording.Words) (*paper, error) {
	p, err := newPaper(meta{Title: w.Say("Going home: what is done and what is left"), Language: string(w.Language()), Agency: v.Agency.Name, Demo: v.Agency.Demo, Issued: v.At, Zone: v.At.Location()})
	if err != nil {
		return nil, err
	}
	p.meta.Stands = w.Say("As of %s", w.Instant(v.At, p.zone))
	p.letterhead(w.Of(v.Finding()))
	p.readyAbout(v, w)
	left := linesIn(v.Readiness, assessment.StateNotMet)
	p.leftInShort(left, v, w)
	for _, part := range []struct {
		lines         []assessment.Line
		heading, note string
	}{{left, w.Say("What is left, with who and by when"), ""}, {linesIn(v.Readiness, assessment.StateMet), w.Say("What is done"), ""},
		{linesIn(v.Readiness, assessment.StateWaived), w.Say("What was waived, wholly or in part"), w.Say("Somebody who may decide it has said, by name, that what is told as waived here need not be so.")}} {
		p.readyPart(v.Readiness, part.heading, part.note, part.lines, w)
	}
	return p, nil
}

// readyPart is one part of the list. What is left begins a page of its own.
func (p *paper) readyPart(r assessment.Readiness, heading, note string, lines []assessment.Line, w wording.Words) {
	if len(lines) == 0 {
		return
	}
	if len(p.pages) == 1 && r.Left() > 0 {
		p.flush()
		p.turn(atom{})
	}
	p.gap(4)
	p.heading(heading)
	if note != "" {
		p.running(bigSoft(note))
	}
	for _, l := range lines {
		p.criterion(l, r.On, w)
	}
}

// Words for a family are set larger than on the papers of the trade.
func big(s string) words       { return words{style: style{sans, 11, 16, ink}, text: s} }
func bigStrong(s string) words { return words{style: style{sansBold, 11, 16, ink}, text: s} }
func bigSoft(s string) words   { return words{style: style{sans, 9.5, 14, softInk}, text: s} }

// readyAbout says what the page is, for whom, of which day, when the meeting is and who
// signed.
func (p *paper) readyAbout(v office.ReadinessView, w wording.Words) {
	p.running(big(readinessAbout(v, w)))
	p.running(bigStrong(w.Say("In an emergency, call the local emergency number first.")))
	p.gap(4)
	p.row(label(w.Say("child")), bigStrong(v.Client.FirstName+", "+v.Client.Code), bigSoft(w.Say("on %s", v.On)))
	family := w.List(v.Family)
	if family == "" {
		family = w.Say("Nobody of the family is on the team yet. Ask the agency to add you.")
	}
	p.row(label(w.Say("family")), big(family))
	if len(v.Lines) == 0 {
		return
	}
	day := func(d civil.Date) words {
		if d.IsZero() {
			return bigSoft(w.Say("The day is not set yet."))
		}
		return big(w.Day(d))
	}
	p.row(label(w.Say("meeting")), day(v.Days.Meeting))
	p.row(label(w.Say("going home")), day(v.Days.Home))
	p.planSigned(v.Signed, w)
}

// planSigned says who signed the plan, and whether that still stands.
func (p *paper) planSigned(s *office.PlanSigned, w wording.Words) {
	left := label(w.Say("signed"))
	switch {
	case s == nil:
		p.row(left, bigSoft(w.Say("No clinician has signed this plan yet.")))
	case s.Stands:
		p.row(left, bigStrong(s.By), bigSoft(w.Say("licence %s", s.Licence)+" · "+w.Instant(s.At, p.zone)), bigSoft(w.Quoted(w.Say(s.Meaning))))
	default:
		p.row(left, big(w.Say("%s signed on %s. Something has changed since, so it does not count any more.", s.By, civil.DayOf(s.At, p.zone))))
	}
}

func linesIn(r assessment.Readiness, state assessment.CriterionState) []assessment.Line {
	var some []assessment.Line
	for _, l := range r.Lines {
		if l.State == state {
			some = append(some, l)
		}
	}
	return some
}

// leftInShort names on the first page what is left, who sees to it and by when.
// Where all else is in place, that is the signature.
func (p *paper) leftInShort(left []assessment.Line, v office.ReadinessView, w wording.Words) {
	unsigned := v.Ready && len(v.Lines) > 0 && !v.SignatureStands()
	if len(left) == 0 && !unsigned {
		return
	}
	t := table{columns: []column{{w.Say("what is left"), 3.4, toLeft}, {w.Say("who"), 1.6, toLeft}, {w.Say("by when"), 1.4, toLeft}}}
	for _, l := range left {
		t.rows = append(t.rows, tableRow{left: words{style: labelStyle, shape: shapeNotMet}, cells: cells(text(w.Own(l.Criterion.Name())), text(whoseAll(l, w)), text(w.ShortDay(l.Left[0].By)))})
	}
	if unsigned {
		t.rows = append(t.rows, tableRow{left: words{style: labelStyle, shape: shapeNotMet}, cells: cells(text(w.Say("A licensed clinician reads the plan and signs it")), text(w.Say("an educator of the agency with a licence")), text(w.ShortDay(v.Days.By())))})
	}
	p.gap(8)
	p.table(t)
}

// whoseAll names everybody who sees to something of a line, each once.
func whoseAll(l assessment.Line, w wording.Words) string {
	var all []string
	for _, t := range l.Left {
		if whose := w.Of(t.Whose()); !slices.Contains(all, whose) {
			all = append(all, whose)
		}
	}
	return w.List(all)
}

// criterion is one thing on the list: what it is, what it lacks, who sees to it by when
// and what to do, or on what it rests.
func (p *paper) criterion(l assessment.Line, on civil.Date, w wording.Words) {
	title := w.Own(l.Criterion.Name())
	pieces := []words{big(title)}
	sign, word := shapeMet, w.Say("done")
	switch l.State {
	case assessment.StateNotMet:
		sign, word = shapeNotMet, w.Say("left")
		pieces = append([]words{bigStrong(title)}, todos(l, on, w)...)
		pieces = append(pieces, big(w.Say("Next: %s", actOf(l.Criterion.Kind))))
	case assessment.StateWaived:
		sign, word = shapeWaived, w.Say("waived")
	}
	for _, s := range l.Evidence {
		pieces = append(pieces, bigSoft(w.Of(s)))
	}
	for _, s := range l.Flags {
		pieces = append(pieces, big(w.Say("Soon: %s.", s)))
	}
	p.row(words{style: labelStyle, shape: sign, text: word}, pieces...)
}

// todos are what a line lacks. Who sees to it and by when is said once for those in a
// row who have it in common.
func todos(l assessment.Line, on civil.Date, w wording.Words) []words {
	var pieces []words
	for i, t := range l.Left {
		pieces = append(pieces, big(ended(w.Of(t.Phrase))))
		whose := w.Of(t.Whose())
		if i+1 < len(l.Left) && w.Of(l.Left[i+1].Whose()) == whose && l.Left[i+1].By == t.By {
			continue
		}
		switch {
		case t.By.IsZero():
			pieces = append(pieces, bigSoft(w.Say("Who: %s.", whose)))
		case t.Late(on):
			pieces = append(pieces, bigSoft(w.Say("Who: %s. It was due on %s.", whose, t.By)))
		default:
			pieces = append(pieces, bigSoft(w.Say("Who: %s. By %s.", whose, t.By)))
		}
	}
	return pieces
}
