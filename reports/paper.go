// Package reports puts the office's answers on paper.
//
// A document is written on a paper with a few primitives: letterhead, heading,
// paragraph, row, table, signatures, check. They lay it out as drawings; this
// file prints the drawings as PDF, and nothing else knows how PDF is made.
package reports

import (
	"bytes"
	"fmt"
	"regexp"
	"slices"
	"time"

	"github.com/jung-kurt/gofpdf"
)

// meta is what is to be known of a paper before the first word is put on it.
type meta struct {
	Title     string    // of the document, for lists and screen readers
	Language  string    // BCP 47 tag of its words: en, es-MX
	Agency    string    // whose paper it is
	Demo      bool      // the agency is invented
	Issued    time.Time // the instant that the paper states; nothing else says when it was made
	Stands    string    // said at the foot instead of the instant of issue: the day that is spoken of
	Zone      *time.Location
	Size      pageSize
	Landscape bool
	Stranger  bool // it goes to somebody who needs no clinical word of it
}

// paper is a document being written. The same calls give the same bytes, on any
// machine and at any time.
type paper struct {
	meta meta
	layout
	faces   *[faceCount]*face
	say     phrases
	zone    *time.Location
	finding string   // the heading of the first page, repeated small on the others
	heads   []string // what was the finding when each page but the first began
	code    string   // the check code or the mark of a text, printed on every page
	byHand  []string // what is written by hand at the head of every page but the first
	pages   []drawing
	y       float64 // where the next atom goes
	start   float64 // where the words of this page began
	space   float64 // asked for before the next atom
	held    []atom
	places  []place // of what is added next
	bound   int
	err     error
}

var languageTag = regexp.MustCompile(`^[A-Za-z]{2,8}(-[A-Za-z0-9]{1,8})*$`)

// newPaper takes up an empty first page. It refuses what would make the document
// unsound: no title, no instant of issue, a language that is not a tag.
func newPaper(m meta) (*paper, error) {
	if oneLine(m.Title) == "" || m.Issued.IsZero() || !languageTag.MatchString(m.Language) {
		return nil, fmt.Errorf("a paper needs a title, a language and an instant of issue, not %q, %q and %s", m.Title, m.Language, m.Issued)
	}
	all, err := faces()
	if err != nil {
		return nil, err
	}
	p := &paper{meta: m, faces: all, layout: layOut(m.Size, m.Landscape), say: phrasesIn(m.Language), zone: m.Zone, pages: []drawing{nil}}
	if p.zone == nil {
		p.zone = time.UTC
	}
	if m.Demo {
		p.meta.Agency += " · " + p.say.demo
	}
	p.clearFoot()
	p.y, p.start = p.top, p.top
	return p, nil
}

// fail keeps the first fault; bytes reports it.
func (p *paper) fail(err error) {
	if p.err == nil {
		p.err = err
	}
}

// bytes is the finished document as PDF.
func (p *paper) bytes() ([]byte, error) {
	p.flush()
	if p.err != nil {
		return nil, fmt.Errorf("write the paper %q: %w", p.meta.Title, p.err)
	}
	pages := make([]drawing, len(p.pages))
	for i, d := range p.pages {
		pages[i] = p.framed(d, i+1, len(p.pages))
	}
	if p.numbered(pages); p.err != nil {
		return nil, fmt.Errorf("number the pages of %q: %w", p.meta.Title, p.err)
	}
	out, err := printed(p.meta, p.layout, pages)
	if err != nil {
		return nil, fmt.Errorf("print the paper %q: %w", p.meta.Title, err)
	}
	return out, nil
}

// canvas is the PDF library, as drawings see it.
type canvas struct {
	pdf    *gofpdf.Fpdf
	face   *face
	size   float64
	places map[string]int // links within the document, by the name of where they lead
	sans   string         // family of running text
}

// printed draws all pages. The library panics on text that it does not expect;
// none gets here, yet should it ever, one document fails and not the process.
func printed(m meta, l layout, pages []drawing) (out []byte, err error) {
	defer func() {
		if fault := recover(); fault != nil {
			out, err = nil, fmt.Errorf("the PDF library gave up: %v", fault)
		}
	}()
	c := &canvas{pdf: gofpdf.NewCustom(&gofpdf.InitType{UnitStr: "pt", Size: gofpdf.SizeType{Wd: l.width, Ht: l.height}})}
	c.describe(m)
	if err := c.load(pages); err != nil {
		return nil, err
	}
	c.find(pages)
	for _, d := range pages {
		c.page(m.Language, d)
	}
	var buf bytes.Buffer
	if err := c.pdf.Output(&buf); err != nil {
		return nil, err
	}
	return buf.Bytes(), nil
}

