package office_test

import (
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/assessment/postgres"
	"wellshown/integration/ward"
)

func takingBack(kind assessment.EntryKind, id assessment.RecordID) office.TakeBackForm {
	return office.TakeBackForm{Kind: kind, ID: id, Reason: "Typed for the wrong person.", Proof: ward.Proof}
}

// What was put down by mistake can be taken back, by somebody else than it is
// about, and standings follow at once.
func TestMistakesCanBeTakenBack(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier", "bagging", "cpr-trach")
	edda, rolf := w.Educators[0], w.Educators[1]
	w.Demonstrate(nan, "bagging", mira)
	w.Demonstrate(nan, "cpr-trach", mira)
	w.Demonstrate(nan, "humidifier", mira)
	card := must(w.Office.RecordCard(t.Context(), w.Coordinator, nan.Person, office.CardForm{Issuer: "Lifeline Courses", IssuedOn: w.Today().String()}))(t)
	if s := word(t, w, nan, "cpr-trach", ""); !s.Holds() {
		t.Fatalf("with a card: %s", s)
	}
	w.Pass(time.Hour)
	wantRefusal(t, w.Office.TakeBack(t.Context(), edda, takingBack(assessment.CardEntry, card.ID)), fault.Forbidden, "")
	wantRefusal(t, w.Office.TakeBack(t.Context(), w.Coordinator, takingBack(assessment.PracticeEntry, card.ID)), fault.Forbidden, "")
	wantRefusal(t, w.Office.TakeBack(t.Context(), w.Admin, takingBack(postgres.LicenceEntry, card.ID)), fault.NotFound, "")
	blank := takingBack(assessment.CardEntry, card.ID)
	blank.Reason = " . "
	wantAtField(t, w.Office.TakeBack(t.Context(), w.Coordinator, blank), "reason", "Say what is wrong")
	wantNone(t, w.Office.TakeBack(t.Context(), w.Coordinator, takingBack(assessment.CardEntry, card.ID)))
	wantRefusal(t, w.Office.TakeBack(t.Context(), w.Coordinator, takingBack(assessment.CardEntry, card.ID)), fault.Conflict, "")
	if s := word(t, w, nan, "cpr-trach", ""); s.Holds() {
		t.Errorf("the card was taken back: %s", s)
	}
	if q := must(w.Office.Qualifications(t.Context(), edda, nan.Person))(t); len(q.Cards) != 0 {
		t.Errorf("still on file: %+v", q.Cards)
	}

	wantNone(t, w.Office.Withdraw(t.Context(), edda, about(nan, "humidifier", mira), assessment.Redemonstrated, false))
	made := withdrawal(t, w, nan, "humidifier", mira)
	wantRefusal(t, w.Office.TakeBack(t.Context(), edda, takingBack(assessment.WithdrawalEntry, made)), fault.Refused, "other than who signed")
	wantNone(t, w.Office.TakeBack(t.Context(), rolf, takingBack(assessment.WithdrawalEntry, made)))
	if s := word(t, w, nan, "humidifier", mira); !s.Holds() {
		t.Errorf("the withdrawal was taken back: %s", s)
	}
	indexIsRight(t, w)
}

// Practice that never was no longer keeps anybody current, and nobody takes back
// what is about themselves.
func TestPracticeThatNeverWas(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier")
	edda, rolf := w.Educators[0], w.Educators[1]
	newRevision(t, w, "humidifier", policy("absence_days: 30"), "")
	w.Demonstrate(nan, "humidifier", mira)
	w.Demonstrate(edda, "humidifier", mira, ward.SeenBy(rolf))
	w.Pass(20 * 24 * time.Hour)
	for _, who := range []assessment.Actor{nan, edda} {
		wantNone(t, w.Office.Log(t.Context(), w.Coordinator, office.LogForm{Person: who.Person, Skill: "humidifier", Client: mira, Kind: assessment.PracticeEntry, On: w.Today().String()}))
	}
	w.Pass(20 * 24 * time.Hour)
	practice := func(who assessment.Actor) assessment.RecordID {
		for _, h := range must(w.Office.PersonDesk(t.Context(), w.Admin, who.Person, w.Today()))(t).Happenings {
			if h.Kind == assessment.PracticeEntry {
				return h.ID
			}
		}
		t.Fatalf("no practice of %s", who.Name)
		return ""
	}
	wantRefusal(t, w.Office.TakeBack(t.Context(), edda, takingBack(assessment.PracticeEntry, practice(edda))), fault.Refused, "about yourself")
	if s := word(t, w, nan, "humidifier", mira); !s.Holds() {
		t.Fatalf("with practice: %s", s)
	}
	wantNone(t, w.Office.TakeBack(t.Context(), edda, takingBack(assessment.PracticeEntry, practice(nan))))
	if s := w.Standing(nan, "humidifier", mira, civil.Date{}); s.Word != assessment.Lapsed {
		t.Errorf("without it: %s", s.Word)
	}
	indexIsRight(t, w)
}
