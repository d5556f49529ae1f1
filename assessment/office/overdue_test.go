package office_test

import (
	"fmt"
	"slices"
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

func overdue(t *testing.T, w *ward.Ward, q office.OverdueQuery) map[string]assessment.StandingWord {
	t.Helper()
	found := map[string]assessment.StandingWord{}
	for _, l := range must(w.Office.Overdue(t.Context(), w.Coordinator, q))(t).Lines {
		found[l.Person.Name+" "+l.Skill.Code+" "+l.Client.Code] = l.Word
	}
	return found
}

func sameLines(t *testing.T, what string, got, want map[string]assessment.StandingWord) {
	t.Helper()
	if fmt.Sprint(got) != fmt.Sprint(want) { // maps print in order
		t.Errorf("%s: got %v, want %v", what, got, want)
	}
}

type lines = map[string]assessment.StandingWord

// Whoever must hold something and does not is in the report, whether or not they
// ever began; from the day it is asked of them, through the last.
func TestOverdueMissesNobody(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier", "bagging")
	tam := w.Client("8K", "Tam")
	ola, pia, aid := w.Nurse("Ola Reed"), w.Nurse("Pia Lund"), w.Aide("Ari Holm")
	w.Join(nan, mira)
	w.Join(aid, mira)
	join := func(who assessment.Actor, child assessment.ClientID, from, through string) {
		must(w.Office.AddToTeam(t.Context(), w.Coordinator, child, office.TeamForm{Person: who.Person, From: from, Through: through}))(t)
	}
	join(ola, tam, "2026-02-10", "2026-02-20") // joins later, for some days
	join(pia, tam, "2026-01-01", "2026-01-31") // was there
	require := func(skill, kind, from, through string) {
		must(w.Office.SetRequirement(t.Context(), w.Coordinator, office.RequirementForm{Skill: skill, Kind: kind, From: from, Through: through}))(t)
	}
	require("humidifier", "nurse", "2026-02-01", "2026-02-12")
	require("bagging", "", "2026-02-05", "")
	on := func(day string) lines {
		return overdue(t, w, office.OverdueQuery{On: civil.MustParse(day), Within: 30})
	}
	const none = assessment.NotStarted
	sameLines(t, "before", on("2026-01-31"), lines{})
	sameLines(t, "the first day", on("2026-02-01"), lines{"Nan Orme humidifier 7K": none})
	sameLines(t, "two requirements", on("2026-02-05"), lines{"Nan Orme humidifier 7K": none, "Nan Orme bagging ": none, "Ari Holm bagging ": none})
	sameLines(t, "one more on a team", on("2026-02-12"), lines{"Nan Orme humidifier 7K": none, "Nan Orme bagging ": none, "Ari Holm bagging ": none, "Ola Reed humidifier 8K": none, "Ola Reed bagging ": none})
	sameLines(t, "the requirement has ended", on("2026-02-13"), lines{"Nan Orme bagging ": none, "Ari Holm bagging ": none, "Ola Reed bagging ": none})
	sameLines(t, "the team has too", on("2026-02-21"), lines{"Nan Orme bagging ": none, "Ari Holm bagging ": none})

	w.Demonstrate(nan, "humidifier", tam) // for another child than the one asked for
	sameLines(t, "shown for another child", on("2026-02-01"), lines{"Nan Orme humidifier 7K": none})
	w.Demonstrate(nan, "humidifier", mira)
	sameLines(t, "shown", on("2026-02-01"), lines{})
	w.Demonstrate(nan, "humidifier", mira, ward.Marked(1, assessment.Unsafe))
	sameLines(t, "failed since", on("2026-02-01"), lines{"Nan Orme humidifier 7K": assessment.Withdrawn})
	sameLines(t, "one child's", overdue(t, w, office.OverdueQuery{On: civil.MustParse("2026-02-12"), Client: tam}), lines{"Ola Reed humidifier 8K": none, "Ola Reed bagging ": none})
	sameLines(t, "aides", overdue(t, w, office.OverdueQuery{On: civil.MustParse("2026-02-12"), Kind: assessment.Aide}), lines{"Ari Holm bagging ": none})
	wantNone(t, w.Office.PersonLeaves(t.Context(), w.Coordinator, aid.Person, civil.MustParse("2026-02-07")))
	must(w.Office.ClientLeaves(t.Context(), w.Coordinator, tam, civil.MustParse("2026-02-14")))(t)
	sameLines(t, "the day before leaving", on("2026-02-06"), lines{"Nan Orme humidifier 7K": assessment.Withdrawn, "Nan Orme bagging ": none, "Ari Holm bagging ": none})
	sameLines(t, "left", on("2026-02-14"), lines{"Nan Orme bagging ": none})
}

// What ends within 7, 30 and 60 days, to the day.
func TestComingDueIsCountedToTheDay(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier")
	w.Join(nan, mira)
	w.Require("humidifier", assessment.Nurse)
	w.Demonstrate(nan, "humidifier", mira) // through 2027-02-01
	for _, c := range []struct {
		on                      string
		week, month, two, in90  int
		held, lapsed, daysToEnd int
	}{
		{"2026-11-02", 0, 0, 0, 0, 1, 0, 0},
		{"2026-11-03", 0, 0, 0, 1, 1, 0, 90},
		{"2026-12-02", 0, 0, 0, 1, 1, 0, 61},
		{"2026-12-03", 0, 0, 1, 1, 1, 0, 60},
		{"2027-01-02", 0, 1, 1, 1, 1, 0, 30},
		{"2027-01-25", 1, 1, 1, 1, 1, 0, 7},
		{"2027-02-01", 1, 1, 1, 1, 1, 0, 0},
		{"2027-02-02", 0, 0, 0, 0, 0, 1, -1},
	} {
		v := must(w.Office.Overdue(t.Context(), w.Coordinator, office.OverdueQuery{On: civil.MustParse(c.on)}))(t)
		n := v.Counts
		if n.Week != c.week || n.Month != c.month || n.TwoMonths != c.two || n.All != c.in90 || n.Current != c.held || n.Lapsed != c.lapsed || n.Caregivers != 1 {
			t.Errorf("on %s: %+v", c.on, n)
		}
		if len(v.Lines) != c.in90+c.lapsed || len(v.Lines) == 1 && v.Lines[0].DaysLeft != c.daysToEnd {
			t.Errorf("on %s: %+v", c.on, v.Lines)
		}
	}
}

// Nothing bad hides behind something good: a cell of several children tells the
// worst of what is required, the earliest end of what is alike, and a withdrawal
// wherever it stands.
func TestTheGridHidesNothing(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier")
	tam, uma := w.Client("8K", "Tam"), w.Client("9K", "Uma")
	cell := func() office.GridCell {
		t.Helper()
		g := must(w.Office.Grid(t.Context(), w.Coordinator, office.GridQuery{Skill: "humidifier"}))(t)
		i := slices.IndexFunc(g.Rows, func(r office.GridRow) bool { return r.Person.ID == nan.Person })
		return g.Rows[i].Cells[0]
	}
	expect := func(what string, want assessment.StandingWord, client string, required bool) {
		t.Helper()
		for range 8 { // maps are read in any order
			if c := cell(); c.Word != want || c.Client.Code != client || c.Required != required {
				t.Fatalf("%s: %s with %s (required %v), want %s with %s (%v)", what, c.Word, c.Client.Code, c.Required, want, client, required)
			}
		}
	}
	if c := cell(); c.Known || c.Required {
		t.Errorf("nothing is known: %+v", c)
	}
	w.Demonstrate(nan, "humidifier", uma, ward.Practice)
	expect("begun, not required", assessment.Learning, "9K", false)
	w.Demonstrate(nan, "humidifier", tam)
	expect("held with one, not required", assessment.Current, "8K", false)
	w.Pass(24 * time.Hour)
	w.Demonstrate(nan, "humidifier", mira)
	for _, child := range []assessment.ClientID{mira, tam} {
		w.Join(nan, child)
	}
	w.Require("humidifier", assessment.Nurse)
	expect("both current: the one that ends first", assessment.Current, "8K", true)
	w.Join(nan, uma)
	expect("one is only being learned", assessment.Learning, "9K", true)
	wantNone(t, w.Office.Waive(t.Context(), w.Educators[0], about(nan, "humidifier", uma), "2026-02-01", "2027-12-31"))
	expect("that one is waived", assessment.Waived, "9K", true)
	other := w.Client("6K", "Odo")
	wantNone(t, w.Office.Withdraw(t.Context(), w.Educators[0], about(nan, "humidifier", other), assessment.Reinstated, false))
	expect("withdrawn with a child they do not look after", assessment.Withdrawn, "6K", false)
	only := must(w.Office.Grid(t.Context(), w.Coordinator, office.GridQuery{Skill: "humidifier", Client: mira}))(t)
	if c := only.Rows[0].Cells[0]; len(only.Rows) != 1 || c.Word != assessment.Current || c.Client.Code != "7K" {
		t.Errorf("one child's grid: %+v", only.Rows)
	}
}

// A skill that is still required is shown though nothing of it is in force.
func TestTheGridShowsWhatIsRequiredThoughRetired(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t)
	w.Join(nan, mira)
	w.Require("humidifier", assessment.Nurse)
	wantNone(t, w.Office.Retire(t.Context(), w.Educators[0], inForce(t, w, "humidifier"), ward.Proof))
	g := must(w.Office.Grid(t.Context(), w.Coordinator, office.GridQuery{}))(t)
	i := slices.IndexFunc(g.Skills, func(s office.SkillRef) bool { return s.Code == "humidifier" })
	if i < 0 || g.Rows[0].Cells[i].Word != assessment.NotStarted || !g.Rows[0].Cells[i].Required {
		t.Errorf("skills: %+v", g.Skills)
	}
	if slices.ContainsFunc(g.Offered, func(s office.SkillRef) bool { return s.Code == "humidifier" }) {
		t.Error("it is offered though nothing of it is in force")
	}
}

