package web

import (
	"errors"
	"fmt"
	"slices"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

// errLooked stands where a form asked to see what it would change, and did nothing.
var errLooked = errors.New("this was only looked at")

// looks reports whether a form asks to see what it would change.
func (v *visit) looks() bool { return v.ticked("look") }

// look puts a preview into a form, in place of doing what it asks for.
func look(into *Preview, p office.Preview, err error) error {
	if err != nil {
		return err
	}
	*into = previewOf(p)
	into.Asked = true
	return errLooked
}

// redrawn draws a form again: what it would change, or what was wrong in it.
func (v *visit) redrawn(page Page, refused error) error {
	if errors.Is(refused, errLooked) {
		return v.show(page)
	}
	return v.again(page)
}

// mostOtherwise is how many shifts a page names that break with the change or without it.
const mostOtherwise = 10

// previewOf is a preview for the reader.
func previewOf(p office.Preview) Preview {
	shown := Preview{Told: true, Answer: answerOf(p), Reach: fmt.Sprintf("Standings on every day from today on, and the shifts through %s, as they are now. Nothing has been changed.", longDay(p.ShiftsThrough))}
	for i, c := range p.Standings {
		if i == 0 || p.Standings[i-1].Person.ID != c.Person.ID {
			shown.People = append(shown.People, PreviewPerson{Name: c.Person.Name, Href: "/people/" + string(c.Person.ID), Kind: kindOf(c.Person)})
		}
		who := &shown.People[len(shown.People)-1]
		if n := len(who.Changes); n == 0 || p.Standings[i-1].Skill.ID != c.Skill.ID || p.Standings[i-1].Client.ID != c.Client.ID {
			who.Changes = append(who.Changes, PreviewChange{Skill: c.Skill.Title, Client: clientName(c.Client)})
		}
		last := &who.Changes[len(who.Changes)-1]
		last.Turns = append(last.Turns, PreviewTurn{string(c.Before), string(c.After), turnDays(c.Turn)})
		who.Shape = worse(who.Shape, c.After)
	}
	shown.OtherwiseWords = spelledCount(len(p.Otherwise), "shift breaks already, and would for other reasons", "shifts break already, and would for other reasons")
	if n := len(p.Otherwise) - mostOtherwise; n > 0 {
		p.Otherwise, shown.More = p.Otherwise[:mostOtherwise], "And "+count(n, "more", "more")+"."
	}
	for to, lines := range map[*[]CoverLine][]office.CoverLine{&shown.Broken: p.Broken, &shown.Mended: p.Mended, &shown.Otherwise: p.Otherwise} {
		for _, l := range lines {
			line := coverLine(l)
			line.Act = "See the shift"
			*to = append(*to, line)
		}
	}
	return shown
}

// answerOf says in a sentence what matters first: what would break.
func answerOf(p office.Preview) string {
	if p.Nothing() {
		return "It changes nobody’s standing and breaks no shift"
	}
	people := "Nobody changes standing"
	if p.People > 0 {
		people = spelledCount(p.People, "person changes standing", "people change standing")
	}
	shifts := "no shift breaks that does not break now"
	if n := len(p.Broken); n > 0 {
		shifts = count(n, "shift breaks that does not break now", "shifts break that do not break now")
	}
	return people + ", and " + shifts
}

func turnDays(t assessment.Turn) string {
	switch {
	case t.Through.IsZero():
		return "from " + day(t.From) + " on"
	case t.From == t.Through:
		return "on " + day(t.From)
	}
	return day(t.From) + " to " + day(t.Through)
}

// worse is the word of two that lets somebody do less.
func worse(shape string, word assessment.StandingWord) string {
	order := []assessment.StandingWord{assessment.Withdrawn, assessment.Lapsed, assessment.NotStarted, assessment.Learning, assessment.Waived, assessment.Due, assessment.Current}
	if shape == "" || slices.Index(order, word) < slices.Index(order, assessment.StandingWord(shape)) {
		return string(word)
	}
	return shape
}
