package web

import (
	"bytes"
	"mime/multipart"
	"net/http"
	"net/url"
	"strings"
	"testing"

	"wellshown/assessment/handover"
	"wellshown/integration/ward"
)

// checks sends a file to be checked by whoever has no account.
func (b *browser) checks(file []byte, language string) *page {
	b.t.Helper()
	var body bytes.Buffer
	w := multipart.NewWriter(&body)
	part, err := w.CreateFormFile("page", "handover.json")
	if err == nil {
		_, err = part.Write(file)
	}
	if err == nil {
		err = w.Close()
	}
	if err != nil {
		b.t.Fatal(err)
	}
	r, err := http.NewRequest(http.MethodPost, b.base+"/check", &body)
	if err != nil {
		b.t.Fatal(err)
	}
	r.Header.Set("Content-Type", w.FormDataContentType())
	r.Header.Set("Accept-Language", language)
	p := b.do(r)
	if p.header.Get("Set-Cookie") != "" {
		b.t.Errorf("the check sets a cookie: %s", p.header.Get("Set-Cookie"))
	}
	return p.sound()
}

// neverCurrent holds an answer to never saying that somebody is current, but for the note
// that says the opposite.
func (p *page) neverCurrent() *page {
	p.t.Helper()
	if strings.Contains(strings.ToLower(strings.ReplaceAll(p.text(), handover.Note, "")), "current") {
		p.t.Errorf("the answer says current: %s", p.text())
	}
	return p
}

// From the page of whoever is going to the answer for whoever gets the file, in both languages.
func TestTakingOnesProofAlong(t *testing.T) {
	t.Parallel()
	b := newBedside(t)
	b.Award(b.learner, "bagging", b.mira)
	b.at = as(t, b.site, b.Ward, b.Educators[0]) // days have passed
	own := as(t, b.site, b.Ward, b.learner)
	own.get("/home").follow("Take my proof along").wants(http.StatusOK).sound().says("It makes nobody current at the new agency.", "Save the file", "Print the paper").saysNot("Mira")
	home := "/people/" + string(b.learner.Person)
	file := own.get(home + "/handover.json").wants(http.StatusOK)
	if kept := file.header.Get("Content-Disposition"); !strings.HasPrefix(kept, "attachment") || file.header.Get("Cache-Control") != "no-store" {
		t.Errorf("handed out as %s, %s", kept, file.header.Get("Cache-Control"))
	}
	as(t, b.site, b.Ward, b.Nurse("Pia Lund")).get(home + "/handover").wants(http.StatusNotFound)
	b.at.get(home).follow("Proof to take along").wants(http.StatusOK).says("Proof of Nguyễn Thị Lan, to take along")

	out := visitor(t, b.site)
	if p := out.get("/check").wants(http.StatusOK).says("Check the file"); p.header.Get("Set-Cookie") != "" {
		t.Error("looking at the page sets a cookie")
	}
	sent := []byte(file.body)
	out.checks(sent, "en").wants(http.StatusOK).neverCurrent().headed("This file is unchanged, and it was signed here").
		says(handover.Note, "Nguyễn Thị Lan", "was held", "shown on", "observed by "+b.Educators[0].Name, "It stands in the ledger here").saysNot("Mira")
	out.checks(sent, "es").wants(http.StatusOK).spoken("es").headed("Este archivo no fue cambiado, y se firmó aquí").says("Aquí no deja a nadie al día", "estaba al día", "observó ").saysNot("was held", "shown on")
	forged := bytes.Replace(sent, []byte(`"outcome":"competent"`), []byte(`"outcome":"perfect!!"`), 1)
	out.checks(forged, "en").wants(http.StatusOK).neverCurrent().headed("This file was changed").says("Changed: entry 1.", "The signature does not fit").saysNot("Nguyễn Thị Lan", "bag", "perfect")
	out.checks(sent[:len(sent)/2], "es").wants(http.StatusOK).headed("Este archivo fue cambiado").says("Está cortado").saysNot("Nguyễn Thị Lan")
	out.checks([]byte("%PDF-1.7"), "en").wants(http.StatusOK).headed("This is no signed file of proof, or its beginning was changed")
	out.post("/check", url.Values{}).wants(http.StatusUnprocessableEntity).sound().says("The file was not checked.", "Nothing was sent.")
}

