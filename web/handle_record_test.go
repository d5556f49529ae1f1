package web

import (
	"net/http"
	"net/url"
	"strings"
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/office"
	"wellshown/assessment/wording"
	"wellshown/integration/ward"
)

func TestBeginningAsksForWhatItNeedsAndKeepsTheRest(t *testing.T) {
	t.Parallel()
	b := newBedside(t)
	p := b.at.get("/demonstrations/new?skill=suction").wants(http.StatusOK)
	p = p.form("/demonstrations").send("place", "kitchen").wants(http.StatusUnprocessableEntity)
	p.says("Choose who shows the skill.", "Say on whom or what it is shown.", "Say whether it counts or is practice.")
	f := p.form("/demonstrations")
	if f.fields.Get("place") != "kitchen" || f.fields.Get("skill") != "suction" {
		t.Errorf("what was typed is lost: %v", f.fields)
	}
	p = f.send("learner", string(b.learner.Person), "setting", "real", "purpose", "formal", "performed_at", "2026-02-30T10:00", "client", string(b.mira))
	p.wants(http.StatusUnprocessableEntity).says("Give the day and the time, such as 2027-01-15 19:30.")
}

// The same form sent twice is one demonstration, also after it has been recorded.
func TestBeginningTwiceIsOneDemonstration(t *testing.T) {
	t.Parallel()
	b := newBedside(t)
	f := b.at.get(startAddress(b.learner.Person, "circuit-change", b.mira)).form("/demonstrations")
	one := f.send("setting", "real", "purpose", "practice", "place", "at home").wants(http.StatusOK)
	two := f.send().wants(http.StatusOK)
	if one.at != two.at {
		t.Errorf("%s and %s", one.at, two.at)
	}
	at := strings.TrimSuffix(one.at, "/marks")
	b.at.get(at).wants(http.StatusOK).says("All 29 steps") // its record's address leads to the marks while it is open
	b.markAll(t, at, nil).form(at + "/record").send().wants(http.StatusOK)
	if p := f.send().wants(http.StatusOK); p.at != at {
		t.Errorf("after recording it leads to %s", p.at)
	}
	sheets, err := b.Office.Sheets(t.Context(), b.Educators[0])
	if err != nil || len(sheets) != 0 {
		t.Errorf("%d sheets are open (%v)", len(sheets), err)
	}
}

func TestWhatComesFirstIsSaidBefore(t *testing.T) {
	t.Parallel()
	b := newBedside(t)
	b.at.get(startAddress(b.learner.Person, "circuit-change", b.mira)).wants(http.StatusOK).says("Good to know first", "Not current in what comes first")
}

func TestSigningAsksForTheRightPassword(t *testing.T) {
	t.Parallel()
	b := newBedside(t)
	at := b.practise(t)
	record := b.markAll(t, at, nil).form(at + "/record").send().wants(http.StatusOK)
	wrong := record.form(at+"/signature", "part", "learner").send("password", "not this one at all").wants(http.StatusUnprocessableEntity)
	wrong.says("Nothing is signed.", "This password does not match.")
	if f := wrong.form(at+"/signature", "part", "learner"); f.fields.Get("password") != "" {
		t.Error("a password is drawn again")
	}
	signed := wrong.form(at+"/signature", "part", "observer").send("password", ward.Password).wants(http.StatusOK).says("Signed by Edda Lorne. Next: " + b.learner.Name + " signs, below.")
	for p, lands := range map[*page]string{record: "sign-observer", signed: "sign-learner"} {
		if got := p.request.URL.Fragment; got != lands || !strings.Contains(p.body, `id="`+lands+`"`) {
			t.Errorf("it lands at #%s, want #%s", got, lands)
		}
	}
	// Again, as by a second click: it stays signed once.
	if p := wrong.form(at+"/signature", "part", "observer").send("password", ward.Password).wants(http.StatusOK); strings.Count(p.text(), "I observed and judged this.") != 1 {
		t.Error("it is signed twice")
	}
	if signed.has("observer") {
		t.Error("the observer is asked again")
	}
	learner := as(t, b.site, b.Ward, b.learner)
	own := learner.get(at).wants(http.StatusOK)
	own.form(at+"/signature", "part", "learner").send("password", ward.Password).wants(http.StatusOK).says("Signed by both.")
	learner.get(at).saysNot("please sign", "Hand the tablet", "Next that waits for you")
	other := b.Demonstrate(b.learner, "humidifier", b.mira, ward.UnsignedByLearner)
	learner = as(t, b.site, b.Ward, b.learner)
	learner.get(at).sound().follow("Next that waits for you").says(other.Title)
	b.at = as(t, b.site, b.Ward, b.Educators[0])
	b.at.get(at).saysNot("Next that waits for you")
}

