package integration

import (
	"os"
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

// morningTask is what browser/morning.mjs is told to do.
type morningTask struct {
	Chromium   string    `json:"chromium"`
	Base       string    `json:"base"`
	JavaScript bool      `json:"javaScript"`
	Email      string    `json:"email"`
	Password   string    `json:"password"`
	Now        time.Time `json:"now"`
	Breaks     string    `json:"breaks"` // whose shift breaks
	Covers     string    `json:"covers"` // who could take it
	Child      string    `json:"child"`
	Weekday    string    `json:"weekday"`
	Shots      string    `json:"shots,omitempty"`
}

// TestACoordinatorsMorningByKeyboard: from "a shift breaks on Thursday" to a covered shift
// and a planned visit at which what lapses is shown again, by the keyboard alone (WCAG 2.2,
// 2.1.1). Afterwards the office says so too, and nobody is current by it who was not.
func TestACoordinatorsMorningByKeyboard(t *testing.T) {
	tools := browserTools(t)
	for name, javaScript := range map[string]bool{"with JavaScript": true, "without": false} {
		t.Run(name, func(t *testing.T) {
			w, base := served(t, "127.0.0.1")
			const skill = "alarms-power"
			mira, nan, ola := w.Client("7K", "Mira"), w.Nurse("Nan Orme"), w.Nurse("Ola Reed")
			w.Require(skill, assessment.Nurse)
			w.Join(nan, mira)
			w.Join(ola, mira)
			w.Award(nan, skill, mira)
			w.Pass(40 * 24 * time.Hour)
			w.Award(ola, skill, mira)
			last := w.Standing(nan, skill, mira, civil.Date{}).Through
			thursday := last.AddDays(1)
			for thursday.Weekday() != time.Thursday {
				thursday = thursday.AddDays(1)
			}
			today := last.AddDays(-4) // two of the days through the last one are workdays
			w.Day(today.String())
			week := office.PatternForm{Client: mira, Person: nan.Person, Weekdays: []int{4}, From: "07:00", Until: "15:00", FromOn: thursday.String(), ThroughOn: thursday.String()}
			if _, err := w.Office.AddPattern(t.Context(), w.Coordinator, week); err != nil {
				t.Fatal(err)
			}
			task := morningTask{tools.Chromium, base, javaScript, w.Email(w.Coordinator), ward.Password, w.Now(), nan.Name, ola.Name, "Mira, 7K", thursday.Format("Mon 2 Jan"), os.Getenv("WELLSHOWN_SHOTS")}
			var came struct{ Presses int }
			tools.Play(t, "morning.mjs", task, &came)
			t.Logf("%d presses of a key", came.Presses)
			mended(t, w, skill, nan, ola, last)
		})
	}
}

// mended holds what the office says to what the coordinator did.
func mended(t *testing.T, w *ward.Ward, skill string, nan, ola assessment.Actor, last civil.Date) {
	t.Helper()
	cover, err := w.Office.Coverage(t.Context(), w.Coordinator, office.CoverageQuery{})
	if err != nil {
		t.Fatal(err)
	}
	if c := cover.Counts; c.Shifts != 1 || c.Covered != 1 || cover.Lines[0].Person.ID != ola.Person {
		t.Errorf("the shift: %+v, %+v", c, cover.Lines)
	}
	plan, err := w.Office.Visits(t.Context(), w.Coordinator, office.VisitQuery{})
	if err != nil {
		t.Fatal(err)
	}
	seen := 0
	for _, k := range plan.Kept {
		for _, s := range k.Sees {
			if s.Person.ID == nan.Person && s.Skill.Code == skill && !k.On.After(last) && len(k.Faults) == 0 {
				seen++
			}
		}
	}
	if seen != 1 {
		t.Errorf("what lapses is shown again at %d visits: %+v", seen, plan.Kept)
	}
	if w.Standing(nan, skill, cover.Lines[0].Client.ID, last.AddDays(1)).Word.Holds() {
		t.Error("a planned visit made somebody current")
	}
}
