package office_test

import (
	"strings"
	"testing"

	"wellshown/assessment"
	"wellshown/assessment/catalog"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/assessment/wording"
	"wellshown/integration/ward"
)

// starterDraft takes the starter lesson of the humidifier in a language as a draft.
func starterDraft(t *testing.T, w *ward.Ward, in wording.Language) office.LessonRef {
	t.Helper()
	must(w.Office.TakeStarterLessons(t.Context(), w.Educators[0], "humidifier", in))(t)
	return lessonLine(t, w, in).Draft
}

func lessonLine(t *testing.T, w *ward.Ward, in wording.Language) office.LessonLine {
	t.Helper()
	for _, of := range must(w.Office.Lessons(t.Context(), w.Educators[0]))(t).Skills {
		for _, l := range of.Lines {
			if of.Skill.Code == "humidifier" && l.Language == in {
				return l
			}
		}
	}
	t.Fatal("no line of the humidifier")
	return office.LessonLine{}
}

func force(d office.LessonRef) office.ForceLessonForm {
	return office.ForceLessonForm{Lesson: d.ID, Version: d.Version, Statement: "Read against our orders.", Proof: ward.Proof}
}

// A lesson comes in force by a licensed clinician's signature, and what was translated
// with the name of its translator too (45 CFR 92.201, from memory: qualified translators
// for critical text).
func TestALessonComesInForce(t *testing.T) {
	w, _, nan := quick(t, "humidifier")
	edda := w.Educators[0]
	en, es := starterDraft(t, w, wording.English), starterDraft(t, w, wording.Spanish)
	if en.Translated || !es.Translated || !en.Starter || en.Number != 1 || en.State != assessment.Draft || en.DraftedBy != edda.Name {
		t.Fatalf("%+v, %+v", en, es)
	}
	_, err := w.Office.TaughtLesson(t.Context(), nan, "humidifier", wording.Spanish)
	wantRefusal(t, err, fault.NotFound, "no such lesson")
	wantRefusal(t, w.Office.PutLessonInForce(t.Context(), w.Admin, force(en)), fault.Forbidden, "role")
	wantAtField(t, w.Office.PutLessonInForce(t.Context(), edda, force(es)), "translator", "qualified translator")
	silent := force(en)
	silent.Statement = " "
	wantAtField(t, w.Office.PutLessonInForce(t.Context(), edda, silent), "statement", "reviewed")
	wrong := force(en)
	wrong.Proof = office.ByPassword("not the password")
	wantAtField(t, w.Office.PutLessonInForce(t.Context(), edda, wrong), "password", "does not match")
	wantNone(t, w.Office.PutLessonInForce(t.Context(), edda, force(en)))

	v := must(w.Office.TaughtLesson(t.Context(), nan, "humidifier", wording.Spanish))(t)
	if v.Language != wording.English || v.InForceBy != edda.Name || v.Licence == "" || v.Translator != "" || len(v.Drawings) == 0 || v.Checklist == "" {
		t.Errorf("%+v", v.LessonRef)
	}
	named := force(es)
	named.Translator = "Rocío Ibarra, certified translator"
	wantNone(t, w.Office.PutLessonInForce(t.Context(), edda, named))
	v = must(w.Office.TaughtLesson(t.Context(), nan, "humidifier", wording.Spanish))(t)
	if v.Language != wording.Spanish || v.Translator != named.Translator || len(v.Languages) != 2 || !v.Level.Within() {
		t.Errorf("%+v", v.LessonRef)
	}
	wantRefusal(t, w.Office.PutLessonInForce(t.Context(), edda, force(en)), fault.Refused, "never changes")
}

