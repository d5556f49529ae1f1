package office_test

import (
	"context"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/jackc/pgx/v5"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

// drillOf begins a formal drill with a scenario; the empty one is drawn.
func drillOf(t *testing.T, w *ward.Ward, who assessment.Actor, child assessment.ClientID, skill, scenario string) office.DrillView {
	t.Helper()
	return must(w.Office.BeginDrill(t.Context(), w.Educators[0], office.DrillForm{Learner: who.Person, Skill: skill, Client: child, Place: "skills room", Formal: true, Scenario: scenario}))(t)
}

// finish marks every step of a sheet and records it, signed by both.
func finish(t *testing.T, w *ward.Ward, who assessment.Actor, id assessment.DemonstrationID, marks map[int]assessment.Mark) office.DemonstrationView {
	t.Helper()
	edda := w.Educators[0]
	s := must(w.Office.Sheet(t.Context(), edda, id))(t)
	var forms []office.MarkForm
	for _, step := range s.Checklist.Steps() {
		m := assessment.Independent
		if other, ok := marks[step.No]; ok {
			m = other
		}
		forms = append(forms, ward.Form(t, step, s.Parameters, m))
	}
	must(w.Office.MarkAll(t.Context(), edda, id, forms))(t)
	r := must(w.Office.Record(t.Context(), edda, id))(t)
	w.Sign(edda, r.ID, office.PartObserver)
	return w.Sign(who, r.ID, office.PartLearner)
}

// drillWard is a ward in which one demonstration of the drilled skills is enough, and a
// nurse who may show them.
func drillWard(t *testing.T) (*ward.Ward, assessment.ClientID, assessment.Actor) {
	t.Helper()
	w, mira, nan := quick(t, "bagging", "suction", "decannulation", "alarms-power")
	w.Join(nan, mira)
	w.Award(nan, "bagging", mira)
	w.Award(nan, "suction", mira)
	return w, mira, nan
}

// A drill is an ordinary demonstration: it is marked, judged and signed as any other, and
// its record says for ever which scenario was read out and when its moments came
// (common practice, no source). Whoever calls before they act has done nothing wrong by that.
func TestADrillIsAnOrdinaryDemonstration(t *testing.T) {
	t.Parallel()
	w, mira, nan := drillWard(t)
	edda := w.Educators[0]
	d := drillOf(t, w, nan, mira, "decannulation", "decannulation-02")
	if d.RealClient || !d.Drill || d.Timed || d.Drawn || d.Scenario.ID != "decannulation-02" || d.Scenario.Version != 1 || !d.Scenario.Starter {
		t.Fatalf("%+v", d)
	}
	_, err := w.Office.Record(t.Context(), edda, d.ID)
	wantRefusal(t, err, fault.Refused, "still open")
	back := []assessment.DrillTap{{Moment: assessment.DrillActed, Seconds: 2}}
	times := office.DrillTimesForm{Recognised: "4", Acted: "31", Called: "9", TakenBack: back}
	d = must(w.Office.TimeDrill(t.Context(), edda, d.ID, times))(t)
	if again := must(w.Office.TimeDrill(t.Context(), edda, d.ID, times))(t); !slices.Equal(again.TakenBack, back) || again.Times != (assessment.DrillTimes{Recognised: 4, Acted: 31, Called: 9}) {
		t.Errorf("the same sent twice: %+v", again)
	}
	times.Acted, times.TakenBack = "", nil
	if d = must(w.Office.TimeDrill(t.Context(), edda, d.ID, times))(t); len(d.TakenBack) != 2 || d.TakenBack[1].Seconds != 31 || d.Times.Acted != assessment.NotInDrill {
		t.Errorf("what stood is not kept: %+v", d)
	}
	d = tappedLater(t, w, d)
	r := finish(t, w, nan, d.ID, nil)
	if r.Outcome != assessment.Competent || r.Drill == nil || r.Drill.Times != d.Times || len(r.Drill.TakenBack) != 5 || r.Drill.Scenario.In("es").Title == "" {
		t.Fatalf("%s, %+v", r.Outcome, r.Drill)
	}
	if !strings.Contains(r.Body, `"recognised_s":4,"acted_s":null,"called_s":9`) {
		t.Errorf("the signed text has no moments: %s", r.Body)
	}
	if !word(t, w, nan, "decannulation", mira).Holds() {
		t.Error("a drill that was passed does not count")
	}
	ordinary := w.Demonstrate(nan, "suction", mira)
	if strings.Contains(ordinary.Body, "drill") {
		t.Errorf("a record of no drill says otherwise than before: %s", ordinary.Body)
	}
	desk := must(w.Office.Drills(t.Context(), w.Coordinator))(t)
	if len(desk.Last) != 1 || desk.Last[0].ID != r.ID || desk.Last[0].Times != d.Times {
		t.Errorf("last drills: %+v", desk.Last)
	}
	if back := desk.Last[0].TakenBack; !slices.Equal(back, r.Drill.TakenBack) {
		t.Errorf("the last drill says %+v", back)
	}
	indexIsRight(t, w)
	if found := must(w.Office.Verify(t.Context()))(t); found.Found != 0 || found.Drills != 1 {
		t.Errorf("verify: %d drills, %+v", found.Drills, found.Findings)
	}
	changedDrillsAreFound(t, w, r.ID)
	wantNone(t, w.Office.PersonLeaves(t.Context(), w.Admin, nan.Person, w.Today()))
	if left := must(w.Office.Drills(t.Context(), w.Coordinator))(t); len(left.Last) != 0 {
		t.Errorf("who has left is listed still: %+v", left.Last)
	}
}

// tappedLater changes a moment that was put down by a tap of the clock: what was taken back so is told once, not as
// tapped and as what stood too.
func tappedLater(t *testing.T, w *ward.Ward, d office.DrillView) office.DrillView {
	t.Helper()
	send := func(acted string, back ...assessment.DrillTap) office.DrillView {
		return must(w.Office.TimeDrill(t.Context(), w.Educators[0], d.ID, office.DrillTimesForm{Recognised: "4", Acted: acted, Called: "9", TakenBack: back}))(t)
	}
	send("35")
	tap := assessment.DrillTap{Moment: assessment.DrillActed, Seconds: 35}
	for range 2 {
		if v := send("40", tap); len(v.TakenBack) != 4 || v.TakenBack[2].Seconds != assessment.NotInDrill || v.TakenBack[3] != tap {
			t.Errorf("taken back by a tap after it was put down: %+v", v.TakenBack)
		}
	}
	return send("")
}

// changedDrillsAreFound changes what is kept of a drill by a hand that no trigger stops.
func changedDrillsAreFound(t *testing.T, w *ward.Ward, id assessment.DemonstrationID) {
	t.Helper()
	owner := must(pgx.Connect(t.Context(), w.DB.OwnerURL))(t)
	t.Cleanup(func() { _ = owner.Close(context.Background()) })
	for _, change := range []struct{ sql, says string }{ // each is told before those above it
		{`update demonstration_drill set called = 8`, "its moments are others"},
		{`update drill_scenario set body = replace(body, '"then"', '"then" ')`, "the text of its scenario"},
		{`update demonstration_drill set seed = '00', drawn_of = array[scenario_id]`, "its scenario is another one"},
		{`delete from demonstration_drill`, "none is kept"},
	} {
		tx := must(owner.Begin(t.Context()))(t)
		must(tx.Exec(t.Context(), `set local session_replication_role = replica`))(t)
		if done := must(tx.Exec(t.Context(), change.sql))(t); done.RowsAffected() == 0 {
			t.Fatalf("nothing is changed by %s: this shows nothing", change.sql)
		}
		wantNone(t, tx.Commit(t.Context()))
		found := must(w.Office.Verify(t.Context()))(t)
		if !slices.ContainsFunc(found.Findings, func(f office.Finding) bool {
			return f.Kind == "demonstration_drill" && f.Subject == string(id) && strings.Contains(f.Says, change.says)
		}) {
			t.Errorf("%s: %+v", change.sql, found.Findings)
		}
	}
}

// A drill is never done on a child: not by the form, not by another form under its id, not
// by a sheet from a device, and not by a hand in the database (clinical rule of the starter checklists: emergencies are
// shown in simulation, never by provoking one in a child).
func TestADrillOnAChildIsRefused(t *testing.T) {
	t.Parallel()
	w, mira, nan := drillWard(t)
	edda := w.Educators[0]
	form := office.DrillForm{ID: ward.NewID(w.Now()), Learner: nan.Person, Skill: "alarms-power", Client: mira, Place: "at home", Formal: true, Real: true}
	_, err := w.Office.BeginDrill(t.Context(), edda, form)
	wantRefusal(t, err, fault.Invalid, "never done on the child")
	form.Real = false
	d := must(w.Office.BeginDrill(t.Context(), edda, form))(t)
	if again := must(w.Office.BeginDrill(t.Context(), edda, form))(t); again.Scenario.VersionID != d.Scenario.VersionID {
		t.Error("the same form begins another drill")
	}
	open := office.OpenForm{ID: form.ID, Learner: nan.Person, Skill: "alarms-power", Client: mira, Place: "at home", Formal: true, Real: true}
	_, err = w.Office.Open(t.Context(), edda, open)
	wantRefusal(t, err, fault.Conflict, "another demonstration")
	open.ID, open.Real = ward.NewID(w.Now()), false
	must(w.Office.Open(t.Context(), edda, open))(t)
	form.ID = open.ID
	_, err = w.Office.BeginDrill(t.Context(), edda, form)
	wantRefusal(t, err, fault.Conflict, "another demonstration")

	device := w.Device(edda)
	sheet := w.Fill(device, nan, "alarms-power", mira, w.Now())
	text := sheet.Text()
	for change, says := range map[string]string{
		strings.Replace(text, `"real":`, `"drill":{"scenario":"x"},"real":`, 1): "unknown",
		strings.Replace(text, sheet.ID, string(d.ID), 1):                        "another id",
	} {
		_, err = w.Office.Receive(t.Context(), edda, office.ReceiveForm{ID: assessment.DemonstrationID(sheet.ID), Device: device.ID, Sheet: change, Signature: device.Sign(change), SentAt: w.Now()})
		if change == text {
			t.Fatal("nothing was changed: this shows nothing")
		}
		wantRefusal(t, err, fault.Invalid, says)
	}
	sheet.ID = string(d.ID)
	_, err = w.Office.Receive(t.Context(), edda, device.Send(sheet, w.Now()))
	if err == nil {
		t.Error("a sheet from a device took the place of a drill")
	}
	owner := must(pgx.Connect(t.Context(), w.DB.OwnerURL))(t)
	t.Cleanup(func() { _ = owner.Close(context.Background()) })
	for _, sql := range []string{
		`update sheet set real_client = true where id = $1`,
		`update sheet_drill set real_client = true where sheet_id = $1`,
		`update sheet_drill set acted = -1 where sheet_id = $1`,
		`update sheet_drill set called = 3601 where sheet_id = $1`,
	} {
		if _, err := owner.Exec(t.Context(), sql, d.ID); err == nil {
			t.Errorf("the database takes %s", sql)
		}
	}
	must(w.Office.TimeDrill(t.Context(), edda, d.ID, office.DrillTimesForm{Recognised: "1"}))(t)
	r := finish(t, w, nan, d.ID, nil)
	for _, sql := range []string{
		`insert into demonstration select (jsonb_populate_record(d, jsonb_build_object('id', gen_random_uuid(), 'real_client', true))).* from demonstration d where id = $1`,
		`insert into demonstration_drill select (jsonb_populate_record(x, jsonb_build_object('demonstration_id', (select id from demonstration where id <> $1 limit 1)))).* from demonstration_drill x where demonstration_id = $1`,
	} {
		if _, err := owner.Exec(t.Context(), sql, r.ID); err == nil {
			t.Errorf("the database takes %s", sql)
		}
	}
}

// Where a checklist asks for one demonstration with the child, no number of drills is it;
// the one with the child that follows is (the checklist's own rule on the setting).
func TestADrillIsNeverTheOneWithTheChild(t *testing.T) {
	t.Parallel()
	w, mira, nan := drillWard(t)
	newRevision(t, w, "alarms-power", policy("count: 1", "days: 1", "real: 1"), "")
	for range 4 {
		w.Pass(24 * time.Hour)
		d := drillOf(t, w, nan, mira, "alarms-power", "")
		must(w.Office.TimeDrill(t.Context(), w.Educators[0], d.ID, office.DrillTimesForm{Recognised: "0", Acted: "0", Called: "0"}))(t)
		if r := finish(t, w, nan, d.ID, nil); r.Outcome != assessment.Competent || word(t, w, nan, "alarms-power", mira).Holds() {
			t.Fatalf("%s, and %s", r.Outcome, word(t, w, nan, "alarms-power", mira))
		}
	}
	w.Pass(24 * time.Hour)
	w.Demonstrate(nan, "alarms-power", mira)
	if !word(t, w, nan, "alarms-power", mira).Holds() {
		t.Error("one with the child, and it is not held")
	}
}

// Times that cannot be are refused, each by its field; in which order they come is not
// asked (common practice, no source).
func TestTimesOfADrillThatCannotBe(t *testing.T) {
	t.Parallel()
	w, mira, nan := drillWard(t)
	edda := w.Educators[0]
	d := drillOf(t, w, nan, mira, "decannulation", "")
	for _, bad := range []string{"-1", "3601", "4.5", "soon", "1e2", "99999999999999999999"} {
		_, err := w.Office.TimeDrill(t.Context(), edda, d.ID, office.DrillTimesForm{Acted: bad})
		wantRefusal(t, err, fault.Invalid, "whole seconds")
	}
	for _, bad := range []assessment.DrillTap{{Moment: "slept", Seconds: 1}, {Moment: assessment.DrillCalled, Seconds: -1}, {Moment: assessment.DrillCalled, Seconds: 3601}} {
		_, err := w.Office.TimeDrill(t.Context(), edda, d.ID, office.DrillTimesForm{TakenBack: []assessment.DrillTap{bad}})
		wantRefusal(t, err, fault.Invalid, "")
	}
	must(w.Office.TimeDrill(t.Context(), edda, d.ID, office.DrillTimesForm{Recognised: "3600", Acted: " 7 ", Called: "0"}))(t)
	_, err := w.Office.Drill(t.Context(), w.Educators[1], d.ID)
	wantRefusal(t, err, fault.NotFound, "")
	_, err = w.Office.Drill(t.Context(), nan, d.ID)
	wantRefusal(t, err, fault.Forbidden, "")
	_, err = w.Office.Drills(t.Context(), nan)
	wantRefusal(t, err, fault.Forbidden, "")
	again := must(w.Office.TimeDrill(t.Context(), edda, d.ID, office.DrillTimesForm{Recognised: "3600", Acted: "7"}))(t)
	filledIn := must(w.Office.TimeDrill(t.Context(), edda, d.ID, office.DrillTimesForm{Recognised: "3600", Acted: "7", Called: "2"}))(t)
	if back := filledIn.TakenBack[len(again.TakenBack):]; len(back) != 1 || back[0] != (assessment.DrillTap{Moment: assessment.DrillCalled, Seconds: assessment.NotInDrill}) {
		t.Errorf("what was put down as not done and came later leaves no trace: %+v", back)
	}
	stopped := drillOf(t, w, nan, mira, "decannulation", "").ID
	must(w.Office.Stop(t.Context(), edda, stopped, true, "The manikin fell."))(t)
	if r := must(w.Office.Record(t.Context(), edda, stopped))(t); r.Drill.Timed || r.Outcome != assessment.StoppedForSafety {
		t.Errorf("stopped before any moment: %+v", r.Drill)
	}
}
