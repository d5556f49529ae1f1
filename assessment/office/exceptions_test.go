package office_test

import (
	"strings"
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

func about(who assessment.Actor, skill string, child assessment.ClientID) office.ExceptionForm {
	return office.ExceptionForm{Person: who.Person, Skill: skill, Client: child, Reason: "Seen at home.", Proof: ward.Proof}
}

// withdrawal is the latest that stands.
func withdrawal(t *testing.T, w *ward.Ward, who assessment.Actor, skill string, child assessment.ClientID) assessment.RecordID {
	t.Helper()
	s := w.Standing(who, skill, child, civil.Date{})
	if s.Word != assessment.Withdrawn {
		t.Fatalf("%s is %s in %s", who.Name, s.Word, skill)
	}
	return assessment.RecordID(s.Because[len(s.Because)-1])
}

func TestWithdrawalAndWhatLiftsIt(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier")
	edda, rolf := w.Educators[0], w.Educators[1]
	w.Demonstrate(nan, "humidifier", mira)
	withdraw := func(by assessment.Actor, until assessment.Until, change func(*office.ExceptionForm)) error {
		f := about(nan, "humidifier", mira)
		change(&f)
		return w.Office.Withdraw(t.Context(), by, f, until, false)
	}
	same := func(*office.ExceptionForm) {}
	wantAtField(t, withdraw(edda, "never", same), "until", "")
	wantAtField(t, withdraw(edda, assessment.Reinstated, func(f *office.ExceptionForm) { f.Reason = " \n" }), "reason", "Say why")
	wantAtField(t, withdraw(edda, assessment.Reinstated, func(f *office.ExceptionForm) { f.Reason = "too \x00 hot" }), "reason", "")
	wantAtField(t, withdraw(edda, assessment.Reinstated, func(f *office.ExceptionForm) { f.Reason = strings.Repeat("x", 2001) }), "reason", "longer")
	wantAtField(t, withdraw(edda, assessment.Reinstated, func(f *office.ExceptionForm) { f.Skill = "juggling" }), "skill", "")
	wantAtField(t, withdraw(edda, assessment.Reinstated, func(f *office.ExceptionForm) { f.Client = "" }), "client", "")
	wantAtField(t, withdraw(edda, assessment.Reinstated, func(f *office.ExceptionForm) { f.Proof = office.ByPassword("wrong") }), "password", "")
	wantRefusal(t, withdraw(edda, assessment.Reinstated, func(f *office.ExceptionForm) { f.Person = "nobody" }), fault.NotFound, "")
	wantRefusal(t, withdraw(nan, assessment.Reinstated, same), fault.Forbidden, "")
	if s := word(t, w, nan, "humidifier", mira); s != assessment.Current {
		t.Errorf("after what was refused: %s", s)
	}

	w.Pass(time.Hour)
	wantNone(t, withdraw(w.Coordinator, assessment.Reinstated, same))
	first := withdrawal(t, w, nan, "humidifier", mira)
	w.Pass(time.Hour)
	wantNone(t, withdraw(edda, assessment.Redemonstrated, same))
	w.Demonstrate(nan, "humidifier", mira) // on the same day: lifts neither
	second := withdrawal(t, w, nan, "humidifier", mira)
	if second == first {
		t.Fatal("the second withdrawal was not kept")
	}
	reinstate := func(by assessment.Actor, id assessment.RecordID) error {
		return w.Office.Reinstate(t.Context(), by, id, "Seen again.", ward.Proof)
	}
	wantRefusal(t, reinstate(edda, second), fault.Refused, "later day")
	wantRefusal(t, reinstate(w.Coordinator, first), fault.Forbidden, "")
	wantRefusal(t, reinstate(edda, "01963f7a-0000-7000-8000-000000000009"), fault.NotFound, "")
	wantAtField(t, w.Office.Reinstate(t.Context(), edda, first, "", ward.Proof), "reason", "")
	errs := make([]error, 6)
	atOnce(len(errs), func(i int) { errs[i] = reinstate(rolf, first) })
	lifted := 0
	for _, err := range errs {
		if err == nil {
			lifted++
			continue
		}
		if fault.KindOf(err) != fault.Conflict && fault.KindOf(err) != fault.Throttled {
			t.Errorf("reinstated again: %v", err)
		}
	}
	if lifted != 1 {
		t.Errorf("reinstated %d times", lifted)
	}
	if s := word(t, w, nan, "humidifier", mira); s != assessment.Withdrawn {
		t.Errorf("one of two withdrawals lifted: %s", s)
	}
	w.Pass(24 * time.Hour)
	w.Demonstrate(nan, "humidifier", mira)
	if s := word(t, w, nan, "humidifier", mira); s != assessment.Current {
		t.Errorf("both lifted: %s", s)
	}
	indexIsRight(t, w)
}

func TestNobodyReinstatesWaivesOrTakesBackForThemselves(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier")
	edda, rolf := w.Educators[0], w.Educators[1]
	own := w.Demonstrate(edda, "humidifier", mira, ward.SeenBy(rolf), ward.Marked(1, assessment.Unsafe))
	wantNone(t, w.Office.Withdraw(t.Context(), rolf, about(edda, "humidifier", mira), assessment.Reinstated, false))
	id := withdrawal(t, w, edda, "humidifier", mira)
	wantRefusal(t, w.Office.Reinstate(t.Context(), edda, id, "I am fine.", ward.Proof), fault.Refused, "yourself")
	wantRefusal(t, w.Office.Waive(t.Context(), edda, about(edda, "humidifier", mira), "2026-02-01", "2026-03-01"), fault.Refused, "your own")
	correct := func(by assessment.Actor, id assessment.DemonstrationID) error {
		return w.Office.CorrectDemonstration(t.Context(), by, id, "Another child's sheet.", ward.Proof)
	}
	wantRefusal(t, correct(edda, own.ID), fault.Refused, "of your own")
	wantRefusal(t, correct(rolf, own.ID), fault.Refused, "other than its observer")
	wantRefusal(t, correct(w.Coordinator, own.ID), fault.Forbidden, "")
	wantAtField(t, w.Office.CorrectDemonstration(t.Context(), rolf, own.ID, "\t", ward.Proof), "reason", "")
	passed := w.Demonstrate(nan, "humidifier", mira, ward.SeenBy(rolf))
	wantNone(t, correct(edda, passed.ID))
	wantRefusal(t, correct(rolf, passed.ID), fault.Conflict, "already")
	if v := must(w.Office.Demonstration(t.Context(), nan, passed.ID))(t); v.CorrectedAt == nil || v.Correction != "Another child's sheet." || v.Outcome != assessment.Competent {
		t.Errorf("after it was taken back: %+v", v.Demonstration)
	}
	if c := must(w.Office.Check(t.Context(), passed.Certificate.Code))(t); c.Holds() {
		t.Errorf("its certificate: %+v", c.Reliance)
	}
	indexIsRight(t, w)
}

// A withdrawal with related skills takes what is held there with the same child,
// and what is held with no child; other children's stay.
func TestWithdrawingRelatedSkills(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "bagging", "humidifier", "circuit-test")
	tam := w.Client("8K", "Tam")
	for _, child := range []assessment.ClientID{mira, tam} {
		for _, skill := range []string{"bagging", "humidifier", "circuit-test"} {
			w.Demonstrate(nan, skill, child)
		}
	}
	w.Pass(time.Minute)
	form := about(nan, "humidifier", mira)
	form.ID = "01963f7a-0000-7000-8000-00000000000a"
	for range 2 {
		wantNone(t, w.Office.Withdraw(t.Context(), w.Educators[0], form, assessment.Reinstated, true))
	}
	for _, c := range []struct {
		skill string
		child assessment.ClientID
		want  assessment.StandingWord
	}{
		{"humidifier", mira, assessment.Withdrawn}, {"circuit-test", mira, assessment.Withdrawn}, {"bagging", mira, assessment.Current},
		{"humidifier", tam, assessment.Current}, {"circuit-test", tam, assessment.Current},
	} {
		s := w.Standing(nan, c.skill, c.child, civil.Date{})
		if s.Word != c.want || s.Word == assessment.Withdrawn && len(s.Because) != 1 {
			t.Errorf("%s with %s: %s %v, want %s", c.skill, s.Client.Code, s.Word, s.Because, c.want)
		}
	}
	indexIsRight(t, w)
}

