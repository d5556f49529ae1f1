package web

import (
	"bytes"
	"image"
	"image/jpeg"
	"mime/multipart"
	"net/http"
	"net/url"
	"regexp"
	"testing"
)

// sendFile sends a form with a file.
func (b *browser) sendFile(at, field, name string, content []byte, fields url.Values) *page {
	b.t.Helper()
	var body bytes.Buffer
	w := multipart.NewWriter(&body)
	fields.Set("csrf", b.csrf())
	for key, values := range fields {
		for _, value := range values {
			if err := w.WriteField(key, value); err != nil {
				b.t.Fatal(err)
			}
		}
	}
	part, err := w.CreateFormFile(field, name)
	if err == nil {
		_, err = part.Write(content)
	}
	if err == nil {
		err = w.Close()
	}
	if err != nil {
		b.t.Fatal(err)
	}
	r, err := http.NewRequest(http.MethodPost, b.base+at, &body)
	if err != nil {
		b.t.Fatal(err)
	}
	r.Header.Set("Content-Type", w.FormDataContentType())
	return b.do(r)
}

// By forms alone: a list of Latin-1 with a name that is nearly somebody's is looked at, mended, asked
// about and brought in, and once more without doubles.
func TestBringingInAList(t *testing.T) {
	t.Parallel()
	b := newBedside(t)
	b.Nurse("Nan Orme")
	at := as(t, b.site, b.Ward, b.Coordinator)
	send := func(kind, content string) *page {
		t.Helper()
		return at.sendFile("/imports", "list", `C:\lists\staff.csv`, []byte(content), url.Values{"kind": {kind}})
	}
	at.get("/people").says("Bring in a list")
	p := at.get("/imports?kind=people").wants(http.StatusOK).says("may be left out", "Template")
	if f := p.form("/imports"); f.fields.Get("kind") != "people" {
		t.Errorf("the kind is not chosen: %v", f.fields)
	}
	send("people", "Name;Stadt\nx;y\n").wants(http.StatusUnprocessableEntity).says("Nothing was brought in", "one is missing: kind", "Name | Stadt")
	send("", "name;kind\nx;nurse\n").wants(http.StatusUnprocessableEntity).says("Choose what the list is of")
	send("people", "name;kind\nBea Lund;nurse\nCy Cole;doctor\n").wants(http.StatusOK).says("One thing needs mending", "Row 3, kind", "Would be new", "Bea Lund")
	p = send("people", "name;kind;phone\nNAN orme;nurse;1\nJos\xe9 Pe\xf1a;aide;2\n").wants(http.StatusOK).
		says("One row asks who is meant", "Not taken: phone", "Windows-1252", "parted by a semicolon", "José Peña", "Row 2: NAN orme", "staff.csv")
	f := p.form(p.at)
	p = f.send("letters", "yes").wants(http.StatusUnprocessableEntity).says("Nothing was brought in", "Choose one.")
	f = p.form(p.at)
	if f.fields.Get("letters") != "yes" {
		t.Error("that the names read right is lost")
	}
	p = f.send("letters", "", "row-2", "another").wants(http.StatusUnprocessableEntity).says("say that they read right")
	if f = p.form(p.at); f.fields.Get("row-2") != "another" {
		t.Errorf("the answer is lost: %v", f.fields)
	}
	f.send("letters", "yes").wants(http.StatusOK).says("2 rows are brought in: people.")
	at.get("/people?find=pena").says("José Peña")
	p = send("people", "name,kind\nNAN orme,nurse\nJosé Peña,aide\n").wants(http.StatusOK).says("Everything in this list is here already", "There is nothing to bring in")
	p.form(p.at + "/removal").send().wants(http.StatusOK).says("The file is thrown away")
	at.get(p.at).wants(http.StatusNotFound)
	b.at.get("/imports").wants(http.StatusForbidden)
}

// What was shown elsewhere stands on the person's page in its own words, with its paper, and changes no standing there.
func TestCarriedInOnThePersonsPage(t *testing.T) {
	t.Parallel()
	b := newBedside(t)
	nan := b.Nurse("Nan Orme")
	at := as(t, b.site, b.Ward, b.Coordinator)
	home := "/people/" + string(nan.Person)
	before := at.get(home).heading()
	at.get(home + "/carried-in").wants(http.StatusOK).says("No old paper was carried in")
	p := at.sendFile("/imports", "list", "old.csv", []byte("person,skill,observed on,valid through,signed by,where\nNan Orme,bagging,2025-05-05,2030-05-05,\"A. Roe, RN\",Old Town Hospital\n"), url.Values{"kind": {"carried-in"}})
	p.form(p.at).send().wants(http.StatusOK).says("1 row is brought in")
	p = at.get(home).says("Carried in", "It counts for nothing above", "shown on", "Old Town Hospital", "by the old paper through")
	if p.heading() != before {
		t.Errorf("the page was headed %q and is headed %q", before, p.heading())
	}
	p = at.get(home+"/carried-in").says("1 competency is carried in", "no paper attached")
	var photo bytes.Buffer
	if err := jpeg.Encode(&photo, image.NewGray(image.Rect(0, 0, 30, 40)), nil); err != nil {
		t.Fatal(err)
	}
	entry := regexp.MustCompile(`name="shows" value="([^"]+)"`).FindStringSubmatch(p.body)[1]
	at.sendFile(home+"/carried-in/papers", "page", "old.jpg", photo.Bytes(), url.Values{}).wants(http.StatusUnprocessableEntity).says("Tick what this paper shows")
	at.sendFile(home+"/carried-in/papers", "page", "old.jpg", []byte("<script>"), url.Values{"shows": {entry}}).wants(http.StatusUnprocessableEntity).says("whatever its name says")
	p = at.sendFile(home+"/carried-in/papers", "page", "old.jpg", photo.Bytes(), url.Values{"shows": {entry}}).wants(http.StatusOK).says("The paper is attached", "paper 1")
	own := as(t, b.site, b.Ward, nan)
	own.get(home + "/carried-in").wants(http.StatusOK).says("Old Town Hospital").saysNot("Take it off")
	as(t, b.site, b.Ward, b.Nurse("Pia Lund")).get(home + "/carried-in").wants(http.StatusNotFound)
	p.form(home+"/carried-in/"+entry+"/removal").send().wants(http.StatusOK).says("It is taken off", "No old paper was carried in")
}
