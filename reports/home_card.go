package reports

import (
	"strconv"

	"wellshown/assessment"
	"wellshown/assessment/phrase"
)

// The card is read at arm's length: its main lines are set in at least 18 points.
var (
	cardBig   = style{sansBold, 22, 27, ink}
	cardMain  = style{sansBold, 18, 22.5, ink}
	cardText  = style{sans, 18, 22.5, ink}
	cardLabel = style{sans, 9.5, 12, softInk}
	cardField = style{sans, 14, 17, ink} // says which of two sizes is which
	cardHead  = style{serifBold, 24, 30, ink}
)

// card is the emergency card for the bedside: side 1 says who, what size and whom to call,
// the others what to do first.
func (h homeSheet) card() {
	h.letterhead(h.Say("Emergency card: %s, %s", h.FirstName, h.Code))
	h.calls()
	h.tubes()
	air := h.words.Of(h.AirSays())
	switch {
	case air == "":
		h.choices(words{style: cardLabel, text: h.Say("air")}, words{style: cardText, shape: shapeBox, text: h.Say("mouth and nose")}, words{style: cardText, shape: shapeBox, text: h.Say("no upper airway")})
	default:
		h.row(words{style: cardLabel, text: h.Say("air")}, words{style: cardMain, text: air})
	}
	h.row(words{style: cardLabel, text: h.Say("kit")}, known(cardMain, h.own(h.KitPlace)))
	h.steps(h.Say("The tube is out"), h.TubeOutSteps())
	h.cautions()
	h.catheters()
	h.steps(h.Say("The tube is blocked"), h.BlockedSteps())
}

// calls are the offices in the order in which they are called, and when.
func (h homeSheet) calls() {
	rule := h.words.Of(h.CallSays())
	h.row(words{style: cardLabel, text: h.Say("call")}, known(cardBig, rule))
	if h.Call != assessment.CallAtOnce {
		h.row(words{}, words{style: cardMain, text: h.Say("Blue, limp, not breathing or in doubt: call at once.")})
	}
	for i, c := range h.Calls() {
		said := h.words.Of(c.Role.Phrase())
		if c.Name != "" {
			said += ": " + c.Name
		}
		h.row(words{style: cardMain, text: strconv.Itoa(i + 1)}, known(cardBig, c.Telephone), words{style: cardText, text: said})
	}
}

// tubes are the sizes, and the plan where there is no smaller tube.
func (h homeSheet) tubes() {
	tube, catheter := sized(cardBig, h.Tube, "mm"), sized(cardBig, h.Catheter, "Fr")
	if !h.Smallest() {
		h.fields(h.Say("tube"), tube, h.Say("smaller tube"), sized(cardBig, h.smaller(), "mm"))
		h.fields(h.Say("suction catheter"), catheter, h.Say("for the smaller tube"), sized(cardBig, h.SmallCatheter, "Fr"))
		return
	}
	h.fields(h.Say("tube"), tube, h.Say("suction catheter"), catheter)
	plan := ""
	if assessment.SaysAPlan(h.NoSmallerPlan) {
		plan = h.own(phrase.Own{English: h.NoSmallerPlan})
	}
	h.row(words{style: cardLabel, text: h.Say("no smaller tube")}, known(cardMain, plan))
}

// fields are two large facts side by side, each with its name below it; a line to fill in by
// hand is half a page wide.
func (h homeSheet) fields(first string, a words, second string, b words) {
	const between = 20
	half := (h.room() - between) / 2
	all := atom{before: 10, height: cardBig.lead + cardField.lead + 3}
	for i, f := range []struct {
		name string
		fact words
	}{{first, a}, {second, b}} {
		x := h.left + float64(i)*(half+between)
		for _, l := range h.lines(f.fact, half)[:1] {
			all.drawing = append(all.drawing, l.at(x, cardBig.baseline())...)
		}
		y := cardBig.lead + 2
		for _, l := range h.lines(words{style: cardField, text: f.name}, half)[:1] {
			all.drawing = append(all.drawing, l.at(x, y+l.style.baseline())...)
		}
	}
	h.add(all)
}

func (h homeSheet) smaller() *assessment.Number {
	n, ok := h.Smaller()
	if !ok {
		return nil
	}
	return &n
}

// steps are what to do first, numbered left of the margin line.
func (h homeSheet) steps(heading string, steps []phrase.Phrase) {
	h.together(func() {
		h.gap(14)
		h.add(headed(atoms(h.lines(words{style: cardHead, text: heading}, h.room()), h.left))...)
		for i, s := range steps {
			h.row(words{style: cardMain, text: strconv.Itoa(i + 1)}, words{style: cardText, text: h.words.Of(s)})
		}
	})
}
