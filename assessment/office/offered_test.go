package office_test

import (
	"testing"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/integration/ward"
)

// A record is offered to be taken back to those who may, and to nobody else.
func TestTakingBackIsOfferedToWhoMay(t *testing.T) {
	t.Parallel()
	w, mira, _ := quick(t, "humidifier")
	edda, other := w.Educators[0], w.Educators[1]
	for name, ways := range map[string][]ward.Way{"a pass": {ward.Competent}, "a failure": {ward.Stopped}} {
		for who, by := range map[string]assessment.Actor{"its observer": edda, "its learner": other, "a colleague": w.Educator("Nia Frost"), "a coordinator": w.Coordinator} {
			v := w.Demonstrate(other, "humidifier", mira, append(ways, ward.SeenBy(edda))...)
			offered := must(w.Office.ReadRecord(t.Context(), by, v.ID))(t).MayTakeBack
			err := w.Office.CorrectDemonstration(t.Context(), by, v.ID, "Wrong child.", ward.Proof)
			if done := err == nil; done != offered || who == "a colleague" && !done {
				t.Errorf("%s, %s: offered %v, then %v", name, who, offered, err)
			}
			if err == nil && must(w.Office.ReadRecord(t.Context(), by, v.ID))(t).MayTakeBack {
				t.Errorf("%s, %s: offered a second time", name, who)
			}
		}
	}
}

// A sheet is offered to be thrown away only while that would be done.
func TestThrowingAwayIsOfferedWhereItCanBeDone(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier")
	edda := w.Educators[0]
	stop := func(v assessment.DemonstrationID, stopped bool) {
		must(w.Office.Stop(t.Context(), edda, v, stopped, ""))(t)
	}
	for name, c := range map[string]struct {
		does func(assessment.DemonstrationID)
		may  bool
	}{
		"only begun":          {func(assessment.DemonstrationID) {}, true},
		"stopped":             {func(v assessment.DemonstrationID) { stop(v, true) }, false},
		"stopped, taken back": {func(v assessment.DemonstrationID) { stop(v, true); stop(v, false) }, false},
	} {
		v := opened(t, w, nan, "humidifier", mira)
		c.does(v.ID)
		offered := must(w.Office.Review(t.Context(), edda, v.ID))(t).MayDiscard
		err := w.Office.Discard(t.Context(), edda, v.ID)
		if offered != c.may || (err == nil) != offered || err != nil && fault.KindOf(err) != fault.Refused {
			t.Errorf("%s: offered %v, then %v", name, offered, err)
		}
	}
}
