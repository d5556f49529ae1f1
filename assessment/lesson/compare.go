package lesson

import "strings"

// Change is one difference between two versions of a lesson.
type Change struct {
	Section string // the heading under which it stands; the title where it is above all
	Before  string // empty: added
	After   string // empty: removed
}

// passage is words of a lesson with where they stand.
type passage struct{ section, text string }

func (l Lesson) placed() []passage {
	all := []passage{{l.Title, l.Title}}
	add := func(section string, blocks []Block) {
		for _, b := range blocks {
			switch b.Kind {
			case Picture:
				all = append(all, passage{section, b.Says + " (" + b.Drawing + ".svg)"})
			case Bullets, Steps:
				for _, i := range b.Items {
					all = append(all, passage{section, marked(i)})
				}
			default:
				all = append(all, passage{section, marked(b.Spans)})
			}
		}
	}
	add(l.Title, l.Lead)
	for _, s := range l.Sections {
		all = append(all, passage{s.Title, s.Title})
		add(s.Title, s.Blocks)
	}
	return all
}

// marked is what spans say, with the stars of strong words, so that a change of weight
// is one too.
func marked(spans Spans) string {
	var b strings.Builder
	for _, s := range spans {
		if s.Strong {
			b.WriteString("**" + s.Text + "**")
		} else {
			b.WriteString(s.Text)
		}
	}
	return b.String()
}

// Compare lists what makes the newer version differ, in its order. What was removed and
// what was added at the same place are one change.
func Compare(older, newer Lesson) []Change {
	a, b := older.placed(), newer.placed()
	same := longest(a, b)
	var changes []Change
	i, j := 0, 0
	for i < len(a) || j < len(b) {
		if i < len(a) && j < len(b) && a[i].text == b[j].text {
			i, j = i+1, j+1
			continue
		}
		goneFrom, newFrom := i, j
		for i < len(a) && (j >= len(b) || same[i+1][j] == same[i][j]) {
			i++
		}
		for j < len(b) && (i >= len(a) || a[i].text != b[j].text) && (i >= len(a) || same[i][j+1] == same[i][j]) {
			j++
		}
		changes = append(changes, paired(a[goneFrom:i], b[newFrom:j])...)
	}
	return changes
}

// longest has the length of the longest run of like passages, in order, that the tails of
// both from each place on share.
func longest(a, b []passage) [][]int {
	same := make([][]int, len(a)+1)
	for i := range same {
		same[i] = make([]int, len(b)+1)
	}
	for i := len(a) - 1; i >= 0; i-- {
		for j := len(b) - 1; j >= 0; j-- {
			if a[i].text == b[j].text {
				same[i][j] = same[i+1][j+1] + 1
			} else {
				same[i][j] = max(same[i+1][j], same[i][j+1])
			}
		}
	}
	return same
}

func paired(gone, added []passage) []Change {
	var changes []Change
	for n := range max(len(gone), len(added)) {
		var c Change
		if n < len(gone) {
			c.Section, c.Before = gone[n].section, gone[n].text
		}
		if n < len(added) {
			c.Section, c.After = added[n].section, added[n].text
		}
		changes = append(changes, c)
	}
	return changes
}