func TestTranscriptIsTheFoldAndTheRecords(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier")
	w.Demonstrate(nan, "humidifier", mira)
	w.Demonstrate(nan, "humidifier", mira, ward.Stopped)
	v := must(w.Office.Transcript(t.Context(), nan, nan.Person, civil.Date{}))(t)
	if len(v.Records) != 2 || v.Records[0].Outcome != assessment.StoppedForSafety || len(v.Certificates) != 1 || len(v.Standings.Rows) != 1 || v.Standings.Rows[0].Word != assessment.Withdrawn {
		t.Errorf("%d records, %d certificates, %+v", len(v.Records), len(v.Certificates), v.Standings.Rows)
	}
	_, err := w.Office.Transcript(t.Context(), w.Nurse("Ola Reed"), nan.Person, civil.Date{})
	wantRefusal(t, err, fault.NotFound, "")
}

// fortyNurses is a ward of forty nurses who look after four children; each has
// one of eight required skills and has begun another.
func fortyNurses(b *testing.B) *ward.Ward {
	w := ward.New(b)
	var children []assessment.ClientID
	for i := range 4 {
		children = append(children, w.Client(fmt.Sprintf("%dK", i), "Tam"))
	}
	for _, skill := range []string{"bagging", "suction", "humidifier", "go-bag", "circuit-test", "circuit-change", "tube-change", "stoma-ties"} {
		w.Require(skill, "")
	}
	for i := range 40 {
		nurse := w.Nurse(fmt.Sprintf("Nurse %d", i))
		w.Join(nurse, children[i%4])
		w.Award(nurse, "humidifier", children[i%4])
		w.Demonstrate(nurse, "go-bag", children[i%4])
		w.Day("2026-02-01")
	}
	return w
}

func BenchmarkOverdue(b *testing.B) {
	w := fortyNurses(b)
	for b.Loop() {
		if _, err := w.Office.Overdue(b.Context(), w.Coordinator, office.OverdueQuery{}); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkGrid(b *testing.B) {
	w := fortyNurses(b)
	for b.Loop() {
		if _, err := w.Office.Grid(b.Context(), w.Coordinator, office.GridQuery{}); err != nil {
			b.Fatal(err)
		}
	}
}
