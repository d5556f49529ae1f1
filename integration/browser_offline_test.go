package integration

import (
	"encoding/json"
	"net/http"
	"net/http/httptest"
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/office"
	"wellshown/assessment/postgres"
	"wellshown/integration/ward"
	"wellshown/reports"
)

// offlineJob is what browser/offline.mjs is told to do.
type offlineJob struct {
	Chromium    string        `json:"chromium"`
	Base        string        `json:"base"`
	Control     string        `json:"control"` // POST /kill and /start, for the service
	Profile     string        `json:"profile"` // the browser's folder, which stays when it is killed
	Email       string        `json:"email"`
	Password    string        `json:"password"`
	Observer    string        `json:"observer"`
	Learner     string        `json:"learner"`
	Title       string        `json:"title"`       // of the skill
	InterruptAt int           `json:"interruptAt"` // step before which the browser is killed, with a clock running
	Steps       []browserStep `json:"steps"`
}

// TestACircuitChangeWithNetworkAndServerGone: the pack is loaded, the service killed
// and the network cut; a whole circuit change is marked, the browser killed with
// SIGKILL in the middle; when the service is there again the record arrives once, is
// scored as it was on the tablet, is signed by both, and the certificate is issued.
func TestACircuitChangeWithNetworkAndServerGone(t *testing.T) {
	tools := browserTools(t)
	w := ward.NewAt(t, time.Now().AddDate(0, -2, 0), ward.WithCertificate(reports.Certificate))
	mira, lan := w.Client("7K", "Mira"), w.Nurse("Nguyễn Thị Lan")
	w.Require("circuit-change", assessment.Nurse)
	w.Join(lan, mira)
	for _, first := range []string{"circuit-test", "bagging", "alarms-power", "humidifier"} {
		w.Award(lan, first, mira)
	}
	var d office.DemonstrationView
	for range 2 {
		d = w.Demonstrate(lan, "circuit-change", mira)
		w.Pass(24 * time.Hour)
	}
	if w.Now().After(time.Now()) {
		t.Fatalf("what came before took until %s", w.Now())
	}
	w.At(time.Now())
	steps := goodSteps(t, w, lan, mira)
	service := run(t, w)
	job := offlineJob{Chromium: tools.Chromium, Base: service.Base, Control: controlled(t, service), Profile: t.TempDir(), Email: w.Email(w.Educators[0]),
		Password: ward.Password, Observer: w.Educators[0].Name, Learner: lan.Name, Title: d.Title, InterruptAt: timedStep(t, steps), Steps: steps}
	var came struct {
		ID   assessment.DemonstrationID
		Text string
	}
	tools.Play(t, "offline.mjs", job, &came)
	w.At(time.Now())
	arrivedOnce(t, w, lan, mira, came.ID, came.Text)
}

// controlled lets a script kill the service and start it again.
func controlled(t *testing.T, service *running) string {
	t.Helper()
	mux := http.NewServeMux()
	mux.HandleFunc("POST /kill", func(http.ResponseWriter, *http.Request) { service.Kill() })
	mux.HandleFunc("POST /start", func(http.ResponseWriter, *http.Request) { service.Start() })
	server := httptest.NewServer(mux)
	t.Cleanup(server.Close)
	return server.URL
}

// timedStep is the first step from the tenth on whose one value is in seconds.
func timedStep(t *testing.T, steps []browserStep) int {
	t.Helper()
	for _, s := range steps {
		if s.Number >= 10 && len(s.Values) == 1 && s.Timed {
			return s.Number
		}
	}
	t.Fatal("the checklist has no timed step with one value")
	return 0
}

// arrivedOnce holds what the office has to what the tablet had made of it.
func arrivedOnce(t *testing.T, w *ward.Ward, learner assessment.Actor, child assessment.ClientID, id assessment.DemonstrationID, text string) {
	t.Helper()
	var sent struct {
		Marks   []struct{ Step int }
		Outcome struct {
			Outcome assessment.Outcome
			Score   string
		}
	}
	if err := json.Unmarshal([]byte(text), &sent); err != nil {
		t.Fatalf("read what the tablet signed: %v", err)
	}
	by := w.Educators[0]
	d, err := w.Office.ReadRecord(t.Context(), by, id)
	if err != nil {
		t.Fatal(err)
	}
	if d.Outcome != assessment.Competent || d.Outcome != sent.Outcome.Outcome || *d.Score != sent.Outcome.Score {
		t.Errorf("the office has %s with %v, the tablet had %s with %s", d.Outcome, *d.Score, sent.Outcome.Outcome, sent.Outcome.Score)
	}
	if len(d.Signatures) != 2 {
		t.Errorf("%d signatures stand on it", len(d.Signatures))
	}
	if len(sent.Marks) != len(d.Checklist.Steps()) {
		t.Errorf("%d marks of %d steps were sent", len(sent.Marks), len(d.Checklist.Steps()))
	}
	page, err := w.Office.Demonstrations(t.Context(), by, postgres.DemonstrationFilter{Learner: learner.Person, Skill: d.SkillID})
	if err != nil {
		t.Fatal(err)
	}
	if len(page.Items) != 3 { // the two of before, and this one
		t.Errorf("%d records of circuit changes are there, not 3", len(page.Items))
	}
	if standing := w.Standing(learner, "circuit-change", child, w.Today()); standing.Word != assessment.Current {
		t.Errorf("the learner is %s after it", standing.Word)
	}
}
