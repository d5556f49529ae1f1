package office_test

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"strings"
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/assessment/scan"
	"wellshown/integration/ward"
)

// photoOf is a photo of a page, another for each shade.
func photoOf(t testing.TB, shade uint8) []byte {
	t.Helper()
	m := image.NewGray(image.Rect(0, 0, 60, 80))
	for i := range m.Pix {
		m.Pix[i] = shade
	}
	m.SetGray(30, 40, color.Gray{Y: 255 - shade})
	var b bytes.Buffer
	if err := jpeg.Encode(&b, m, nil); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// onPaper begins to type in what a nurse showed on a day, and marks every step.
func onPaper(t *testing.T, w *ward.Ward, who assessment.Actor, child assessment.ClientID, when string, change ...func(*office.MarkForm)) office.SheetView {
	t.Helper()
	by := w.Educators[0]
	s := must(w.Office.Open(t.Context(), by, office.OpenForm{Learner: who.Person, Skill: "humidifier", Client: child, Place: "at home", Real: true, Formal: true,
		When: when, FromPaper: true, PaperRevision: newestNumber(t, w, "humidifier")}))(t)
	var forms []office.MarkForm
	for _, step := range s.Checklist.Steps() {
		f := ward.Form(t, step, s.Parameters, assessment.Independent)
		for _, c := range change {
			c(&f)
		}
		forms = append(forms, f)
	}
	return must(w.Office.MarkAll(t.Context(), by, s.ID, forms))(t)
}

// newestNumber is the number of the newest revision of a skill.
func newestNumber(t *testing.T, w *ward.Ward, skill string) int {
	t.Helper()
	all, _, err := w.Office.Skills(t.Context(), w.Educators[0])
	wantNone(t, err)
	for _, s := range all {
		if s.Code == skill {
			return s.Revisions[0].Number
		}
	}
	t.Fatalf("there is no skill %s", skill)
	return 0
}

// What was marked on paper counts like any other: its day is that of the performance,
// and a positive acts from the later signature (DESIGN.md has no more on it; common
// practice, no source). The record says for ever what it was typed in from, and its
// hash binds each page.
func TestWhatWasMarkedOnPaperCountsAsAnyOther(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier")
	edda := w.Educators[0]
	w.Day("2026-02-10")
	s := onPaper(t, w, nan, mira, "2026-02-03T14:30")
	_, err := w.Office.Record(t.Context(), edda, s.ID)
	wantRefusal(t, err, fault.Refused, "no page of it is attached")
	must(w.Office.AttachPage(t.Context(), edda, s.ID, 0, photoOf(t, 200)))(t)
	v := must(w.Office.AttachPage(t.Context(), edda, s.ID, 0, photoOf(t, 100)))(t)
	if again := must(w.Office.AttachPage(t.Context(), edda, s.ID, 0, photoOf(t, 100)))(t); len(again.Pages) != 2 || len(v.Pages) != 2 {
		t.Errorf("the same page twice: %+v", again.Pages)
	}
	w.Pass(time.Hour)
	typed := w.Now()
	r := must(w.Office.Record(t.Context(), edda, s.ID))(t)
	if r.Outcome != assessment.Competent || r.Paper == nil || len(r.Paper.Pages) != 2 || !r.Paper.TypedIn.Equal(s.OpenedAt) || !r.RecordedAt.Equal(typed) {
		t.Fatalf("%s, %+v", r.Outcome, r.Paper)
	}
	for _, page := range r.Paper.Pages {
		kept := must(w.Office.PaperPage(t.Context(), edda, r.ID, page.Number))(t)
		if hash := sha256.Sum256(kept.Content); page.SHA256 != hex.EncodeToString(hash[:]) || !strings.Contains(r.Body, page.SHA256) || page.Type != scan.JPEG || kept.MediaType != scan.JPEG {
			t.Errorf("page %d: %+v", page.Number, page)
		}
	}
	if day := civil.DayOf(r.PerformedAt, w.Zone); day != civil.MustParse("2026-02-03") {
		t.Errorf("it was performed on %s", day)
	}
	w.Sign(edda, r.ID, office.PartObserver)
	w.Day("2026-02-12")
	r = w.Sign(nan, r.ID, office.PartLearner)
	for day, holds := range map[string]bool{"2026-02-03": false, "2026-02-10": false, "2026-02-11": false, "2026-02-12": true} {
		if got := w.Standing(nan, "humidifier", mira, civil.MustParse(day)).Word.Holds(); got != holds {
			t.Errorf("on %s it holds: %v", day, got)
		}
	}
	if r.Paper == nil || r.Certificate == nil {
		t.Errorf("once signed: %+v, certificate %v", r.Paper, r.Certificate)
	}
	if got := verified(t, w.Office); got.Found != 0 {
		t.Errorf("the ledger: %s", listed(got))
	}
}

// What went wrong on paper acts from the day it was performed, and is recorded also
// where the paper is lost: the reading that withholds competence.
func TestWhatWentWrongOnPaperIsRecordedWithoutIt(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier")
	w.Day("2026-02-10")
	s := onPaper(t, w, nan, mira, "2026-02-03T14:30", func(f *office.MarkForm) {
		if f.Step == 1 {
			f.Mark = string(assessment.Unsafe)
		}
	})
	r := must(w.Office.Record(t.Context(), w.Educators[0], s.ID))(t)
	if r.Outcome == assessment.Competent || r.Paper == nil || len(r.Paper.Pages) != 0 {
		t.Errorf("%s, %+v", r.Outcome, r.Paper)
	}
}

// What is begun as marked on paper says when and on which revision; a paper of another
// revision than the one in force that day is never typed in as that one.
func TestBeginningFromPaper(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier")
	w.Day("2026-02-10")
	good := office.OpenForm{Learner: nan.Person, Skill: "humidifier", Client: mira, Place: "at home", Real: true, Formal: true, When: "2026-02-03T14:30", FromPaper: true,
		PaperRevision: newestNumber(t, w, "humidifier")}
	open := func(change func(*office.OpenForm)) error {
		f := good
		change(&f)
		return second(w.Office.Open(t.Context(), w.Educators[0], f))
	}
	wantAtField(t, open(func(f *office.OpenForm) { f.When = "" }), "performed_at", "the day and time on the paper")
	wantAtField(t, open(func(f *office.OpenForm) { f.When = "2026-02-11T00:00" }), "performed_at", "future")
	wantAtField(t, open(func(f *office.OpenForm) { f.PaperRevision = 0 }), "paper_revision", "printed on the paper")
	wantAtField(t, open(func(f *office.OpenForm) { f.PaperRevision += 7 }), "paper_revision", "cannot be typed in as those of another")
	wantNone(t, open(func(*office.OpenForm) {}))
	// The same id is not both.
	s := must(w.Office.Open(t.Context(), w.Educators[0], good))(t)
	good.ID = string(s.ID)
	wantRefusal(t, open(func(f *office.OpenForm) { f.FromPaper = false }), fault.Conflict, "another demonstration")
}

// A page goes to one's own sheet that is typed in from paper and to no other, and is
// read by whoever may read the record.
func TestWhoseAPageIs(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier")
	edda, other, lou := w.Educators[0], w.Educators[1], w.Nurse("Lou Vance")
	w.Day("2026-02-10")
	s := onPaper(t, w, nan, mira, "2026-02-03T14:30")
	attach := func(by assessment.Actor, id assessment.DemonstrationID, number int, sent []byte) error {
		return second(w.Office.AttachPage(t.Context(), by, id, number, sent))
	}
	wantRefusal(t, attach(other, s.ID, 0, photoOf(t, 1)), fault.NotFound, "")
	wantRefusal(t, attach(edda, "00000000-0000-7000-8000-000000000000", 0, photoOf(t, 1)), fault.NotFound, "")
	wantRefusal(t, attach(nan, s.ID, 0, photoOf(t, 1)), fault.Forbidden, "")
	wantRefusal(t, attach(edda, opened(t, w, lou, "humidifier", mira).ID, 0, photoOf(t, 1)), fault.Refused, "not on paper")
	wantRefusal(t, attach(edda, s.ID, 0, []byte("<html>")), fault.Invalid, "no JPEG, PNG or PDF")
	wantRefusal(t, attach(edda, s.ID, 11, photoOf(t, 1)), fault.Refused, "at most 10")
	for n := range office.MostPages {
		wantNone(t, attach(edda, s.ID, n+1, photoOf(t, uint8(20*n))))
	}
	wantRefusal(t, attach(edda, s.ID, 0, photoOf(t, 255)), fault.Refused, "at most 10")
	wantRefusal(t, attach(edda, s.ID, 5, photoOf(t, 0)), fault.Conflict, "attached already, as number 1")
	wantNone(t, second(w.Office.DropPage(t.Context(), edda, s.ID, 3)))
	wantRefusal(t, second(w.Office.DropPage(t.Context(), other, s.ID, 4)), fault.NotFound, "")
	wantNone(t, attach(edda, s.ID, 0, photoOf(t, 255))) // takes the number that is free
	wantRefusal(t, second(w.Office.PaperPage(t.Context(), other, s.ID, 1)), fault.NotFound, "")
	wantRefusal(t, second(w.Office.PaperPage(t.Context(), nan, s.ID, 1)), fault.NotFound, "")
	wantNone(t, second(w.Office.PaperPage(t.Context(), edda, s.ID, 3)))

	must(w.Office.Record(t.Context(), edda, s.ID))(t)
	wantRefusal(t, attach(edda, s.ID, 1, photoOf(t, 9)), fault.Conflict, "recorded already")
	wantRefusal(t, second(w.Office.DropPage(t.Context(), edda, s.ID, 1)), fault.Conflict, "recorded already")
	for _, by := range []assessment.Actor{edda, other, nan, w.Coordinator} {
		wantNone(t, second(w.Office.PaperPage(t.Context(), by, s.ID, 10)))
	}
	wantRefusal(t, second(w.Office.PaperPage(t.Context(), lou, s.ID, 1)), fault.NotFound, "")
	wantRefusal(t, second(w.Office.PaperPage(t.Context(), edda, s.ID, 11)), fault.NotFound, "")
}

// Whoever looked the sheet over records it with the pages that they saw.
func TestAPageThatCameMeanwhileIsLookedAtFirst(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier")
	edda := w.Educators[0]
	w.Day("2026-02-10")
	s := onPaper(t, w, nan, mira, "2026-02-03T14:30")
	must(w.Office.AttachPage(t.Context(), edda, s.ID, 0, photoOf(t, 1)))(t)
	looked := must(w.Office.Review(t.Context(), edda, s.ID))(t)
	must(w.Office.AttachPage(t.Context(), edda, s.ID, 0, photoOf(t, 2)))(t)
	wantRefusal(t, w.Office.RecordReviewed(t.Context(), edda, s.ID, looked.Version), fault.Conflict, "has changed")
	wantNone(t, w.Office.RecordReviewed(t.Context(), edda, s.ID, must(w.Office.Review(t.Context(), edda, s.ID))(t).Version))
}

// A page cannot be changed, nor added to a record that does not name it by its hash.
func TestSQLCannotChangeAPage(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier")
	w.Day("2026-02-10")
	s := onPaper(t, w, nan, mira, "2026-02-03T14:30")
	must(w.Office.AttachPage(t.Context(), w.Educators[0], s.ID, 0, photoOf(t, 1)))(t)
	must(w.Office.Record(t.Context(), w.Educators[0], s.ID))(t)
	owner := asOwner(t, w)
	for _, sql := range []string{`update paper_page set content = 'x', content_sha256 = sha256('x')`, `delete from paper_page`, `truncate paper_page`,
		`insert into paper_page select agency_id, demonstration_id, 2, media_type, content, content_sha256, sheets, attached_at from paper_page`,
		`insert into paper_page select agency_id, demonstration_id, 2, media_type, 'x', sha256('x'), sheets, attached_at from paper_page`} {
		if tag, err := owner.Exec(t.Context(), sql); err == nil {
			t.Errorf("the owner may, %s: %s", tag, sql)
		}
	}
}

// An erasure takes the pictures: names, handwriting and signatures stand on them. Their
// hashes stay, and what the ledger proves stays proven. What is held about the nurse
// lists the pages while they are there.
func TestErasingAPaper(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	p := &parting{Ward: w, second: w.Administrator("Bodil Krane"), nurse: w.Nurse(nurseName), child: w.Client("TH7", childName)}
	edda := w.Educators[0]
	w.Day("2026-03-10")
	s := onPaper(t, w, p.nurse, p.child, "2026-03-02T10:00")
	must(w.Office.AttachPage(t.Context(), edda, s.ID, 0, photoOf(t, 77)))(t)
	r := must(w.Office.Record(t.Context(), edda, s.ID))(t)
	w.Sign(edda, r.ID, office.PartObserver)
	left := onPaper(t, w, p.nurse, p.child, "2026-03-03T10:00")
	must(w.Office.AttachPage(t.Context(), edda, left.ID, 0, photoOf(t, 78)))(t)
	w.Day("2026-04-01")
	wantNone(t, w.Office.PersonLeaves(t.Context(), w.Admin, p.nurse.Person, w.Today()))
	w.Day("2033-10-03")
	p.head = []byte(must(w.Office.LedgerHead(t.Context(), w.Admin))(t).Signed)
	var rows, held int
	owner := asOwner(t, p.Ward)
	count := func() {
		wantNone(t, owner.QueryRow(t.Context(), `select (select count(*) from sheet_page), (select count(*) from paper_page where length(content) > 0)`).Scan(&rows, &held))
	}
	if count(); rows != 1 || held != 1 {
		t.Fatalf("%d pages of sheets, %d of records", rows, held)
	}
	p.keep(t, "6")
	v := p.erase(t, p.nurse.Person, "")
	if count(); rows != 0 || held != 0 {
		t.Errorf("%d pages of sheets, %d of records are left", rows, held)
	}
	_, err := p.Office.PaperPage(t.Context(), p.Coordinator, r.ID, 1)
	wantRefusal(t, err, fault.Refused, "erased on 3 October 2033")
	now := must(p.Office.ReadRecord(t.Context(), p.Coordinator, r.ID))(t)
	if now.Paper == nil || now.Paper.Pages[0] != r.Paper.Pages[0] {
		t.Errorf("the record says %+v", now.Paper)
	}
	p.stillProven(t, v.Rows)
}

// What is held about somebody names the pages of their papers.
func TestPagesAreAmongWhatIsHeld(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier")
	w.Day("2026-02-10")
	s := onPaper(t, w, nan, mira, "2026-02-03T14:30")
	var picture bytes.Buffer
	wantNone(t, png.Encode(&picture, image.NewGray(image.Rect(0, 0, 9, 9))))
	must(w.Office.AttachPage(t.Context(), w.Educators[0], s.ID, 0, picture.Bytes()))(t)
	r := must(w.Office.Record(t.Context(), w.Educators[0], s.ID))(t)
	text := must(w.Office.Export(t.Context(), nan))(t)
	var held map[string]json.RawMessage
	wantNone(t, json.Unmarshal(text, &held))
	if !strings.Contains(string(text), r.Paper.Pages[0].SHA256) || !strings.Contains(string(text), `"image/png"`) {
		t.Error("the page is not in the download")
	}
}
