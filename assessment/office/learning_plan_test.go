package office_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

// learner is a nurse who must hold changing the tube, which asks for five skills first, and
// looks after Mira.
func learner(t *testing.T) (*ward.Ward, assessment.ClientID, assessment.Actor) {
	t.Helper()
	w, mira, nan := quick(t, "bagging")
	w.Join(nan, mira)
	w.Require("tube-change", assessment.Nurse)
	return w, mira, nan
}

func planOf(t *testing.T, w *ward.Ward, by, who assessment.Actor) office.LearningPlan {
	t.Helper()
	return must(w.Office.LearningPlan(t.Context(), by, who.Person))(t)
}

func plannedCodes(v office.LearningPlan) []string {
	var all []string
	for _, l := range v.Lines {
		all = append(all, l.Skill.Code)
	}
	return all
}

// What comes first is learnt though nobody requires it, in an order in which each can be
// shown (the catalogue's prerequisites); what is held leaves the plan, which is worked out
// each time (common practice, no source).
func TestALearningPlanIsWorkedOutFromWhatIsRequired(t *testing.T) {
	t.Parallel()
	w, mira, nan := learner(t)
	v := planOf(t, w, w.Coordinator, nan)
	order := plannedCodes(v)
	if len(order) != 6 || order[0] != "bagging" || order[5] != "tube-change" {
		t.Errorf("the order is %v", order)
	}
	last := v.Lines[5]
	if !last.Required || v.Lines[0].Required || last.Client.Code != "7K" || len(last.First) != 5 || v.HasTarget() {
		t.Errorf("%+v", last)
	}
	w.Award(nan, "bagging", mira)
	v = planOf(t, w, w.Coordinator, nan)
	if got := plannedCodes(v); slices.Contains(got, "bagging") || len(got) != 5 {
		t.Errorf("what is held is still to be learnt: %v", got)
	}
	w.Require("bagging", assessment.Nurse)
	if v = planOf(t, w, w.Coordinator, nan); len(v.Held) != 1 || v.Held[0].Skill.Code != "bagging" {
		t.Errorf("held: %+v", v.Held)
	}
}

func TestATargetAndItsDays(t *testing.T) {
	t.Parallel()
	w, mira, nan := learner(t)
	edda := w.Educators[0]
	set := func(on string) office.LearningPlan {
		w.Pass(time.Second)
		wantNone(t, w.Office.SetLearningTarget(t.Context(), w.Coordinator, office.LearningTargetForm{Person: nan.Person, Goal: "first shift", On: on}))
		return planOf(t, w, w.Coordinator, nan)
	}
	v := set("2026-04-02") // 60 days from 1 February
	if v.Dates.Short != 0 || v.Dates.Past || v.Lines[5].By != civil.MustParse("2026-04-02") || v.Lines[0].By.Before(civil.MustParse("2026-02-03")) {
		t.Errorf("%+v", v.Dates)
	}
	if v = set("2026-01-15"); !v.Dates.Past || !v.Lines[0].Late {
		t.Errorf("a target in the past is not told: %+v", v.Dates)
	}
	if v = set("2026-02-05"); v.Dates.Short != v.Dates.Needed-4 || v.Dates.Needed == 0 {
		t.Errorf("%d days are planned and 4 are left; short by %d", v.Dates.Needed, v.Dates.Short)
	}
	needed := v.Dates.Needed
	wantNone(t, w.Office.SetLearningDays(t.Context(), edda, "tube-change", "9"))
	if v = set("2026-04-02"); v.Dates.Needed != needed+4 {
		t.Errorf("%d days, of before %d and four more", v.Dates.Needed, needed)
	}
	for _, days := range []string{"0", "366", "two", "", "-1", "1.5"} {
		wantAtField(t, w.Office.SetLearningDays(t.Context(), edda, "tube-change", days), "days", "from 1 to 365")
	}
	wantNone(t, w.Office.ChooseLearning(t.Context(), w.Coordinator, office.LearningChoiceForm{Person: nan.Person, Skill: "suction", Client: mira, Teacher: edda.Person, By: "2026-02-20"}))
	v = planOf(t, w, w.Coordinator, nan)
	at := slices.IndexFunc(v.Lines, func(l office.LearningLine) bool { return l.Skill.Code == "suction" })
	if l := v.Lines[at]; l.By != civil.MustParse("2026-02-20") || !l.Chosen || l.Teacher.Name != edda.Name {
		t.Errorf("%+v", l)
	}
	if first := v.Lines[0]; first.By.After(civil.MustParse("2026-02-17")) {
		t.Errorf("bagging comes before suctioning, which is chosen for the 20th and takes 3 days, and is planned for %s", first.By)
	}
	wantAtField(t, w.Office.ChooseLearning(t.Context(), w.Coordinator, office.LearningChoiceForm{Person: nan.Person, Skill: "bagging", Teacher: nan.Person}), "teacher", "Nobody teaches themselves")
	wantAtField(t, w.Office.ChooseLearning(t.Context(), w.Coordinator, office.LearningChoiceForm{Person: nan.Person, Skill: "bagging", Teacher: w.Coordinator.Person}), "teacher", "is no educator here")
	wantAtField(t, w.Office.SetLearningTarget(t.Context(), w.Coordinator, office.LearningTargetForm{Person: nan.Person, Goal: "fame"}), "goal", "Choose what they learn toward")
	wantAtField(t, w.Office.SetLearningTarget(t.Context(), w.Coordinator, office.LearningTargetForm{Person: nan.Person, Goal: "other", On: "soon"}), "on", "")
}