// What is not competent counts with the observer's signature alone, so a file with it must not
// be told as if it had not counted (rule of standing); what is competent takes both.
func TestAFailureSignedByOneIsTold(t *testing.T) {
	t.Parallel()
	b := newBedside(t)
	there := ward.Elsewhere(t)
	nan := there.Nurse("Nan Orme")
	there.Award(nan, "bagging", there.Client("9Q", "Ana"))
	there.Demonstrate(nan, "bagging", there.Client("9R", "Bea"), ward.Missing(1), ward.UnsignedByLearner)
	made, err := there.Office.Handover(t.Context(), nan, nan.Person)
	if err != nil {
		t.Fatal(err)
	}
	visitor(t, b.site).checks(made.File, "en").wants(http.StatusOK).says("signed by the observer alone, which is enough for what was not competent: it counted").saysNot("it did not count")
	visitor(t, b.site).checks(made.File, "es").wants(http.StatusOK).says("sí contaba").saysNot("no contaba")
}

// By forms alone: two people say whose key is whose, and what that agency signed is carried in, once.
func TestANeighboursFile(t *testing.T) {
	t.Parallel()
	b := newBedside(t)
	there := ward.Elsewhere(t)
	nan := there.Nurse("Nan Orme")
	there.Award(nan, "bagging", there.Client("9Q", "Ana"))
	made, err := there.Office.Handover(t.Context(), nan, nan.Person)
	if err != nil {
		t.Fatal(err)
	}
	theirs, err := there.Office.Neighbours(t.Context(), there.Admin)
	if err != nil {
		t.Fatal(err)
	}
	admin, home := as(t, b.site, b.Ward, b.Admin), "/people/"+string(b.learner.Person)+"/carried-in"
	out := visitor(t, b.site)
	out.checks(made.File, "en").headed("This file is unchanged, but its key is not known here").says(theirs.Fingerprint, "Anybody may have made it")

	p := admin.get("/neighbours").wants(http.StatusOK).sound().headed("No neighbour agency is known").says("What you tell them")
	p = p.form("/neighbours").send("name", "Elm Nursing", "line", "half a line").wants(http.StatusUnprocessableEntity).says("Nothing was entered.", "Paste the whole line")
	if f := p.form("/neighbours"); f.fields.Get("name") != "Elm Nursing" || f.fields.Get("line") != "half a line" {
		t.Errorf("what was typed is lost: %v", f.fields)
	}
	p.form("/neighbours").send("line", theirs.Line).wants(http.StatusOK).sound().headed("One neighbour agency waits for a second person").says(theirs.Fingerprint, "somebody else compares")
	p = b.at.get("/neighbours").wants(http.StatusOK).says("Elm Nursing", theirs.Fingerprint)
	agree := p.formAt("/agreement")
	agree.send().wants(http.StatusUnprocessableEntity).sound().says("You have not agreed.", "by telephone")
	agree.send("compared", "yes").wants(http.StatusOK).headed("One neighbour agency is known by its key")
	out.checks(made.File, "en").neverCurrent().headed("This file is unchanged, and its key is known here").says("knows this key as that of Elm Nursing")

	fields := func(same string) url.Values { return url.Values{"same": {same}} }
	b.at.get(home).wants(http.StatusOK).says("Take in a signed file")
	b.at.sendFile(home+"/files", "page", "x.json", made.File, fields("")).wants(http.StatusUnprocessableEntity).sound().says("Nothing was taken in.", "It names Nan Orme.")
	b.at.sendFile(home+"/files", "page", "x.json", made.File[1:], fields("yes")).wants(http.StatusUnprocessableEntity).says("This file was changed")
	b.at.sendFile(home+"/files", "page", "x.json", made.File, fields("yes")).wants(http.StatusUnprocessableEntity).sound().says("The file is about Nan Orme, and this is Nguyễn Thị Lan.")
	named := fields
	fields = func(same string) url.Values { v := named(same); v.Set("named", "nan orme"); return v }
	b.at.sendFile(home+"/files", "page", "x.json", made.File, fields("yes")).wants(http.StatusOK).sound().says("From Elm Nursing:", "It makes nobody current.", "signed file of another agency", "paper 1")
	p = b.at.sendFile(home+"/files", "page", "x.json", made.File, fields("yes")).wants(http.StatusOK).says("0 lines are carried in")
	if kept := p.follow("Paper 1").wants(http.StatusOK); kept.body != string(made.File) {
		t.Error("the file is not handed out as it came")
	}
	admin.get(home).wants(http.StatusOK).saysNot("Take in a signed file")

	p = b.at.get("/neighbours")
	p.formAt("/end").send("reason", " ").wants(http.StatusUnprocessableEntity).says("It has not ended.", "Say why")
	p.formAt("/end").send("reason", "Their key was lost.").wants(http.StatusOK).sound().says("Ended by", "Their key was lost.")
	out.checks(made.File, "es").headed("Este archivo no fue cambiado, pero aquí ya no se confía en su clave").says("conocía esta clave como la de Elm Nursing")
	b.at.sendFile(home+"/files", "page", "x.json", made.File, fields("yes")).wants(http.StatusUnprocessableEntity).says("Their key was lost.")
}
