package office_test

import (
	"fmt"
	"strings"
	"testing"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

// everyDay is how somebody stands in all that they must hold or ever began, day by day.
func everyDay(t *testing.T, w *ward.Ward, who assessment.Actor) string {
	t.Helper()
	var all strings.Builder
	for on := civil.MustParse("2025-12-01"); on.Before(civil.MustParse("2026-05-01")); on = on.AddDays(3) {
		for _, r := range must(w.Office.StandingsOf(t.Context(), w.Admin, who.Person, on))(t).Rows {
			fmt.Fprintln(&all, on, r.Skill.Code, r.Client.Code, r.Standing)
		}
	}
	fmt.Fprintf(&all, "%+v", must(w.Office.Transcript(t.Context(), w.Admin, who.Person, civil.Date{}))(t).Standings.Rows)
	return all.String()
}

// Practice, however well it goes and however often, changes no standing on any day, and
// neither does anything that is chosen in a plan (common practice, no source: practice is
// not proof).
func TestPracticeAndPlansChangeNoStanding(t *testing.T) {
	t.Parallel()
	w, mira, nan := learner(t)
	edda := w.Educators[0]
	w.Award(nan, "bagging", mira)
	before := everyDay(t, w, nan)
	if !strings.Contains(before, "current") {
		t.Fatal("nothing is held: this shows nothing")
	}
	for _, skill := range []string{"suction", "bagging", "tube-change", "decannulation"} {
		ready := must(w.Office.BeforePractice(t.Context(), edda, nan.Person, skill, mira))(t)
		for _, on := range []string{"2026-01-02", "2026-01-31", "2026-02-01"} {
			for _, helper := range []assessment.PersonID{"", edda.Person} {
				form := office.PracticeRunForm{Person: nan.Person, Revision: ready.List.ID, Client: mira, DoneOn: on, Helper: helper, Marks: map[int]assessment.PracticeMark{}}
				for _, s := range ready.List.Steps() {
					form.Marks[s.No] = assessment.WentAlone
				}
				id := must(w.Office.LogPracticeRun(t.Context(), edda, form))(t)
				if helper != "" {
					wantNone(t, w.Office.TakeBackPractice(t.Context(), edda, id, "Another's."))
				}
			}
		}
	}
	for _, skill := range []string{"suction", "bagging"} { // and by herself, as often as she likes
		ready := must(w.Office.BeforePractice(t.Context(), nan, nan.Person, skill, mira))(t)
		form := office.PracticeRunForm{Person: nan.Person, Revision: ready.List.ID, Client: mira, DoneOn: "2026-02-01", Marks: map[int]assessment.PracticeMark{1: assessment.WentAlone}}
		must(w.Office.LogPracticeRun(t.Context(), nan, form))(t)
	}
	wantNone(t, w.Office.SetLearningTarget(t.Context(), edda, office.LearningTargetForm{Person: nan.Person, Goal: "other", On: "2026-03-01"}))
	wantNone(t, w.Office.ChooseLearning(t.Context(), edda, office.LearningChoiceForm{Person: nan.Person, Skill: "suction", Client: mira, Teacher: edda.Person, By: "2026-02-01"}))
	wantNone(t, w.Office.SetLearningDays(t.Context(), edda, "suction", "30"))
	if after := everyDay(t, w, nan); after != before {
		t.Errorf("standings were\n%s\nand are\n%s", before, after)
	}
	indexIsRight(t, w)
	v := planOf(t, w, edda, nan)
	if len(v.Runs) != 26 || v.Lines[0].Stage() != assessment.Practised || v.Lines[0].Runs != 4 || v.Lines[0].Alone != 1 {
		t.Errorf("%d runs, %+v", len(v.Runs), v.Lines[0])
	}
	transcript := must(w.Office.Transcript(t.Context(), w.Admin, nan.Person, civil.Date{}))(t)
	for _, r := range transcript.Records {
		if r.Title == v.Lines[0].Title {
			t.Errorf("practice is among the records: %+v", r)
		}
	}
}

func TestPracticeThatCannotBe(t *testing.T) {
	t.Parallel()
	w, mira, nan := learner(t)
	edda := w.Educators[0]
	ready := must(w.Office.BeforePractice(t.Context(), edda, nan.Person, "suction", mira))(t)
	good := office.PracticeRunForm{Person: nan.Person, Revision: ready.List.ID, Client: mira, DoneOn: "2026-01-30", Marks: map[int]assessment.PracticeMark{1: assessment.WentWithHelp}}
	try := func(field, says string, change func(*office.PracticeRunForm)) {
		t.Helper()
		f := good
		change(&f)
		_, err := w.Office.LogPracticeRun(t.Context(), edda, f)
		wantAtField(t, err, field, says)
	}
	try("done_on", "This day is to come", func(f *office.PracticeRunForm) { f.DoneOn = "2026-02-02" })
	try("helper", "Nobody helps themselves", func(f *office.PracticeRunForm) { f.Helper = nan.Person })
	try("marks", "how it went", func(f *office.PracticeRunForm) { f.Marks = nil })
	try("marks", "no step 999", func(f *office.PracticeRunForm) { f.Marks = map[int]assessment.PracticeMark{999: "alone"} })
	try("marks", "alone, with help, or not yet", func(f *office.PracticeRunForm) { f.Marks = map[int]assessment.PracticeMark{1: "competent"} })
	id := must(w.Office.LogPracticeRun(t.Context(), edda, good))(t)
	if v := must(w.Office.PracticeRun(t.Context(), nan, id))(t); v.Lines[0].Went != assessment.WentWithHelp || v.Lines[1].Went != "" || v.Count(assessment.WentWithHelp) != 1 {
		t.Errorf("%+v", v)
	}
	kit := w.Family("Kit Ames", mira)
	_, err := w.Office.PracticeRun(t.Context(), kit, id)
	wantRefusal(t, err, fault.NotFound, "There is no such record")
	wantAtField(t, w.Office.TakeBackPractice(t.Context(), edda, id, " "), "reason", "Say what is wrong")
	wantNone(t, w.Office.TakeBackPractice(t.Context(), edda, id, "Another's."))
	wantRefusal(t, w.Office.TakeBackPractice(t.Context(), edda, id, "Another's."), fault.Conflict, "taken back already")
	draft := must(w.Office.DraftRevision(t.Context(), edda, skillOf(t, w, "suction")))(t)
	good.Revision = draft.ID
	_, err = w.Office.LogPracticeRun(t.Context(), edda, good)
	wantRefusal(t, err, fault.Refused, "was never in force")
}

// Whoever writes down their own practice was seen by nobody: it says so wherever it is
// read, names no helper and no child but their own, and is taken back by them alone or by
// staff (common practice, no source).
func TestOwnPracticeWasSeenByNobody(t *testing.T) {
	t.Parallel()
	w, mira, nan := learner(t)
	edda, zoe := w.Educators[0], w.Client("9Z", "Zoe")
	kit := w.Family("Kit Ames", mira)
	ready := must(w.Office.BeforePractice(t.Context(), kit, kit.Person, "suction", mira))(t)
	if len(ready.Helpers) != 0 || len(ready.Clients) != 1 {
		t.Errorf("she may choose from %+v", ready)
	}
	_, err := w.Office.BeforePractice(t.Context(), kit, nan.Person, "suction", mira)
	wantRefusal(t, err, fault.NotFound, "There is no such record")
	form := office.PracticeRunForm{Person: kit.Person, Revision: ready.List.ID, Client: mira, DoneOn: "2026-02-01", Helper: edda.Person, Marks: map[int]assessment.PracticeMark{1: assessment.WentAlone, 2: assessment.WentNotYet}}
	_, err = w.Office.LogPracticeRun(t.Context(), kit, form)
	wantAtField(t, err, "helper", "seen by nobody")
	form.Helper, form.Client = "", zoe
	_, err = w.Office.LogPracticeRun(t.Context(), kit, form)
	wantRefusal(t, err, fault.NotFound, "There is no such record")
	form.Client = mira
	other := form
	other.Person = nan.Person
	_, err = w.Office.LogPracticeRun(t.Context(), kit, other)
	wantRefusal(t, err, fault.NotFound, "There is no such record")
	id := must(w.Office.LogPracticeRun(t.Context(), kit, form))(t)
	for _, reader := range []assessment.Actor{kit, edda} {
		if v := must(w.Office.PracticeRun(t.Context(), reader, id))(t); v.How().String() != "practised by myself, not observed: one step alone, 0 with help, 1 not yet" {
			t.Errorf("%s reads %q", reader.Name, v.How())
		}
	}
	v := planOf(t, w, kit, kit)
	if len(v.Runs) != 1 || !v.Runs[0].ByMyself() {
		t.Errorf("%+v", v.Runs)
	}
	form.Person, form.Helper = kit.Person, ""
	hers := must(w.Office.LogPracticeRun(t.Context(), edda, form))(t)
	wantRefusal(t, w.Office.TakeBackPractice(t.Context(), kit, hers, "Not so."), fault.Refused, "cannot take back what is about yourself")
	wantRefusal(t, w.Office.TakeBackPractice(t.Context(), nan, id, "Not so."), fault.NotFound, "There is no such record")
	wantNone(t, w.Office.TakeBackPractice(t.Context(), kit, id, "It was another skill."))
	if v := planOf(t, w, kit, kit); v.Runs[0].Back == "" && v.Runs[1].Back == "" {
		t.Errorf("nothing is taken back: %+v", v.Runs)
	}
}

// What is done next follows how far somebody is, and the family's page says it too
// (common practice, no source).
func TestWhatComesNextFollowsThePlan(t *testing.T) {
	t.Parallel()
	w, mira, nan := learner(t)
	edda := w.Educators[0]
	next := func(want string) {
		t.Helper()
		v := planOf(t, w, nan, nan)
		if desk := must(w.Office.FamilyDesk(t.Context(), nan))(t); !strings.HasPrefix(v.Next().String(), want) || desk.Next.String() != v.Next().String() {
			t.Errorf("the plan says %q and the page %q, not %q", v.Next(), desk.Next, want)
		}
	}
	next("Ask your educator to teach you Manual ventilation")
	form := taught(w, "2026-01-30", "45", "bagging")
	form.Client, form.Learners = mira, []office.TaughtForm{{Person: nan.Person, TaughtHow: assessment.TaughtHow{Shown: true}}}
	must(w.Office.LogTeaching(t.Context(), edda, form))(t)
	next("Practise Manual ventilation")
	ready := must(w.Office.BeforePractice(t.Context(), edda, nan.Person, "bagging", mira))(t)
	run := office.PracticeRunForm{Person: nan.Person, Revision: ready.List.ID, DoneOn: "2026-02-01", Marks: map[int]assessment.PracticeMark{1: assessment.WentAlone}}
	must(w.Office.LogPracticeRun(t.Context(), nan, run))(t)
	next("Practise Manual ventilation") // alone is not with help
	run.Helper = edda.Person
	must(w.Office.LogPracticeRun(t.Context(), edda, run))(t)
	next("Show Manual ventilation")
	w.Award(nan, "bagging", mira)
	next("Ask your educator to teach you Tracheostomy suctioning")
}
