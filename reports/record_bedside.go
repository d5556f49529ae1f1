package reports

import (
	"wellshown/assessment/office"
)

// A drawn signature is printed in a field of this size, in points.
const (
	drawnWidth  = 180.0
	drawnHeight = 60.0
	drawnField  = 1000.0 // of its coordinates
)

// bedside says on which device it was filled in without a network, when that came in,
// and all that was kept of it there.
func (p *paper) bedside(v office.DemonstrationView) {
	d := v.Bedside
	if d == nil {
		return
	}
	w := p.say.w
	pieces := []words{text(w.Say("Recorded on the device %s, without a network. Received %s.", d.Name, w.Instant(d.Clocks.Received, p.zone)))}
	if gap := w.Of(d.GapPhrase()); gap != "" {
		pieces = append(pieces, strong(gap), text(w.Say("It showed %s when this was begun and %s when it was sent.", w.Instant(d.Clocks.Performed, p.zone), w.Instant(d.Clocks.Sent, p.zone))))
	}
	if both := w.Of(d.OutcomesPhrase(v.Outcome)); both != "" {
		pieces = append(pieces, strong(both))
	}
	for _, b := range d.Bursts {
		pieces = append(pieces, text(w.Of(b.Phrase(p.zone))))
	}
	if !d.NameChecked.IsZero() {
		pieces = append(pieces, soft(w.Say("The learner’s name was checked on the device at %s.", w.Instant(d.NameChecked, p.zone))))
	}
	if !d.LookedOver.IsZero() {
		pieces = append(pieces, soft(w.Say("The device had lost this sheet, and it came back from a second copy. Its observer looked at each mark there at %s.", w.Instant(d.LookedOver, p.zone))))
	}
	p.row(label(w.Say("at the bedside")), append(pieces, soft(w.Say("The device signed a text with the SHA-256 %s.", d.SHA256)))...)
	if d.TalkedOver != "" {
		p.row(label(w.Say("talked over")), text(ended(d.TalkedOver)))
	}
	if d.Practise != "" {
		p.row(label(w.Say("to practise")), text(ended(d.Practise)))
	}
	p.drawn(d.Drawn)
}

// drawn prints what the learner drew with a finger or a pen. It is no signature that
// counts, and says so.
func (p *paper) drawn(strokes [][]int) {
	if len(strokes) == 0 {
		return
	}
	var lines drawing
	for _, s := range strokes {
		var points []float64
		for i := 0; i+1 < len(s); i += 2 {
			points = append(points, p.left+float64(s[i])*drawnWidth/drawnField, float64(s[i+1])*drawnHeight/drawnField)
		}
		if len(points) == 2 { // a dot
			points = append(points, points[0]+0.5, points[1])
		}
		lines = append(lines, figure{path: polyline(points...), pen: 0.8, colour: ink})
	}
	all := []atom{{before: 12, height: drawnHeight + 4, drawing: lines}}
	all = append(all, atoms(p.lines(soft(p.say.w.Say("Drawn at the bedside by the learner; not a signature that counts.")), p.room()), p.left)...)
	p.beside(all, label(p.say.w.Say("drawn")), textStyle.baseline())
	p.add(unbroken(all)...)
}