// What is or was in force never changes; the next version takes its place.
func TestTheNextVersionOfALesson(t *testing.T) {
	w, _, nan := quick(t, "humidifier")
	edda := w.Educators[0]
	first := starterDraft(t, w, wording.English)
	wantNone(t, w.Office.PutLessonInForce(t.Context(), edda, force(first)))
	skill := must(w.Office.Lesson(t.Context(), edda, first.ID))(t).Skill.ID
	next := must(w.Office.DraftLesson(t.Context(), edda, skill, wording.English))(t)
	if next.Number != 2 || !next.Starter || next.Version != first.Version {
		t.Errorf("%+v", next)
	}
	_, err := w.Office.DraftLesson(t.Context(), edda, skill, wording.English)
	wantRefusal(t, err, fault.Conflict, "draft of this lesson already")
	src := must(w.Office.Lesson(t.Context(), edda, next.ID))(t).Source
	form := office.LessonForm{Lesson: next.ID, Version: next.Version, Source: strings.Replace(src, "\n\n## ", "\n\nSay it in your own words.\n\n## ", 1)}
	saved := must(w.Office.SaveLesson(t.Context(), edda, form))(t)
	_, err = w.Office.SaveLesson(t.Context(), edda, form)
	wantRefusal(t, err, fault.Conflict, "has saved this draft since")
	wantRefusal(t, w.Office.PutLessonInForce(t.Context(), edda, force(next)), fault.Conflict, "says something else now")
	_, _, changes, err := w.Office.CompareLessons(t.Context(), edda, first.ID, saved.ID)
	wantNone(t, err)
	if len(changes) != 1 || changes[0].After != "Say it in your own words." || changes[0].Before != "" {
		t.Errorf("%+v", changes)
	}
	form.Lesson, form.Version = first.ID, first.Version
	_, err = w.Office.SaveLesson(t.Context(), edda, form)
	wantRefusal(t, err, fault.Refused, "never changes")
	wantRefusal(t, w.Office.DiscardLesson(t.Context(), edda, first.ID), fault.Refused, "never changes")
	wantNone(t, w.Office.PutLessonInForce(t.Context(), edda, force(saved)))
	if v := must(w.Office.TaughtLesson(t.Context(), nan, "humidifier", wording.English))(t); v.Number != 2 {
		t.Errorf("version %d is taught", v.Number)
	}
	if v := must(w.Office.Lesson(t.Context(), edda, first.ID))(t); v.State != assessment.Retired || v.RetiredAt == nil {
		t.Errorf("the first is %s", v.State)
	}
	wantNone(t, w.Office.RetireLesson(t.Context(), edda, saved.ID, ward.Proof))
	_, err = w.Office.TaughtLesson(t.Context(), nan, "humidifier", wording.English)
	wantRefusal(t, err, fault.NotFound, "no such lesson")
}

// Markdown that carries a script, and drawings that nobody has added, are refused with
// their line; what is there stays as it was (CommonMark 0.31, raw HTML).
func TestALessonWithAScriptIsRefused(t *testing.T) {
	w, _, _ := quick(t, "humidifier")
	edda := w.Educators[0]
	d := starterDraft(t, w, wording.English)
	for bad, says := range map[string]string{
		"# T\n\nWords.\n\n<script>alert(1)</script>\n":            "Near line 5: a lesson cannot have HTML",
		"# T\n\nWords <img src=x onerror=alert(1)> here.\n":       "HTML",
		"# T\n\n[here](javascript:alert(1))\n":                    "a link",
		"# T\n\n![It shows](javascript:alert(1))\n":               "drawing is named like",
		"# T\n\n![It shows](https://example.org/suction-1.svg)\n": "drawing is named like",
		"# T\n\nWords.\n\n![It shows](never-drawn.svg)\n":         "no drawing never-drawn.svg",
		"Words alone.\n": "no title",
		"":               "no title",
	} {
		form := office.LessonForm{Lesson: d.ID, Version: d.Version, Source: bad}
		_, err := w.Office.SaveLesson(t.Context(), edda, form)
		wantAtField(t, err, "source", says)
		tried, err := w.Office.TryLesson(t.Context(), edda, form)
		wantAtField(t, err, "source", says)
		if tried.Source != bad {
			t.Errorf("of %q is left %q", bad, tried.Source)
		}
	}
	if v := must(w.Office.Lesson(t.Context(), edda, d.ID))(t); v.Version != d.Version {
		t.Error("the draft has changed")
	}
	_, err := w.Office.SaveLesson(t.Context(), w.Coordinator, office.LessonForm{Lesson: d.ID, Version: d.Version, Source: "# T\n\nWords.\n"})
	wantRefusal(t, err, fault.Forbidden, "edit lessons")
}

const plainDrawing = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 320 200"><path class="line" d="M10 10 L 300 10"/></svg>`

