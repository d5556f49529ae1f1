package web

import (
	"bytes"
	"mime/multipart"
	"net/http"
	"strings"
	"testing"

	"wellshown/assessment/wording"
	"wellshown/integration/ward"
)

// Taken, edited, refused with its line and nothing lost, looked at, saved, put in force,
// read by a Spanish-speaking mother and by nobody else's name (common practice, no
// source; HTML in Markdown by CommonMark 0.31).
func TestALessonOnPages(t *testing.T) {
	t.Parallel()
	b := newBedside(t)
	b.at.get("/learn").wants(http.StatusOK).says("There is no lesson for you yet")
	p := b.at.get("/lessons").wants(http.StatusOK).says("No lesson is in force yet", "Take 24 starter lessons as drafts")
	p = p.form("/lessons/starters").send().wants(http.StatusOK).says("24 starter lessons are drafts now.")
	p = p.follow("draft: version 1, saved 5 Jan 2026 by "+b.Educators[0].Name).wants(http.StatusOK).says("Version 1 is a draft", "Flesch–Kincaid", "The hardest sentence")
	at := strings.Split(p.at, "?")[0]
	bad := "# Bag\n\nWords.\n\n<script>alert(1)</script>\n"
	source := b.at.get(at + "/source").wants(http.StatusOK).says("How it reads")
	p = source.form(at+"/source").send("source", bad, "do", "save").wants(http.StatusUnprocessableEntity).says("The lesson is not saved.", "Near line 5: a lesson cannot have HTML", "alert(1)", "It cannot be shown as it is")
	if strings.Contains(p.body, "<script>alert") {
		t.Error("the script stands in the page")
	}
	p.form(at+"/source").send("source", "# Bag\n\nWords **here**.\n\n![It shows](none-1.svg)\n", "do", "look").wants(http.StatusUnprocessableEntity).says("It could not be saved like this.", "no drawing none-1.svg", "Words here.")
	p = source.form(at+"/source").send("source", "# Bag\n\nSqueeze & let go.\n\n> First of all.\n", "do", "look").wants(http.StatusOK).says("Squeeze & let go.")
	p = p.form(at+"/source").send("source", "# Bag <b>\n", "do", "save").wants(http.StatusUnprocessableEntity)
	p = p.form(at+"/source").send("source", "# Bag\n\nSqueeze & let go.\n\n> First of all.\n", "do", "save").wants(http.StatusOK).says("The draft is saved.", "Squeeze & let go.")
	p = p.follow("I have read it: put it in force").wants(http.StatusOK).says("Put version 1 of the lesson in force")
	p = p.form(at+"/in-force").send("statement", "Our orders.", "password", ward.Password).wants(http.StatusUnprocessableEntity).says("Read every sentence", "Our orders.")
	p = p.form(at+"/in-force").send("reviewed", "yes", "statement", "Our orders.", "password", "wrong").wants(http.StatusUnprocessableEntity).says("does not match", "Our orders.")
	p.form(at+"/in-force").send("reviewed", "yes", "statement", "Our orders.", "password", ward.Password).wants(http.StatusOK).says("It is in force.", "Version 1 is in force")
	b.at.get("/learn").wants(http.StatusOK).says("There is one lesson for you to read")
	b.at.get("/learn/bagging").wants(http.StatusOK).says("First of all.", "Reviewed by")
	b.at.get("/learn/bagging/lesson.pdf").wants(http.StatusOK)
	b.at.get("/learn/suction").wants(http.StatusNotFound)
	if err := b.Office.SetLanguage(t.Context(), b.learner, string(wording.Spanish)); err != nil {
		t.Fatal(err)
	}
	reader := as(t, b.site, b.Ward, b.learner)
	reader.get("/learn/bagging").wants(http.StatusOK).says("Por ahora, esta lección está solo en English.", "Squeeze & let go.")
	copied := reader.get("/learn/bagging/copy").wants(http.StatusOK)
	if name := b.learner.Name; strings.Contains(copied.body, name) || strings.Contains(copied.body, "csrf") {
		t.Error("the copy names its reader")
	}
	reader.get("/lessons").wants(http.StatusForbidden)
}

// A drawing with a script is refused with why, and what was typed stays (SVG 2, scripting).
func TestADrawingIsSent(t *testing.T) {
	t.Parallel()
	b := newBedside(t)
	send := func(name, svg string) *page {
		var body bytes.Buffer
		w := multipart.NewWriter(&body)
		part, err := w.CreateFormFile("file", "ours-1.svg")
		if err == nil {
			_, err = part.Write([]byte(svg))
		}
		for field, value := range map[string]string{"csrf": b.at.csrf(), "name": name} {
			if err == nil {
				err = w.WriteField(field, value)
			}
		}
		if err == nil {
			err = w.Close()
		}
		if err != nil {
			t.Fatal(err)
		}
		r, err := http.NewRequest(http.MethodPost, b.at.base+"/lessons/drawings", &body)
		if err != nil {
			t.Fatal(err)
		}
		r.Header.Set("Content-Type", w.FormDataContentType())
		return b.at.do(r)
	}
	p := send("Of ours", `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 10 10"><script>alert(1)</script></svg>`).wants(http.StatusUnprocessableEntity).says("The drawing is not added.", `takes no element "script"`, "small letters")
	if !strings.Contains(p.body, `value="Of ours"`) || strings.Contains(p.body, "<script>alert") {
		t.Error("what was typed is gone, or the script is there")
	}
	p = send("", `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 320 200"><path class="mark" d="M1 1L9 9"/></svg>`).wants(http.StatusOK).says("The drawing is there.", "ours-1.svg")
	if !strings.Contains(p.body, `<path class="mark" d="M 1 1 L 9 9"/>`) {
		t.Error("it is not drawn from our outlines")
	}
}
