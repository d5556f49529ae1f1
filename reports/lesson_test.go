package reports

import (
	"strings"
	"testing"
	"time"

	"wellshown/assessment/catalog"
	sketch "wellshown/assessment/drawing"
	"wellshown/assessment/lesson"
	"wellshown/assessment/wording"
)

// Every starter lesson is printed with its drawings in both languages, and pdftotext
// reads every sentence of it.
func TestLessonsOnPaper(t *testing.T) {
	for _, code := range catalog.Codes() {
		for _, in := range wording.Languages {
			t.Run(code+" in "+string(in), func(t *testing.T) {
				t.Parallel()
				l, err := catalog.Lesson(code, in)
				if err != nil {
					t.Fatal(err)
				}
				drawings := map[string]sketch.Drawing{}
				for _, name := range l.Drawings() {
					if drawings[name], err = catalog.Drawing(name); err != nil {
						t.Fatal(err)
					}
				}
				path := drawn(t, "lesson-"+code+"-"+string(in), func() (*paper, error) {
					p, err := newPaper(meta{Title: l.Title, Language: string(in), Agency: "Larkmoor Home Care", Demo: true, Issued: time.Date(2026, 11, 30, 12, 0, 0, 0, time.UTC)})
					if err == nil {
						p.taught(l, drawings)
					}
					return p, err
				})
				read := strings.Join(strings.Fields(readBack(t, path)), " ")
				for _, said := range l.Passages() {
					if !strings.Contains(read, strings.Join(strings.Fields(said), " ")) && !everyWord(read, said) {
						t.Errorf("the paper does not say %q", said)
					}
				}
			})
		}
	}
}

// everyWord reports whether every word is there: where a page ends within a passage, its
// foot and head stand between.
func everyWord(read, said string) bool {
	for _, w := range strings.Fields(said) {
		if !strings.Contains(read, w) && !strings.Contains(read, strings.ReplaceAll(w, "-", "- ")) { // a line may end after a hyphen
			return false
		}
	}
	return true
}

// Strong words are set in the strong face, and no word is torn apart where its weight
// changes.
func TestWordsOfTwoWeights(t *testing.T) {
	p := blankPaper(t)
	spans := lesson.Spans{{Text: "Stop "}, {Text: "at once", Strong: true}, {Text: ", and call. "}, {Text: strings.Repeat("again ", 40)}}
	lines := p.spanned(spans, readingStyle, p.left, 100)
	if len(lines) < 5 {
		t.Fatalf("%d lines", len(lines))
	}
	var said, strongly strings.Builder
	for n, a := range lines {
		said.WriteString(" ")
		for _, it := range a.drawing {
			w := it.(writing)
			said.WriteString(w.text)
			if w.face.id == sansBold {
				strongly.WriteString(w.text)
			}
			if end := w.x - p.left + w.face.width(strings.TrimRight(w.text, " "), w.size); end > 100.01 {
				t.Errorf("line %d ends at %.1f", n, end)
			}
		}
		if first := a.drawing[0].(writing).text; strings.HasPrefix(first, ",") {
			t.Errorf("line %d begins with a comma", n)
		}
	}
	if strongly.String() != "at once" || strings.Join(strings.Fields(said.String()), " ") != strings.Join(strings.Fields(spans.Text()), " ") {
		t.Errorf("strong is %q, all is %q", strongly.String(), said.String())
	}
}
