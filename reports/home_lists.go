package reports

import (
	"wellshown/assessment"
	"wellshown/assessment/phrase"
)

// checks is how many checks of a go-bag one paper has boxes for.
const checks = 7

// goBag is the list of what is in the bag, with a box for each check.
func (h homeSheet) goBag() {
	h.letterhead(h.Say("%s’s go-bag: what must be in it", h.FirstName))
	h.running(big(h.Say("Check it at the start of each shift, before every trip and after each use. It never leaves %s. What is missing or out of date is replaced now, or the trip does not start.", h.FirstName)))
	h.cautions()
	h.byHandEachCheck(h.Say("day"))
	for _, item := range assessment.GoBag() {
		h.bagLine(item)
	}
	h.byHandEachCheck(h.Say("initials"))
	h.together(func() {
		h.heading(h.Say("Sizes, for the team to look at"))
		h.catheters()
		h.largest()
	})
}

func (h homeSheet) bagSize(size assessment.GoBagSize) words {
	switch size {
	case assessment.TubeSize:
		return sized(strongStyle, h.Tube, "mm")
	case assessment.SmallTubeSize:
		return sized(strongStyle, h.smaller(), "mm")
	case assessment.CatheterSize:
		return sized(strongStyle, h.Catheter, "Fr")
	case assessment.SmallCatheterSize:
		return sized(strongStyle, h.SmallCatheter, "Fr")
	}
	return text("")
}

// Where things stand on a line of the bag's list, from the left of its words.
const (
	bagWords = 236
	bagSizes = 250
	bagBoxes = 322
	bagBox   = 19.5
)

// bagLine is one thing with its size and a box for each check. Where there is no smaller
// tube, the plan stands in its place.
func (h homeSheet) bagLine(item assessment.GoBagItem) {
	said, size := []words{text(h.words.Of(item.Says))}, h.bagSize(item.Sizes)
	if h.Smallest() && item.Sizes == assessment.SmallTubeSize {
		plan := ""
		if assessment.SaysAPlan(h.NoSmallerPlan) {
			plan = h.own(phrase.Own{English: h.NoSmallerPlan})
		}
		said, size = []words{text(h.Say("No smaller tube is made. The card with the plan:")), known(strongStyle, plan)}, words{}
	}
	if h.Smallest() && item.Sizes == assessment.SmallCatheterSize {
		size = text(h.Say("not needed"))
	}
	all := atoms(h.linesOf(said, bagWords), h.left)
	for _, l := range h.lines(size, bagBoxes-bagSizes-14) {
		all[0].drawing = append(all[0].drawing, l.at(h.left+bagSizes, textStyle.baseline())...)
	}
	for i := range checks {
		all[0].drawing = append(all[0].drawing, shapeBox.at(h.left+bagBoxes+bagBox*float64(i), textStyle.lead/2)...)
	}
	all[0].before = 4.5
	h.add(unbroken(all)...)
}

// byHandEachCheck is a short line to write on over each column of boxes.
func (h homeSheet) byHandEachCheck(named string) {
	const deep = 26
	line := atom{before: 6, height: deep}
	for _, l := range h.lines(label(named), bagBoxes-bagSizes-14) {
		line.drawing = append(line.drawing, l.at(h.left+bagSizes, deep-4)...)
	}
	for i := range checks {
		x := h.left + bagBoxes + bagBox*float64(i)
		line.drawing = append(line.drawing, straight(x-boxSide/2-2, deep-2, x+boxSide/2+2, deep-2, 0.6, ink))
	}
	h.add(line)
}

// equipment is the list of what the child has, whom to call about it and who checks it when.
func (h homeSheet) equipment() {
	h.letterhead(h.Say("%s’s equipment, and whom to call about it", h.FirstName))
	h.running(big(h.Say("In an emergency, look after %s first: breathing bag, emergency number. Then call the supplier.", h.FirstName)))
	h.cautions()
	t := table{columns: []column{{title: h.Say("equipment"), share: 2.6}, {title: h.Say("supplier and telephone"), share: 3}, {title: h.Say("checked by, and when"), share: 2.4}}}
	for _, e := range h.Equipment {
		kind := h.words.Of(assessment.EquipmentKind(e.Kind))
		t.rows = append(t.rows, tableRow{cells: [][]words{cell(strong(kind), soft(e.Type)), cell(known(textStyle, e.Supplier), known(strongStyle, e.Telephone)),
			cell(known(textStyle, h.words.Of(e.CheckedBy.Phrase())), known(textStyle, h.words.Of(e.CheckedWhen.Phrase())))}})
	}
	if len(t.rows) == 0 {
		row := func() tableRow { return tableRow{cells: cells(hand(""), hand(""), hand(""))} }
		t.rows = []tableRow{row(), row(), row(), row(), row(), row()}
	}
	h.table(t)
	h.heading(h.Say("Ask each supplier"))
	h.row(mark(shapeBox), text(h.Say("Can we reach you day and night? (American Thoracic Society, 2016)")))
	h.row(mark(shapeBox), text(h.Say("Do you replace what failed on the same day? (American Thoracic Society, 2016)")))
	h.row(mark(shapeBox), text(h.Say("How long does each battery last at its age today?")))
}
