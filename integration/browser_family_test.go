package integration

import (
	"encoding/base64"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"wellshown/assessment"
	"wellshown/assessment/office"
	"wellshown/assessment/reading"
	"wellshown/integration/ward"
)

// wayHomeTask is what browser/way-home.mjs is told to do.
type wayHomeTask struct {
	Chromium   string            `json:"chromium"`
	Base       string            `json:"base"`
	JavaScript bool              `json:"javaScript"`
	Language   string            `json:"language"`
	Invitation string            `json:"invitation"`
	Email      string            `json:"email"`
	Password   string            `json:"password"`
	Home       string            `json:"home"`
	Paths      map[string]string `json:"paths"`
	Shots      string            `json:"shots,omitempty"`
}

// TestAMothersWayHomeInSpanish: from the invitation on her phone, whose browser asks for
// English, to the list for the meeting as PDF. Every page is in Spanish, is usable at 320 px
// (WCAG 2.2, 1.4.10), and can be read with eight years of school (Fernández Huerta).
func TestAMothersWayHomeInSpanish(t *testing.T) {
	tools := browserTools(t)
	w, base := served(t, "127.0.0.1")
	mira := w.Client("7K", "Mira")
	for _, skill := range []string{"suction", "bagging"} {
		w.Require(skill, assessment.Family)
	}
	other := w.Family("Minh Tran", mira)
	w.Demonstrate(other, "bagging", mira)
	v, err := w.Office.AddPerson(t.Context(), w.Admin, office.PersonForm{Name: "Rosa Ibarra", Email: "rosa@ward.example", Kind: "family", Relation: "mother", Language: "es", Roles: []string{"caregiver"}})
	if err != nil {
		t.Fatal(err)
	}
	rosa := assessment.Actor{Agency: w.Admin.Agency, Person: v.ID, Name: v.Name, Roles: v.Roles}
	w.Join(rosa, mira)
	if err := w.Office.StartPlan(t.Context(), w.Coordinator, mira); err != nil {
		t.Fatal(err)
	}
	at := "/clients/" + string(mira)
	task := wayHomeTask{Chromium: tools.Chromium, Base: base, JavaScript: true, Language: "es", Invitation: "/link/" + w.Link(w.Admin, rosa), Email: "rosa@ward.example", Password: ward.Password,
		Home: "Todavía no.", Shots: os.Getenv("WELLSHOWN_SHOTS"), Paths: map[string]string{
			"household": at + "/household", "readiness": at + "/readiness", "child": at, "checklist": "/catalogue/suction", "account": "/account", "own": "/people/" + string(rosa.Person), "checklists": "/checklists", "waiting": "/waiting",
			"plan": "/plan", "checks": "/checks", "lessons": "/learn", "papers": at + "/home-papers", "held": "/account/held",
		}}
	var came struct {
		Pages map[string][]string
		PDF   string
	}
	tools.Play(t, "way-home.mjs", task, &came)
	if len(came.Pages) != 3+len(task.Paths) {
		t.Errorf("%d pages were seen", len(came.Pages))
	}
	for name, lines := range came.Pages {
		inSpanish(t, name, lines, 8)
	}
	for _, page := range []string{"home", "household", "readiness", "checklists", "plan", "lessons"} {
		if !slices.ContainsFunc(came.Pages[page], func(l string) bool { return strings.Contains(l, "Aspirar la cánula de traqueostomía") }) {
			t.Errorf("%s does not call suctioning what a family calls it", page)
		}
	}
	inSpanish(t, "the PDF", pdfLines(t, came.PDF), 20)
}

// englishWords are what no Spanish sentence has in it and hardly any English one lacks.
var englishWords = regexp.MustCompile(`(?i)\b(the|and|of|you|your|with|for|is|are|what|this|that|not yet|who|from|until|through|been)\b`)

// inSpanish holds what somebody reads to its language and to eight years of school.
// Names of people, and what an agency has called its own things, are data.
func inSpanish(t *testing.T, name string, lines []string, least int) {
	t.Helper()
	var said []string
	for _, l := range lines {
		if englishWords.MatchString(l) {
			t.Errorf("%s says %q", name, l)
		}
		if strings.Contains(l, " ") {
			said = append(said, l)
		}
	}
	level := reading.Measure("es", said...)
	t.Logf("%-12s ease %5.1f, at most grade %v, %d words", name, level.Ease, level.Grade, level.Counts.Words)
	if len(said) < least || !level.Within() {
		t.Errorf("%s has %d lines and asks for grade %v; the hardest sentence is %q", name, len(said), level.Grade, level.Hardest)
	}
}

// pdfLines are the lines of a PDF as pdftotext reads them.
func pdfLines(t *testing.T, body string) []string {
	t.Helper()
	pdf, err := base64.StdEncoding.DecodeString(body)
	if err != nil || len(pdf) == 0 {
		t.Fatalf("no PDF came: %v", err)
	}
	file := filepath.Join(t.TempDir(), "list.pdf")
	if err := os.WriteFile(file, pdf, 0o600); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command("pdftotext", "-layout", file, "-").Output()
	if err != nil {
		t.Fatalf("read the PDF: %v", err)
	}
	return slices.DeleteFunc(strings.Split(string(out), "\n"), func(l string) bool { return strings.TrimSpace(l) == "" })
}
