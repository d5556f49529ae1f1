package web

import (
	"net/http"
	"net/url"
	"strconv"
	"strings"
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

// bedside is a ward with a child, a nurse and the educator who is signed in.
type bedside struct {
	*ward.Ward
	site    http.Handler
	mira    assessment.ClientID
	learner assessment.Actor
	at      *browser
}

func newBedside(t *testing.T) *bedside {
	t.Helper()
	w := newWard(t)
	b := &bedside{Ward: w, site: engine(w), mira: w.Client("7K", "Mira"), learner: w.Nurse("Nguyễn Thị Lan")}
	b.at = as(t, b.site, w, w.Educators[0])
	return b
}

// ready makes the nurse current in all that comes before the circuit change.
func (b *bedside) ready(t *testing.T) {
	t.Helper()
	for _, first := range []string{"circuit-test", "bagging", "alarms-power", "humidifier"} {
		b.Award(b.learner, first, b.mira)
	}
	b.at = as(t, b.site, b.Ward, b.Educators[0])
}

// practise begins a practice of the circuit change through the page and gives its
// address; begin begins one that counts.
func (b *bedside) practise(t *testing.T) string { t.Helper(); return b.starts(t, "practice") }
func (b *bedside) begin(t *testing.T) string    { t.Helper(); return b.starts(t, "formal") }

func (b *bedside) starts(t *testing.T, purpose string) string {
	t.Helper()
	p := b.at.get(startAddress(b.learner.Person, "circuit-change", b.mira)).wants(http.StatusOK).
		form("/demonstrations").send("setting", "real", "purpose", purpose, "place", "at home").wants(http.StatusOK)
	if !strings.HasSuffix(p.at, "/marks") {
		t.Fatalf("beginning leads to %s: %s", p.at, p.text())
	}
	return strings.TrimSuffix(p.at, "/marks")
}

// markAll marks every step through the pages as the buttons lead, independent
// with values inside the ranges, but for some steps; it ends where no step is open.
func (b *bedside) markAll(t *testing.T, demonstration string, other map[int]assessment.Mark) *page {
	t.Helper()
	id := assessment.DemonstrationID(strings.TrimPrefix(demonstration, "/demonstrations/"))
	view, err := b.Office.Sheet(t.Context(), b.Educators[0], id)
	if err != nil {
		t.Fatal(err)
	}
	p := b.at.get(demonstration + "/marks").wants(http.StatusOK)
	for _, step := range view.Checklist.Steps() {
		b.Pass(20 * time.Second)
		mark, ok := other[step.No]
		if !ok {
			mark = assessment.Independent
		}
		form := p.form(demonstration + "/marks/" + strconv.Itoa(step.No))
		for name, read := range ward.Form(t, step, view.Parameters, mark).Readings {
			form.fields.Set("value-"+name, read.Value)
			form.fields.Set("unit-"+name, read.Unit)
		}
		p = form.send("mark", string(mark)).wants(http.StatusOK)
	}
	return p
}

// signBoth signs as the observer and, on the same device, as the learner.
func (b *bedside) signBoth(t *testing.T, p *page) *page {
	t.Helper()
	action := strings.TrimSuffix(p.at, "/signature") + "/signature"
	b.Pass(time.Minute)
	p = p.form(action, "part", "observer").send("password", ward.Password).wants(http.StatusOK)
	b.Pass(time.Minute)
	return p.form(action, "part", "learner").send("password", ward.Password).wants(http.StatusOK)
}

// The main job in a browser without a script: the circuit change from start to
// certificate and its public check. That policy asks for three competent
// demonstrations in a row, on two days, one with the child.
func TestTheThirdCircuitChangeBringsACertificateThatHolds(t *testing.T) {
	t.Parallel()
	b := newBedside(t)
	b.ready(t)
	var p *page
	for n := 1; n <= 3; n++ {
		at := b.begin(t)
		p = b.markAll(t, at, nil)
		if p.at != at+"/review" {
			t.Fatalf("after the last mark comes %s", p.at)
		}
		if got := p.heading(); got != "Every step is marked: competent" {
			t.Errorf("demonstration %d: the review finds %q", n, got)
		}
		p = p.form(at+"/record").send().wants(http.StatusOK).says("Competent, once signed", "I observed and judged this.", "I showed this and we talked it over.")
		p = b.signBoth(t, p).says("Competent", "It counts from")
		if n < 3 {
			p.says("is learning in it", "Needed:")
			if p.has("See the certificate") {
				t.Errorf("demonstration %d brings a certificate", n)
			}
		}
		if n < 3 {
			b.Pass(24 * time.Hour)
			b.at = as(t, b.site, b.Ward, b.Educators[0]) // a session does not last overnight
		}
	}
	p.says("Signed by both. A certificate is issued.", "is current in it through "+day(b.Today().AddMonths(12)))
	certificate := p.follow("See the certificate").wants(http.StatusOK).says("This certificate holds today", "3 return demonstrations, competent, on 3 days", b.learner.Name, "Mira, 7K")
	pdf := b.at.get(strings.Split(certificate.at, "?")[0] + "/certificate.pdf").wants(http.StatusOK)
	if pdf.header.Get("Content-Type") != "application/pdf" || !strings.Contains(pdf.body, b.learner.Name) {
		t.Errorf("the file is %s: %s", pdf.header.Get("Content-Type"), pdf.body)
	}
	checkIsPublic(t, b, certificate)
}

// checkIsPublic follows the certificate's check address with nobody signed in.
func checkIsPublic(t *testing.T, b *bedside, certificate *page) {
	t.Helper()
	address := ""
	for _, a := range nodes(certificate.node, "a") {
		if strings.HasPrefix(attrOf(a, "href"), "/check/") {
			address = attrOf(a, "href")
		}
	}
	anybody := visitor(t, b.site)
	anybody.get(address).wants(http.StatusOK).says("It holds today", b.learner.Name, "circuit change", "Wren Hollow Nursing", "number").saysNot("Mira")
	if err := b.Office.Withdraw(t.Context(), b.Coordinator, office.ExceptionForm{Person: b.learner.Person, Skill: "circuit-change", Client: b.mira, Reason: "Seen to be unsafe.", Proof: ward.Proof}, assessment.Redemonstrated, false); err != nil {
		t.Fatal(err)
	}
	code := strings.TrimPrefix(address, "/check/")
	anybody.get("/check").form("/check").send("code", strings.ToLower(code[:4]+"-"+code[4:8]+"-"+code[8:])).wants(http.StatusOK).says("It no longer holds", "It is withdrawn")
	wrong := "0"
	if code[0] == '0' {
		wrong = "1"
	}
	anybody.get("/check/"+wrong+code[1:]).wants(http.StatusUnprocessableEntity).says("mistyped", "two have changed places")
	anybody.get("/check/" + unissued(t, code)).wants(http.StatusNotFound).says("No certificate has this code")
}

// unissued is a whole code that was never given out: another letter and the check
// letter that fits it (check letter: sum of place × value modulo 31).
func unissued(t *testing.T, code string) string {
	t.Helper()
	const letters = "0123456789ABCDEFGHJKMNPQRSTVWXY"
	changed := []byte(code)
	changed[0] = letters[(strings.IndexByte(letters, code[0])+1)%31]
	for _, last := range []byte(letters) {
		changed[11] = last
		if _, err := office.ReadCode(string(changed)); err == nil {
			return string(changed)
		}
	}
	t.Fatal("no letter fits")
	return ""
}

func TestAMissedCriticalStepIsNotYetCompetentAndNamed(t *testing.T) {
	t.Parallel()
	b := newBedside(t)
	b.ready(t)
	at := b.begin(t)
	p := b.markAll(t, at, map[int]assessment.Mark{16: assessment.NotMet})
	if got := p.heading(); got != "Every step is marked: not yet competent" {
		t.Errorf("the review finds %q", got)
	}
	p = p.form(at + "/record").send().wants(http.StatusOK)
	if got := p.heading(); !strings.HasPrefix(got, "Not yet competent") {
		t.Errorf("the record finds %q", got)
	}
	p.says("Critical step 16 was not shown well enough: Run the circuit test", "It counts as not met; it must be")
	p = b.signBoth(t, p).says("It counts from " + day(b.Today()) + ".")
	for _, a := range nodes(p.node, "a") {
		if strings.HasPrefix(attrOf(a, "href"), "/certificates/") {
			t.Error("a failure brings a certificate")
		}
	}
	if s := b.Standing(b.learner, "circuit-change", b.mira, civil.Date{}); s.Word != assessment.Learning {
		t.Errorf("the learner is %s", s.Word)
	}
}

// A value outside the child's range counts as not met whatever the mark, and is
// said: on the way, in the review and in the record.
func TestAValueOutOfRangeIsSaidAndCounts(t *testing.T) {
	t.Parallel()
	b := newBedside(t)
	at := b.practise(t)
	p := b.at.get(at+"/marks/5").wants(http.StatusOK).says("92 to 99 %", "for Mira", "85 to 150 per minute")
	b.Pass(time.Second)
	p = p.form(at+"/marks/5").send("value-saturation", "88", "value-heart rate", "120", "value-breathing rate", "30", "mark", "independent").wants(http.StatusOK)
	p.says("Step 5 counts as not met: out of range is saturation.")
	b.at.get(at + "/marks/5").says("Out of range: it counts as not met.")
	b.at.get(at + "/review").says("steps are still open")
}

// What was typed is there after a fault, beside what is wrong with it.
func TestAFaultAtAStepKeepsWhatWasTyped(t *testing.T) {
	t.Parallel()
	b := newBedside(t)
	at := b.practise(t)
	p := b.at.get(at+"/marks/5").form(at+"/marks/5").send("value-saturation", "9x", "value-heart rate", "120", "note", "Pale at first.", "mark", "cued")
	p.wants(http.StatusUnprocessableEntity).says("Step 5 was not kept.", "9x")
	f := p.form(at + "/marks/5")
	for field, want := range map[string]string{"value-saturation": "9x", "value-heart rate": "120", "note": "Pale at first."} {
		if got := f.fields.Get(field); got != want {
			t.Errorf("%s holds %q, want %q", field, got, want)
		}
	}
	b.at.get(at + "/review").says("29 steps are still open")
}

// A mark without its value is kept, and the page stays to ask for the value.
func TestAMarkWithoutItsValueStays(t *testing.T) {
	t.Parallel()
	b := newBedside(t)
	at := b.practise(t)
	p := b.at.get(at+"/marks/3").wants(http.StatusOK).says("One of these:", "at least 20 s", "at least 40 s")
	p = p.form(at+"/marks/3").send("mark", "independent").wants(http.StatusOK)
	if p.at != at+"/marks/3" {
		t.Errorf("the page goes on to %s", p.at)
	}
	p.says("It still needs its value: rub or wash.")
	b.Pass(time.Second)
	p = p.form(at+"/marks/3").send("value-wash", "45", "mark", "").wants(http.StatusOK).says("Kept.")
	view, err := b.Office.Sheet(t.Context(), b.Educators[0], assessment.DemonstrationID(strings.TrimPrefix(at, "/demonstrations/")))
	if err != nil {
		t.Fatal(err)
	}
	if m := view.Marks[3]; m.Mark != assessment.Independent || m.Readings["wash"].Value != "45" {
		t.Errorf("step 3 holds %+v", m)
	}
	b.Pass(time.Second)
	p.form(at+"/marks/3").send("mark", "none").wants(http.StatusOK).says("The mark is taken back.")
}

// Not applicable is offered only where the checklist allows it, and asks why.
func TestNotApplicableAsksWhy(t *testing.T) {
	t.Parallel()
	b := newBedside(t)
	at := b.practise(t)
	if p := b.at.get(at + "/marks/10").wants(http.StatusOK); strings.Contains(p.text(), "Does not apply here") {
		t.Error("step 10 always applies")
	}
	p := b.at.get(at+"/marks/9").form(at+"/marks/9").send("mark", "not applicable").wants(http.StatusUnprocessableEntity).says("Say why it does not apply here.")
	p = p.form(at+"/marks/9").send("mark", "not applicable", "reason", "The maker says no filter.").wants(http.StatusOK)
	if p.at != at+"/marks/10" {
		t.Errorf("it goes on to %s", p.at)
	}
	b.at.post(at+"/marks/10", url.Values{"csrf": {b.at.csrf()}, "mark": {"not applicable"}, "reason": {"No."}}).wants(http.StatusUnprocessableEntity).says("This step always applies.")
}

// A page that was drawn before somebody marked the step elsewhere does not write
// over that; the same form sent twice does no harm.
func TestAnOlderPageWritesOverNothing(t *testing.T) {
	t.Parallel()
	b := newBedside(t)
	at := b.practise(t)
	old := b.at.get(at + "/marks/1")
	b.Pass(time.Second)
	b.at.get(at+"/marks/1").form(at+"/marks/1").send("mark", "cued").wants(http.StatusOK)
	b.Pass(time.Second)
	old.form(at+"/marks/1").send("mark", "cued").wants(http.StatusOK)
	old.form(at+"/marks/1").send("mark", "independent").wants(http.StatusUnprocessableEntity).says("was changed after this page was drawn")
}

// Stopping asks first, needs no words while the child needs hands, and asks for
// them before it is recorded.
func TestStoppingForSafety(t *testing.T) {
	t.Parallel()
	b := newBedside(t)
	at := b.practise(t)
	p := b.at.get(at+"/marks").follow("Stop for safety").wants(http.StatusOK).says("End it for safety?", "The child first.")
	p = p.form(at + "/stop").send().wants(http.StatusOK)
	if got := p.heading(); p.at != at+"/review" || got != "Stopped for safety: say what happened" {
		t.Errorf("%s says %q", p.at, got)
	}
	if p.has(at + "/record") {
		t.Error("it can be recorded without a word on what happened")
	}
	p = p.form(at + "/resumption").send().wants(http.StatusOK).follow("Stop for safety")
	p = p.form(at+"/stop").send("reason", "The tube slid; I held it.").wants(http.StatusOK)
	p = p.form(at+"/record").send().wants(http.StatusOK).says("Stopped for safety", "The tube slid; I held it.")
	b.signBoth(t, p).says("Stopped for safety", "practice: it earns nothing and costs nothing").saysNot("It counts from")
}

// Recording refuses a sheet that changed after it was looked over, and a second
// click finds the record.
func TestRecordingWhatWasLookedOver(t *testing.T) {
	t.Parallel()
	b := newBedside(t)
	at := b.practise(t)
	review := b.markAll(t, at, nil)
	b.Pass(time.Second)
	b.at.get(at+"/marks/1").form(at+"/marks/1").send("mark", "assisted").wants(http.StatusOK)
	again := review.form(at + "/record").send().wants(http.StatusUnprocessableEntity).says("The sheet has changed since you looked it over.")
	record := again.form(at + "/record").send().wants(http.StatusOK)
	if record.at != at {
		t.Errorf("it leads to %s", record.at)
	}
	for _, f := range []*sheet{again.form(at + "/record"), review.form(at + "/record")} {
		if p := f.send().wants(http.StatusOK); p.at != at {
			t.Errorf("a second click leads to %s", p.at)
		}
	}
	for _, path := range []string{"/marks", "/marks/3", "/review", "/stop"} {
		if p := b.at.get(at + path).wants(http.StatusOK).says("recorded already"); p.at != at {
			t.Errorf("%s leads to %s", path, p.at)
		}
	}
}
