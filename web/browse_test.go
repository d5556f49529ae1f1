package web

import (
	"bytes"
	"context"
	"fmt"
	"net/http"
	"net/http/cookiejar"
	"net/http/httptest"
	"net/url"
	"strings"
	"testing"
	"time"

	"github.com/gin-gonic/gin"
	"golang.org/x/net/html"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/intake"
	"wellshown/assessment/office"
	"wellshown/assessment/wording"
	"wellshown/integration/ward"
)

// paperDraft stands for the documents: it answers what was asked for, in text, by
// the office's own answer, so that who may have a paper is tried as well.
type paperDraft struct{ o *office.Office }

func (p paperDraft) Record(ctx context.Context, by assessment.Actor, id assessment.DemonstrationID, in wording.Language) ([]byte, string, error) {
	v, err := p.o.Demonstration(ctx, by, id)
	return []byte("record of " + v.Learner), "record.pdf", err
}

func (p paperDraft) Blank(ctx context.Context, by assessment.Actor, id assessment.RevisionID) ([]byte, string, error) {
	v, err := p.o.Checklist(ctx, by, id)
	return []byte("blank " + v.RevisionView.Title), "blank.pdf", err
}

func (p paperDraft) PaperPage(ctx context.Context, by assessment.Actor, id assessment.DemonstrationID, number int) ([]byte, string, error) {
	v, err := p.o.PaperPage(ctx, by, id, number)
	return v.Content, "page-1.jpg", err
}

func (p paperDraft) CarriedPaper(ctx context.Context, by assessment.Actor, person assessment.PersonID, id assessment.RecordID) ([]byte, string, error) {
	v, err := p.o.CarriedPaper(ctx, by, person, id)
	return v.Content, "old-paper.jpg", err
}

func (p paperDraft) ListTemplate(_ context.Context, _ assessment.Actor, kind intake.Kind, form string) ([]byte, string, error) {
	if len(intake.Columns(kind)) == 0 {
		return nil, "", fault.Of(fault.NotFound, "There is no such list.")
	}
	return []byte(intake.Columns(kind)[0].Name), string(kind) + "-template." + form, nil
}

func (p paperDraft) CertificatePDF(ctx context.Context, by assessment.Actor, id assessment.CertificateID) ([]byte, string, error) {
	t, err := p.o.Certificate(ctx, by, id)
	return t.PDF, "certificate.pdf", err
}

func (p paperDraft) Overdue(ctx context.Context, by assessment.Actor, q office.OverdueQuery) ([]byte, string, error) {
	v, err := p.o.Overdue(ctx, by, q)
	return fmt.Appendf(nil, "overdue on %s within %d", v.On, v.Through.Sub(v.On)), "overdue.pdf", err
}

func (p paperDraft) OverdueCSV(ctx context.Context, by assessment.Actor, q office.OverdueQuery) ([]byte, string, error) {
	v, err := p.o.Overdue(ctx, by, q)
	return fmt.Appendf(nil, "on,%s", v.On), "overdue.csv", err
}

func (p paperDraft) Coverage(ctx context.Context, by assessment.Actor, q office.CoverageQuery) ([]byte, string, error) {
	v, err := p.o.Coverage(ctx, by, q)
	return []byte("%PDF " + v.From.String()), "coverage.pdf", err
}

func (p paperDraft) VisitsICS(ctx context.Context, by assessment.Actor, q office.VisitQuery) ([]byte, string, error) {
	v, err := p.o.Visits(ctx, by, q)
	return []byte("BEGIN:VCALENDAR " + v.Until.String()), "visits.ics", err
}

func (p paperDraft) Visits(ctx context.Context, by assessment.Actor, q office.VisitQuery) ([]byte, string, error) {
	v, err := p.o.Visits(ctx, by, q)
	return []byte("%PDF " + v.Until.String()), "visits.pdf", err
}

func (p paperDraft) InServiceCSV(ctx context.Context, by assessment.Actor) ([]byte, string, error) {
	v, err := p.o.InService(ctx, by, "")
	return []byte("on\r\n" + v.Today.String()), "in-service.csv", err
}

func (p paperDraft) CoverageCSV(ctx context.Context, by assessment.Actor, q office.CoverageQuery) ([]byte, string, error) {
	v, err := p.o.Coverage(ctx, by, q)
	return []byte("day\r\n" + v.From.String()), "coverage.csv", err
}

