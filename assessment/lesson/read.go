package lesson

import (
	"bytes"
	"regexp"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/text"

	"wellshown/assessment/fault"
)

// The limits of a lesson.
const (
	MostBytes  = 64 << 10
	MostBlocks = 400
)

// drawingName is how drawings are called in a lesson: a file's name of small letters,
// digits and hyphens.
var drawingName = regexp.MustCompile(`^([a-z0-9]+(?:-[a-z0-9]+)*)\.svg$`)

// Read reads a lesson. What is not let through is refused with its line and why.
func Read(src []byte) (Lesson, error) {
	if len(src) > MostBytes {
		return Lesson{}, fault.Of(fault.Invalid, "The lesson is larger than %d kB.", MostBytes>>10)
	}
	if !utf8.Valid(src) {
		return Lesson{}, fault.Of(fault.Invalid, "The lesson is not text in UTF-8.")
	}
	src = bytes.ReplaceAll(bytes.TrimPrefix(src, []byte("\ufeff")), []byte("\r\n"), []byte("\n"))
	if at := bytes.IndexFunc(src, func(r rune) bool { return unicode.IsControl(r) && r != '\n' && r != '\t' }); at >= 0 {
		return Lesson{}, fault.Of(fault.Invalid, "Line %d holds a character that cannot be printed.", lineOf(src, at))
	}
	r := reader{src: src}
	document := goldmark.New().Parser().Parse(text.NewReader(src))
	for n := document.FirstChild(); n != nil; n = n.NextSibling() {
		if err := r.block(n); err != nil {
			return Lesson{}, err
		}
	}
	switch {
	case r.lesson.Title == "":
		return Lesson{}, fault.Of(fault.Invalid, "The lesson has no title: begin with a line like “# Suctioning”.")
	case r.blocks > MostBlocks:
		return Lesson{}, fault.Of(fault.Invalid, "The lesson has more than %d parts.", MostBlocks)
	case r.blocks == 0:
		return Lesson{}, fault.Of(fault.Invalid, "The lesson says nothing under its title.")
	}
	return r.lesson, nil
}

type reader struct {
	src    []byte
	lesson Lesson
	blocks int
	line   int // of the newest block whose place is known
}

func (r *reader) block(n ast.Node) error {
	r.place(n)
	switch n := n.(type) {
	case *ast.Heading:
		return r.heading(n)
	case *ast.Paragraph:
		return r.paragraph(n, Paragraph)
	case *ast.Blockquote:
		return r.caution(n)
	case *ast.List:
		return r.list(n)
	}
	return r.refuse(n)
}

// place notes the line on which a block, or the first thing in it, begins.
func (r *reader) place(n ast.Node) {
	for ; n != nil && n.Type() == ast.TypeBlock; n = n.FirstChild() {
		if lines := n.Lines(); lines.Len() > 0 {
			r.line = lineOf(r.src, lines.At(0).Start)
			return
		}
	}
}

func lineOf(src []byte, at int) int { return 1 + bytes.Count(src[:at], []byte("\n")) }

// names says what is not let through, for whoever wrote it.
var names = map[ast.NodeKind]string{
	ast.KindHTMLBlock: "HTML", ast.KindRawHTML: "HTML", ast.KindLink: "a link", ast.KindAutoLink: "a link", ast.KindCodeBlock: "lines that are moved in by four spaces or more (code)", ast.KindFencedCodeBlock: "code", ast.KindCodeSpan: "code",
	ast.KindThematicBreak: "a line across", ast.KindEmphasis: "slanted words (one star or underscore)", ast.KindImage: "a drawing within words", ast.KindList: "a list within a list", ast.KindBlockquote: "a caution within a list",
}

func (r *reader) refuse(n ast.Node) error {
	what := names[n.Kind()]
	if what == "" {
		what = "this"
	}
	return fault.Of(fault.Invalid, "Near line %d: a lesson cannot have %s. It may have headings, paragraphs, lists, cautions that begin with >, drawings and **strong words**.", max(r.line, 1), what)
}

