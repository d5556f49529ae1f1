package integration

import (
	"maps"
	"net"
	"os"
	"slices"
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/integration/ward"
)

// bedsideSteps are some steps of a circuit change and what they are given; 18 is
// timed, and its clock is run besides.
func bedsideSteps(all []browserStep) []browserStep {
	marks := map[int]string{1: "Independent", 2: "Cued", 3: "Assisted", 5: "Not met", 20: "Independent", 7: "Unsafe"}
	var some []browserStep
	for _, s := range all {
		if m, wanted := marks[s.Number]; wanted {
			s.Mark = m
			some = append(some, s)
		}
	}
	return some
}

// bedsideTask is what the scripts of the bedside are told to do.
type bedsideTask struct {
	Chromium   string        `json:"chromium"`
	Base       string        `json:"base"`
	JavaScript bool          `json:"javaScript"`
	Email      string        `json:"email"`
	Password   string        `json:"password"`
	Now        time.Time     `json:"now"`
	Learner    string        `json:"learner"`
	Observe    string        `json:"observe"` // the name of the link that begins the circuit change
	Steps      []browserStep `json:"steps"`
	Timed      bedsideTimed  `json:"timed"`
	Shots      string        `json:"shots,omitempty"` // folder for pictures of each state
}

type bedsideTimed struct {
	Number int    `json:"number"`
	Name   string `json:"name"`
}

// bedsideSheet is what the page says it keeps of a sheet.
type bedsideSheet struct {
	ID, State, Refusal string
	Stopped            bool
	Marks              map[string]string
}

// bedsideWard is a ward with a nurse who may show a circuit change on Mira, and the
// task to see her.
func bedsideWard(t *testing.T) (*ward.Ward, bedsideTask) {
	t.Helper()
	w, task, _ := bedsideWardAt(t, "127.0.0.1")
	return w, task
}

// bedsideWardAt is one that is served under a name of this machine, with the nurse.
func bedsideWardAt(t testing.TB, name string, wrap ...func(net.Listener) net.Listener) (*ward.Ward, bedsideTask, assessment.Actor) {
	t.Helper()
	tools := browserTools(t)
	w, base := served(t, name, wrap...)
	mira, lan := w.Client("7K", "Mira"), w.Nurse("Nguyễn Thị Lan")
	w.Join(lan, mira)
	w.Join(w.Aide("Ada Moe"), mira) // of whom nothing is asked
	w.Require("circuit-change", assessment.Nurse)
	for _, first := range []string{"circuit-test", "bagging", "alarms-power", "humidifier"} {
		w.Award(lan, first, mira)
	}
	steps := bedsideSteps(goodSteps(t, w, lan, mira))
	return w, bedsideTask{tools.Chromium, base, true, w.Email(w.Educators[0]), ward.Password, w.Now(), lan.Name,
		"Observe Single-limb heated-humidified ventilator circuit change, " + lan.Name + ", for Mira, 7K", steps, bedsideTimed{18, "time to alarm"}, os.Getenv("WELLSHOWN_SHOTS")}, lan
}

// TestTheBedsideWithTheNetworkOff: an educator signs in on a phone, enrols it, loads
// the day's pack, loses the network, marks several steps in any order, reloads twice,
// finds every mark, and signs out, which puts the pack away and no sheet. Each state is
// held to WCAG 2.2 AA as far as a program can tell: 1.3.4 Orientation, 1.4.3 Contrast
// (Minimum), 1.4.4 Resize Text, 1.4.10 Reflow, 1.4.12 Text Spacing, 2.1.1 Keyboard,
// 2.4.3 Focus Order, 2.4.7 Focus Visible, 2.4.11 Focus Not Obscured (Minimum), 2.5.8
// Target Size (Minimum), and what else axe-core knows.
func TestTheBedsideWithTheNetworkOff(t *testing.T) {
	_, task := bedsideWard(t)
	var came struct{ Sheets []bedsideSheet }
	browserTools(t).Play(t, "bedside-offline.mjs", task, &came)
	if len(came.Sheets) != 1 || came.Sheets[0].State != "open" {
		t.Fatalf("kept %+v", came.Sheets)
	}
	if got := len(came.Sheets[0].Marks); got != len(task.Steps)+1 { // and the value at the timed step
		t.Errorf("%d steps have something: %v", got, slices.Sorted(maps.Keys(came.Sheets[0].Marks)))
	}
}

// TestEveryStateOfTheBedside: the name check, each dialog, no room, two tabs, the stop,
// the end, the outbox; each is held to what TestTheBedsideWithTheNetworkOff lists. The
// sheet that was stopped arrives as such.
func TestEveryStateOfTheBedside(t *testing.T) {
	w, task := bedsideWard(t)
	var came struct{ Sheets []bedsideSheet }
	browserTools(t).Play(t, "bedside-states.mjs", task, &came)
	if len(came.Sheets) != 1 || came.Sheets[0].State != "sent" {
		t.Fatalf("kept %+v", came.Sheets)
	}
	record, err := w.Office.Demonstration(t.Context(), w.Educators[0], assessment.DemonstrationID(came.Sheets[0].ID))
	if err != nil {
		t.Fatal(err)
	}
	if record.Outcome != assessment.StoppedForSafety || record.StopReason != "Equipment failed" || len(record.TakenBack) != 1 {
		t.Errorf("the record is %s because of %q, with %d taken back", record.Outcome, record.StopReason, len(record.TakenBack))
	}
}

// TestADeviceThatIsFull: with the browser's room used up, a mark that cannot be kept is
// not shown as chosen, the screen says so and what to do, nothing kept is lost, also not
// by loading the page anew, and with room again the mark is given (W3C Storage, section
// 4.5; W3C Indexed Database API 3.0, section 5.4: QuotaExceededError).
func TestADeviceThatIsFull(t *testing.T) {
	_, task := bedsideWard(t)
	var came struct {
		Sheets []bedsideSheet
		Shown  map[string]string
	}
	browserTools(t).Play(t, "bedside-full.mjs", task, &came)
	if len(came.Sheets) != 1 || !maps.Equal(came.Sheets[0].Marks, came.Shown) || came.Shown["8"] != "cued" {
		t.Errorf("kept %+v, shown as kept %v", came.Sheets, came.Shown)
	}
}
