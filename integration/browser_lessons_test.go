package integration

import (
	"os"
	"strings"
	"testing"

	"wellshown/assessment/catalog"
	"wellshown/assessment/office"
	"wellshown/assessment/wording"
	"wellshown/integration/ward"
)

// lessonTask is what browser/lessons.mjs is told to do.
type lessonTask struct {
	Chromium   string   `json:"chromium"`
	Base       string   `json:"base"`
	JavaScript bool     `json:"javaScript"`
	Email      string   `json:"email"`
	Password   string   `json:"password"`
	Code       string   `json:"code"`
	Other      string   `json:"other"` // a lesson that is not kept
	Names      []string `json:"names"` // that must not be kept
	Shots      string   `json:"shots,omitempty"`
}

// TestALessonIsReadWithTheNetworkOff: a mother keeps the Spanish lesson on her phone; with
// the network off it is the same, with its drawings, and nothing that was kept names
// anybody; she takes it away again, and nothing is left.
func TestALessonIsReadWithTheNetworkOff(t *testing.T) {
	tools := browserTools(t)
	w, base := served(t, "127.0.0.1")
	child := w.Client("7K", "Mirabel")
	mother := w.Family("Consuelo Peñaranda", child)
	w.Require("suction", "")
	w.Require("humidifier", "")
	if err := w.Office.SetLanguage(t.Context(), mother, string(wording.Spanish)); err != nil {
		t.Fatal(err)
	}
	forceStarterLessons(t, w, "suction", "humidifier")
	lesson, err := catalog.Lesson("suction", wording.Spanish)
	if err != nil {
		t.Fatal(err)
	}
	var came struct {
		Titles  []string
		Names   []string
		Kept    int
		Drawn   int
		Other   string
		Left    string
		Workers int
	}
	tools.Play(t, "lessons.mjs", lessonTask{tools.Chromium, base, true, w.Email(mother), ward.Password, "suction", "humidifier", []string{mother.Name, "Mirabel", w.Email(mother)}, os.Getenv("WELLSHOWN_SHOTS")}, &came)
	if len(came.Titles) != 4 {
		t.Fatalf("it read %q", came.Titles)
	}
	for _, title := range came.Titles {
		if title != lesson.Title {
			t.Errorf("the title is %q, want %q", title, lesson.Title)
		}
	}
	if len(came.Names) > 0 || came.Kept < 5000 {
		t.Errorf("of %d characters that are kept some name %q", came.Kept, came.Names)
	}
	if came.Drawn < 20 {
		t.Errorf("with the network off %d outlines are drawn", came.Drawn)
	}
	if !strings.HasPrefix(came.Other, "/learn/humidifier ") || strings.Contains(came.Other, lesson.Title) {
		t.Errorf("a lesson that is not kept shows %q", came.Other)
	}
	if came.Left != "" || came.Workers != 0 {
		t.Errorf("after it was removed %d workers and %q are left", came.Workers, came.Left)
	}
}

// forceStarterLessons puts starter lessons in force in both languages.
func forceStarterLessons(t *testing.T, w *ward.Ward, codes ...string) {
	t.Helper()
	by := w.Educators[0]
	for _, code := range codes {
		if _, err := w.Office.TakeStarterLessons(t.Context(), by, code, ""); err != nil {
			t.Fatal(err)
		}
	}
	desk, err := w.Office.Lessons(t.Context(), by)
	if err != nil {
		t.Fatal(err)
	}
	for _, of := range desk.Skills {
		for _, l := range of.Lines {
			if l.Draft.ID == "" {
				continue
			}
			err := w.Office.PutLessonInForce(t.Context(), by, office.ForceLessonForm{Lesson: l.Draft.ID, Version: l.Draft.Version, Statement: "Read.", Translator: "Rocío Ibarra, translator", Proof: ward.Proof})
			if err != nil {
				t.Fatal(err)
			}
		}
	}
}
