package reports

import (
	"bytes"
	"testing"

	"wellshown/assessment/catalog"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/assessment/wording"
	"wellshown/integration/ward"
)

// forceLessons puts the starter lessons of a skill in force in both languages.
func forceLessons(t *testing.T, w *ward.Ward, codes ...string) {
	t.Helper()
	for _, code := range codes {
		if _, err := w.Office.TakeStarterLessons(t.Context(), w.Educators[0], code, ""); err != nil {
			t.Fatal(err)
		}
	}
	desk, err := w.Office.Lessons(t.Context(), w.Educators[0])
	if err != nil {
		t.Fatal(err)
	}
	for _, of := range desk.Skills {
		for _, l := range of.Lines {
			if l.Draft.ID == "" {
				continue
			}
			err := w.Office.PutLessonInForce(t.Context(), w.Educators[0], office.ForceLessonForm{Lesson: l.Draft.ID, Version: l.Draft.Version,
				Statement: "Read against our orders.", Translator: "Rocío Ibarra, certified translator", Proof: ward.Proof})
			if err != nil {
				t.Fatal(err)
			}
		}
	}
}

// A lesson is printed in the language asked for, with who reviewed it; all of somebody's
// lessons are one paper, and the same lessons give the same bytes.
func TestLessonsOfAnAgency(t *testing.T) {
	w := ward.New(t, ward.WithCertificate(Certificate))
	child := w.Client("7K", "Mira")
	mother, r := w.Family("Nguyễn Thị Lan", child), New(w.Office)
	w.Require("suction", "")
	w.Require("humidifier", "")
	_, _, err := r.Lesson(t.Context(), mother, "suction", wording.Spanish)
	if fault.KindOf(err) != fault.NotFound {
		t.Fatalf("a lesson that there is not: %v", err)
	}
	forceLessons(t, w, "suction", "humidifier", "go-bag")
	path := kept(t, "lesson in Spanish")(r.Lesson(t.Context(), mother, "suction", wording.Spanish))
	says(t, path, "Paso a paso", "Traducción revisada por Rocío Ibarra, certified translator.", w.Educators[0].Name, "Versión 1.", "número local de emergencias")
	saysNot(t, path, "Step by step", "Nguyễn")
	path = kept(t, "lesson in English")(r.Lesson(t.Context(), mother, "suction", wording.English))
	says(t, path, "Step by step", "Version 1.")
	saysNot(t, path, "Translation reviewed")
	path = kept(t, "lessons")(r.Lessons(t.Context(), mother, wording.Spanish))
	says(t, path, "Paso a paso", "humidificador con calor")
	saysNot(t, path, "Bolsa de emergencia lista", "Nguyễn")
	first, _, err := r.Lessons(t.Context(), mother, wording.English)
	if err != nil {
		t.Fatal(err)
	}
	if again, name, err := r.Lessons(t.Context(), w.Coordinator, wording.English); err != nil || bytes.Equal(first, again) || name != "lessons-en.pdf" {
		t.Errorf("a coordinator's are %q, %v, and those of the mother: %v", name, err, bytes.Equal(first, again))
	}
	if again, _, err := r.Lessons(t.Context(), mother, wording.English); err != nil || !bytes.Equal(first, again) {
		t.Error("printed twice, it is not the same", err)
	}
}

// taughtGoBag is the starter lesson of the emergency bag, in force.
func taughtGoBag(t *testing.T) office.TaughtLesson {
	t.Helper()
	text, err := catalog.Lesson("go-bag", wording.Spanish)
	if err != nil {
		t.Fatal(err)
	}
	v := office.TaughtLesson{LessonView: office.LessonView{Text: text, Drawings: office.Drawings{}, Zone: denver(t), Skill: office.SkillRef{Code: "go-bag"}, Agency: office.AgencyView{Name: "Larkmoor Home Nursing"}}}
	v.Language, v.Number, v.InForceAt, v.InForceBy, v.Licence, v.Translator = wording.Spanish, 2, &issued, "Edda Brandt", "RN 20411", "Rocío Ibarra"
	for _, name := range text.Drawings() {
		if v.Drawings[name], err = catalog.Drawing(name); err != nil {
			t.Fatal(err)
		}
	}
	return v
}
