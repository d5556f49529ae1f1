package reports

import (
	"fmt"
	"net/url"
	"strings"

	"rsc.io/qr"
)

// check is how a reader finds out whether a paper still holds: a code to type and
// the same as a QR code and a link.
type check struct {
	Code    string // as it is to be typed
	Address string // http or https, where the code is checked
	Words   string // what the check tells; empty for the usual sentence
}

const (
	qrSide = 84 // with its quiet zone, in points: 30 mm
	quiet  = 4  // modules of white around the code (ISO/IEC 18004)
)

// check prints the block at the foot of the page and the code on every page.
func (p *paper) check(c check) {
	code, err := qrCode(c.Address)
	if err != nil {
		p.fail(fmt.Errorf("check code %s: %w", c.Code, err))
		return
	}
	p.code = oneLine(c.Code)
	said := c.Words
	if said == "" {
		said = p.say.scan
	}
	p.beneath(code, c.Address, strong(p.say.code+" "+c.Code), soft(said))
}

// sinkQR prints an address as a QR code at the foot of the page, with what is there.
func (p *paper) sinkQR(address, what, said string) {
	code, err := qrCode(address)
	if err != nil {
		p.fail(fmt.Errorf("address of the paper: %w", err))
		return
	}
	p.beneath(code, address, strong(what), soft(said))
}

// beneath puts a QR code at the foot of the page with words beside it.
func (p *paper) beneath(code qrFigure, address string, pieces ...words) {
	// The quiet zone hangs out to the left, so that the code stands flush with the words.
	edge := code.module * quiet
	d := drawing{code.blocks, link{rect{0, 0, qrSide, qrSide}, address}}.moved(p.left-edge, 0)
	x := p.left + qrSide
	pieces = append(pieces, label(bareAddress(address)))
	lines := p.linesOf(pieces, p.right-x)
	y := max(edge-3, (qrSide-height(lines))/2)
	for _, l := range lines {
		d = append(d, l.at(x, y+l.style.baseline())...)
		y += l.style.lead
	}
	p.sink(atom{before: 16, height: max(qrSide-edge, y), drawing: d})
}

// qrFigure is a QR code as drawn, and the side of one module.
type qrFigure struct {
	blocks
	module float64
}

// qrCode draws address as a QR code of level M, which stands a stain on about an
// eighth of it, one rectangle for each run of dark modules.
func qrCode(address string) (qrFigure, error) {
	u, err := url.Parse(address)
	if err != nil || u.Scheme != "https" && u.Scheme != "http" || u.Host == "" {
		return qrFigure{}, fmt.Errorf("address %q is not one that a telephone can open", address)
	}
	q, err := qr.Encode(address, qr.M)
	if err != nil {
		return qrFigure{}, fmt.Errorf("draw %q as a QR code: %w", address, err)
	}
	c := qrFigure{module: qrSide / float64(q.Size+2*quiet)}
	for j := range q.Size {
		for i := 0; i < q.Size; i++ {
			from := i
			for i < q.Size && q.Black(i, j) {
				i++
			}
			if i > from {
				c.rects = append(c.rects, c.run(from, i, j))
			}
		}
	}
	return c, nil
}

// run is modules from up to to of row j. It reaches a hair into the next row,
// lest a light seam show between two rows.
func (c qrFigure) run(from, to, j int) rect {
	m := c.module
	return rect{float64(quiet+from) * m, float64(quiet+j) * m, float64(to-from) * m, m + 0.02}
}

// bareAddress is an address as people type it.
func bareAddress(address string) string {
	_, rest, found := strings.Cut(address, "://")
	if !found {
		return address
	}
	return rest
}
