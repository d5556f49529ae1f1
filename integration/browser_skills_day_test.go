package integration

import (
	"encoding/json"
	"os"
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

// skillsDayTask is what browser/skills-day.mjs is told to do.
type skillsDayTask struct {
	Chromium   string        `json:"chromium"`
	Base       string        `json:"base"`
	JavaScript bool          `json:"javaScript"`
	Email      string        `json:"email"`
	Password   string        `json:"password"`
	Now        time.Time     `json:"now"`
	Day        string        `json:"day"`
	Place      string        `json:"place"`
	Learners   []string      `json:"learners"`
	Steps      []browserStep `json:"steps"` // of the skill at station 1
	Shots      string        `json:"shots,omitempty"`
}

// TestASkillsDayWithTheNetworkOff: an educator takes a skills day along, and without a
// network passes two learners one after the other at one station. Each arrives in a
// record of its own and makes nobody current before it is signed; the day has both as
// shown there. What cannot count is not offered as formal, and on the next day nothing
// begins there.
func TestASkillsDayWithTheNetworkOff(t *testing.T) {
	tools := browserTools(t)
	w, base := served(t, "127.0.0.1")
	mira, odo, lan, olu := w.Client("7K", "Mira"), w.Client("9X", "Odo"), w.Nurse("Nguyễn Thị Lan"), w.Nurse("Olu Hart")
	w.Join(lan, mira)
	for _, skill := range []string{"bagging", "circuit-change"} {
		w.Require(skill, assessment.Nurse)
	}
	w.Demonstrate(olu, "bagging", mira, ward.Simulated, ward.Practice) // begun, so that it is asked for
	own, other := w.Educators[0].Person, w.Educators[1].Person
	day, err := w.Office.PlanSkillsDay(t.Context(), w.Coordinator, office.SkillsDayForm{On: w.Today().String(), Name: "Winter skills day", Place: "Skills room",
		Learners: []assessment.PersonID{lan.Person, olu.Person}, Stations: []office.StationForm{{No: 1, Skill: "bagging", Observer: own, Client: mira},
			{No: 2, Skill: "go-bag", Observer: other, Client: mira}, {No: 3, Skill: "circuit-change", Observer: own, Client: mira}, {No: 4, Skill: "go-bag", Observer: own, Client: odo}}})
	if err != nil {
		t.Fatal(err)
	}
	if _, err := w.Office.ClientLeaves(t.Context(), w.Coordinator, odo, w.Today()); err != nil { // which closes station 4
		t.Fatal(err)
	}
	task := skillsDayTask{tools.Chromium, base, true, w.Email(w.Educators[0]), ward.Password, w.Now(), day.Name, day.Place, []string{lan.Name, olu.Name},
		stepsOf(t, w, "bagging", lan, mira), os.Getenv("WELLSHOWN_SHOTS")}
	var came struct {
		Sheets []struct{ ID, State, Learner, Text string }
	}
	tools.Play(t, "skills-day.mjs", task, &came)
	if len(came.Sheets) != 2 {
		t.Fatalf("kept %+v", came.Sheets)
	}
	whose := map[string]assessment.Actor{lan.Name: lan, olu.Name: olu}
	for _, sheet := range came.Sheets {
		ownRecord(t, w, assessment.DemonstrationID(sheet.ID), whose[sheet.Learner], sheet.Text)
		delete(whose, sheet.Learner)
	}
	floor, err := w.Office.SkillsDayStation(t.Context(), w.Educators[0], day.ID, 1)
	if err != nil {
		t.Fatal(err)
	}
	if len(whose) != 0 || len(floor.Done) != 2 || len(floor.ToCome) != 0 {
		t.Errorf("at station 1 %d have shown it and %d are to come; without a record: %v", len(floor.Done), len(floor.ToCome), whose)
	}
}

// ownRecord holds a record to the sheet that it came of: of this learner, at the day's
// place, competent, and of no weight yet.
func ownRecord(t *testing.T, w *ward.Ward, id assessment.DemonstrationID, who assessment.Actor, text string) {
	t.Helper()
	var sent struct {
		Learner, Skill, Place string
		Formal                bool
	}
	if err := json.Unmarshal([]byte(text), &sent); err != nil {
		t.Fatal(err)
	}
	d, err := w.Office.Demonstration(t.Context(), w.Educators[0], id)
	if err != nil {
		t.Fatal(err)
	}
	if d.LearnerID != who.Person || sent.Learner != string(who.Person) || d.Place != "Skills room" || sent.Place != d.Place || sent.Skill != "bagging" || !d.Formal || !sent.Formal || d.Outcome != assessment.Competent {
		t.Errorf("%s has %+v, sent as %+v", who.Name, d.Outcome, sent)
	}
	if s := w.Standing(who, "bagging", "", w.Today()); s.Word.Holds() {
		t.Errorf("%s is %s before anybody has signed", who.Name, s.Word)
	}
}