// Caregivers read their own plan and nobody else's, and nothing of others who were taught
// beside them.
func TestOnesOwnPlanSaysNothingOfOthers(t *testing.T) {
	t.Parallel()
	w, mira, nan := learner(t)
	zoe := w.Client("9Z", "Zoe")
	kit := w.Family("Kit Ames", mira)
	ola := w.Family("Ola Venn", zoe)
	form := taught(w, "2026-01-30", "45", "suction")
	form.Client, form.Note = zoe, "Ola was tired."
	form.Learners = []office.TaughtForm{{Person: kit.Person, TaughtHow: assessment.TaughtHow{Shown: true}}, {Person: ola.Person, TaughtHow: assessment.TaughtHow{Explained: true, TaughtBack: true}}}
	must(w.Office.LogTeaching(t.Context(), w.Educators[0], form))(t)
	v := planOf(t, w, kit, kit)
	if len(v.Sessions) != 1 || v.Sessions[0].Others != 1 || strings.Contains(fmt.Sprintf("%+v", v), "Ola") || strings.Contains(fmt.Sprintf("%+v", v), "9Z") || strings.Contains(fmt.Sprintf("%+v", v), "tired") {
		t.Errorf("%+v", v.Sessions)
	}
	if staff := planOf(t, w, w.Coordinator, kit); len(staff.Sessions[0].Who) != 2 || staff.Sessions[0].Child.Code != "9Z" {
		t.Errorf("%+v", staff.Sessions)
	}
	_, err := w.Office.LearningPlan(t.Context(), kit, nan.Person)
	wantRefusal(t, err, fault.NotFound, "There is no such record")
	wantRefusal(t, w.Office.SetLearningTarget(t.Context(), kit, office.LearningTargetForm{Person: kit.Person, Goal: "other"}), fault.Forbidden, "keep learning plans")
}

// Of two choices of one instant the one that was written later is the newest, however often
// (RFC 9562, section 6.2).
func TestTheLaterOfTwoChoicesOfOneInstantIsTheNewest(t *testing.T) {
	t.Parallel()
	w, mira, nan := learner(t)
	on := w.Today()
	for i := range 12 {
		want := on.AddDays(30 + i)
		wantNone(t, w.Office.SetLearningTarget(t.Context(), w.Coordinator, office.LearningTargetForm{Person: nan.Person, Goal: "other", On: want.String()}))
		wantNone(t, w.Office.ChooseLearning(t.Context(), w.Coordinator, office.LearningChoiceForm{Person: nan.Person, Skill: "suction", Client: mira, By: want.AddDays(-9).String()}))
		v := planOf(t, w, w.Coordinator, nan)
		at := slices.IndexFunc(v.Lines, func(l office.LearningLine) bool { return l.Skill.Code == "suction" })
		if v.Dates.Target != want || v.Lines[at].By != want.AddDays(-9) {
			t.Errorf("after %s the target is %s, and suctioning is planned for %s", want, v.Dates.Target, v.Lines[at].By)
		}
	}
}
