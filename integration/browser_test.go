package integration

import (
	"context"
	"io"
	"net"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/gin-gonic/gin"

	"wellshown/api"
	"wellshown/assessment"
	"wellshown/assessment/office"
	"wellshown/integration/browser"
	"wellshown/integration/ward"
	"wellshown/reports"
	"wellshown/web"
)

// browserJob is what browser/main-job.mjs is told to do.
type browserJob struct {
	Chromium        string        `json:"chromium"`
	Base            string        `json:"base"`
	JavaScript      bool          `json:"javaScript"`
	Email           string        `json:"email"`
	Password        string        `json:"password"`
	LearnerPassword string        `json:"learnerPassword"`
	Start           string        `json:"start"`
	Steps           []browserStep `json:"steps"`
	PDF             string        `json:"pdf"`
	Shots           string        `json:"shots,omitempty"` // folder for pictures of each page
}

type browserStep struct {
	Number int               `json:"number"`
	Mark   string            `json:"mark"`
	Values map[string]string `json:"values,omitempty"`
	Timed  bool              `json:"-"` // its values are seconds
}

// TestTheMainJobInABrowser: a whole circuit change on a phone, from sign-in to a
// certificate whose square leads to a page that says it holds; once without
// JavaScript, which brings the award, and once with it, which renews it.
func TestTheMainJobInABrowser(t *testing.T) {
	tools := browserTools(t)
	for _, script := range []bool{false, true} {
		name := "JavaScript off"
		if script {
			name = "JavaScript on"
		}
		t.Run(name, func(t *testing.T) {
			job := bedsideJob(t, script)
			job.Chromium, job.PDF = tools.Chromium, filepath.Join(t.TempDir(), "certificate.pdf")
			if shots := os.Getenv("WELLSHOWN_SHOTS"); shots != "" && script {
				job.Shots = shots
			}
			check := tools.run(t, job)
			if square := tools.square(t, job.PDF); square != check {
				t.Errorf("the square of the certificate leads to %q, its page to %q", square, check)
			}
			if says := fetch(t, check); !strings.Contains(says, "It holds today") {
				t.Errorf("the check page says %s", says)
			}
		})
	}
}

// bedsideJob makes a ward that is served at an address of its own, with a nurse who
// lacks one demonstration of the circuit change.
func bedsideJob(t *testing.T, script bool) browserJob {
	t.Helper()
	w, base := served(t, "127.0.0.1")
	mira, lan := w.Client("7K", "Mira"), w.Nurse("Nguyễn Thị Lan")
	for _, first := range []string{"circuit-test", "bagging", "alarms-power", "humidifier"} {
		w.Award(lan, first, mira)
	}
	for range 2 {
		w.Demonstrate(lan, "circuit-change", mira)
		w.Pass(24 * time.Hour)
	}
	return browserJob{Base: base, JavaScript: script, Email: w.Email(w.Educators[0]), Password: ward.Password, LearnerPassword: ward.Password,
		Start: "/demonstrations/new?skill=circuit-change&learner=" + string(lan.Person) + "&client=" + string(mira), Steps: goodSteps(t, w, lan, mira)}
}

