package reports

import "time"

// signature is one person's statement. Where At is zero nobody has signed: the
// block then has room to sign and date by hand.
type signature struct {
	Name    string // printed; may be empty on a blank paper
	Licence string // licence or relation to the child, as it is to be read
	Meaning string // what the signer states, without quotation marks
	At      time.Time
	Zone    *time.Location // whose clocks tell At; nil: the paper's
}

const (
	signatureRoom = 34 // above the line, for a pen
	signatureDrop = 4  // from the line to the first words
	signatureGap  = 22
)

// signatures prints blocks two side by side, each pair on one page.
func (p *paper) signatures(left words, all ...signature) {
	w := (p.room() - signatureGap) / 2
	for len(all) > 0 {
		n := min(2, len(all))
		p.add(p.signed(left, all[:n], w)...)
		all, left = all[n:], words{}
	}
}

// signed is one block, or two side by side.
func (p *paper) signed(left words, pair []signature, width float64) []atom {
	edge := func(i int) float64 { return p.left + float64(i)*(width+signatureGap) }
	set := make([][]line, len(pair))
	for i, s := range pair {
		set[i] = p.linesOf(p.statement(s), width)
	}
	all := p.side(set, func(i int, _ line) float64 { return edge(i) })
	all[0] = lowered(all[0], signatureRoom+signatureDrop)
	for i := range pair {
		all[0].drawing = append(all[0].drawing, straight(edge(i), signatureRoom, edge(i)+width, signatureRoom, 0.8, ink))
	}
	p.beside(all, left, signatureRoom+signatureDrop+strongStyle.baseline())
	all[0].before = 8
	return unbroken(all)
}

func (p *paper) statement(s signature) []words {
	said, when := words{style: saidStyle}, soft(p.say.byHand)
	if oneLine(s.Meaning) != "" {
		said.text = p.say.quoted(s.Meaning)
	}
	if !s.At.IsZero() {
		zone := p.zone
		if s.Zone != nil {
			zone = s.Zone
		}
		when = words{style: saidStyle, text: p.say.instant(s.At, zone)}
	}
	return []words{strong(s.Name), soft(s.Licence), said, when}
}

// signedLine is a signature in one line of a table: who, by which licence, when and
// what they state (21 CFR 11.50).
func (p *paper) signedLine(s signature) string {
	who := s.Name
	if s.Licence != "" {
		who += ", " + s.Licence
	}
	zone := p.zone
	if s.Zone != nil {
		zone = s.Zone
	}
	return who + ", " + p.say.instant(s.At, zone) + ": " + p.say.quoted(s.Meaning)
}
