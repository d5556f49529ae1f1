package office_test

import (
	"slices"
	"strings"
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

// Common practice, no source, here and below: who keeps a template, and that no child's
// plan follows it.
func TestATemplateOfOnesOwn(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	seen := func() office.TemplateView { return must(w.Office.PlanTemplate(t.Context(), w.Coordinator))(t) }
	if v := seen(); v.Own || len(v.Lines) != 14 || len(v.Skills) < 12 {
		t.Errorf("at first: %+v", v)
	}
	early := w.Client("7K", "Tam")
	wantNone(t, w.Office.StartPlan(t.Context(), w.Coordinator, early))
	form := office.TemplateLineForm{CriterionForm: office.CriterionForm{ID: "01950000-0000-7000-8000-0000000000aa", Kind: "equipment home", Title: "The car is ready", Items: []string{"seat", "", "charger"},
		Plan: &office.PlanForm{Spanish: "El coche está listo", ItemsSpanish: []string{"silla", "", "cargador"}, Says: "coordinator", By: "2020-01-01"}}, Source: "our own list"}
	_, err := w.Office.AddTemplateLine(t.Context(), w.Coordinator, form)
	wantRefusal(t, err, fault.Refused, "standard template")
	wantRefusal(t, w.Office.DropTemplate(t.Context(), w.Coordinator), fault.Refused, "already")
	wantRefusal(t, w.Office.OwnTemplate(t.Context(), w.Nurse("Nan Orme")), fault.Forbidden, "template")
	wantNone(t, w.Office.OwnTemplate(t.Context(), w.Coordinator))
	wantRefusal(t, w.Office.OwnTemplate(t.Context(), w.Admin), fault.Conflict, "already")
	id := must(w.Office.AddTemplateLine(t.Context(), w.Coordinator, form))(t)
	if again := must(w.Office.AddTemplateLine(t.Context(), w.Coordinator, form))(t); again != id {
		t.Error("sent twice it is another line")
	}
	v := seen()
	last := v.Lines[len(v.Lines)-1]
	if !v.Own || len(v.Lines) != 15 || last.ID != id || last.Spanish != "El coche está listo" || last.Says != assessment.SaidByCoordinator || last.Source != "our own list" ||
		!slices.Equal(last.Items, []string{"seat", "charger"}) || !slices.Equal(last.ItemsSpanish, []string{"silla", "cargador"}) || !last.By.IsZero() {
		t.Errorf("the new line: %+v", last)
	}
	later := w.Client("8M", "Ai")
	wantNone(t, w.Office.StartPlan(t.Context(), w.Coordinator, later))
	if a, b := readiness(t, w, early), readiness(t, w, later); len(a.Lines) != 14 || len(b.Lines) != 15 || b.Lines[14].Criterion.Item("seat").Spanish != "silla" || b.Lines[14].Criterion.Source != "our own list" {
		t.Errorf("the plan of before has %d lines, that of after %d", len(a.Lines), len(b.Lines))
	}
	form.Title = "The car and the lift are ready"
	wantNone(t, w.Office.EditTemplateLine(t.Context(), w.Coordinator, id, form))
	wantNone(t, w.Office.RemoveTemplateLine(t.Context(), w.Coordinator, id))
	wantRefusal(t, w.Office.RemoveTemplateLine(t.Context(), w.Coordinator, id), fault.NotFound, "no such record")
	if b := readiness(t, w, later); len(b.Lines) != 15 || b.Lines[14].Criterion.Title != "The car is ready" {
		t.Error("a child's plan followed the template")
	}
	wantNone(t, w.Office.DropTemplate(t.Context(), w.Coordinator))
	if v := seen(); v.Own || len(v.Lines) != 14 {
		t.Errorf("back to the standard one: %+v", v)
	}
}

func TestTheLastLineOfATemplateStays(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	wantNone(t, w.Office.OwnTemplate(t.Context(), w.Coordinator))
	lines := must(w.Office.PlanTemplate(t.Context(), w.Coordinator))(t).Lines
	for i, l := range lines {
		err := w.Office.RemoveTemplateLine(t.Context(), w.Educators[0], l.ID)
		if i == len(lines)-1 {
			wantRefusal(t, err, fault.Refused, "last line")
		} else {
			wantNone(t, err)
		}
	}
}

// What only a clinician may say, nobody else may turn into something that they may say,
// take off or waive.
func TestWhoMaySayALine(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	child := w.Client("7K", "Tam")
	wantNone(t, w.Office.StartPlan(t.Context(), w.Coordinator, child))
	lines := readiness(t, w, child).Lines
	stable := lines[slices.IndexFunc(lines, func(l assessment.Line) bool { return strings.HasPrefix(l.Criterion.Title, "The child is stable") })].Criterion
	say := func(by assessment.Actor, c assessment.CriterionID) error {
		return w.Office.AddEvidence(t.Context(), by, office.EvidenceForm{Criterion: c, Word: "met"})
	}
	wantRefusal(t, say(w.Coordinator, stable.ID), fault.Refused, "only a licensed clinician may say this")
	wantRefusal(t, w.Office.RemoveCriterion(t.Context(), w.Coordinator, stable.ID), fault.Refused, "a licensed clinician only")
	edit := func(by assessment.Actor, title string, plan *office.PlanForm) error {
		return w.Office.EditCriterion(t.Context(), by, stable.ID, office.CriterionForm{Title: title, Plan: plan})
	}
	wantRefusal(t, edit(w.Coordinator, stable.Title, &office.PlanForm{}), fault.Refused, "a licensed clinician only")
	wantRefusal(t, edit(w.Coordinator, "The child is well", nil), fault.Refused, "a licensed clinician only")
	wantAtField(t, edit(w.Educators[0], stable.Title, &office.PlanForm{Says: "somebody"}), "says", "Choose who")
	wantNone(t, edit(w.Coordinator, stable.Title, &office.PlanForm{Says: "clinician", Spanish: "Está estable", By: "2026-02-01", Responsible: "Dr Holm"}))
	kept := readiness(t, w, child).Lines[6]
	if c := kept.Criterion; c.Spanish != "Está estable" || c.By.String() != "2026-02-01" || kept.Left[0].Whose().String() != "Dr Holm" || c.Says != assessment.SaidByClinician {
		t.Errorf("what is planned for it: %+v", kept)
	}
	wantNone(t, edit(w.Coordinator, stable.Title, nil))
	if c := readiness(t, w, child).Lines[6].Criterion; c.Spanish != "Está estable" || c.Says != assessment.SaidByClinician || c.Responsible != "Dr Holm" {
		t.Errorf("a form that says nothing of it changed it: %+v", c)
	}
	wantNone(t, say(w.Educators[0], stable.ID))
	add := func(plan office.PlanForm) assessment.CriterionID {
		return must(w.Office.AddCriterion(t.Context(), w.Coordinator, child, office.CriterionForm{Kind: "attested", Title: "Said", Plan: &plan}))(t)
	}
	wantRefusal(t, say(w.Educators[0], add(office.PlanForm{Says: "coordinator"})), fault.Refused, "only a coordinator may say this")
	wantRefusal(t, say(w.Coordinator, add(office.PlanForm{Says: "educator"})), fault.Refused, "only an educator may say this")
	rare := add(office.PlanForm{Licence: "MD"})
	wantRefusal(t, say(w.Educators[0], rare), fault.Refused, "with the licence MD")
	wantRefusal(t, w.Office.WaiveCriterion(t.Context(), w.Educators[0], rare, "", "Not needed."), fault.Refused, "with the licence MD")

	wantNone(t, w.Office.OwnTemplate(t.Context(), w.Coordinator))
	line := must(w.Office.PlanTemplate(t.Context(), w.Coordinator))(t).Lines[6]
	loose := office.TemplateLineForm{CriterionForm: office.CriterionForm{Title: line.Title, Plan: &office.PlanForm{}}}
	wantRefusal(t, w.Office.EditTemplateLine(t.Context(), w.Admin, line.ID, loose), fault.Refused, "a licensed clinician only")
	wantRefusal(t, w.Office.RemoveTemplateLine(t.Context(), w.Coordinator, line.ID), fault.Refused, "a licensed clinician only")
	wantNone(t, w.Office.EditTemplateLine(t.Context(), w.Educators[0], line.ID, loose))
}

// The issue asks that a target day in the past is refused.
func TestDaysOfGoingHome(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	child := w.Client("7K", "Tam")
	wantNone(t, w.Office.StartPlan(t.Context(), w.Coordinator, child))
	set := func(meeting, home string) error {
		w.Pass(time.Second)
		return w.Office.SetPlanDays(t.Context(), w.Coordinator, child, office.PlanDaysForm{Meeting: meeting, Home: home})
	}
	wantAtField(t, set("2026-01-04", ""), "meeting", "past")
	wantAtField(t, set("", "2026-01-04"), "home", "past")
	wantAtField(t, set("2026-02-04", "2026-02-03"), "home", "meeting comes before")
	wantAtField(t, set("soon", ""), "meeting", "")
	wantNone(t, set("", "2026-02-03"))
	if v := readiness(t, w, child); v.Days.By().String() != "2026-02-03" || v.Lines[0].Left[0].By != v.Days.Home {
		t.Errorf("going home: %+v", v.Days)
	}
	wantNone(t, set("2026-02-01", "2026-02-03"))
	w.Day("2026-02-02")
	wantNone(t, set("2026-02-01", "2026-02-05")) // the meeting was
	v := readiness(t, w, child)
	if v.Days.Meeting.String() != "2026-02-01" || v.Days.Home.String() != "2026-02-05" || !v.Lines[0].Left[0].Late(v.On) {
		t.Errorf("after the meeting: %+v", v.Days)
	}
	wantNone(t, set("", ""))
	if v := readiness(t, w, child); !v.Days.By().IsZero() {
		t.Errorf("none is set any more: %+v", v.Days)
	}
	wantRefusal(t, w.Office.SetPlanDays(t.Context(), w.Surveyor("Sue Vey"), child, office.PlanDaysForm{}), fault.Forbidden, "readiness plan")
}

// A line becomes a clinician's while somebody else changes, ticks or takes it off: they
// are asked by what the line is then, not by what it was when they began (rule of this house).
func TestALineThatBecomesACliniciansMeanwhile(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	child := w.Client("7K", "Tam")
	wantNone(t, w.Office.StartPlan(t.Context(), w.Coordinator, child))
	holder, watcher := asOwner(t, w), asOwner(t, w)
	for what, do := range map[string]func(assessment.CriterionID) error{
		"changed": func(id assessment.CriterionID) error {
			return w.Office.EditCriterion(t.Context(), w.Coordinator, id, office.CriterionForm{Title: "Something easy", Plan: &office.PlanForm{}})
		},
		"ticked": func(id assessment.CriterionID) error {
			return w.Office.AddEvidence(t.Context(), w.Coordinator, office.EvidenceForm{Criterion: id, Word: "met"})
		},
		"taken off": func(id assessment.CriterionID) error { return w.Office.RemoveCriterion(t.Context(), w.Coordinator, id) },
	} {
		id := must(w.Office.AddCriterion(t.Context(), w.Coordinator, child, office.CriterionForm{Kind: "attested", Title: "The home is safe", Plan: &office.PlanForm{}}))(t)
		tx := must(holder.Begin(t.Context()))(t)
		must(tx.Exec(t.Context(), `select from client where id = $1 for no key update`, child))(t)
		must(tx.Exec(t.Context(), `update criterion set says = 'clinician' where id = $1`, id))(t)
		done := make(chan error, 1)
		go func() { done <- do(id) }()
		waiters(t, watcher, 1)
		wantNone(t, tx.Commit(t.Context()))
		if err := <-done; fault.KindOf(err) != fault.Refused {
			t.Errorf("%s: %v", what, err)
		}
	}
}
