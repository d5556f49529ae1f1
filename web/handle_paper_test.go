package web

import (
	"bytes"
	"image"
	"image/jpeg"
	"mime/multipart"
	"net/http"
	"strings"
	"testing"
)

// attach sends a file from the review page of a demonstration.
func attach(t *testing.T, b *browser, demonstration string, file []byte) *page {
	t.Helper()
	var body bytes.Buffer
	w := multipart.NewWriter(&body)
	if err := w.WriteField("csrf", b.csrf()); err != nil {
		t.Fatal(err)
	}
	part, err := w.CreateFormFile("page", "../../page of Mira.html")
	if err != nil {
		t.Fatal(err)
	}
	part.Write(file)
	w.Close()
	r, err := http.NewRequest(http.MethodPost, b.base+demonstration+"/pages", &body)
	if err != nil {
		t.Fatal(err)
	}
	r.Header.Set("Content-Type", w.FormDataContentType())
	return b.do(r)
}

// From the choice on the first page to the record: what was marked on paper is asked
// when and on which revision, cannot be recorded without a page of the paper, and is
// said to be typed in for ever; its pages are handed out as files that can run nothing.
func TestTypingInFromPaper(t *testing.T) {
	t.Parallel()
	b := newBedside(t)
	f := b.at.get(startAddress(b.learner.Person, "circuit-change", b.mira)).form("/demonstrations")
	p := f.send("setting", "real", "purpose", "practice", "place", "at home", "from_paper", "yes").wants(http.StatusUnprocessableEntity).says("the day and time on the paper")
	when := b.Now().In(b.Zone).Format("2006-01-02T15:04")
	f = p.form("/demonstrations")
	if f.fields.Get("from_paper") != "yes" || f.fields.Get("place") != "at home" {
		t.Errorf("what was chosen is lost: %v", f.fields)
	}
	f.send("performed_at", when, "paper_revision", "one").wants(http.StatusUnprocessableEntity).says("This is a whole number")
	f.send("performed_at", when, "paper_revision", "7").wants(http.StatusUnprocessableEntity).says("the paper is of revision 7")
	begun := f.send("performed_at", when, "paper_revision", "1").wants(http.StatusOK)
	at := strings.TrimSuffix(begun.at, "/marks")
	review := b.markAll(t, at, nil).says("The paper it is typed in from", "revision 1", "It cannot be recorded without")
	if strings.Contains(review.text(), "Once recorded") {
		t.Error("it may be recorded without its paper")
	}
	attach(t, b.at, at, []byte("<script>alert(1)</script>")).wants(http.StatusUnprocessableEntity).says("The page was not attached", "whatever its name says", "Every step is marked")
	var photo bytes.Buffer
	if err := jpeg.Encode(&photo, image.NewGray(image.Rect(0, 0, 30, 40)), nil); err != nil {
		t.Fatal(err)
	}
	review = attach(t, b.at, at, photo.Bytes()).wants(http.StatusOK).says("The page is attached", "photo or picture, 1 kB")
	b.at.get(at + "/pages/2").wants(http.StatusNotFound)
	review = review.form(at+"/pages/1/removal").send().wants(http.StatusOK).says("The page is taken off", "No page is attached yet")
	review = attach(t, b.at, at, photo.Bytes()).wants(http.StatusOK)
	record := review.form(at+"/record").send().wants(http.StatusOK).says("typed in from paper", "on paper; typed in on", "1 page attached", "SHA-256")
	if !record.has(at + "/pages/1") {
		t.Error("the record does not lead to its page")
	}
	attach(t, b.at, at, photo.Bytes()).wants(http.StatusOK).says(recordedAlready)
	r, err := http.NewRequest(http.MethodGet, b.at.base+at+"/pages/1", nil)
	if err != nil {
		t.Fatal(err)
	}
	file := b.at.do(r).wants(http.StatusOK)
	for name, want := range map[string]string{"Content-Type": "image/jpeg", "Content-Disposition": `attachment; filename="page-1.jpg"`, "Content-Security-Policy": "default-src 'none'; sandbox", "Cache-Control": "no-store"} {
		if got := file.header.Get(name); got != want {
			t.Errorf("%s is %q, want %q", name, got, want)
		}
	}
}
