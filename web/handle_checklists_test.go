package web

import (
	"bytes"
	"mime/multipart"
	"net/http"
	"net/url"
	"strings"
	"testing"
	"time"

	"wellshown/assessment/catalog"
	"wellshown/integration/ward"
)

func TestReadingChecklists(t *testing.T) {
	t.Parallel()
	b := newBedside(t)
	p := b.at.get("/checklists").wants(http.StatusOK).says("12 checklists are in force", "29 steps", "taken")
	if strings.Contains(p.text(), "Make a draft of it") {
		t.Error("a starter that was taken is offered")
	}
	b.at.get("/checklists?find=SUCTION").wants(http.StatusOK).says("Tracheostomy suctioning")
	b.at.get("/checklists?find=nothing+like+it").wants(http.StatusOK).says("No checklist fits")
	revision := "/revisions/" + skillOf(t, b, "circuit-change")
	p = b.at.get(revision).wants(http.StatusOK).says("in force since 5 Jan 2026", "Never start on an unstable child", "rub at least 20 s, or wash at least 40 s",
		"A heated humidifier and a heat and moisture exchanger are never used together", "Read against the ward's orders.", "Holds for 12 months")
	if !p.has("/demonstrations/new?skill=circuit-change") {
		t.Error("an educator is not led to observe it")
	}
	if got := b.at.get(revision + "/blank.pdf").wants(http.StatusOK); !strings.HasPrefix(got.body, "blank ") {
		t.Errorf("the paper holds %s", got.body)
	}
	b.at.get(revision + "/compare").wants(http.StatusUnprocessableEntity).says("first revision")
	b.at.get("/revisions/not-an-id").wants(http.StatusNotFound)
	b.at.get("/catalogue/no-such-skill").wants(http.StatusNotFound)
	b.at.get("/catalogue/suction").wants(http.StatusOK).says("Starter checklist: not in force.")
	nurse := as(t, b.site, b.Ward, b.learner)
	if p := nurse.get(revision).wants(http.StatusOK); p.has("/demonstrations/new?skill=circuit-change") || strings.Contains(p.text(), "Retire this revision") {
		t.Error("a nurse is offered what an educator does")
	}
}

// A draft is edited as text; every fault is named by its line and step, beside the
// line as typed; the text stays as typed until there is none.
func TestDraftingARevision(t *testing.T) {
	t.Parallel()
	b := newBedside(t)
	old := "/revisions/" + skillOf(t, b, "bagging")
	p := draftNext(t, b.at, old)
	at := strings.TrimSuffix(p.at, "/source")
	source := p.form(at + "/source").fields.Get("source")
	bad := strings.Replace(source, "kind: done", "kind: dome", 2)
	if strings.Count(bad, "kind: dome") != 2 {
		t.Fatal("the text has no two steps that are done")
	}
	p = p.form(at+"/source").send("source", bad).wants(http.StatusUnprocessableEntity).says("The checklist is not saved.", "2 things in it need mending", "kind: dome", "line "+lineOf(bad, "kind: dome"))
	if got := p.form(at + "/source").fields.Get("source"); strings.TrimSpace(got) != strings.TrimSpace(bad) {
		t.Error("the text is not as it was typed")
	}
	p = p.form(at+"/source").send("source", strings.Replace(source, "title: ", "title: Our own ", 1)).wants(http.StatusOK).says("The draft is saved.", "Our own")
	p.follow("What changed").wants(http.StatusOK).says("Revision 2 changes 1 thing", "Our own")
	if again := b.at.get(old).wants(http.StatusOK); strings.Contains(again.text(), "Draft the next revision") {
		t.Error("a second draft is offered")
	}
	putDraftInForce(t, b, at, old)
}

func draftNext(t *testing.T, b *browser, revision string) *page {
	t.Helper()
	for _, n := range nodes(b.get(revision).wants(http.StatusOK).node, "form") {
		if action := attrOf(n, "action"); strings.HasSuffix(action, "/revisions") {
			return b.get(revision).form(action).send().wants(http.StatusOK)
		}
	}
	t.Fatal("the next revision is not offered")
	return nil
}

func lineOf(text, part string) string {
	n := strings.Count(text[:strings.Index(text, part)], "\n") + 1
	return strings.TrimLeft(string([]byte{byte('0' + n/100), byte('0' + n/10%10), byte('0' + n%10)}), "0")
}

