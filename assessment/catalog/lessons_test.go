package catalog_test

import (
	"slices"
	"strings"
	"testing"

	"wellshown/assessment/catalog"
	"wellshown/assessment/lesson"
	"wellshown/assessment/wording"
)

// sections are what every lesson tells, in this order.
var sections = map[wording.Language][]string{
	wording.English: {"Why", "What you need", "Step by step", "What can go wrong", "When to call", "Where this comes from"},
	wording.Spanish: {"Por qué", "Lo que necesita", "Paso a paso", "Qué puede salir mal", "Cuándo llamar", "De dónde viene"},
}

// shape is how a lesson is built, whatever its language: sections, blocks, items and
// drawings.
func shape(l lesson.Lesson) string {
	var b strings.Builder
	add := func(blocks []lesson.Block) {
		for _, one := range blocks {
			b.WriteString(string(one.Kind) + " " + one.Drawing + strings.Repeat("i", len(one.Items)) + "\n")
		}
	}
	add(l.Lead)
	for _, s := range l.Sections {
		b.WriteString("section\n")
		add(s.Blocks)
	}
	return b.String()
}

// Families are advised to be given texts of grade 6 to 8 (from memory: National
// Institutes of Health, American Medical Association). Grades by Kincaid 1975 for
// English and by the bands of Fernández Huerta 1959 for Spanish.
func TestEveryLessonIsWholeAndCanBeRead(t *testing.T) {
	for _, code := range catalog.Codes() {
		shapes := map[wording.Language]string{}
		for _, in := range wording.Languages {
			l, err := catalog.Lesson(code, in)
			if err != nil {
				t.Errorf("%s: %v", code, err)
				continue
			}
			level := l.Level(string(in))
			t.Logf("%-15s %s grade %4.1f ease %5.1f, %4d words in %3d sentences", code, in, level.Grade, level.Ease, level.Counts.Words, level.Counts.Sentences)
			if !level.Within() {
				t.Errorf("%s in %s asks for grade %.1f; the hardest sentence is %q", code, in, level.Grade, level.Hardest)
			}
			var titles []string
			for _, s := range l.Sections {
				titles = append(titles, s.Title)
			}
			if !slices.Equal(titles, sections[in]) {
				t.Errorf("%s in %s has the sections %q", code, in, titles)
			}
			checkLesson(t, code, l)
			shapes[in] = shape(l)
		}
		if shapes[wording.English] != shapes[wording.Spanish] {
			t.Errorf("%s is built otherwise in Spanish:\n%s\n%s", code, shapes[wording.English], shapes[wording.Spanish])
		}
	}
}

// checkLesson looks for what no lesson may lack.
func checkLesson(t *testing.T, code string, l lesson.Lesson) {
	t.Helper()
	cautions, steps := 0, 0
	for _, b := range l.Blocks() {
		switch b.Kind {
		case lesson.Caution:
			cautions++
		case lesson.Steps:
			if b.First != steps+1 {
				t.Errorf("%s: the steps go on with %d after %d", code, b.First, steps)
			}
			steps += len(b.Items)
		}
	}
	if len(l.Lead) < 2 || l.Lead[len(l.Lead)-1].Kind != lesson.Caution || cautions == 0 {
		t.Errorf("%s: its caution does not stand before the first section", code)
	}
	if steps < 6 {
		t.Errorf("%s: only %d steps", code, steps)
	}
	names := l.Drawings()
	if len(names) < 2 {
		t.Errorf("%s: only the drawings %v", code, names)
	}
	for _, name := range names {
		if !strings.HasPrefix(name, code+"-") {
			t.Errorf("%s shows the drawing %s of another skill", code, name)
		}
		if _, err := catalog.Drawing(name); err != nil {
			t.Errorf("%s: %v", code, err)
		}
	}
}

func TestEveryDrawingIsShownSomewhere(t *testing.T) {
	shown := map[string]bool{}
	for _, code := range catalog.Codes() {
		l, err := catalog.Lesson(code, wording.English)
		if err != nil {
			t.Fatal(err)
		}
		for _, name := range l.Drawings() {
			shown[name] = true
		}
	}
	names, err := catalog.Drawings()
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range names {
		if !shown[name] {
			t.Errorf("no lesson shows the drawing %s", name)
		}
	}
}