func (p paperDraft) CoverageXLSX(ctx context.Context, by assessment.Actor, q office.CoverageQuery) ([]byte, string, error) {
	v, err := p.o.Coverage(ctx, by, q)
	return []byte("PK " + v.From.String()), "coverage.xlsx", err
}

func (p paperDraft) StandingsCSV(ctx context.Context, by assessment.Actor, q office.GridQuery) ([]byte, string, error) {
	g, err := p.o.Grid(ctx, by, q)
	return fmt.Appendf(nil, "on,%s of %d", g.On, g.Counts.People), "standings.csv", err
}

func (p paperDraft) StandingsXLSX(ctx context.Context, by assessment.Actor, q office.GridQuery) ([]byte, string, error) {
	g, err := p.o.Grid(ctx, by, q)
	return fmt.Appendf(nil, "PK on %s", g.On), "standings.xlsx", err
}

func (p paperDraft) OverdueXLSX(ctx context.Context, by assessment.Actor, q office.OverdueQuery) ([]byte, string, error) {
	v, err := p.o.Overdue(ctx, by, q)
	return fmt.Appendf(nil, "PK on %s", v.On), "overdue.xlsx", err
}

func (p paperDraft) Readiness(ctx context.Context, by assessment.Actor, id assessment.ClientID, at time.Time, in wording.Language) ([]byte, string, error) {
	v, err := p.o.Readiness(ctx, by, id, at)
	return []byte("readiness of " + v.Client.FirstName + " at " + v.At.Format(dayForm) + " in " + string(in)), "readiness.pdf", err
}

func (p paperDraft) Questions(ctx context.Context, by assessment.Actor, code string, in wording.Language) ([]byte, string, error) {
	v, err := p.o.ReadItems(ctx, by, code)
	return fmt.Appendf(nil, "%d questions on %s in %s", len(v.Items), v.Skill.Title, in), "questions.pdf", err
}

func (p paperDraft) Lesson(ctx context.Context, by assessment.Actor, code string, in wording.Language) ([]byte, string, error) {
	v, err := p.o.TaughtLesson(ctx, by, code, in)
	return []byte("lesson " + v.Title), "lesson.pdf", err
}

func (p paperDraft) Lessons(ctx context.Context, by assessment.Actor, in wording.Language) ([]byte, string, error) {
	v, err := p.o.TaughtLessons(ctx, by, in)
	return fmt.Appendf(nil, "%d lessons", len(v)), "lessons.pdf", err
}

func (p paperDraft) HomePaper(ctx context.Context, by assessment.Actor, id assessment.ClientID, which assessment.HomePaper, in wording.Language) ([]byte, string, error) {
	v, err := p.o.HomePapers(ctx, by, id)
	return []byte(string(which) + " of " + v.FirstName + " in " + string(in)), string(which) + ".pdf", err
}

func (p paperDraft) Sitting(ctx context.Context, by assessment.Actor, id assessment.RecordID) ([]byte, string, error) {
	v, err := p.o.HandedIn(ctx, by, id)
	return []byte("check of " + v.Person.Name + " in " + v.Language), "knowledge-check.pdf", err
}

func (p paperDraft) LearningPlan(ctx context.Context, by assessment.Actor, id assessment.PersonID, in wording.Language) ([]byte, string, error) {
	v, err := p.o.LearningPlan(ctx, by, id)
	return []byte("learning plan of " + v.Person.Name + " in " + string(in)), "learning-plan.pdf", err
}

func (p paperDraft) SkillsDayCards(ctx context.Context, by assessment.Actor, id assessment.SkillsDayID) ([]byte, string, error) {
	v, err := p.o.SkillsDay(ctx, by, id)
	return fmt.Appendf(nil, "%d cards of %s", len(v.Learners), v.Name), "cards.pdf", err
}

func (p paperDraft) PacketFile(ctx context.Context, by assessment.Actor, id assessment.PacketID, format string) ([]byte, string, error) {
	v, _, data, err := p.o.PacketFiles(ctx, by, id)
	return fmt.Appendf(data, "%s about %s", format, v.Person), "packet." + format, err
}

func (p paperDraft) Handover(ctx context.Context, by assessment.Actor, id assessment.PersonID) ([]byte, string, error) {
	made, err := p.o.Handover(ctx, by, id)
	return made.File, "handover.json", err
}

