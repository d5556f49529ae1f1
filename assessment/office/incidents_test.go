package office_test

import (
	"slices"
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

// wentWrong is an incident as somebody would type it.
func wentWrong(who assessment.Actor, skill string, child assessment.ClientID, when string) office.IncidentForm {
	return office.IncidentForm{Person: who.Person, Skill: skill, Client: child, Happened: when, Seen: "The circuit came apart, and was put together the wrong way round.", Proof: ward.Proof}
}

func wordOn(w *ward.Ward, who assessment.Actor, skill string, child assessment.ClientID, day string) assessment.StandingWord {
	return w.Standing(who, skill, child, civil.MustParse(day)).Word
}

// wantWords says what a skill was on some days.
func wantWords(t *testing.T, w *ward.Ward, who assessment.Actor, skill string, child assessment.ClientID, days map[string]assessment.StandingWord) {
	t.Helper()
	for day, want := range days {
		if got := wordOn(w, who, skill, child, day); got != want {
			t.Errorf("%s on %s: %s, want %s", skill, day, got, want)
		}
	}
}

// A deficiency takes the skill and all related ones, others stay: 42 CFR 484.80(h)(3), from memory.
// From the day it happened on, with every child (no source: the readings that withhold).
func TestAnIncidentWithdrawsTheSkillAndAllRelated(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier", "bagging", "circuit-test", "suction")
	theo := w.Client("4B", "Theo")
	for _, skill := range []string{"bagging", "humidifier", "circuit-test"} {
		w.Demonstrate(nan, skill, mira)
	}
	w.Demonstrate(nan, "humidifier", theo)
	w.Demonstrate(nan, "suction", mira)
	w.Day("2026-02-10")
	id := must(w.Office.RecordIncident(t.Context(), w.Coordinator, wentWrong(nan, "humidifier", mira, "2026-02-07T03:10")))(t)
	for _, c := range []struct {
		skill string
		child assessment.ClientID
		held  bool
	}{{"humidifier", mira, false}, {"humidifier", theo, false}, {"circuit-test", mira, false}, {"suction", mira, true}} {
		want := map[string]assessment.StandingWord{"2026-02-06": assessment.Current, "2026-02-07": assessment.Withdrawn, "2026-02-10": assessment.Withdrawn, "2026-12-01": assessment.Withdrawn}
		if c.held {
			want = map[string]assessment.StandingWord{"2026-02-07": assessment.Current, "2026-02-10": assessment.Current}
		}
		wantWords(t, w, nan, c.skill, c.child, want)
	}
	v := must(w.Office.IncidentDesk(t.Context(), w.Educators[0], id))(t)
	if !v.Open || v.By != w.Coordinator.Name || len(v.Took) < 3 || v.Took[0].Skill.Code != "humidifier" || v.Took[0].Before != assessment.Current || !v.Took[0].Stands || v.Waits.IsZero() {
		t.Errorf("%+v", v)
	}
	indexIsRight(t, w)
}

// What was performed before an incident lifts nothing, whenever it is signed, typed in or
// sent: neither in the skill nor in a related one that had never been shown. Nor does what was shown
// between the incident and the day on which it was written down.
func TestNothingShownBeforeAnIncidentWasKnownLiftsIt(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier", "bagging", "circuit-test")
	w.Demonstrate(nan, "bagging", mira)
	w.Demonstrate(nan, "humidifier", mira)
	w.Day("2026-02-05")
	waiting := w.Demonstrate(nan, "humidifier", mira, ward.UnsignedByLearner)
	w.Day("2026-02-10")
	must(w.Office.RecordIncident(t.Context(), w.Coordinator, wentWrong(nan, "humidifier", mira, "2026-02-07T03:10")))(t)
	w.Day("2026-02-12")
	w.Sign(nan, waiting.ID, office.PartLearner)
	for _, when := range []string{"2026-02-06T10:00", "2026-02-08T10:00", "2026-02-10T23:59"} {
		if v := shownAt(t, w, nan, "humidifier", mira, when, assessment.Independent); v.Certificate != nil {
			t.Errorf("a certificate for what was shown at %s", when)
		}
		shownAt(t, w, nan, "circuit-test", mira, when, assessment.Independent)
	}
	for _, skill := range []string{"humidifier", "circuit-test"} {
		if s := word(t, w, nan, skill, mira); s != assessment.Withdrawn {
			t.Errorf("%s, shown up to the day on which the incident was written down: %s", skill, s)
		}
	}
	w.Day("2026-02-13")
	w.Demonstrate(nan, "humidifier", mira)
	if s := word(t, w, nan, "humidifier", mira); s != assessment.Current {
		t.Errorf("shown again: %s", s)
	}
	if s := word(t, w, nan, "circuit-test", mira); s != assessment.Withdrawn {
		t.Errorf("a related skill that was not shown again: %s", s)
	}
	indexIsRight(t, w)
}

// With every child means also one with whom nothing of the person was known when the incident was
// written down: what was shown there before, on paper or on a device, makes nobody current when it
// comes in. 42 CFR 484.80(h)(3), from memory; no source for the children.
func TestAnIncidentReachesAChildWhoBecomesKnownLater(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier", "bagging", "circuit-test")
	theo := w.Client("4B", "Theo")
	w.Demonstrate(nan, "bagging", mira)
	w.Demonstrate(nan, "humidifier", mira)
	w.Day("2026-02-10")
	id := must(w.Office.RecordIncident(t.Context(), w.Coordinator, wentWrong(nan, "humidifier", mira, "2026-02-07T03:10")))(t)
	w.Day("2026-02-12")
	shownAt(t, w, nan, "humidifier", theo, "2026-02-06T10:00", assessment.Independent)
	shownAt(t, w, nan, "circuit-test", theo, "2026-02-09T10:00", assessment.Independent)
	for _, skill := range []string{"humidifier", "circuit-test"} {
		if s := word(t, w, nan, skill, theo); s != assessment.Withdrawn {
			t.Errorf("%s with another child, shown before the incident was known: %s", skill, s)
		}
	}
	indexIsRight(t, w)
	w.Day("2026-02-13")
	w.Demonstrate(nan, "humidifier", theo)
	if s := word(t, w, nan, "humidifier", theo); s != assessment.Current {
		t.Errorf("shown again: %s", s)
	}
	wantNone(t, w.Office.TakeIncidentBack(t.Context(), w.Educators[0], id, "It was another nurse.", ward.Proof))
	if s := word(t, w, nan, "circuit-test", theo); s != assessment.Current {
		t.Errorf("after the incident was taken back: %s", s)
	}
	indexIsRight(t, w)
}

// The same of a sheet that a device held since before the incident, whatever its clock says.
func TestAnIncidentReachesASheetThatComesInLater(t *testing.T) {
	t.Parallel()
	b := atBedside(t, "humidifier", "bagging")
	theo := b.Client("4B", "Theo")
	b.Demonstrate(b.nurse, "bagging", b.child)
	b.Demonstrate(b.nurse, "humidifier", b.child)
	b.Day("2026-02-06")
	held := b.Fill(b.device, b.nurse, "humidifier", theo, b.Now())
	b.Day("2026-02-10")
	must(b.Office.RecordIncident(t.Context(), b.Coordinator, wentWrong(b.nurse, "humidifier", b.child, "2026-02-07T03:10")))(t)
	b.Day("2026-02-12")
	v := must(b.Office.Receive(t.Context(), b.device.Owner, b.device.Send(held, b.Now())))(t)
	b.Sign(b.device.Owner, v.ID, office.PartObserver)
	b.Sign(b.nurse, v.ID, office.PartLearner)
	if s := word(t, b.Ward, b.nurse, "humidifier", theo); s != assessment.Withdrawn {
		t.Errorf("with another child, held on a device since before the incident: %s", s)
	}
	indexIsRight(t, b.Ward)
}

// A waiver covers nobody, and hides no incident.
func TestAnIncidentInASkillThatIsWaived(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier")
	w.Demonstrate(nan, "humidifier", mira)
	w.Day("2026-02-03")
	wantNone(t, w.Office.Waive(t.Context(), w.Educators[0], about(nan, "humidifier", mira), "2026-02-01", "2026-03-31"))
	must(w.Office.RecordIncident(t.Context(), w.Coordinator, wentWrong(nan, "humidifier", mira, "2026-02-02T22:00")))(t)
	wantWords(t, w, nan, "humidifier", mira, map[string]assessment.StandingWord{"2026-02-02": assessment.Withdrawn, "2026-02-03": assessment.Withdrawn, "2026-03-31": assessment.Withdrawn, "2026-04-01": assessment.Withdrawn})
	wantNone(t, w.Office.Waive(t.Context(), w.Educators[0], about(nan, "humidifier", mira), "2026-02-03", "2026-04-30"))
	if s := word(t, w, nan, "humidifier", mira); s != assessment.Withdrawn {
		t.Errorf("waived after it: %s", s)
	}
	indexIsRight(t, w)
}

// What was recorded by mistake is taken back by somebody else, with all that it took, from that
// day on and not before. What else was withdrawn stays so.
func TestAnIncidentIsTakenBack(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier", "bagging", "circuit-test")
	edda, second := w.Educators[0], w.Educators[1]
	w.Demonstrate(nan, "bagging", mira)
	w.Demonstrate(nan, "humidifier", mira)
	w.Demonstrate(nan, "circuit-test", mira)
	w.Day("2026-02-05")
	id := must(w.Office.RecordIncident(t.Context(), edda, wentWrong(nan, "humidifier", mira, "2026-02-04T03:10")))(t)
	other := must(w.Office.RecordIncident(t.Context(), w.Coordinator, wentWrong(nan, "circuit-test", mira, "2026-02-05T08:00")))(t)
	w.Day("2026-02-08")
	wantRefusal(t, w.Office.TakeIncidentBack(t.Context(), edda, id, "Another nurse.", ward.Proof), fault.Refused, "somebody other")
	wantRefusal(t, w.Office.TakeIncidentBack(t.Context(), w.Coordinator, id, "Another nurse.", ward.Proof), fault.Forbidden, "role")
	wantRefusal(t, w.Office.TakeIncidentBack(t.Context(), second, id, " ", ward.Proof), fault.Invalid, "reason")
	wantNone(t, w.Office.TakeIncidentBack(t.Context(), second, id, "It was another nurse.", ward.Proof))
	wantRefusal(t, w.Office.TakeIncidentBack(t.Context(), second, id, "Again.", ward.Proof), fault.Conflict, "taken back")
	// circuit-test names the humidifier or is named by it, so the other incident holds both.
	wantWords(t, w, nan, "humidifier", mira, map[string]assessment.StandingWord{"2026-02-04": assessment.Withdrawn, "2026-02-08": assessment.Withdrawn})
	wantNone(t, w.Office.TakeIncidentBack(t.Context(), second, other, "It did not happen.", ward.Proof))
	wantWords(t, w, nan, "humidifier", mira, map[string]assessment.StandingWord{"2026-02-03": assessment.Current, "2026-02-07": assessment.Withdrawn, "2026-02-08": assessment.Current})
	v := must(w.Office.IncidentDesk(t.Context(), edda, id))(t)
	if v.Open || v.BackBy != second.Name || v.BackWhy != "It was another nurse." || v.MayClose || v.MayBack {
		t.Errorf("%+v", v)
	}
	wantRefusal(t, w.Office.CloseIncident(t.Context(), second, office.CloseIncidentForm{ID: id, Note: "x", Proof: ward.Proof}), fault.Conflict, "taken back")
	indexIsRight(t, w)
}

// A form that is sent once more after what it recorded was taken back does not look as if it
// withdrew anything: no source.
func TestWhatWasTakenBackIsNotTakenForSentTwice(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier")
	edda, second := w.Educators[0], w.Educators[1]
	w.Demonstrate(nan, "humidifier", mira)
	f := wentWrong(nan, "humidifier", mira, "2026-02-01T09:00")
	f.ID = "0197a1d0-0000-7000-8000-0000000000e7"
	id := must(w.Office.RecordIncident(t.Context(), edda, f))(t)
	wantNone(t, w.Office.TakeIncidentBack(t.Context(), second, id, "It was another nurse.", ward.Proof))
	_, err := w.Office.RecordIncident(t.Context(), edda, f)
	wantRefusal(t, err, fault.Conflict, "taken back")
	e := about(nan, "humidifier", mira)
	e.ID = "0197a1d0-0000-7000-8000-0000000000e8"
	for range 2 {
		wantNone(t, w.Office.Withdraw(t.Context(), edda, e, assessment.Redemonstrated, false))
	}
	wantNone(t, w.Office.TakeBack(t.Context(), second, office.TakeBackForm{Kind: assessment.WithdrawalEntry, ID: assessment.RecordID(e.ID), Reason: "It was another nurse.", Proof: ward.Proof}))
	wantRefusal(t, w.Office.Withdraw(t.Context(), edda, e, assessment.Redemonstrated, false), fault.Conflict, "taken back")
}

// It is closed by a record that evaluated it again on a later day, once all that was held is
// shown again; closing makes nobody current.
func TestAnIncidentIsClosed(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier", "bagging", "circuit-test")
	edda, second := w.Educators[0], w.Educators[1]
	w.Demonstrate(nan, "bagging", mira)
	w.Demonstrate(nan, "humidifier", mira)
	w.Demonstrate(nan, "circuit-test", mira)
	w.Day("2026-02-05")
	id := must(w.Office.RecordIncident(t.Context(), edda, wentWrong(nan, "humidifier", mira, "2026-02-05T03:10")))(t)
	same := w.Demonstrate(nan, "humidifier", mira)
	w.Day("2026-02-06")
	close := office.CloseIncidentForm{ID: id, Record: same.ID, Note: "Taught at the bedside; done right twice.", Proof: ward.Proof}
	wantRefusal(t, w.Office.CloseIncident(t.Context(), second, close), fault.Refused, "has not been shown again")
	shown := w.Demonstrate(nan, "humidifier", mira)
	close.Record = shown.ID
	wantRefusal(t, w.Office.CloseIncident(t.Context(), second, close), fault.Refused, "Not shown again yet")
	if s := word(t, w, nan, "circuit-test", mira); s != assessment.Withdrawn {
		t.Errorf("refused, and yet %s", s)
	}
	w.Demonstrate(nan, "circuit-test", mira)
	close.Record = same.ID
	wantRefusal(t, w.Office.CloseIncident(t.Context(), second, close), fault.Invalid, "record")
	close.Record = shown.ID
	wantRefusal(t, w.Office.CloseIncident(t.Context(), w.Coordinator, close), fault.Forbidden, "role")
	wantNone(t, w.Office.CloseIncident(t.Context(), second, close))
	wantRefusal(t, w.Office.CloseIncident(t.Context(), second, close), fault.Conflict, "closed already")
	all := must(w.Office.Incidents(t.Context(), edda, office.IncidentQuery{Person: nan.Person, From: civil.MustParse("2026-02-05"), Through: civil.MustParse("2026-02-05")}))(t)
	if len(all) != 1 || all[0].Open || all[0].Record != shown.ID || all[0].ClosedBy != second.Name {
		t.Errorf("%+v", all)
	}
	none := must(w.Office.Incidents(t.Context(), edda, office.IncidentQuery{From: civil.MustParse("2026-02-06")}))(t)
	if len(none) != 0 {
		t.Errorf("of another day: %+v", none)
	}
	indexIsRight(t, w)
}

// The agency's rules say what an incident withdraws; less than they say cannot be chosen.
func TestWhatAnIncidentWithdrawsIsTheAgencysRule(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier", "bagging", "circuit-test")
	w.Demonstrate(nan, "bagging", mira)
	w.Demonstrate(nan, "humidifier", mira)
	w.Demonstrate(nan, "circuit-test", mira)
	less := wentWrong(nan, "humidifier", mira, "2026-02-01T09:00")
	for _, scope := range []assessment.IncidentScope{assessment.SkillAlone, assessment.WithdrawNothing, "all"} {
		less.Withdraws = string(scope)
		_, err := w.Office.RecordIncident(t.Context(), w.Coordinator, less)
		wantRefusal(t, err, fault.Invalid, "withdraws")
	}
	rules := office.PracticeForm{IncidentWithdraws: string(assessment.SkillAlone), IncidentByItself: true, InServiceHours: "12", InServiceYear: string(assessment.CalendarYear)}
	wantRefusal(t, w.Office.SetPractice(t.Context(), w.Coordinator, rules), fault.Forbidden, "role")
	wantNone(t, w.Office.SetPractice(t.Context(), w.Admin, rules))
	less.Withdraws = ""
	must(w.Office.RecordIncident(t.Context(), w.Coordinator, less))(t)
	if a, b := word(t, w, nan, "humidifier", mira), word(t, w, nan, "circuit-test", mira); a != assessment.Withdrawn || b != assessment.Current {
		t.Errorf("the skill alone: %s, %s", a, b)
	}
	w.Pass(time.Minute)
	rules.IncidentByItself = false
	wantNone(t, w.Office.SetPractice(t.Context(), w.Admin, rules))
	less.Skill, less.Withdraws = "circuit-test", string(assessment.WithdrawNothing)
	id := must(w.Office.RecordIncident(t.Context(), w.Coordinator, less))(t)
	if b := word(t, w, nan, "circuit-test", mira); b != assessment.Current {
		t.Errorf("nothing was withdrawn: %s", b)
	}
	if v := must(w.Office.IncidentDesk(t.Context(), w.Coordinator, id))(t); len(v.Took) != 0 || !v.Open || v.Waits.IsZero() {
		t.Errorf("%+v", v)
	}
	less.Withdraws = ""
	must(w.Office.RecordIncident(t.Context(), w.Coordinator, less))(t)
	if b := word(t, w, nan, "circuit-test", mira); b != assessment.Withdrawn {
		t.Errorf("nothing was chosen, so all is withdrawn: %s", b)
	}
	indexIsRight(t, w)
}

// Sent twice it is kept once; what cannot be is refused, and nobody else reads it.
func TestIncidentsRefused(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier")
	w.Demonstrate(nan, "humidifier", mira)
	f := wentWrong(nan, "humidifier", mira, "2026-02-01T09:00")
	f.ID = "0197a1d0-0000-7000-8000-0000000000e7"
	for range 2 {
		must(w.Office.RecordIncident(t.Context(), w.Coordinator, f))(t)
	}
	if all := must(w.Office.Incidents(t.Context(), w.Admin, office.IncidentQuery{}))(t); len(all) != 1 {
		t.Errorf("%d incidents", len(all))
	}
	again := f
	again.Seen = "Something else."
	_, err := w.Office.RecordIncident(t.Context(), w.Coordinator, again)
	wantRefusal(t, err, fault.Conflict, "another record")
	for field, change := range map[string]func(*office.IncidentForm){
		"happened": func(f *office.IncidentForm) { f.Happened = w.Now().Add(time.Hour).Format(time.RFC3339) },
		"seen":     func(f *office.IncidentForm) { f.Seen = " . " },
		"skill":    func(f *office.IncidentForm) { f.Skill = "juggling" },
		"client":   func(f *office.IncidentForm) { f.Client = "" },
	} {
		wrong := f
		wrong.ID = ""
		change(&wrong)
		_, err := w.Office.RecordIncident(t.Context(), w.Coordinator, wrong)
		wantRefusal(t, err, fault.Invalid, field)
	}
	_, err = w.Office.RecordIncident(t.Context(), nan, f)
	wantRefusal(t, err, fault.Forbidden, "role")
	own := must(w.Office.Incidents(t.Context(), nan, office.IncidentQuery{}))(t)
	rosa := w.Nurse("Rosa Lind")
	others := must(w.Office.Incidents(t.Context(), rosa, office.IncidentQuery{}))(t)
	if len(own) != 1 || len(others) != 0 {
		t.Errorf("%d of one's own, %d of others", len(own), len(others))
	}
	_, err = w.Office.IncidentDesk(t.Context(), rosa, own[0].ID)
	wantRefusal(t, err, fault.NotFound, "no such record")
	v := must(w.Office.IncidentDesk(t.Context(), nan, own[0].ID))(t)
	if v.MayClose || v.MayBack || len(v.Breaks)+len(v.Visits)+len(v.Proposed) != 0 {
		t.Errorf("%+v", v)
	}
}

// The page after an incident: the shifts that break now, and the visits at which it can be
// shown again. Nothing else of the person's breaks by it.
func TestWhatAnIncidentBreaks(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier")
	w.Demonstrate(nan, "humidifier", mira)
	w.Join(nan, mira)
	w.Require("humidifier", assessment.Nurse)
	edda := w.Educators[0]
	w.Day("2026-02-05")
	shift := must(w.Office.AddRosterShift(t.Context(), w.Coordinator, office.RosterShiftForm{Client: mira, Person: nan.Person, Starts: "2026-02-09T19:00", Ends: "2026-02-10T07:00"}))(t)
	id := must(w.Office.RecordIncident(t.Context(), w.Coordinator, wentWrong(nan, "humidifier", mira, "2026-02-04T03:10")))(t)
	v := must(w.Office.IncidentDesk(t.Context(), edda, id))(t)
	if len(v.Breaks) != 1 || v.Breaks[0].ID != shift {
		t.Errorf("breaks %+v", v.Breaks)
	}
	sees := func(h office.HomeVisitView) bool {
		return slices.ContainsFunc(h.Sees, func(d office.DueVisit) bool { return d.Person.ID == nan.Person && d.Skill.Code == "humidifier" })
	}
	if len(v.Proposed) != 1 || !sees(v.Proposed[0]) || v.Proposed[0].On.Before(civil.MustParse("2026-02-06")) {
		t.Errorf("proposed %+v", v.Proposed)
	}
}
