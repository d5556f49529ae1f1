package integration

import (
	"fmt"
	"os"
	"strconv"
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/office"
	"wellshown/assessment/postgres"
	"wellshown/integration/ward"
)

// usualSheets is how many sheets are filled in where nobody says: WELLSHOWN_SHEETS=100
// makes it a hundred, with five hundred interruptions.
const usualSheets = 16

// interruptionsEach is how many interruptions there are for each sheet.
const interruptionsEach = 5

func sheetsToInterrupt(t *testing.T) int {
	t.Helper()
	text := os.Getenv("WELLSHOWN_SHEETS")
	if text == "" {
		return usualSheets
	}
	n, err := strconv.Atoi(text)
	if err != nil || n < 1 {
		t.Fatalf("WELLSHOWN_SHEETS is %q: give how many", text)
	}
	return n
}

// shortList is a checklist of four steps, so that a hundred sheets are soon marked.
const shortList = `code: tidy-bag
title: Tidy the bag
scope: general
purpose: To find each thing in the dark.
safety: [The child's orders come first.]
policy:
  pass_mark: 95/100
  cue_limit: null
  award: {count: 1, days: 1, observers: 1, real: 0, span_days: 180, consecutive: false}
  validity: {months: 12, anchor: anniversary, renewal_days: 60, notice_days: 30, lapse_months: 24, absence_days: 0}
sections:
  - title: The bag
    steps:
      - {no: 1, text: Take all out, kind: done}
      - {no: 2, text: Name each thing, kind: said aloud}
      - {no: 3, text: Put all back, kind: done}
      - {no: 4, text: Close the bag, kind: done}
sources: ["Invented for a test."]
`

type interruptionsJob struct {
	Chromium      string   `json:"chromium"`
	Base          string   `json:"base"`
	Control       string   `json:"control"`
	Profile       string   `json:"profile"`
	Email         string   `json:"email"`
	Password      string   `json:"password"`
	Title         string   `json:"title"`
	Learners      []string `json:"learners"`
	Steps         int      `json:"steps"`
	Sheets        int      `json:"sheets"`
	Interruptions int      `json:"interruptions"`
	Seed          uint32   `json:"seed"`
}

// TestInterruptions: whatever is killed, cut, sent twice or opened twice, every mark
// that was shown as kept is in its record, and no sheet is there twice.
func TestInterruptions(t *testing.T) {
	tools := browserTools(t)
	w := ward.NewAt(t, time.Now().Add(-24*time.Hour))
	short, sheets := shortSkill(t, w), sheetsToInterrupt(t)
	child := w.Client("7K", "Mira")
	var names []string
	for i := range 10 {
		names = append(names, fmt.Sprintf("Learner %c Marsh", 'A'+i))
		w.Join(w.Nurse(names[i]), child)
	}
	w.At(time.Now())
	service := run(t, w)
	var came struct {
		Acknowledged map[assessment.DemonstrationID]map[int]assessment.Mark
		Counts       map[string]int
	}
	tools.Play(t, "interruptions.mjs", interruptionsJob{Chromium: tools.Chromium, Base: service.Base, Control: controlled(t, service), Profile: t.TempDir(),
		Email: w.Email(w.Educators[0]), Password: ward.Password, Title: "Tidy the bag", Learners: names, Steps: 4,
		Sheets: sheets, Interruptions: sheets * interruptionsEach, Seed: 20261130}, &came)
	w.At(time.Now())
	t.Logf("%v", came.Counts)
	if len(came.Acknowledged) != sheets || came.Counts["sheets"] != sheets {
		t.Errorf("%d sheets were marked, %d with a mark that was shown as kept", came.Counts["sheets"], len(came.Acknowledged))
	}
	everyMarkArrived(t, w, short, sheets, came.Acknowledged)
}

// shortSkill puts the short checklist in force.
func shortSkill(t *testing.T, w *ward.Ward) assessment.SkillID {
	t.Helper()
	by := w.Educators[0]
	draft, err := w.Office.AddChecklist(t.Context(), by, "tidy-bag.yaml", shortList)
	if err != nil {
		t.Fatal(err)
	}
	w.PutInForce(office.PutInForceForm{Revision: draft.ID, Version: draft.Version, Statement: "Read."})
	w.Appoint(by, w.Educators[1], "tidy-bag")
	w.Require("tidy-bag", "")
	return draft.Skill
}

// everyMarkArrived holds the records to what the tablet had shown as kept.
func everyMarkArrived(t *testing.T, w *ward.Ward, skill assessment.SkillID, sheets int, acknowledged map[assessment.DemonstrationID]map[int]assessment.Mark) {
	t.Helper()
	by := w.Educators[0]
	page, err := w.Office.Demonstrations(t.Context(), by, postgres.DemonstrationFilter{Skill: skill, Limit: 2 * sheets})
	if err != nil {
		t.Fatal(err)
	}
	if len(page.Items) != sheets {
		t.Errorf("%d records came of %d sheets", len(page.Items), sheets)
	}
	marks := 0
	for _, d := range page.Items {
		v, err := w.Office.ReadRecord(t.Context(), by, d.ID)
		if err != nil {
			t.Fatal(err)
		}
		for step, mark := range acknowledged[d.ID] {
			if marks++; v.Entries[step].Mark != mark {
				t.Errorf("step %d of %s was shown as %s and is recorded as %q", step, d.ID, mark, v.Entries[step].Mark)
			}
		}
	}
	t.Logf("%d marks that were shown as kept are in %d records", marks, len(page.Items))
}