// A drawing is kept as it was read and written anew, never as it was sent (SVG 2, chapter
// 15: scripting; 1.2.3 of the elements that a drawing may have is our own list).
func TestADrawingWithAScriptIsRefused(t *testing.T) {
	w, _, nan := quick(t, "humidifier")
	edda := w.Educators[0]
	for bad, says := range map[string]string{
		`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 10 10"><script>alert(1)</script></svg>`:                              "script",
		`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 10 10" onload="alert(1)"><path d="M0 0L1 1"/></svg>`:                 "onload",
		`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 10 10"><path class="line" d="M0 0L1 1" onclick="alert(1)"/></svg>`:   "onclick",
		`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 10 10"><a href="javascript:alert(1)"><path d="M0 0L1 1"/></a></svg>`: `"a"`,
		`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 10 10"><image href="https://example.org/x.png"/></svg>`:              "image",
		`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 10 10"><foreignObject><p>x</p></foreignObject></svg>`:                "foreignObject",
		`<!DOCTYPE svg [<!ENTITY x "y">]><svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 10 10"><path d="M0 0L1 1"/></svg>`:   "document type",
		"not a drawing": "words",
		"":              "Choose a file",
	} {
		_, err := w.Office.AddDrawing(t.Context(), edda, office.DrawingForm{Name: "ours-1", SVG: []byte(bad)})
		wantAtField(t, err, "file", says)
	}
	good := office.DrawingForm{Name: "Ours-1.svg", SVG: []byte("<!-- by hand -->" + plainDrawing)}
	if name := must(w.Office.AddDrawing(t.Context(), edda, good))(t); name != "ours-1" {
		t.Errorf("kept as %q", name)
	}
	kept := must(w.Office.Lessons(t.Context(), edda))(t).Drawings
	if len(kept) != 1 || strings.Contains(kept[0].SVG, "by hand") || !strings.Contains(kept[0].SVG, `class="line"`) || kept[0].AddedBy != edda.Name {
		t.Errorf("%+v", kept)
	}
	_, err := w.Office.AddDrawing(t.Context(), edda, good)
	wantAtField(t, err, "name", "never changes")
	for name, says := range map[string]string{"humidifier-1": "starter drawing", "../etc": "small letters", "": "small letters", "a b": "small letters", strings.Repeat("a", 61): "small letters"} {
		_, err := w.Office.AddDrawing(t.Context(), edda, office.DrawingForm{Name: name, SVG: []byte(plainDrawing)})
		wantAtField(t, err, "name", says)
	}
	_, err = w.Office.AddDrawing(t.Context(), nan, good)
	wantRefusal(t, err, fault.Forbidden, "edit lessons")

	d := starterDraft(t, w, wording.English)
	saved := must(w.Office.SaveLesson(t.Context(), edda, office.LessonForm{Lesson: d.ID, Version: d.Version, Source: "# T\n\nWords.\n\n![It shows a line](ours-1.svg)\n"}))(t)
	wantNone(t, w.Office.PutLessonInForce(t.Context(), edda, force(saved)))
	if v := must(w.Office.TaughtLesson(t.Context(), nan, "humidifier", wording.English))(t); len(v.Drawings["ours-1"].Shapes) != 1 {
		t.Errorf("%+v", v.Drawings)
	}
}

// Starter drawings are kept with the lesson in force that shows them; a caregiver finds
// the lessons of what is asked of them, in teaching order and their language.
func TestWhatSomebodyLearnsFrom(t *testing.T) {
	w, mira, nan := quick(t, "humidifier", "suction")
	edda := w.Educators[0]
	if n := must(w.Office.TakeStarterLessons(t.Context(), edda, "", ""))(t); n != 24 {
		t.Errorf("%d starter lessons are taken", n)
	}
	if n := must(w.Office.TakeStarterLessons(t.Context(), edda, "", ""))(t); n != 0 {
		t.Errorf("%d are taken twice", n)
	}
	_, err := w.Office.TakeStarterLessons(t.Context(), edda, "suction", "")
	wantRefusal(t, err, fault.Conflict, "already")
	_, err = w.Office.TaughtLessons(t.Context(), edda, wording.English)
	wantRefusal(t, err, fault.Refused, "no lesson to print")
	d := lessonLine(t, w, wording.English).Draft
	wantNone(t, w.Office.PutLessonInForce(t.Context(), edda, force(d)))
	names := must(catalog.Lesson("humidifier", wording.English))(t).Drawings()
	if kept := must(w.Office.Lessons(t.Context(), edda))(t).Drawings; len(kept) != len(names) {
		t.Errorf("%d of %d drawings are kept", len(kept), len(names))
	}
	w.Join(nan, mira)
	w.Require("suction", "")
	w.Require("humidifier", "")
	mine := must(w.Office.LessonShelf(t.Context(), nan, wording.Spanish))(t)
	codes := ""
	for _, l := range mine.Lines {
		codes += l.Skill.Code + ":" + string(l.Lesson.Language) + " "
	}
	if !mine.Mine || codes != "suction: humidifier:en " {
		t.Errorf("%v, %q", mine.Mine, codes)
	}
	all := must(w.Office.LessonShelf(t.Context(), w.Coordinator, wording.English))(t)
	if all.Mine || len(all.Lines) != 1 || all.Lines[0].Lesson.Title == "" {
		t.Errorf("%+v", all)
	}
	if printed := must(w.Office.TaughtLessons(t.Context(), nan, wording.Spanish))(t); len(printed) != 1 {
		t.Errorf("%d are printed", len(printed))
	}
}
