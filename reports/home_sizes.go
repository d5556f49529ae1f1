package reports

import (
	"strings"

	"wellshown/assessment"
)

// catheters tells how much of its tube each ordered catheter takes up, exactly, and what the
// published limits say of it.
func (h homeSheet) catheters() {
	h.sizes(h.Say("catheter beside tube"), h.Catheter, h.Tube)
	if !h.Smallest() {
		h.sizes(h.Say("for the smaller tube"), h.SmallCatheter, h.smaller())
	}
}

// sizes says nothing where a size is not known: nothing is guessed.
func (h homeSheet) sizes(left string, french, tube *assessment.Number) {
	if french == nil || tube == nil {
		return
	}
	ratio := assessment.CatheterRatio(*french, *tube)
	said := []string{h.Say("%s Fr is %s mm wide: %s of the tube’s %s mm, %s %%.", french.String(), assessment.CatheterWidth(*french).Thousandths(), ratio.Fraction(), tubeSize(*tube), ratio.NearPercent()),
		h.Say("This compares widths. Of the opening it takes up %s %%.", assessment.CatheterArea(*french, *tube).NearPercent())}
	for _, l := range assessment.CatheterLimits {
		if l.Allows(*french, *tube) {
			said = append(said, h.Say("Within: %s.", l.Phrase()))
		} else {
			said = append(said, h.Say("Not within: %s.", l.Phrase()))
		}
	}
	h.row(label(left), words{style: saidStyle, text: strings.Join(said, " ")})
}

// largest tells which of the usual catheters each limit would let pass in the child's tube.
// None is an answer: the team is asked, and it is never the next size up.
func (h homeSheet) largest() {
	if h.Tube == nil {
		return
	}
	var usual []string
	for _, n := range assessment.UsualCatheters {
		usual = append(usual, n.String())
	}
	pieces := []words{soft(h.Say("Of the usual catheters (%s Fr), the largest in a tube of %s mm:", strings.Join(usual, ", "), tubeSize(*h.Tube)))}
	for _, l := range assessment.CatheterLimits {
		if n, ok := l.Largest(assessment.UsualCatheters, *h.Tube); ok {
			pieces = append(pieces, text(h.Say("%s Fr, %s", n.String(), l.Phrase())))
			continue
		}
		pieces = append(pieces, text(h.Say("none, %s: ask the team", l.Phrase())))
	}
	h.row(label(h.Say("the limits")), pieces...)
}
