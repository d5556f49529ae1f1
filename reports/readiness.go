package reports

import (
	"context"
	"fmt"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/office"
)

// Readiness prints whether a child can go home, as a family reads it: the answer,
// what is left and what to do, what is done. The zero instant is now.
func (r *Reports) Readiness(ctx context.Context, by assessment.Actor, client assessment.ClientID, at time.Time) ([]byte, string, error) {
	v, err := r.office.Readiness(ctx, by, client, at)
	if err != nil {
		return nil, "", fmt.Errorf("print readiness: %w", err)
	}
	p, err := readiness(v, readinessEnglish)
	return r.handOut(ctx, by, office.Export{Act: assessment.ReadReadiness, Paper: "readiness", Subject: string(client)})(document(p, err, "readiness", v.Client.Code, civil.DayOf(v.At, v.At.Location()).String()))
}

// readiness draws the answer; v.At tells the time by the agency's clocks.
func readiness(v office.ReadinessView, say readinessWords) (*paper, error) {
	p, err := newPaper(meta{Title: say.title, Language: "en", Agency: v.Agency.Name, Demo: v.Agency.Demo, Issued: v.At, Zone: v.At.Location()})
	if err != nil {
		return nil, err
	}
	p.meta.Stands = "As of " + p.say.instant(v.At, p.zone)
	p.letterhead(say.finding(v.Readiness))
	p.readyAbout(v, say)
	for _, part := range []struct {
		state   assessment.CriterionState
		heading string
		note    string
	}{{assessment.StateNotMet, say.left, ""}, {assessment.StateMet, say.done, ""}, {assessment.StateWaived, say.waived, say.waivedMeans}} {
		lines := linesIn(v.Readiness, part.state)
		if len(lines) == 0 {
			continue
		}
		p.gap(4)
		p.heading(part.heading)
		if part.note != "" {
			p.running(bigSoft(part.note))
		}
		for _, l := range lines {
			p.criterion(l, say)
		}
	}
	return p, nil
}

// Words for a family are set larger than on the papers of the trade.
func big(s string) words       { return words{style: style{sans, 11, 16, ink}, text: s} }
func bigStrong(s string) words { return words{style: style{sansBold, 11, 16, ink}, text: s} }
func bigSoft(s string) words   { return words{style: style{sans, 9.5, 14, softInk}, text: s} }

// readyAbout says what the page is, for whom, and of which day.
func (p *paper) readyAbout(v office.ReadinessView, say readinessWords) {
	about := say.about
	switch {
	case len(v.Lines) == 0:
		about = say.aboutEmpty
	case v.Ready:
		about = say.aboutReady
	}
	p.running(big(fmt.Sprintf(about, v.Client.FirstName)))
	p.running(bigStrong(say.emergency))
	p.gap(4)
	p.row(label(say.child), bigStrong(v.Client.FirstName+", "+v.Client.Code), bigSoft(fmt.Sprintf(say.since, p.say.date(v.On))))
	family := listed(v.Family)
	if family == "" {
		family = say.noFamily
	}
	p.row(label(say.family), big(family))
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

// criterion is one thing on the list: what it is, what it lacks and what to do,
// or on what it rests.
func (p *paper) criterion(l assessment.Line, say readinessWords) {
	pieces := []words{big(l.Criterion.Title)}
	sign, word := shapeMet, say.wordDone
	switch l.State {
	case assessment.StateNotMet:
		sign, word = shapeNotMet, say.wordLeft
		pieces[0] = bigStrong(l.Criterion.Title)
		for _, s := range l.Left {
			pieces = append(pieces, big(ended(s.String())))
		}
		if act := say.acts[l.Criterion.Kind]; act != "" {
			pieces = append(pieces, big(fmt.Sprintf(say.next, act)))
		}
	case assessment.StateWaived:
		sign, word = shapeWaived, say.wordWaived
	}
	for _, s := range l.Evidence {
		pieces = append(pieces, bigSoft(s.String()))
	}
	for _, s := range l.Flags {
		pieces = append(pieces, big(fmt.Sprintf(say.soon, s)))
	}
	p.row(words{style: labelStyle, shape: sign, text: word}, pieces...)
}
