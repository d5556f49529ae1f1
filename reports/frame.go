package reports

import "fmt"

// framed is a page with what every page carries besides its words: the margin
// line, a running head from the second page on, and the foot, in the order in
// which they are to be read aloud.
func (p *paper) framed(page drawing, number, of int) drawing {
	d := drawing{straight(p.line, p.top-4, p.line, p.end, 0.9, marginal)}
	if number > 1 {
		d = append(d, p.headline(p.heads[number-2])...)
	}
	d = append(d, page...)
	return append(d, p.footer(number, of)...)
}

// headline names the paper on the pages after the first, on one line.
func (p *paper) headline(finding string) drawing {
	said := p.meta.Agency
	if finding != "" {
		said += " · " + finding
	}
	room := p.room()
	var d drawing
	if len(p.byHand) > 0 {
		room *= 0.46
		d = p.handHead(p.left+room+12, p.top+softStyle.baseline())
	}
	f, clean := p.set(softStyle, oneLine(said))
	l := line{style: softStyle, face: f, text: clipped(f, softStyle.size, clean, room)}
	return append(l.at(p.left, p.top+softStyle.baseline()), d...)
}

// handHead is what tells one filled-in page from another's once they are taken
// apart: names with a rule behind each, up to the right edge.
func (p *paper) handHead(x, base float64) drawing {
	var d drawing
	share := (p.right - x) / float64(len(p.byHand))
	for i, named := range p.byHand {
		for _, l := range p.lines(label(named), share) {
			from := x + float64(i)*share
			d = append(d, l.at(from, base)...)
			d = append(d, straight(from+l.width+4, base+2, from+share-8, base+2, 0.6, ink))
		}
	}
	return d
}

// clearFoot keeps as much of the page free as the foot needs in its language.
func (p *paper) clearFoot() {
	safety := p.balanced(words{style: smallStyle, text: p.limits()}, p.room())
	p.foot = p.end - height(safety) - smallStyle.lead - 2
	p.bottom = p.foot - 12
}

// limits says what the paper is not.
func (p *paper) limits() string {
	if p.meta.Stranger || p.say.draft == "" {
		return p.say.safety
	}
	return p.say.safety + " " + p.say.draft
}

// footer says what the paper is not, when it was issued, and which page this is.
func (p *paper) footer(number, of int) drawing {
	var d drawing
	y := p.foot
	for _, l := range p.balanced(words{style: smallStyle, text: p.limits()}, p.room()) {
		d = append(d, l.at(p.left, y+smallStyle.baseline())...)
		y += smallStyle.lead
	}
	base := p.end - smallStyle.lead + smallStyle.baseline() + 1
	stands := p.meta.Stands
	if stands == "" {
		stands = fmt.Sprintf(p.say.issued, p.say.instant(p.meta.Issued, p.zone))
	}
	pages := fmt.Sprintf(p.say.page, number, of)
	if p.code != "" {
		pages = p.code + " · " + pages
	}
	right := p.lines(words{style: smallStyle, text: pages}, p.room()*0.6)
	for _, l := range right {
		d = append(d, l.at(p.right-l.width, base)...)
	}
	f, clean := p.set(smallStyle, oneLine(stands))
	left := line{style: smallStyle, face: f, text: clipped(f, smallStyle.size, clean, p.room()*0.6)}
	return append(d, left.at(p.left, base)...)
}