// What a role may not do is neither offered nor done; what is another agency's was
// never there.
func TestWhoMayDoWhat(t *testing.T) {
	t.Parallel()
	b := newBedside(t)
	at := b.practise(t)
	record := b.markAll(t, at, nil).form(at + "/record").send().wants(http.StatusOK)
	skill := skillOf(t, b, "suction")
	stranger := strangerTo(t, b)
	for _, path := range []string{at, at + "/record.pdf", "/revisions/" + skill, "/revisions/" + skill + "/blank.pdf", "/revisions/" + skill + "/compare", "/clients/" + string(b.mira) + "/readiness.pdf"} {
		stranger.get(path).wants(http.StatusNotFound).saysNot("Lan", "Mira")
	}
	nurse := as(t, b.site, b.Ward, b.Nurse("Ольга Ветрова"))
	nurse.get(at).wants(http.StatusNotFound)
	nurse.get(at + "/record.pdf").wants(http.StatusNotFound)
	for _, path := range []string{"/demonstrations/new", at + "/marks", "/standings", "/overdue", "/overdue.csv", "/papers", "/revisions/" + skill + "/source", "/revisions/" + skill + "/in-force"} {
		nurse.get(path).wants(http.StatusForbidden)
	}
	word := nurse.csrf()
	for _, path := range []string{"/demonstrations", at + "/marks/1", at + "/record", at + "/correction", "/catalogue/suction", "/revisions/" + skill + "/retirement", "/checklists"} {
		nurse.post(path, url.Values{"csrf": {word}}).wants(http.StatusForbidden)
	}
	second := as(t, b.site, b.Ward, b.Educators[1])
	second.get(at + "/marks").wants(http.StatusNotFound) // only its own observer marks a sheet
	if p := second.get(at).wants(http.StatusOK); len(nodes(p.node, "form")) == 0 || strings.Contains(p.text(), "please sign") {
		t.Error("somebody else is asked to sign")
	}
	surveyor := as(t, b.site, b.Ward, b.Surveyor("Sal Orrin"))
	if p := surveyor.get(at).wants(http.StatusOK); strings.Contains(p.text(), "This record is wrong") {
		t.Error("a surveyor is offered to correct")
	}
	record.b.post(at+"/signature", url.Values{"part": {"observer"}, "password": {ward.Password}}).wants(http.StatusForbidden) // no word against forgery
}

// A record that was taken back says so, stays to be read and is taken back once.
func TestTakingARecordBack(t *testing.T) {
	t.Parallel()
	b := newBedside(t)
	last := b.Award(b.learner, "bagging", b.mira)
	b.at = as(t, b.site, b.Ward, b.Educators[0])
	colleague := as(t, b.site, b.Ward, b.Educators[1])
	at := demonstrationAt(last.ID)
	p := colleague.get(at).wants(http.StatusOK).form(at+"/correction").send("password", ward.Password).wants(http.StatusUnprocessableEntity).says("Say what is wrong with the record.")
	f := p.form(at + "/correction")
	f.send("reason", "Another child was meant.", "password", ward.Password).wants(http.StatusOK).says("Taken back: it no longer counts", "Another child was meant.", "Rolf Teague")
	f.send().wants(http.StatusOK).says("It has been taken back already.")
	b.at.get(at).saysNot("please sign", "This record is wrong")
	if s := b.Standing(b.learner, "bagging", b.mira, civil.Date{}); s.Word.Holds() {
		t.Errorf("the learner is still %s", s.Word)
	}
	certificate := "/certificates/" + string(last.Certificate.ID)
	b.at.get(certificate).wants(http.StatusOK).says("This certificate no longer holds")
	visitor(t, b.site).get("/check/" + last.Certificate.Code).wants(http.StatusOK).says("It no longer holds")
}

func TestThrowingASheetAway(t *testing.T) {
	t.Parallel()
	b := newBedside(t)
	at := b.practise(t)
	f := b.at.get(at + "/review").form(at + "/discarding")
	f.send()
	if _, err := b.Office.Sheet(t.Context(), b.Educators[0], assessment.DemonstrationID(strings.TrimPrefix(at, "/demonstrations/"))); err == nil {
		t.Error("the sheet is still there")
	}
	b.Pass(time.Second)
	b.at.get(at + "/marks").wants(http.StatusNotFound)
}

