package office_test

import (
	"slices"
	"strings"
	"testing"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

func TestRequirements(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	child, other := w.Client("7K", "Tam"), w.Client("8M", "Ai")
	set := func(f office.RequirementForm) (office.RequirementView, error) {
		return w.Office.SetRequirement(t.Context(), w.Coordinator, f)
	}
	r := must(set(office.RequirementForm{Skill: "suction", Kind: "nurse", Client: child, EquipmentKind: "Humidifier", From: "2026-01-05"}))(t)
	if r.Scope != assessment.ClientSpecific || r.ClientCode != "7K" || r.EquipmentKind != "humidifier" || r.Title == "" || r.Over {
		t.Errorf("set: %+v", r)
	}
	_, err := set(office.RequirementForm{Skill: "suction", Kind: "nurse", Client: child, EquipmentKind: "humidifier", From: "2026-01-05"})
	wantRefusal(t, err, fault.Conflict, "required already")
	must(set(office.RequirementForm{Skill: "bagging", From: "2026-01-05"}))(t)
	must(set(office.RequirementForm{Skill: "suction", Client: other, From: "2026-01-05"}))(t)
	for _, c := range []struct {
		field string
		form  office.RequirementForm
	}{
		{"skill", office.RequirementForm{From: "2026-01-05"}},
		{"skill", office.RequirementForm{Skill: "juggling", From: "2026-01-05"}},
		{"kind", office.RequirementForm{Skill: "suction", Kind: "cousin", From: "2026-01-05"}},
		{"from", office.RequirementForm{Skill: "suction"}},
		{"through", office.RequirementForm{Skill: "suction", From: "2026-01-05", Through: "2026-01-04"}},
		{"equipment_kind", office.RequirementForm{Skill: "suction", From: "2026-01-05", EquipmentKind: "a=b"}},
	} {
		_, err := set(c.form)
		wantAtField(t, err, c.field, "")
	}
	_, err = w.Office.SetRequirement(t.Context(), w.Educators[0], office.RequirementForm{Skill: "suction", From: "2026-01-05"})
	wantRefusal(t, err, fault.Forbidden, "edit requirements")

	wantAtField(t, w.Office.EndRequirement(t.Context(), w.Admin, r.ID, "2026-01-04"), "through", "before the first")
	wantAtField(t, w.Office.EndRequirement(t.Context(), w.Admin, r.ID, ""), "through", "Give the day")
	wantNone(t, w.Office.EndRequirement(t.Context(), w.Admin, r.ID, "2026-01-05"))
	w.Day("2026-01-06")
	listed := must(w.Office.Requirements(t.Context(), w.Coordinator))(t)
	if len(listed) != 3 || slices.IndexFunc(listed, func(v office.RequirementView) bool { return v.ID == r.ID && v.Over }) < 0 {
		t.Errorf("listed: %+v", listed)
	}
	nurse := w.Nurse("Nan Orme")
	w.Join(nurse, child)
	if own := must(w.Office.Requirements(t.Context(), nurse))(t); len(own) != 2 {
		t.Errorf("a caregiver of one child sees: %+v", own)
	}
}

// required lists what the office says somebody must hold on a day: skills, with
// the child's code where it is held per child.
func required(t *testing.T, w *ward.Ward, who assessment.Actor, on civil.Date) string {
	t.Helper()
	var all []string
	for _, s := range must(w.Office.StandingsOf(t.Context(), w.Admin, who.Person, on))(t).Rows {
		if s.Required {
			all = append(all, strings.TrimSuffix(s.Skill.Code+":"+s.Client.Code, ":"))
		}
	}
	slices.Sort(all)
	return strings.Join(all, " ")
}

// Who must hold what follows the team, the kind, the child and its equipment, day
// by day.
func TestWhoNeedsWhat(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	child, other := w.Client("7K", "Tam"), w.Client("8M", "Ai")
	nurse, aide := w.Nurse("Nan Orme"), w.Aide("Abe Wills")
	for _, f := range []office.RequirementForm{
		{Skill: "bagging", From: "2026-01-05"},
		{Skill: "suction", Kind: "nurse", From: "2026-01-10"},
		{Skill: "tube-change", Client: child, From: "2026-01-05", Through: "2026-01-20"},
		{Skill: "humidifier", EquipmentKind: "humidifier", From: "2026-01-05"},
	} {
		must(w.Office.SetRequirement(t.Context(), w.Coordinator, f))(t)
	}
	join := func(who assessment.Actor, child assessment.ClientID, from, through string) {
		must(w.Office.AddToTeam(t.Context(), w.Coordinator, child, office.TeamForm{Person: who.Person, From: from, Through: through}))(t)
	}
	join(nurse, child, "2026-01-06", "2026-01-25")
	join(nurse, other, "2026-01-12", "")
	join(aide, other, "2026-01-06", "")
	must(w.Office.SetEquipment(t.Context(), w.Coordinator, other, office.EquipmentForm{Kind: "humidifier", From: "2026-01-15"}))(t)
	must(w.Office.ClientLeaves(t.Context(), w.Coordinator, other, civil.MustParse("2026-02-01")))(t)
	for _, c := range []struct {
		who  assessment.Actor
		on   string
		want string
	}{
		{nurse, "2026-01-05", ""}, // not on a team yet
		{nurse, "2026-01-06", "bagging humidifier:7K tube-change:7K"},
		{nurse, "2026-01-10", "bagging humidifier:7K suction:7K tube-change:7K"},
		{nurse, "2026-01-12", "bagging humidifier:7K humidifier:8M suction:7K suction:8M tube-change:7K"},
		{nurse, "2026-01-15", "bagging humidifier:7K suction:7K suction:8M tube-change:7K"},
		{nurse, "2026-01-21", "bagging humidifier:7K suction:7K suction:8M"},
		{nurse, "2026-01-26", "bagging suction:8M"},
		{nurse, "2026-02-01", ""}, // the child has left
		{aide, "2026-01-12", "bagging humidifier:8M"},
	} {
		if got := required(t, w, c.who, civil.MustParse(c.on)); got != c.want {
			t.Errorf("%s on %s: got %q, want %q", c.who.Name, c.on, got, c.want)
		}
	}
	wantNone(t, w.Office.PersonLeaves(t.Context(), w.Coordinator, aide.Person, civil.MustParse("2026-01-13")))
	if got := required(t, w, aide, civil.MustParse("2026-01-13")); got != "" {
		t.Errorf("who has left must hold %q", got)
	}
}