func (p paperDraft) Transcript(ctx context.Context, by assessment.Actor, id assessment.PersonID, on civil.Date, in wording.Language) ([]byte, string, error) {
	v, err := p.o.Transcript(ctx, by, id, on)
	return []byte("transcript of " + v.Standings.Person.Name + " in " + string(in)), "transcript.pdf", err
}

// certificateDraft draws a certificate as text.
func certificateDraft(f office.CertificateFacts) ([]byte, error) {
	return fmt.Appendf(nil, "certificate %d of %s in %s, check %s", f.Number, f.Person, f.Title, f.CheckURL), nil
}

// engine is the whole site over a ward's office.
func engine(w *ward.Ward) http.Handler {
	gin.SetMode(gin.ReleaseMode)
	e := gin.New()
	e.ContextWithFallback = true
	site := Routes(e, w.Office, Options{Papers: paperDraft{w.Office}, RequestID: func(context.Context) string { return "try-1" }})
	e.NoRoute(site.NotFound)
	return e
}

// newWard is a ward that draws certificates.
func newWard(t *testing.T) *ward.Ward { return ward.New(t, ward.WithCertificate(certificateDraft)) }

// browser is somebody who reads pages and sends their forms, without a script.
type browser struct {
	t      *testing.T
	client *http.Client
	base   string
}

// visitor is a browser in which nobody is signed in.
func visitor(t *testing.T, site http.Handler) *browser {
	t.Helper()
	server := httptest.NewServer(site)
	t.Cleanup(server.Close)
	jar, err := cookiejar.New(nil)
	if err != nil {
		t.Fatal(err)
	}
	return &browser{t, &http.Client{Jar: jar}, server.URL}
}

// as is a browser in which somebody of the ward has signed in with the form.
func as(t *testing.T, site http.Handler, w *ward.Ward, who assessment.Actor) *browser {
	t.Helper()
	b := visitor(t, site)
	b.get("/sign-in").form("/sign-in").send("email", w.Email(who), "password", ward.Password).wants(http.StatusOK)
	return b
}

// page is an answer with the address that it came from in the end.
type page struct {
	b       *browser
	t       *testing.T
	status  int
	at      string // path and query, after all redirects
	header  http.Header
	body    string
	node    *html.Node
	request *http.Request // the last one
}

func (b *browser) get(path string) *page {
	b.t.Helper()
	r, err := http.NewRequest(http.MethodGet, b.base+path, nil)
	if err != nil {
		b.t.Fatal(err)
	}
	return b.do(r)
}

// post sends fields as they are, without asking any page for its form.
func (b *browser) post(path string, fields url.Values) *page {
	b.t.Helper()
	r, err := http.NewRequest(http.MethodPost, b.base+path, strings.NewReader(fields.Encode()))
	if err != nil {
		b.t.Fatal(err)
	}
	r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	return b.do(r)
}

func (b *browser) do(r *http.Request) *page {
	b.t.Helper()
	answer, err := b.client.Do(r)
	if err != nil {
		b.t.Fatal(err)
	}
	defer answer.Body.Close()
	var body bytes.Buffer
	if _, err := body.ReadFrom(answer.Body); err != nil {
		b.t.Fatal(err)
	}
	return &page{b: b, t: b.t, status: answer.StatusCode, at: answer.Request.URL.RequestURI(), header: answer.Header, body: body.String(),
		node: parsedHTML(b.t, body.Bytes()), request: answer.Request}
}

// csrf is the word that forms of this session carry, read off a page.
func (b *browser) csrf() string {
	b.t.Helper()
	for _, input := range nodes(b.get("/password").node, "input") {
		if attrOf(input, "name") == "csrf" {
			return attrOf(input, "value")
		}
	}
	b.t.Fatal("no form carries a word against forgery")
	return ""
}

func (p *page) wants(status int) *page {
	p.t.Helper()
	if p.status != status {
		p.t.Fatalf("%s answers %d, want %d: %s", p.at, p.status, status, p.text())
	}
	return p
}

// says wants every one of some words in what can be read on the page.
func (p *page) says(words ...string) *page {
	p.t.Helper()
	text := p.text()
	for _, w := range words {
		if !strings.Contains(text, w) {
			p.t.Errorf("%s does not say %q: %s", p.at, w, text)
		}
	}
	return p
}