// Excused is not competent.
func TestAWaiverMakesNobodyCurrent(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier")
	w.Require("humidifier", "")
	w.Join(nan, mira)
	waive := func(from, through string) error {
		return w.Office.Waive(t.Context(), w.Educators[0], about(nan, "humidifier", mira), from, through)
	}
	wantAtField(t, waive("2026-02-30", "2026-03-01"), "from", "")
	wantAtField(t, waive("2026-02-02", "2026-02-01"), "through", "before the first")
	wantNone(t, waive("2026-02-02", "2026-02-03"))
	for day, want := range map[string]assessment.StandingWord{"2026-02-01": assessment.NotStarted, "2026-02-02": assessment.Waived, "2026-02-03": assessment.Waived, "2026-02-04": assessment.NotStarted} {
		if s := w.Standing(nan, "humidifier", mira, civil.MustParse(day)); s.Word != want {
			t.Errorf("on %s: %s, want %s", day, s.Word, want)
		}
	}
	w.Day("2026-02-03")
	v := must(w.Office.Overdue(t.Context(), w.Coordinator, office.OverdueQuery{}))(t)
	if len(v.Lines) != 0 || v.Counts.Waived != 1 || v.Counts.Current != 0 {
		t.Errorf("while waived: %+v", v.Counts)
	}
	w.Demonstrate(nan, "humidifier", mira)
	wantNone(t, w.Office.Withdraw(t.Context(), w.Educators[0], about(nan, "humidifier", mira), assessment.Reinstated, false))
	wantNone(t, waive("2026-02-03", "2027-12-31"))
	if s := word(t, w, nan, "humidifier", mira); s != assessment.Withdrawn {
		t.Errorf("a waiver over a withdrawal: %s", s)
	}
	indexIsRight(t, w)
}