// served is a ward whose pages are served under a name of this machine. wrap may listen
// in on what goes over the wire.
func served(t testing.TB, name string, wrap ...func(net.Listener) net.Listener) (*ward.Ward, string) {
	t.Helper()
	server := httptest.NewUnstartedServer(nil)
	_, port, err := net.SplitHostPort(server.Listener.Addr().String())
	if err != nil {
		t.Fatal(err)
	}
	base := "http://" + net.JoinHostPort(name, port)
	w := ward.New(t, ward.WithCertificate(reports.Certificate), func(o *office.Options) { o.BaseURL = base })
	gin.SetMode(gin.ReleaseMode)
	engine := gin.New()
	engine.ContextWithFallback = true
	engine.Use(func(c *gin.Context) { c.Header("Content-Security-Policy", web.ContentSecurityPolicy) })
	papers := reports.New(w.Office)
	site := web.Routes(engine, w.Office, web.Options{Papers: papers, RequestID: func(context.Context) string { return "browser" }})
	api.Routes(engine, w.Office, site.Identify, api.Papers{Record: papers.Record, Page: papers.PaperPage, Blank: papers.Blank, Certificate: papers.CertificatePDF,
		Transcript: papers.Transcript, Handover: papers.Handover, Readiness: papers.Readiness, Questions: papers.Questions, Lesson: papers.Lesson, Lessons: papers.Lessons, Overdue: papers.Overdue, OverdueCSV: papers.OverdueCSV, OverdueXLSX: papers.OverdueXLSX, StandingsCSV: papers.StandingsCSV, StandingsXLSX: papers.StandingsXLSX, Coverage: papers.Coverage, Packet: papers.PacketFile, Visits: papers.Visits, VisitsICS: papers.VisitsICS, CoverageCSV: papers.CoverageCSV, CoverageXLSX: papers.CoverageXLSX, SkillsDayCards: papers.SkillsDayCards, HomePaper: papers.HomePaper, LearningPlan: papers.LearningPlan})
	engine.NoRoute(site.NotFound)
	for _, w := range wrap {
		server.Listener = w(server.Listener)
	}
	server.Config.Handler = engine
	server.Start()
	t.Cleanup(server.Close)
	return w, base
}

// goodSteps are all steps of a circuit change, as stepsOf has them.
func goodSteps(t testing.TB, w *ward.Ward, learner assessment.Actor, client assessment.ClientID) []browserStep {
	t.Helper()
	return stepsOf(t, w, "circuit-change", learner, client)
}

// stepsOf are all steps of a skill, each independent with values inside the child's ranges.
func stepsOf(t testing.TB, w *ward.Ward, skill string, learner assessment.Actor, client assessment.ClientID) []browserStep {
	t.Helper()
	by := w.Educators[0]
	v, err := w.Office.Open(t.Context(), by, office.OpenForm{Learner: learner.Person, Skill: skill, Client: client, Place: "at home", Real: true})
	if err != nil {
		t.Fatal(err)
	}
	var steps []browserStep
	for _, step := range v.Checklist.Steps() {
		s := browserStep{Number: step.No, Mark: "Independent", Values: map[string]string{}, Timed: step.Kind == assessment.Timed}
		for name, read := range ward.Form(t, step, v.Parameters, assessment.Independent).Readings {
			s.Values[name] = read.Value
		}
		steps = append(steps, s)
	}
	if err := w.Office.Discard(t.Context(), by, v.ID); err != nil {
		t.Fatal(err)
	}
	return steps
}

// desk is where the programs are that these tests need.
type desk struct {
	browser.Desk
	pdftoppm, zbarimg string
}

func browserTools(t testing.TB) desk {
	t.Helper()
	return desk{browser.Tools(t), browser.Found(t, "pdftoppm"), browser.Found(t, "zbarimg")}
}

// run does the job in a browser and gives the address that checks the certificate.
func (d desk) run(t *testing.T, job browserJob) string {
	t.Helper()
	var came struct{ Check string }
	d.Play(t, "main-job.mjs", job, &came)
	return came.Check
}

// square is what the QR code of a PDF's first page says, as another program reads it.
func (d desk) square(t *testing.T, pdf string) string {
	t.Helper()
	picture := strings.TrimSuffix(pdf, ".pdf")
	if out, err := exec.CommandContext(t.Context(), d.pdftoppm, "-r", "200", "-png", "-singlefile", pdf, picture).CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	out, err := exec.CommandContext(t.Context(), d.zbarimg, "--quiet", "--raw", picture+".png").Output()
	if err != nil {
		t.Fatalf("no square is read: %v", err)
	}
	return strings.TrimSpace(string(out))
}

func fetch(t *testing.T, address string) string {
	t.Helper()
	r, err := http.NewRequestWithContext(t.Context(), http.MethodGet, address, nil)
	if err != nil {
		t.Fatal(err)
	}
	answer, err := http.DefaultClient.Do(r)
	if err != nil {
		t.Fatal(err)
	}
	defer answer.Body.Close()
	body, err := io.ReadAll(answer.Body)
	if err != nil {
		t.Fatal(err)
	}
	return string(body)
}
