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

// deskTask is what browser/slide.mjs is told to do.
type deskTask struct {
	Chromium   string   `json:"chromium"`
	Base       string   `json:"base"`
	JavaScript bool     `json:"javaScript"`
	Email      string   `json:"email"`
	Password   string   `json:"password"`
	Who        string   `json:"who"`
	Skill      string   `json:"skill"`
	Keys       []string `json:"keys"` // each moves the slider; the grid is read after each
	Visit      string   `json:"visit"`
	To         string   `json:"to"` // the educator whose day the visit is dragged to
	On         string   `json:"on"` // ISO
	Shots      string   `json:"shots,omitempty"`
}

// TestTheDayIsSlidAndAVisitDragged: the grid that a slid day shows is that of the office on that
// day, forward and back, by the keyboard; and a visit that is dragged on the board moves only
// after it was read what that breaks.
func TestTheDayIsSlidAndAVisitDragged(t *testing.T) {
	tools := browserTools(t)
	w, base := served(t, "127.0.0.1")
	mira, nan := w.Client("7K", "Mira"), w.Nurse("Nan Orme")
	w.Require("alarms-power", assessment.Nurse)
	w.Join(nan, mira)
	w.Award(nan, "alarms-power", mira)
	last := w.Standing(nan, "alarms-power", mira, civil.Date{}).Through
	w.Day(last.AddDays(-20).String())
	from := w.Today().AddDays(1)
	for from.Weekday() != time.Tuesday {
		from = from.AddDays(1)
	}
	to := from.AddDays(2)
	plan, err := w.Office.PlanVisit(t.Context(), w.Coordinator, office.VisitForm{Client: mira, Educator: w.Educators[0].Person, On: from.String()})
	if err != nil {
		t.Fatal(err)
	}
	task := deskTask{tools.Chromium, base, true, w.Email(w.Coordinator), ward.Password, nan.Name, "Ventilator alarms", []string{"ArrowRight", "PageUp", "End", "Home", "ArrowRight"}, string(plan.Visit.ID), string(w.Educators[1].Person), to.String(), os.Getenv("WELLSHOWN_SHOTS")}
	var came struct {
		Days   []struct{ On, Word string }
		Before string // the day of the visit while it is only asked what moving it breaks
	}
	tools.Play(t, "slide.mjs", task, &came)
	words := map[string]bool{}
	for _, d := range came.Days {
		words[d.Word] = true
		if want := w.Standing(nan, "alarms-power", mira, civil.MustParse(d.On)).Word; d.Word != string(want) {
			t.Errorf("on %s the grid shows %s, and the fold says %s", d.On, d.Word, want)
		}
	}
	if len(came.Days) != len(task.Keys)+1 || len(words) < 3 {
		t.Errorf("slid over %+v", came.Days)
	}
	moved, err := w.Office.VisitDesk(t.Context(), w.Coordinator, plan.Visit.ID, office.VisitMove{})
	if err != nil {
		t.Fatal(err)
	}
	if came.Before != from.String() || moved.Visit.On != to || moved.Visit.Educator.ID != w.Educators[1].Person {
		t.Errorf("before it was confirmed it was on %s; then %s by %s", came.Before, moved.Visit.On, moved.Visit.Educator.Name)
	}
}
