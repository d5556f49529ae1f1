package main

import (
	"net/http/httptest"
	"os"
	"path/filepath"
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/office"
	"wellshown/integration/browser"
	"wellshown/integration/ward"
)

// bedsideJob is what integration/browser/bedside-looks.mjs is told to do.
type bedsideJob struct {
	Chromium        string         `json:"chromium"`
	Base            string         `json:"base"`
	Now             time.Time      `json:"now"` // the office's, which stands still
	Cookie          browser.Cookie `json:"cookie"`
	Password        string         `json:"password"`
	LearnerPassword string         `json:"learnerPassword"`
	Sheets          []bedsideSheet `json:"sheets"`
	Looks           []string       `json:"looks"`
	Out             string         `json:"out,omitempty"` // folder for pictures instead
}

// bedsideSheet is a demonstration to mark: where it is begun, who signs, and its steps.
type bedsideSheet struct {
	See      string        `json:"see"`
	Learner  string        `json:"learner"`
	Observer string        `json:"observer"`
	Steps    []bedsideStep `json:"steps"`
}

// bedsideStep has a value for each measure, empty where another one is enough. Kind is
// what the first of its kind shows.
type bedsideStep struct {
	Number int      `json:"number"`
	Kind   string   `json:"kind,omitempty"`
	Values []string `json:"values,omitempty"`
}

// bedsideLooks are what every state of the page at the bedside is given.
var bedsideLooks = []string{"phone, light", "phone, dark", "desk, light", "tablet", "phone on its side", "reflow", "text at 200 %", "text spacing", "right to left", "keys, phone"}

// TestEveryStateOfTheBedsideForEverybody goes through the page at the bedside, from
// enrolling the device to what the office took and what it refused, without a network
// and with too little room, and holds each state to WCAG 2.2 as integration/browser
// names it.
func TestEveryStateOfTheBedsideForEverybody(t *testing.T) {
	tools := browser.Tools(t)
	job, _ := bedside(t)
	job.Chromium, job.Looks = tools.Chromium, bedsideLooks
	var came browser.Looked
	tools.Play(t, "bedside-looks.mjs", job, &came)
	t.Logf("%d states of the bedside were looked at in %d ways, in %d of them by axe-core", came.Counts.Pages, came.Counts.States, came.Counts.Axe)
	if came.Counts.Pages < 30 {
		t.Errorf("only %d states were reached", came.Counts.Pages)
	}
}

// TestPicturesOfTheBedside writes a picture of each state at three sizes, in light and in
// dark, into the folder that WELLSHOWN_PICTURES names: see make shots.
func TestPicturesOfTheBedside(t *testing.T) {
	out := os.Getenv("WELLSHOWN_PICTURES")
	if out == "" {
		t.Skip("WELLSHOWN_PICTURES names no folder")
	}
	tools := browser.Tools(t)
	job, _ := bedside(t)
	job.Chromium, job.Out = tools.Chromium, filepath.Join(out, "bedside")
	var came struct{ Pictures int }
	tools.Play(t, "bedside-looks.mjs", job, &came)
	t.Logf("%d pictures are in %s", came.Pictures, job.Out)
}

// bedside serves an agency with a nurse who is to show two skills: one that the office
// refuses, as what comes before it was not shown, and one that it takes.
func bedside(t *testing.T) (bedsideJob, *httptest.Server) {
	t.Helper()
	w := newWalk(t)
	server := httptest.NewUnstartedServer(nil)
	c := config{BaseURL: "http://" + server.Listener.Addr().String()}
	server.Config.Handler = dressed(c, routed(c, w.office))
	server.Start()
	t.Cleanup(server.Close)
	child, nurse, observer := w.own.Client("7K", "Mira"), w.own.Nurse("Nguyễn Thị Lan"), w.own.Educators[0]
	w.own.Join(nurse, child)
	w.own.Card(nurse)
	token, _ := w.signIn(observer)
	job := bedsideJob{Base: server.URL, Now: w.own.Now(), Cookie: browser.Cookie{Name: "wellshown", Value: token}, Password: ward.Password, LearnerPassword: ward.Password}
	for _, skill := range []string{"circuit-change", "humidifier"} {
		w.own.Require(skill, assessment.Nurse)
		job.Sheets = append(job.Sheets, bedsideSheet{See: "see-" + string(nurse.Person) + "-" + skill + "-" + string(child),
			Learner: nurse.Name, Observer: observer.Name, Steps: w.goodSteps(observer, nurse, skill, child)})
	}
	w.stationsToday(observer, nurse, child)
	return job, server
}

// stationsToday plans a skills day of today at which the observer has three stations: to the first
// come two, at the second nothing of theirs counts, and at the third nobody is to come.
func (w walk) stationsToday(observer, nurse assessment.Actor, child assessment.ClientID) {
	w.t.Helper()
	second, aide := w.own.Nurse("Olu Hart"), w.own.Aide("Ada Moe")
	w.own.Join(second, child)
	w.own.Join(aide, child)
	form := office.SkillsDayForm{On: w.own.Today().String(), Name: "Winter skills day", Place: "Skills room", Learners: []assessment.PersonID{nurse.Person, second.Person, aide.Person}}
	for i, skill := range []string{"humidifier", "circuit-change", "bagging"} {
		form.Stations = append(form.Stations, office.StationForm{No: i + 1, Skill: skill, Observer: observer.Person, Client: child})
	}
	got(w.own.Office.PlanSkillsDay(w.t.Context(), w.own.Coordinator, form))(w.t)
}

// goodSteps are all steps of a skill with values inside the child's ranges.
func (w walk) goodSteps(by, learner assessment.Actor, skill string, child assessment.ClientID) []bedsideStep {
	w.t.Helper()
	v := got(w.own.Office.Open(w.t.Context(), by, office.OpenForm{Learner: learner.Person, Skill: skill, Client: child, Place: "at home", Real: true}))(w.t)
	need(w.t, w.own.Office.Discard(w.t.Context(), by, v.ID))
	var steps []bedsideStep
	seen := map[string]bool{}
	for _, step := range v.Checklist.Steps() {
		s := bedsideStep{Number: step.No, Kind: shownBy(step)}
		if seen[s.Kind] {
			s.Kind = ""
		}
		seen[s.Kind] = true
		values := ward.Form(w.t, step, v.Parameters, assessment.Independent).Readings
		for _, m := range step.Measures {
			s.Values = append(s.Values, values[m.Name].Value)
		}
		steps = append(steps, s)
	}
	return steps
}

// shownBy says which of the kinds that pictures are taken of a step shows.
func shownBy(step assessment.Step) string {
	switch {
	case step.Kind == assessment.Timed:
		return "timed"
	case step.Kind == assessment.Measured:
		return "measured"
	case len(step.Measures) == 0 && step.Critical:
		return "critical"
	case len(step.Measures) == 0:
		return "plain"
	}
	return ""
}
