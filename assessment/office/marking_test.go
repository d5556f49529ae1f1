package office_test

import (
	"strings"
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/assessment/postgres"
	"wellshown/integration/ward"
)

func TestMarksAreHeldToTheChecklist(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	mira := w.Client("7K", "Mira")
	nan := w.Nurse("Nan Orme")
	w.Award(nan, "bagging", mira)
	v := opened(t, w, nan, "suction", mira)
	mark := func(f office.MarkForm) error {
		_, err := w.Office.Mark(t.Context(), w.Educators[0], v.ID, f)
		return err
	}
	var timed, always assessment.Step
	for _, s := range v.Checklist.Steps() {
		if len(s.Measures) > 0 && timed.No == 0 {
			timed = s
		}
		if s.MayNotApply == "" {
			always = s
		}
	}
	name := timed.Measures[0].Name
	reading := func(value, unit string) map[string]postgres.Reading {
		return map[string]postgres.Reading{name: {Value: value, Unit: unit}}
	}
	wantRefusal(t, mark(office.MarkForm{Step: 99, Mark: "independent"}), fault.NotFound, "no step")
	wantAtField(t, mark(office.MarkForm{Step: 1, Mark: "perfect"}), "mark", "")
	wantAtField(t, mark(office.MarkForm{Step: always.No, NotApplicable: true, Reason: "none here"}), "reason", "always applies")
	wantAtField(t, mark(office.MarkForm{Step: 1, Mark: "independent", Note: "a\x00b"}), "note", "")
	wantAtField(t, mark(office.MarkForm{Step: 1, Mark: "independent", Note: "\xff"}), "note", "")
	wantAtField(t, mark(office.MarkForm{Step: 1, Mark: "independent", Note: strings.Repeat("x", 2001)}), "note", "longer")
	for _, bad := range []string{"1e3", "NaN", "+Inf", "0x10", "1/0", "1_0", strings.Repeat("9", 13), "٣"} {
		wantAtField(t, mark(office.MarkForm{Step: timed.No, Mark: "independent", Readings: reading(bad, "s")}), "value_"+name, "")
	}
	wantRefusal(t, mark(office.MarkForm{Step: timed.No, Mark: "independent", Readings: reading("5", "furlong")}), fault.Invalid, "")
	wantRefusal(t, mark(office.MarkForm{Step: timed.No, Mark: "independent", Readings: map[string]postgres.Reading{"zeal": {Value: "5", Unit: "s"}}}), fault.Invalid, "zeal")
	wantNone(t, mark(office.MarkForm{Step: 1, Mark: "independent", Note: "מירה 👍🏽 ﷽ e\u0301"}))
	_, err := w.Office.Record(t.Context(), w.Educators[0], v.ID)
	wantRefusal(t, err, fault.Refused, "still open")
	_, err = w.Office.Mark(t.Context(), w.Educators[1], v.ID, office.MarkForm{Step: 1, Mark: "independent"})
	wantRefusal(t, err, fault.NotFound, "")
	_, err = w.Office.Sheet(t.Context(), w.Educators[1], v.ID)
	wantRefusal(t, err, fault.NotFound, "")
}

// What was unsafe or stopped has happened: it is recorded, never thrown away.
func TestASheetWithAnUnsafeStepOrAStopIsNotDiscarded(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	mira := w.Client("7K", "Mira")
	nan := w.Nurse("Nan Orme")
	edda := w.Educators[0]
	plain := opened(t, w, nan, "bagging", mira)
	wantNone(t, w.Office.Discard(t.Context(), edda, plain.ID))
	_, err := w.Office.Sheet(t.Context(), edda, plain.ID)
	wantRefusal(t, err, fault.NotFound, "")

	unsafe := opened(t, w, nan, "bagging", mira)
	must(w.Office.Mark(t.Context(), edda, unsafe.ID, office.MarkForm{Step: 2, Mark: "unsafe"}))(t)
	wantRefusal(t, w.Office.Discard(t.Context(), edda, unsafe.ID), fault.Refused, "unsafe")
	must(w.Office.Stop(t.Context(), edda, unsafe.ID, true, "The child was at risk."))(t)
	if v := must(w.Office.Record(t.Context(), edda, unsafe.ID))(t); v.Outcome != assessment.StoppedForSafety {
		t.Errorf("recorded as %s", v.Outcome)
	}

	stopped := opened(t, w, nan, "bagging", mira)
	must(w.Office.Stop(t.Context(), edda, stopped.ID, true, ""))(t)
	wantRefusal(t, w.Office.Discard(t.Context(), edda, stopped.ID), fault.Refused, "ended for safety")

	mistaken := opened(t, w, nan, "bagging", mira)
	must(w.Office.Mark(t.Context(), edda, mistaken.ID, office.MarkForm{Step: 2, Mark: "unsafe"}))(t)
	must(w.Office.Mark(t.Context(), edda, mistaken.ID, office.MarkForm{Step: 2, Mark: "independent"}))(t)
	wantRefusal(t, w.Office.Discard(t.Context(), edda, mistaken.ID), fault.Refused, "taken back")
	wantRefusal(t, w.Office.Discard(t.Context(), edda, unsafe.ID), fault.Conflict, "")
}

// A failure must not wait for the observer's own standing: what went wrong went
// wrong. A pass must.
func TestAnObserverWithdrawnMeanwhileStillRecordsAFailure(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	mira := w.Client("7K", "Mira")
	nan := w.Nurse("Nan Orme")
	edda := w.Educators[0]
	good, bad := opened(t, w, nan, "bagging", mira), opened(t, w, nan, "bagging", mira)
	markAll(t, w, good)
	markAll(t, w, bad)
	must(w.Office.Mark(t.Context(), edda, bad.ID, office.MarkForm{Step: 1, Mark: "unsafe"}))(t)
	w.Pass(time.Minute)
	wantNone(t, w.Office.Withdraw(t.Context(), w.Educators[1], office.ExceptionForm{Person: edda.Person, Skill: "bagging", Reason: "Seen to bag too fast.", Proof: ward.Proof}, assessment.Reinstated, false))
	_, err := w.Office.Record(t.Context(), edda, good.ID)
	wantRefusal(t, err, fault.Refused, "withdrawn")
	v := must(w.Office.Record(t.Context(), edda, bad.ID))(t)
	if v.Outcome != assessment.NotYetCompetent {
		t.Errorf("recorded as %s", v.Outcome)
	}
	w.Sign(edda, v.ID, office.PartObserver)
}