// agreeInForce has the second educator find what waits, decline it without a word, which is
// refused, and agree to it.
func agreeInForce(t *testing.T, b *bedside, draft, proposal string) {
	t.Helper()
	b.at.get(draft).wants(http.StatusOK).says("It waits for a second person", "Edda Lorne has proposed")
	b.at.get("/today").wants(http.StatusOK).says("You have proposed it")
	second := as(t, b.site, b.Ward, b.Educators[1])
	second.get("/waiting").wants(http.StatusOK).says("Edda Lorne has proposed", "It waits for you or another licensed educator.")
	second.get("/today").wants(http.StatusOK).says("One checklist waits for a second person", "Look and decide")
	p := second.get(proposal).wants(http.StatusOK).says("Put revision 2 in force?", "Read with the orders.", "It changes nobody’s standing")
	p = p.form(proposal+"/dropping").send("reason", " ").wants(http.StatusUnprocessableEntity).says("Say what is to be changed first.")
	p = p.form(proposal+"/agreement").send("password", ward.Password).wants(http.StatusUnprocessableEntity).says("Read every step and every limit first")
	f := p.form(proposal + "/agreement")
	f.fields.Set("seen", "stale")
	p = f.send("reviewed", "yes", "password", ward.Password).wants(http.StatusUnprocessableEntity).says("It is not in force.", "not what you looked at")
	if got := p.form(proposal + "/agreement").fields; got.Get("reviewed") != "" || got.Get("seen") == "stale" {
		t.Errorf("shown anew the form holds %v", got)
	}
	p.form(proposal+"/agreement").send("reviewed", "yes", "password", ward.Password).wants(http.StatusOK).says("It is in force from now on.", "Revision 2 was agreed", "Agreed by Rolf Teague")
	b.at.get(draft).wants(http.StatusOK).says("Revision 2 · in force", "Rolf Teague", "second person")
}

func putDraftInForce(t *testing.T, b *bedside, draft, old string) {
	t.Helper()
	b.Pass(time.Minute)
	b.at.get(draft + "/in-force").wants(http.StatusOK).says("Read it first, then put it in force.")
	p := b.at.get(draft).follow("Review and propose it").wants(http.StatusOK).says("Propose to put revision 2 in force", "revision 1", "nobody holds it yet", "Edda Lorne", "It changes nobody’s standing and breaks no shift")
	p = p.form(draft+"/in-force").send("statement", "Read with the orders.", "password", ward.Password).wants(http.StatusUnprocessableEntity).says("Read every step and every limit first")
	if got := p.form(draft + "/in-force").fields; got.Get("statement") != "Read with the orders." || got.Get("password") != "" {
		t.Errorf("the form holds %v", got)
	}
	p = p.form(draft+"/in-force").send("reviewed", "yes", "recheck_by", "2025-01-01", "password", ward.Password).wants(http.StatusUnprocessableEntity).says("This day is past.")
	p = p.form(draft+"/in-force").send("look", "yes", "recheck_by", "").wants(http.StatusOK).says("It changes nobody’s standing")
	if got := p.form(draft + "/in-force").fields; got.Get("statement") != "Read with the orders." || got.Get("reviewed") != "yes" {
		t.Errorf("after a look the form holds %v", got)
	}
	p = p.form(draft+"/in-force").send("password", ward.Password).wants(http.StatusOK).says("It is proposed.", "Revision 2 waits for somebody else", "Read with the orders.")
	agreeInForce(t, b, draft, p.at)
	b.at.get(old).wants(http.StatusOK).says("Revision 1 · retired")
	b.at.get(draft + "/in-force").wants(http.StatusUnprocessableEntity).says("already")
	b.at.get(draft + "/source").wants(http.StatusUnprocessableEntity).says("never changes")
	p = b.at.get(draft).form(draft+"/retirement").send("password", "wrong").wants(http.StatusUnprocessableEntity).says("It is not retired.")
	p.form(draft+"/retirement").send("password", ward.Password).wants(http.StatusOK).says("Revision 2 · retired")
}

// A file with faults is mended on the page; it becomes a draft once there is none.
func TestSendingAChecklistFile(t *testing.T) {
	t.Parallel()
	b := newBedside(t)
	source, err := catalog.Source("bagging")
	if err != nil {
		t.Fatal(err)
	}
	text := strings.Replace(string(source), "code: bagging", "code: bagging-two", 1)
	p := sendFile(t, b.at, strings.Replace(text, "kind: done", "kind: dome", 1)).wants(http.StatusUnprocessableEntity).says("Mend the checklist", "own.yaml", "kind: dome")
	p = p.form("/checklists", "name", "own.yaml").send("source", text).wants(http.StatusOK).says("It is a draft now.", "draft since 5 Jan 2026")
	at := strings.Split(p.at, "?")[0]
	sendFile(t, b.at, text).wants(http.StatusUnprocessableEntity).says("There is a skill with this code already.")
	sendFile(t, b.at, "").wants(http.StatusUnprocessableEntity).says("no file was chosen")
	b.at.get(at + "/source").form(at + "/discarding").send().wants(http.StatusOK).says("The draft is thrown away.")
	b.at.get(at).wants(http.StatusNotFound)
}

