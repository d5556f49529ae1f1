package reports

import (
	"fmt"

	sketch "wellshown/assessment/drawing"
	"wellshown/assessment/lesson"
)

// readingStyle is the size in which lessons are printed: to be read at a bedside.
var readingStyle = style{sans, 11.5, 16.5, ink}

// taught puts a lesson on the paper. A drawing that is not among those given is told by
// what it shows.
func (p *paper) taught(l lesson.Lesson, drawings map[string]sketch.Drawing) {
	p.letterhead(l.Title)
	p.lessonBlocks(l.Lead, drawings)
	for _, s := range l.Sections {
		p.heading(s.Title)
		p.lessonBlocks(s.Blocks, drawings)
	}
}

func (p *paper) lessonBlocks(blocks []lesson.Block, drawings map[string]sketch.Drawing) {
	for _, b := range blocks {
		switch b.Kind {
		case lesson.Paragraph:
			p.said(b.Spans, words{})
		case lesson.Caution:
			p.said(b.Spans, label(p.say.caution))
		case lesson.Heading:
			p.add(headed(p.spanned(b.Spans, style{sansBold, 11.5, 17, ink}, p.left, p.room()))...)
		case lesson.Bullets:
			for _, i := range b.Items {
				p.said(i, words{style: readingStyle, text: "•"})
			}
		case lesson.Steps:
			for n, i := range b.Items {
				p.said(i, words{style: readingStyle, text: fmt.Sprint(b.First + n)})
			}
		case lesson.Picture:
			if d, ok := drawings[b.Drawing]; ok {
				p.picture(d, b.Says)
			} else {
				p.note(b.Says)
			}
		}
	}
}

// headed keeps a heading with what follows it.
func headed(all []atom) []atom {
	for i := range all {
		all[i].keep = true
	}
	if len(all) > 0 {
		all[0].before = 12
	}
	return all
}

// said is words of a lesson, with what stands beside them left of the margin line.
func (p *paper) said(spans lesson.Spans, left words) {
	all := unorphaned(p.spanned(spans, readingStyle, p.left, p.room()))
	if len(all) == 0 {
		return
	}
	all[0].before = 8
	p.beside(all, left, readingStyle.baseline())
	p.add(all...)
}