// strangerTo is the administrator of another agency on the same service.
func strangerTo(t *testing.T, b *bedside) *browser {
	t.Helper()
	n := office.NewAgency{Code: "tern-quay", Name: "Tern Quay Care", Zone: "Europe/London", Demo: true,
		AdminName: "Una Holt", AdminEmail: "una.holt@tern.example", AdminPassword: "nine grey geese land"}
	if _, err := b.Office.FoundAgency(t.Context(), n); err != nil {
		t.Fatal(err)
	}
	stranger := visitor(t, b.site)
	stranger.get("/sign-in").form("/sign-in").send("email", n.AdminEmail, "password", n.AdminPassword).wants(http.StatusOK)
	return stranger
}

// skillOf is the revision in force of a skill.
func skillOf(t *testing.T, b *bedside, code string) string {
	t.Helper()
	skills, _, err := b.Office.Skills(t.Context(), b.Educators[0])
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range skills {
		if s.Code == code {
			return string(s.Revisions[0].ID)
		}
	}
	t.Fatalf("no skill %s", code)
	return ""
}

// 21 CFR 11.50: a signed record shows the printed name, the date and time, and the
// meaning, wherever people read it; licence and zone are ours. Whoever signs sees
// them before.
func TestSignaturesAreShownInFull(t *testing.T) {
	t.Parallel()
	b := newBedside(t)
	at := b.practise(t)
	record := b.markAll(t, at, nil).form(at + "/record").send().wants(http.StatusOK)
	edda := b.Educators[0]
	q, err := b.Office.Qualifications(t.Context(), edda, edda.Person)
	if err != nil || len(q.Licences) == 0 {
		t.Fatalf("no licence: %v", err)
	}
	licence, when := q.Licences[0].Kind+" "+q.Licences[0].Number, instant(b.Now(), b.Zone)
	if !strings.HasSuffix(when, "MST") {
		t.Fatalf("%s names no zone", when)
	}
	record.says("shown by "+b.learner.Name, "“I observed and judged this.”", "Edda Lorne, "+licence+" · "+when, "“I showed this and we talked it over.”", b.learner.Name+" · "+when)
	record.form(at+"/signature", "part", "observer").send("password", ward.Password).wants(http.StatusOK)
	b.Pass(time.Minute)
	later := instant(b.Now(), b.Zone)
	signed := as(t, b.site, b.Ward, b.learner)
	signed.get(at).form(at+"/signature", "part", "learner").send("password", ward.Password).wants(http.StatusOK).
		says("Edda Lorne, "+licence, "“I observed and judged this.”", when, b.learner.Name, "“I showed this and we talked it over.”", later)
}

// Who is handed the tablet reads what they sign in their own language, beside the observer's,
// and on a page that a passkey signs from too (45 CFR 92.201, from memory: language help for
// what is signed).
func TestWhoIsHandedTheTabletReadsTheirOwnLanguage(t *testing.T) {
	t.Parallel()
	w := newWard(t)
	mira := w.Client("7K", "Mira")
	rosa := w.Family("Rosa Quispe", mira)
	if err := w.Office.SetLanguage(t.Context(), rosa, "es"); err != nil {
		t.Fatal(err)
	}
	w.Award(rosa, "bagging", mira)
	shown := w.Demonstrate(rosa, "suction", mira, ward.UnsignedByLearner)
	at := "/demonstrations/" + string(shown.ID)
	handed := as(t, engine(w), w, w.Educators[0]).get(at).wants(http.StatusOK).sound().spoken("en").says("Hand the tablet to Rosa Quispe")
	own := ""
	for _, n := range nodes(handed.node, "div") {
		if attrOf(n, "lang") == "es" {
			own = textOf(n)
		}
	}
	for _, words := range []string{"Aspirar la cánula de traqueostomía, mostrada por Rosa Quispe para Mira, 7K", "«Mostré esto y lo conversamos.»"} {
		if !strings.Contains(own, words) {
			t.Errorf("in Spanish it says %q, not %q", own, words)
		}
	}
	as(t, engine(w), w, rosa).get(at).spoken("es").saysNot("Hand the tablet")
}

// The day is said once, as Spanish writes a date: the weekday in lower case, then day, month
// and year parted by "de" (common practice, no source).
func TestTheDayOfARecordIsSaidOnce(t *testing.T) {
	t.Parallel()
	denver, err := time.LoadLocation("America/Denver")
	if err != nil {
		t.Fatal(err)
	}
	at := time.Date(2026, time.November, 18, 21, 24, 0, 0, time.UTC)
	for language, want := range map[wording.Language]string{wording.English: "Wed 18 Nov 2026, 14:24 MST", wording.Spanish: "miércoles 18 de noviembre de 2026, 14:24 MST"} {
		if got := performedAt(wording.In(language), at, denver); got != want {
			t.Errorf("%s, want %s", got, want)
		}
	}
}