// describe sets all that the library would else take from the clock or from the
// order of a map.
func (c *canvas) describe(m meta) {
	c.pdf.SetTitle(oneLine(m.Title), true)
	c.pdf.SetAuthor(oneLine(m.Agency), true)
	c.pdf.SetProducer("Wellshown", true)
	c.pdf.SetCreator("Wellshown", true)
	c.pdf.SetCreationDate(m.Issued.UTC())
	c.pdf.SetModificationDate(m.Issued.UTC())
	c.pdf.SetCatalogSort(true)
	c.pdf.SetAutoPageBreak(false, 0)
}

// load hands the library each face that the pages use, cut to what they use of it.
func (c *canvas) load(pages []drawing) error {
	used := map[*face]map[rune]bool{}
	for _, d := range pages {
		for _, it := range d {
			if w, ok := it.(writing); ok {
				tally(used, w)
			}
		}
	}
	for f, set := range used {
		runes := make([]rune, 0, len(set))
		for r := range set {
			runes = append(runes, r)
		}
		slices.Sort(runes)
		ttf, err := f.only(runes)
		if err != nil {
			return err
		}
		c.pdf.AddUTF8FontFromBytes(f.family(), "", ttf)
		if f.id == sans {
			c.sans = f.family()
		}
	}
	return nil
}

// tally notes the characters of one line.
func tally(used map[*face]map[rune]bool, w writing) {
	if used[w.face] == nil {
		used[w.face] = map[rune]bool{}
	}
	for _, r := range w.text {
		used[w.face][r] = true
	}
}

func (f *face) family() string {
	return [faceCount]string{"sans", "sansbold", "serifbold"}[f.id]
}

// page draws one page inside a span that names the language of its words
// (ISO 32000-1, 14.9.2). The library has no way to say it for the whole document.
func (c *canvas) page(language string, d drawing) {
	c.pdf.AddPage()
	c.face, c.size = nil, 0
	c.pdf.RawWriteStr(fmt.Sprintf("/Span <</Lang (%s)>> BDC", language))
	for _, it := range d {
		it.put(c)
	}
	c.pdf.RawWriteStr("EMC")
}

func (c *canvas) write(w writing) {
	if c.face != w.face || c.size != w.size {
		c.pdf.SetFont(w.face.family(), "", w.size)
		c.face, c.size = w.face, w.size
	}
	c.pdf.SetTextColor(int(w.colour.r), int(w.colour.g), int(w.colour.b))
	if w.upright {
		c.pdf.TransformBegin()
		c.pdf.TransformRotate(90, w.x, w.y)
		defer c.pdf.TransformEnd()
	}
	c.pdf.Text(w.x, w.y, w.text)
}

func (c *canvas) draw(f figure) {
	style := "F"
	if f.pen > 0 {
		style = "D"
		c.pdf.SetDrawColor(int(f.colour.r), int(f.colour.g), int(f.colour.b))
		c.pdf.SetLineWidth(f.pen)
		if f.broken {
			c.pdf.SetDashPattern([]float64{4 * f.pen, 3 * f.pen}, 0)
			defer c.pdf.SetDashPattern(nil, 0)
		}
	} else {
		c.pdf.SetFillColor(int(f.colour.r), int(f.colour.g), int(f.colour.b))
	}
	for _, s := range f.path {
		switch s.kind {
		case moveTo:
			c.pdf.MoveTo(f.x+s.x, f.y+s.y)
		case lineTo:
			c.pdf.LineTo(f.x+s.x, f.y+s.y)
		case curveTo:
			c.pdf.CurveBezierCubicTo(f.x+s.x1, f.y+s.y1, f.x+s.x2, f.y+s.y2, f.x+s.x, f.y+s.y)
		case closePath:
			c.pdf.ClosePath()
		}
	}
	c.pdf.DrawPath(style)
}

func (c *canvas) fill(b blocks) {
	c.pdf.SetFillColor(int(ink.r), int(ink.g), int(ink.b))
	for _, r := range b.rects {
		c.pdf.Rect(b.x+r.x, b.y+r.y, r.w, r.h, "F")
	}
}

func (c *canvas) link(l link) {
	c.pdf.LinkString(l.x, l.y, l.w, l.h, l.address)
}