func sendFile(t *testing.T, b *browser, text string) *page {
	t.Helper()
	var body bytes.Buffer
	w := multipart.NewWriter(&body)
	if err := w.WriteField("csrf", b.csrf()); err != nil {
		t.Fatal(err)
	}
	part, err := w.CreateFormFile("file", "own.yaml")
	if err != nil {
		t.Fatal(err)
	}
	if _, err := part.Write([]byte(text)); err != nil {
		t.Fatal(err)
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	r, err := http.NewRequest(http.MethodPost, b.base+"/checklists", &body)
	if err != nil {
		t.Fatal(err)
	}
	r.Header.Set("Content-Type", w.FormDataContentType())
	return b.do(r)
}

func TestTakingAStarterTwiceIsHarmless(t *testing.T) {
	t.Parallel()
	b := newBedside(t)
	b.at.post("/catalogue/suction", url.Values{"csrf": {b.at.csrf()}}).wants(http.StatusOK).says("Your agency has this skill already.")
}

// Two browsers edit one draft: the second save is told what the first changed, and
// keeps what was typed.
func TestTwoEditOneDraft(t *testing.T) {
	t.Parallel()
	b := newBedside(t)
	admin := as(t, b.site, b.Ward, b.Admin)
	p := draftNext(t, b.at, "/revisions/"+skillOf(t, b, "bagging"))
	at := strings.TrimSuffix(p.at, "/source")
	mine, theirs := p.form(at+"/source"), admin.get(at+"/source").form(at+"/source")
	source := mine.fields.Get("source")
	theirs.send("source", strings.Replace(source, "months: 12", "months: 3", 1)).wants(http.StatusOK).says("The draft is saved.")
	typed := strings.Replace(source, "title: ", "title: Our own ", 1)
	p = mine.send("source", typed).wants(http.StatusUnprocessableEntity).sound().says("The checklist is not saved.", "Ada Minton has saved this draft since you read it",
		"Saved by somebody else in the meantime", "3 months").saysNot("before: Our own")
	if got := p.form(at + "/source").fields.Get("source"); strings.TrimSpace(got) != strings.TrimSpace(typed) {
		t.Error("the text is not as it was typed")
	}
	p.form(at+"/source").send().wants(http.StatusOK).says("The draft is saved.", "Our own")
	theirs.send("source", source).wants(http.StatusUnprocessableEntity).says("Edda Lorne has saved this draft")
}

// A draft that is saved while somebody reads it, or while they sign, does not come
// in force: they are told what changed, and what they ticked is not said of it.
func TestADraftThatChangesWhileItIsRead(t *testing.T) {
	t.Parallel()
	b := newBedside(t)
	admin := as(t, b.site, b.Ward, b.Admin)
	at := strings.TrimSuffix(draftNext(t, b.at, "/revisions/"+skillOf(t, b, "bagging")).at, "/source")
	change := func(old, new string) {
		t.Helper()
		f := admin.get(at + "/source").form(at + "/source")
		f.send("source", strings.Replace(f.fields.Get("source"), old, new, 1)).wants(http.StatusOK).says("The draft is saved.")
	}
	read := b.at.get(at)
	change("months: 12", "months: 9")
	if p := read.follow("Review and propose it").wants(http.StatusOK).says("Somebody has saved this draft since you read it."); p.at != at {
		t.Errorf("from an older reading one gets to %s", p.at)
	}
	form := b.at.get(at).follow("Review and propose it").form(at + "/in-force")
	change("months: 9", "months: 3")
	p := form.send("reviewed", "yes", "statement", "Read with the orders.", "recheck_by", "", "password", ward.Password).wants(http.StatusUnprocessableEntity).sound().
		says("It is not proposed.", "Ada Minton has saved this draft since you read it", "Changed since you read it", "9 months", "3 months")
	b.at.get(at).says("draft since")
	form = p.form(at + "/in-force")
	if f := form.fields; f.Get("statement") != "Read with the orders." || f.Get("reviewed") != "" || f.Get("password") != "" {
		t.Errorf("the form holds %v", f)
	}
	form.send("reviewed", "yes", "password", ward.Password).wants(http.StatusOK).says("It is proposed.")
}
