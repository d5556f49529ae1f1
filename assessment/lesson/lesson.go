// Package lesson reads the lessons that teach a skill: a small part of Markdown, into
// blocks of our own. Nothing else is let through, so that a lesson can carry no markup,
// link or script to whoever reads it: pages and papers draw the blocks.
package lesson

import (
	"wellshown/assessment/reading"
)

// Span is a run of words, said plainly or with weight.
type Span struct {
	Text   string
	Strong bool
}

// Spans are the words of a paragraph, a heading or an item.
type Spans []Span

// Text is what they say.
func (s Spans) Text() string {
	text := ""
	for _, one := range s {
		text += one.Text
	}
	return text
}

// Kind says what a block is.
type Kind string

// The kinds of block.
const (
	Heading   Kind = "heading"   // within a section
	Paragraph Kind = "paragraph" //
	Caution   Kind = "caution"   // set apart; says what comes before all else
	Bullets   Kind = "bullets"   // items in no order
	Steps     Kind = "steps"     // numbered items; they may begin at another number than 1
	Picture   Kind = "picture"   // a line drawing, by name
)

// Block is one part of a lesson.
type Block struct {
	Kind    Kind
	Spans   Spans   // Heading, Paragraph, Caution
	Items   []Spans // Bullets, Steps
	First   int     // Steps: the number of the first
	Drawing string  // Picture: the drawing's name, such as "suction-1"
	Says    string  // Picture: what it shows, for whoever cannot see it
}

// Section is a heading with what stands under it.
type Section struct {
	Title  string
	Blocks []Block
}

// Lesson is what teaches a skill, in one language.
type Lesson struct {
	Title    string
	Lead     []Block // before the first section: what it is for, and the cautions
	Sections []Section
}

// Blocks lists all blocks, in order.
func (l Lesson) Blocks() []Block {
	all := append([]Block(nil), l.Lead...)
	for _, s := range l.Sections {
		all = append(all, s.Blocks...)
	}
	return all
}

// Drawings names the drawings that it shows, in order, each once.
func (l Lesson) Drawings() []string {
	var names []string
	seen := map[string]bool{}
	for _, b := range l.Blocks() {
		if b.Kind == Picture && !seen[b.Drawing] {
			seen[b.Drawing], names = true, append(names, b.Drawing)
		}
	}
	return names
}

// Passages are all words that are to be read, each paragraph, heading and item by
// itself.
func (l Lesson) Passages() []string {
	all := []string{l.Title}
	add := func(blocks []Block) {
		for _, b := range blocks {
			if b.Kind == Picture {
				all = append(all, b.Says)
			}
			if len(b.Spans) > 0 {
				all = append(all, b.Spans.Text())
			}
			for _, i := range b.Items {
				all = append(all, i.Text())
			}
		}
	}
	add(l.Lead)
	for _, s := range l.Sections {
		all = append(all, s.Title)
		add(s.Blocks)
	}
	return all
}

// Level is how hard it is to read, in the language it is in.
func (l Lesson) Level(language string) reading.Level {
	return reading.Measure(language, l.Passages()...)
}