func (p *page) saysNot(words ...string) *page {
	p.t.Helper()
	text := p.text()
	for _, w := range words {
		if strings.Contains(text, w) {
			p.t.Errorf("%s says %q", p.at, w)
		}
	}
	return p
}

// text is what can be read, with single spaces.
func (p *page) text() string {
	var b strings.Builder
	for n := range p.node.Descendants() {
		if n.Type == html.TextNode {
			b.WriteString(n.Data)
		}
	}
	return strings.Join(strings.Fields(b.String()), " ")
}

// heading is the finding of the page.
func (p *page) heading() string {
	p.t.Helper()
	found := nodes(p.node, "h1")
	if len(found) != 1 {
		p.t.Fatalf("%s has %d headings", p.at, len(found))
	}
	return strings.Join(strings.Fields(textOf(found[0])), " ")
}

// follow goes where a link of the page with these words leads.
func (p *page) follow(words string) *page {
	p.t.Helper()
	for _, a := range nodes(p.node, "a") {
		if strings.Join(strings.Fields(textOf(a)), " ") == words {
			return p.b.get(attrOf(a, "href"))
		}
	}
	p.t.Fatalf("%s has no link %q: %s", p.at, words, p.text())
	return nil
}

// has tells whether a link to an address, or a form sent there, is offered.
func (p *page) has(address string) bool {
	for _, n := range nodes(p.node, "a", "form") {
		if attrOf(n, "href") == address || attrOf(n, "action") == address && attrOf(n, "method") == "post" {
			return true
		}
	}
	return false
}

// sheet is a form of a page with what stands in it.
type sheet struct {
	p      *page
	action string
	method string
	fields url.Values
}

// form is the one that is sent to an address; where there are several, the one
// that has these fields.
func (p *page) form(action string, with ...string) *sheet {
	p.t.Helper()
	for _, n := range nodes(p.node, "form") {
		f := readForm(p, n)
		fits := f.action == action
		for i := 0; i+1 < len(with); i += 2 {
			fits = fits && f.fields.Get(with[i]) == with[i+1]
		}
		if fits {
			return f
		}
	}
	p.t.Fatalf("%s has no form for %s with %v: %s", p.at, action, with, p.text())
	return nil
}

// readForm reads what a browser would send without a button being pressed (HTML,
// constructing the entry list).
func readForm(p *page, n *html.Node) *sheet {
	f := &sheet{p: p, action: attrOf(n, "action"), method: strings.ToUpper(attrOf(n, "method")), fields: url.Values{}}
	for _, c := range nodes(n, "input", "textarea", "select") {
		name := attrOf(c, "name")
		if name == "" {
			continue
		}
		switch {
		case c.Data == "textarea":
			f.fields.Add(name, rawText(c))
		case c.Data == "select":
			f.fields.Add(name, chosenOf(c))
		case attrOf(c, "type") == "checkbox" || attrOf(c, "type") == "radio":
			if _, checked := attr(c, "checked"); checked {
				f.fields.Add(name, attrOf(c, "value"))
			}
		case attrOf(c, "type") != "file":
			f.fields.Add(name, attrOf(c, "value"))
		}
	}
	return f
}

func attr(n *html.Node, key string) (string, bool) {
	for _, a := range n.Attr {
		if a.Key == key {
			return a.Val, true
		}
	}
	return "", false
}

func rawText(n *html.Node) string {
	var b strings.Builder
	for c := range n.Descendants() {
		if c.Type == html.TextNode {
			b.WriteString(c.Data)
		}
	}
	return b.String()
}

func chosenOf(list *html.Node) string {
	options := nodes(list, "option")
	for _, o := range options {
		if _, chosen := attr(o, "selected"); chosen {
			return attrOf(o, "value")
		}
	}
	if len(options) > 0 {
		return attrOf(options[0], "value")
	}
	return ""
}

// send fills in fields, by name and value in turns, and sends the form.
func (f *sheet) send(pairs ...string) *page {
	f.p.t.Helper()
	for i := 0; i+1 < len(pairs); i += 2 {
		f.fields.Set(pairs[i], pairs[i+1])
	}
	if f.method == http.MethodPost {
		return f.p.b.post(f.action, f.fields)
	}
	return f.p.b.get(f.action + "?" + f.fields.Encode())
}