func (r *reader) heading(n *ast.Heading) error {
	spans, err := r.spans(n)
	if err != nil {
		return err
	}
	words := strings.TrimSpace(spans.Text())
	switch {
	case words == "":
		return fault.Of(fault.Invalid, "Near line %d: a heading says nothing.", max(r.line, 1))
	case n.Level == 1 && r.lesson.Title == "" && r.blocks == 0:
		r.lesson.Title = words
	case r.lesson.Title == "":
		return fault.Of(fault.Invalid, "The lesson has no title: begin with a line like “# Suctioning”.")
	case n.Level == 2:
		r.lesson.Sections = append(r.lesson.Sections, Section{Title: words})
	case n.Level == 3:
		r.add(Block{Kind: Heading, Spans: spans})
	default:
		return fault.Of(fault.Invalid, "Near line %d: one heading of # begins the lesson, and the others are of ## or ###.", max(r.line, 1))
	}
	return nil
}

// add puts a block where the lesson has come to.
func (r *reader) add(b Block) {
	r.blocks++
	if n := len(r.lesson.Sections); n > 0 {
		r.lesson.Sections[n-1].Blocks = append(r.lesson.Sections[n-1].Blocks, b)
		return
	}
	r.lesson.Lead = append(r.lesson.Lead, b)
}

func (r *reader) paragraph(n ast.Node, kind Kind) error {
	if image, ok := n.FirstChild().(*ast.Image); ok && kind == Paragraph && image.NextSibling() == nil {
		return r.picture(image)
	}
	spans, err := r.spans(n)
	if err != nil {
		return err
	}
	r.add(Block{Kind: kind, Spans: spans})
	return nil
}

func (r *reader) picture(n *ast.Image) error {
	says, err := r.spans(n)
	if err != nil {
		return err
	}
	name := drawingName.FindSubmatch(n.Destination)
	switch {
	case name == nil:
		return fault.Of(fault.Invalid, "Near line %d: a drawing is named like suction-1.svg, and comes from the drawings of your agency.", r.line)
	case len(n.Title) > 0:
		return fault.Of(fault.Invalid, "Near line %d: a drawing takes no title beside its name.", r.line)
	case strings.TrimSpace(says.Text()) == "":
		return fault.Of(fault.Invalid, "Near line %d: say between the brackets what the drawing shows, for whoever cannot see it.", r.line)
	}
	r.add(Block{Kind: Picture, Drawing: string(name[1]), Says: strings.TrimSpace(says.Text())})
	return nil
}

func (r *reader) caution(n *ast.Blockquote) error {
	for c := n.FirstChild(); c != nil; c = c.NextSibling() {
		r.place(c)
		p, ok := c.(*ast.Paragraph)
		if !ok {
			return r.refuse(c)
		}
		if err := r.paragraph(p, Caution); err != nil {
			return err
		}
	}
	return nil
}

func (r *reader) list(n *ast.List) error {
	b := Block{Kind: Bullets}
	if n.IsOrdered() {
		b.Kind, b.First = Steps, n.Start
	}
	for item := n.FirstChild(); item != nil; item = item.NextSibling() {
		var all Spans
		for c := item.FirstChild(); c != nil; c = c.NextSibling() {
			r.place(c)
			if k := c.Kind(); k != ast.KindTextBlock && k != ast.KindParagraph {
				return r.refuse(c)
			}
			spans, err := r.spans(c)
			if err != nil {
				return err
			}
			if len(all) > 0 {
				all = append(all, Span{Text: " "})
			}
			all = append(all, spans...)
		}
		if strings.TrimSpace(all.Text()) == "" {
			return fault.Of(fault.Invalid, "Near line %d: an item of a list says nothing.", max(r.line, 1))
		}
		b.Items = append(b.Items, all)
	}
	r.add(b)
	return nil
}
