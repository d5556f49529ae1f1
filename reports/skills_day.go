package reports

import (
	"context"
	"fmt"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/office"
	"wellshown/assessment/postgres"
)

// SkillsDayCards prints a card for each learner of a skills day: where they go, in
// which order and why, with a box to tick at each station.
func (r *Reports) SkillsDayCards(ctx context.Context, by assessment.Actor, id assessment.SkillsDayID) ([]byte, string, error) {
	v, err := r.office.SkillsDay(ctx, by, id)
	if err != nil {
		return nil, "", fmt.Errorf("print the cards of a skills day: %w", err)
	}
	p, err := skillsDayCards(v)
	return r.handOut(ctx, by, office.Export{Act: assessment.ReadSkillsDays, Paper: "cards of a skills day", Subject: string(id)})(document(p, err, "cards", v.HeldOn.String()))
}

func skillsDayCards(v office.SkillsDayView) (*paper, error) {
	p, err := newPaper(meta{Title: "Cards: " + v.Name + ", " + v.HeldOn.String(), Language: "en", Agency: v.Agency.Name, Demo: v.Agency.Demo, Issued: v.At, Zone: v.Zone})
	if err != nil {
		return nil, err
	}
	p.meta.Stands = "As of " + p.say.instant(v.At, p.zone)
	if len(v.Learners) == 0 {
		p.letterhead(v.Name)
		p.paragraph("Nobody is on the list of this skills day. Put learners on it, then print again.")
		return p, nil
	}
	for i, l := range v.Learners {
		p.flush()
		p.finding = l.Person.Name + ", " + v.Name // at the head of every page of theirs but the first of all
		if i > 0 {
			p.turn(atom{})
		}
		p.card(v, l)
	}
	return p, nil
}

// card is one learner's page.
func (p *paper) card(v office.SkillsDayView, l office.LearnerOfDay) {
	p.row(label("who"), p.fitting(name(l.Person.Name), 2), soft(kindInWords(l.Person)), soft(looksAfter(l.Cares)))
	p.row(label("skills day"), strong(v.Name), text(p.say.date(v.HeldOn)+", "+v.Place))
	var due, vain []office.VisitView
	var rest []string
	for _, r := range l.Round {
		switch {
		case r.Asking != assessment.AskedNow:
			rest = append(rest, fmt.Sprintf("%s (station %d): %s", r.Station.Title, r.Station.No, r.WhyAsked(p.say.date)))
		case len(r.Cannot) > 0:
			vain = append(vain, r)
		default:
			due = append(due, r)
		}
	}
	p.gap(6)
	p.table(p.way(v, due))
	for i, r := range vain {
		if i == 0 {
			p.heading("Due, and not to be had here on this day")
		}
		p.row(label(fmt.Sprintf("station %d", r.Station.No)), text(r.Station.Title+", "+r.WhyAsked(p.say.date)), soft(strings.Join(r.Cannot, " ")))
	}
	if len(rest) > 0 {
		p.heading("Nothing to show")
		for _, said := range rest {
			p.note(said)
		}
	}
	p.gap(8)
	p.note("This card is for finding your way. A tick on it is no record, and nobody signs here: what counts is the sheet that the observer marks and you both sign.")
}

// way is the stations in their order, each with a box to tick once one was there.
func (p *paper) way(v office.SkillsDayView, visits []office.VisitView) table {
	t := table{columns: []column{{"go to", 4, toLeft}, {"because", 3, toLeft}, {"been there", 1.1, toMiddle}}, empty: "Nothing at these stations is due. Ask whoever plans the day."}
	for i, r := range visits {
		s, _ := v.Station(r.Station.No)
		who := s.Observer.Name + " observes"
		if s.Client.ID != "" {
			who += "; by the values of " + child(s.Client)
		}
		because := []words{text(capital(r.WhyAsked(p.say.date)))}
		for _, no := range r.First {
			because = append(because, soft(fmt.Sprintf("After station %d, once that is signed.", no)))
		}
		for _, shown := range r.Shown {
			because = append(because, soft(outcomeOfDay(shown)))
		}
		box := mark(shapeBox)
		if r.Tried() {
			box = mark(shapeTicked)
		}
		t.rows = append(t.rows, tableRow{left: label(fmt.Sprintf("%d.", i+1)),
			cells: [][]words{cell(strong(fmt.Sprintf("Station %d: %s", s.No, s.Skill.Title)), soft(who)), because, cell(box)}})
	}
	return t
}

func looksAfter(children []office.ClientRef) string {
	if len(children) == 0 {
		return ""
	}
	var names []string
	for _, c := range children {
		names = append(names, child(c))
	}
	return "looks after " + listed(names)
}

// outcomeOfDay says what came of a demonstration of the day.
func outcomeOfDay(s postgres.Shown) string {
	said := "Shown: " + string(s.Outcome)
	switch {
	case s.Corrected:
		return said + ", taken back since."
	case !s.Formal:
		return said + ", as practice."
	case !s.ByObserver || !s.ByLearner:
		return said + ", waits for a signature."
	}
	return said + ", signed."
}
