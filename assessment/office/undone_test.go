package office_test

import (
	"strings"
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

// A stop or an unsafe step that is taken back cannot be lost: the sheet is not
// thrown away, and the journal and the record tell of it.
func TestWhatWasTakenBackIsToldByTheRecord(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier")
	edda := w.Educators[0]
	v := opened(t, w, nan, "humidifier", mira)
	must(w.Office.Stop(t.Context(), edda, v.ID, true, "Gas still flowed."))(t)
	w.Pass(time.Minute)
	must(w.Office.Stop(t.Context(), edda, v.ID, false, ""))(t)
	wantRefusal(t, w.Office.Discard(t.Context(), edda, v.ID), fault.Refused, "taken back")
	must(w.Office.Mark(t.Context(), edda, v.ID, office.MarkForm{Step: 2, Mark: "unsafe"}))(t)
	w.Pass(time.Minute)
	must(w.Office.MarkAll(t.Context(), edda, v.ID, []office.MarkForm{{Step: 2, Mark: "independent"}}))(t)
	must(w.Office.Mark(t.Context(), edda, v.ID, office.MarkForm{Step: 2, Mark: "cued"}))(t)
	markAll(t, w, v)
	r := must(w.Office.Record(t.Context(), edda, v.ID))(t)
	if len(r.TakenBack) != 2 || r.TakenBack[0].Step != 0 || r.TakenBack[0].Reason != "Gas still flowed." || r.TakenBack[1].Step != 2 || !strings.Contains(r.Body, "taken_back_while_open") {
		t.Fatalf("%+v", r.TakenBack)
	}
	if said := r.TakenBack[0].Words(w.Zone); !strings.Contains(said, "(Gas still flowed.); at "+r.TakenBack[0].At.In(w.Zone).Format("15:04")) {
		t.Error(said)
	}
	var noted int
	wantNone(t, asOwner(t, w).QueryRow(t.Context(), `select count(*) from journal where subject = $1 and kind in ('stop', 'stop taken back', 'unsafe mark taken back')`, v.ID).Scan(&noted))
	if noted != 3 {
		t.Errorf("%d lines of the journal", noted)
	}
	if plain := w.Demonstrate(nan, "humidifier", mira, ward.Unsigned); len(plain.TakenBack) != 0 || plain.Outcome != assessment.Competent {
		t.Errorf("another record: %+v", plain.TakenBack)
	}
}

// An unsafe step that was taken back keeps the sheet from being thrown away too.
func TestASheetThatHeldAnUnsafeStepStays(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier")
	v := opened(t, w, nan, "humidifier", mira)
	for _, mark := range []string{"unsafe", "", "independent"} {
		must(w.Office.Mark(t.Context(), w.Educators[0], v.ID, office.MarkForm{Step: 1, Mark: mark}))(t)
	}
	wantRefusal(t, w.Office.Discard(t.Context(), w.Educators[0], v.ID), fault.Refused, "taken back")
}