// An id that is sent twice is taken in once; an id of something else is refused,
// so that no record hides another.
func TestIDsOfExceptionsDoNotCollide(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier", "go-bag")
	ola := w.Nurse("Ola Reed")
	passed := w.Demonstrate(nan, "humidifier", mira)
	sheet := opened(t, w, nan, "go-bag", mira)
	edda := w.Educators[0]
	withdraw := func(id string, who assessment.Actor, skill string) error {
		f := about(who, skill, mira)
		f.ID = id
		return w.Office.Withdraw(t.Context(), edda, f, assessment.Reinstated, false)
	}
	const id = "01963f7a-0000-7000-8000-00000000000b"
	waiver := about(nan, "humidifier", mira)
	waiver.ID = id
	for range 2 {
		wantNone(t, w.Office.Waive(t.Context(), edda, waiver, "2026-02-01", "2026-03-01"))
	}
	wantRefusal(t, withdraw(id, nan, "humidifier"), fault.Conflict, "another record") // not taken for sent before
	wantRefusal(t, withdraw(id, ola, "humidifier"), fault.Conflict, "another record")
	wantRefusal(t, withdraw(string(passed.ID), ola, "humidifier"), fault.Conflict, "another record")
	wantRefusal(t, withdraw(string(sheet.ID), nan, "go-bag"), fault.Conflict, "another record")
	wantRefusal(t, withdraw("no id", nan, "humidifier"), fault.NotFound, "")
	const taken = "01963f7a-0000-7000-8000-00000000000c"
	wantNone(t, withdraw(taken, nan, "go-bag"))
	wantRefusal(t, withdraw(taken, nan, "humidifier"), fault.Conflict, "another record")
	_, err := w.Office.Open(t.Context(), edda, office.OpenForm{ID: taken, Learner: nan.Person, Skill: "go-bag", Client: mira, Place: "at home", Real: true, Formal: true})
	wantRefusal(t, err, fault.Conflict, "another record")
	markAll(t, w, sheet)
	must(w.Office.Record(t.Context(), edda, sheet.ID))(t)
	indexIsRight(t, w)
}

func TestTeachingAndPracticeMakeNobodyCurrent(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier")
	log := func(kind assessment.EntryKind, on, note string) error {
		return w.Office.Log(t.Context(), w.Coordinator, office.LogForm{Person: nan.Person, Skill: "humidifier", Client: mira, Kind: kind, On: on, Note: note})
	}
	wantAtField(t, log("demonstration", "2026-02-01", ""), "kind", "")
	wantAtField(t, log(assessment.PracticeEntry, "2026-02-02", ""), "on", "not come")
	wantAtField(t, log(assessment.TeachingEntry, "2026-01-32", ""), "on", "")
	wantAtField(t, log(assessment.TeachingEntry, "2026-02-01", "a\x00"), "note", "")
	wantNone(t, log(assessment.TeachingEntry, "2026-02-01", "Water level."))
	wantNone(t, log(assessment.PracticeEntry, "2026-01-20", ""))
	if s := word(t, w, nan, "humidifier", mira); s != assessment.Learning {
		t.Errorf("%s", s)
	}
	w.Demonstrate(nan, "humidifier", mira, ward.Practice)
	if s := word(t, w, nan, "humidifier", mira); s != assessment.Learning {
		t.Errorf("after practice shown competently: %s", s)
	}
	indexIsRight(t, w)
}
