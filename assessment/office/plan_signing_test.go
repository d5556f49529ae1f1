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

// A signature under a plan: by a licensed clinician, of what they read, only where all is
// in place or waived by name, and standing until anything changes (common practice, no
// source; 21 CFR 11.50 and 11.70 for what a signature says and is bound to).
func TestSigningAPlan(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	child := w.Client("7K", "Tam")
	mother := w.Family("Rosa Quintero", child)
	home := must(w.Office.AddCriterion(t.Context(), w.Coordinator, child, office.CriterionForm{Kind: "attested", Title: "The home is safe"}))(t)
	must(w.Office.AddCriterion(t.Context(), w.Coordinator, child, office.CriterionForm{Kind: "family current", Title: "One", Skills: []string{"bagging"}, Count: 1}))(t)
	sign := func(by assessment.Actor, version string) error {
		return w.Office.SignPlan(t.Context(), by, office.PlanSignForm{ID: "01950000-0000-7000-8000-0000000000cc", Client: child, Version: version, Proof: ward.Proof})
	}
	say := func(word string) {
		wantNone(t, w.Office.AddEvidence(t.Context(), w.Coordinator, office.EvidenceForm{Criterion: home, Word: word}))
		w.Pass(2 * time.Minute)
	}
	wantRefusal(t, sign(w.Educators[0], readiness(t, w, child).Version), fault.Refused, "2 of 2 things are left")
	say("met")
	unread := readiness(t, w, child).Version
	w.Award(mother, "bagging", child)
	v := readiness(t, w, child)
	if !v.Ready || v.Signed != nil {
		t.Fatalf("all is in place: %+v", v)
	}
	if says := v.Finding().String(); says != "Still to be signed: everything on the list is in place" {
		t.Errorf("before anybody signed it says %q", says)
	}
	wantRefusal(t, sign(w.Educators[0], unread), fault.Conflict, "has changed since you read it")
	wantRefusal(t, sign(w.Coordinator, v.Version), fault.Forbidden, "sign a plan as ready")
	wantRefusal(t, sign(mother, v.Version), fault.Forbidden, "sign a plan as ready")
	wantNone(t, sign(w.Educators[0], v.Version))
	wantNone(t, sign(w.Educators[0], v.Version)) // sent twice
	wantRefusal(t, sign(w.Educators[1], v.Version), fault.Conflict, "another signature")
	wantAtField(t, w.Office.SignPlan(t.Context(), w.Educators[0], office.PlanSignForm{Client: child, Version: v.Version, Proof: office.ByPassword("wrong password 1")}), "password", "")
	stands := func(want bool, why string) {
		t.Helper()
		v := must(w.Office.Readiness(t.Context(), mother, child, time.Time{}))(t)
		if v.Signed == nil || v.Signed.By != "Edda Lorne" || v.Signed.Licence == "" || v.Signed.Meaning != office.PlanMeaning || v.Signed.Stands != want {
			t.Errorf("%s: %+v", why, v.Signed)
		}
		called, way := strings.HasPrefix(v.Finding().String(), "Ready"), must(w.Office.FamilyDesk(t.Context(), mother))(t).Ways[0]
		if called != want || way.Signed != want || way.Ready != v.Ready {
			t.Errorf("%s: it says %q, and to the mother %+v", why, v.Finding(), way)
		}
		if left := must(w.Office.CoordinatorDesk(t.Context(), w.Coordinator))(t).GoingHome; (left == 0) != want {
			t.Errorf("%s: the coordinator reads that %d children are on the way", why, left)
		}
	}
	stands(true, "signed")
	wantNone(t, w.Office.SetPlanDays(t.Context(), w.Coordinator, child, office.PlanDaysForm{Home: "2026-03-01"}))
	stands(true, "a day was set, and nothing that the plan rests on")
	say("not met")
	stands(false, "not ready any more")
	if readiness(t, w, child).Ready {
		t.Error("a signature made it ready")
	}
	say("met")
	stands(false, "ready again, but by other words than were read")
	wantNone(t, w.Office.SignPlan(t.Context(), w.Educators[0], office.PlanSignForm{Client: child, Version: readiness(t, w, child).Version, Proof: ward.Proof}))
	stands(true, "signed anew")
	w.Family("Luis Quintero", child)
	stands(false, "somebody came to the family")
}

// Whoever has no current licence on file signs no plan, whatever their role.
func TestAPlanTakesALicence(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	child := w.Client("7K", "Tam")
	must(w.Office.AddCriterion(t.Context(), w.Coordinator, child, office.CriterionForm{Kind: "attested", Title: "Home"}))(t)
	una := must(w.Office.AddPerson(t.Context(), w.Admin, office.PersonForm{Name: "Una Blake", Email: "una@ward.example", Roles: []string{"educator"}}))(t)
	unlicensed := assessment.Actor{Agency: w.Admin.Agency, Person: una.ID, Name: una.Name, Roles: una.Roles}
	wantRefusal(t, w.Office.SignPlan(t.Context(), unlicensed, office.PlanSignForm{Client: child, Proof: ward.Proof}), fault.Refused, "no current licence")
}
