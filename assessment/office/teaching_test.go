package office_test

import (
	"testing"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

// taught is a session of the first educator.
func taught(w *ward.Ward, on, minutes string, skills ...string) office.TeachingForm {
	return office.TeachingForm{HeldOn: on, Minutes: minutes, Trainer: w.Educators[0].Person, Skills: skills}
}

var shown = assessment.TaughtHow{Shown: true, Explained: true}

// A session says of each who was taught what a history already knows as teaching: they are
// learning, and nothing more. Corrected, it is as if they had not been taught, from that day
// on (common practice, no source).
func TestTeachingMakesALearnerAndACorrectionUnmakesOne(t *testing.T) {
	t.Parallel()
	w, mira, nan := learner(t)
	edda, rolf := w.Educators[0], w.Educators[1]
	kit := w.Family("Kit Ames", mira)
	form := taught(w, "2026-01-30", "45", "suction", "bagging")
	form.Client = mira
	form.Learners = []office.TaughtForm{{Person: nan.Person, TaughtHow: shown}, {Person: kit.Person, TaughtHow: assessment.TaughtHow{Practised: true}}}
	form.ID = ward.NewID(w.Now())
	id := must(w.Office.LogTeaching(t.Context(), edda, form))(t)
	if again := must(w.Office.LogTeaching(t.Context(), edda, form))(t); again != id {
		t.Errorf("sent twice: %s and %s", id, again)
	}
	for _, who := range []assessment.Actor{nan, kit} {
		for skill, client := range map[string]assessment.ClientID{"suction": mira, "bagging": ""} {
			if got := word(t, w, who, skill, client); got != assessment.Learning {
				t.Errorf("%s is %s in %s", who.Name, got, skill)
			}
		}
	}
	if l := planOf(t, w, edda, nan).Lines[0]; l.Stage() != assessment.Taught {
		t.Errorf("%+v", l)
	}
	wantRefusal(t, must2(w.Office.CorrectTeaching(t.Context(), rolf, office.TeachingCorrection{TeachingForm: form, Of: id, Proof: ward.Proof})), fault.Invalid, "")
	form.ID, form.Learners = ward.NewID(w.Now().Add(1)), form.Learners[:1]
	form.Skills = []string{"suction"}
	fix := office.TeachingCorrection{TeachingForm: form, Of: id, Reason: "Kit was not there, and bags were not touched.", Proof: ward.Proof}
	wantRefusal(t, must2(w.Office.CorrectTeaching(t.Context(), w.Coordinator, fix)), fault.Forbidden, "correct a record")
	must(w.Office.CorrectTeaching(t.Context(), rolf, fix))(t)
	wantRefusal(t, must2(w.Office.CorrectTeaching(t.Context(), rolf, fix)), fault.Conflict, "has been corrected already")
	if got := word(t, w, kit, "suction", mira); got != assessment.NotStarted {
		t.Errorf("Kit is %s", got)
	}
	if got := word(t, w, nan, "suction", mira); got != assessment.Learning {
		t.Errorf("Nan is %s", got)
	}
	if got := word(t, w, nan, "bagging", ""); got != assessment.NotStarted {
		t.Errorf("Nan is %s in bagging", got)
	}
	v := planOf(t, w, edda, nan)
	if len(v.Sessions) != 2 || v.Sessions[1].Corrected == "" && v.Sessions[0].Corrected == "" {
		t.Errorf("%+v", v.Sessions)
	}
	indexIsRight(t, w)
}

// must2 is the error of an answer.
func must2[T any](_ T, err error) error { return err }

func TestTeachingThatCannotBe(t *testing.T) {
	t.Parallel()
	w, _, nan := learner(t)
	edda := w.Educators[0]
	good := taught(w, "2026-01-30", "45", "bagging")
	good.Learners = []office.TaughtForm{{Person: nan.Person, TaughtHow: shown}}
	try := func(field, says string, change func(*office.TeachingForm)) {
		t.Helper()
		f := good
		change(&f)
		_, err := w.Office.LogTeaching(t.Context(), edda, f)
		wantAtField(t, err, field, says)
	}
	try("held_on", "This day is to come", func(f *office.TeachingForm) { f.HeldOn = "2026-02-02" })
	for _, minutes := range []string{"0", "1441", "-5", "", "1.5", "an hour"} {
		try("minutes", "from 1 to 1440", func(f *office.TeachingForm) { f.Minutes = minutes })
	}
	try("trainer", "Nobody teaches themselves", func(f *office.TeachingForm) {
		f.Trainer, f.Learners = w.Educators[1].Person, []office.TaughtForm{{Person: w.Educators[1].Person, TaughtHow: shown}}
	})
	try("learners", "somebody else", func(f *office.TeachingForm) {
		f.Learners = []office.TaughtForm{{Person: edda.Person, TaughtHow: shown}}
	})
	try("learners", "what happened", func(f *office.TeachingForm) { f.Learners = []office.TaughtForm{{Person: nan.Person}} })
	try("learners", "twice", func(f *office.TeachingForm) { f.Learners = append(f.Learners, f.Learners[0]) })
	try("learners", "who was taught", func(f *office.TeachingForm) { f.Learners = nil })
	try("skills", "at least one", func(f *office.TeachingForm) { f.Skills = nil })
	try("skills", "from the list", func(f *office.TeachingForm) { f.Skills = []string{"juggling"} })
	try("trainer", "Say who taught", func(f *office.TeachingForm) { f.Trainer = "" })
	try("trainer", "is no educator", func(f *office.TeachingForm) { f.Trainer = w.Coordinator.Person })
}

// Minutes count toward an aide's in-service hours only where a registered nurse taught (42
// CFR 484.80(d), from memory), and no more once the session is corrected.
func TestTeachingCountsTowardInServiceHours(t *testing.T) {
	t.Parallel()
	w, _, _ := quick(t)
	edda, rolf := w.Educators[0], w.Educators[1]
	ada := w.Aide("Ada Brim")
	wantNone(t, w.Office.SetPractice(t.Context(), w.Admin, office.PracticeForm{IncidentWithdraws: string(assessment.SkillAlone), InService: true, InServiceHours: "12", InServiceYear: string(assessment.CalendarYear)}))
	wantNone(t, w.Office.SetHired(t.Context(), w.Admin, ada.Person, "2025-06-01"))
	minutes := func() int {
		return must(w.Office.InService(t.Context(), w.Admin, ada.Person))(t).Lines[0].Minutes
	}
	session := taught(w, "2026-01-30", "90", "bagging")
	session.Learners = []office.TaughtForm{{Person: ada.Person, TaughtHow: shown}}
	must(w.Office.LogTeaching(t.Context(), edda, session))(t)
	if got := minutes(); got != 0 {
		t.Errorf("%d minutes of a session that does not count", got)
	}
	session.InService = true
	id := must(w.Office.LogTeaching(t.Context(), edda, session))(t)
	if v := must(w.Office.InService(t.Context(), w.Admin, ada.Person))(t); v.Lines[0].Minutes != 90 || len(v.Sessions) != 1 || !v.Sessions[0].Taught {
		t.Errorf("%+v", v)
	}
	session.Minutes = "30"
	must(w.Office.CorrectTeaching(t.Context(), rolf, office.TeachingCorrection{TeachingForm: session, Of: id, Reason: "It was shorter.", Proof: ward.Proof}))(t)
	if got := minutes(); got != 30 {
		t.Errorf("%d minutes; the session of 90 was corrected to 30", got)
	}
	for _, l := range must(w.Office.Qualifications(t.Context(), w.Admin, edda.Person))(t).Licences {
		wantNone(t, w.Office.TakeBack(t.Context(), w.Admin, office.TakeBackForm{Kind: "licence", ID: l.ID, Reason: "Another's.", Proof: ward.Proof}))
	}
	_, err := w.Office.LogTeaching(t.Context(), edda, session)
	wantAtField(t, err, "in_service", "Only what a registered nurse teaches counts")
}
