package web

import (
	"fmt"

	"wellshown/assessment/drawing"
	"wellshown/assessment/lesson"
	"wellshown/assessment/office"
	"wellshown/assessment/reading"
	"wellshown/assessment/wording"
)

// lessonText is a lesson as a page draws it: blocks and outlines of ours, never markup.
func lessonText(v office.LessonView) LessonText {
	t := LessonText{Title: v.Text.Title, Tag: string(v.Language), Dir: wording.In(v.Language).Dir()}
	drawn := pictures{drawings: v.Drawings}
	for _, b := range v.Text.Lead {
		if b.Kind == lesson.Caution {
			t.Cautions = append(t.Cautions, drawn.block(b))
		} else {
			t.Lead = append(t.Lead, drawn.block(b))
		}
	}
	for _, s := range v.Text.Sections {
		section := LessonSection{Title: s.Title}
		for _, b := range s.Blocks {
			section.Blocks = append(section.Blocks, drawn.block(b))
		}
		t.Sections = append(t.Sections, section)
	}
	return t
}

// pictures numbers the drawings of a page.
type pictures struct {
	drawings office.Drawings
	n        int
}

func (p *pictures) block(b lesson.Block) LessonBlock {
	out := LessonBlock{Kind: string(b.Kind), Runs: runs(b.Spans), First: b.First}
	for _, i := range b.Items {
		out.Items = append(out.Items, runs(i))
	}
	if b.Kind == lesson.Picture {
		p.n++
		out.Picture = LessonPicture{ID: fmt.Sprintf("picture-%d", p.n), Says: b.Says}
		if d, have := p.drawings[b.Drawing]; have {
			out.Picture.Box, out.Picture.Shapes = d.Box(), shapesOf(d)
		}
	}
	return out
}

func runs(spans lesson.Spans) []Run {
	var all []Run
	for _, s := range spans {
		all = append(all, Run(s))
	}
	return all
}

func shapesOf(d drawing.Drawing) []PictureShape {
	var all []PictureShape
	for _, s := range d.Shapes {
		one := PictureShape{Class: string(s.Class)}
		if s.Digit != 0 {
			one.Digit = string(rune(s.Digit))
			one.X, one.Y = s.Place()
		} else {
			one.Data = s.Data()
		}
		all = append(all, one)
	}
	return all
}

// lessonLevel says how hard it is to read, with the formula.
func lessonLevel(l reading.Level) LessonLevel {
	out := LessonLevel{Within: l.Within(), Hardest: l.Hardest, Words: l.Counts.Words}
	switch {
	case !l.Known():
	case l.Language == string(wording.Spanish):
		out.Grade = fmt.Sprintf("grade %.0f, ease %.0f (Fernández Huerta)", l.Grade, l.Ease)
	default:
		out.Grade = fmt.Sprintf("grade %.1f (Flesch–Kincaid)", l.Grade)
	}
	return out
}
