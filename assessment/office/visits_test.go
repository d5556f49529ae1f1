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

// visiting is a ward with two children and renewals due in the summer.
type visiting struct {
	*ward.Ward
	mira, tam assessment.ClientID
	nan, ola  assessment.Actor
}

func newVisiting(t *testing.T, options ...ward.Option) visiting {
	w := ward.New(t, options...)
	for _, code := range []string{"humidifier", "circuit-test"} {
		newRevision(t, w, code, policy("count: 1", "days: 1", "real: 0", "months: 6"), "")
		w.Require(code, assessment.Nurse)
	}
	v := visiting{Ward: w, mira: w.Client("7K", "Mira"), tam: w.Client("8K", "Tam")}
	v.nan, v.ola = w.Nurse("Nan Poe"), w.Nurse("Ola Kim")
	w.Join(v.nan, v.mira)
	w.Join(v.ola, v.tam)
	for _, code := range []string{"humidifier", "circuit-test"} {
		w.Award(v.nan, code, v.mira)
		w.Award(v.ola, code, v.tam)
	}
	return v
}

func (v visiting) visits(t *testing.T, weeks int) office.VisitsView {
	t.Helper()
	return must(v.Office.Visits(t.Context(), v.Coordinator, office.VisitQuery{Weeks: weeks}))(t)
}

// dueBefore is a day some days before the first of what they hold ends.
func (v visiting) dueBefore(t *testing.T, days int) {
	t.Helper()
	first := v.Standing(v.nan, "humidifier", v.mira, civil.Date{}).Through
	v.Day(first.AddDays(-days).String())
}

func seen(visits []office.HomeVisitView) []office.DueVisit {
	var all []office.DueVisit
	for _, x := range visits {
		all = append(all, x.Sees...)
	}
	return all
}

// Every window on a ward, by the standing on each of its days: held through the last one
// and not on the next.
func TestVisitsMeetWhatTheFoldSaysIsDue(t *testing.T) {
	t.Parallel()
	v := newVisiting(t)
	v.dueBefore(t, 40)
	p := v.visits(t, 0)
	all := seen(p.Proposed)
	for _, u := range p.Unmet {
		all = append(all, u.DueVisit)
	}
	found := 0
	for _, who := range []struct {
		actor assessment.Actor
		child assessment.ClientID
	}{{v.nan, v.mira}, {v.ola, v.tam}} {
		for _, code := range []string{"humidifier", "circuit-test"} {
			i := slices.IndexFunc(all, func(d office.DueVisit) bool { return d.Person.ID == who.actor.Person && d.Skill.Code == code })
			lapses := false
			for d := p.Today; !d.After(p.Until); d = d.AddDays(1) {
				lapses = lapses || !v.Standing(who.actor, code, who.child, d).Word.Holds()
			}
			if lapses != (i >= 0) {
				t.Errorf("%s in %s lapses by %s: %t, planned %t", who.actor.Name, code, p.Until, lapses, i >= 0)
			}
			if i < 0 {
				continue
			}
			found++
			if d := all[i]; !v.Standing(who.actor, code, who.child, d.Through).Word.Holds() || v.Standing(who.actor, code, who.child, d.Through.AddDays(1)).Word.Holds() {
				t.Errorf("%s in %s is over after %s, the plan says", who.actor.Name, code, d.Through)
			}
		}
	}
	for _, x := range p.Proposed {
		for _, s := range x.Sees {
			if x.On.Before(s.Opens) || x.On.After(s.Through) || s.Person.ID == x.Educator.ID || x.On.Weekday()%6 == 0 {
				t.Errorf("on %s %s for %+v", x.On, x.Educator.Name, s)
			}
		}
	}
	if found != 4 || p.Renewals != 4 || p.Gaps != 0 || len(p.Unmet) != 0 || !p.Proven || len(p.Proposed) != 2 {
		t.Errorf("%d found; %d renewals, %d gaps, %d unmet, %d visits, proven %t", found, p.Renewals, p.Gaps, len(p.Unmet), len(p.Proposed), p.Proven)
	}
}

// Whoever is to make a visit has it on their first page for a week before, and nobody else has.
func TestOwnVisitsOnTheFirstPage(t *testing.T) {
	t.Parallel()
	v := newVisiting(t)
	v.dueBefore(t, 40)
	who := v.Educators[1]
	day := v.Today().AddDays(6)
	for day.Weekday()%6 == 0 {
		day = day.AddDays(-1)
	}
	planned := must(v.Office.PlanVisit(t.Context(), v.Coordinator, office.VisitForm{Client: v.mira, Educator: who.Person, On: day.String()}))(t)
	later := day.AddDays(7)
	must(v.Office.PlanVisit(t.Context(), v.Coordinator, office.VisitForm{Client: v.tam, Educator: who.Person, On: later.String()}))(t)
	own := must(v.Office.EducatorDesk(t.Context(), who))(t).Visits
	if len(own) != 1 || own[0].ID != planned.Visit.ID || own[0].On != day || own[0].Client.Code != "7K" {
		t.Errorf("their own: %+v", own)
	}
	if others := must(v.Office.EducatorDesk(t.Context(), v.Educators[0]))(t).Visits; len(others) != 0 {
		t.Errorf("somebody else has %+v", others)
	}
}

// What comes first is told where it is due as well, and is what is missing where nobody asks
// for it: then no visit helps, whatever waits for it in turn.
func TestWhatComesFirstAtAVisit(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	child := w.Client("7K", "Mira")
	nurse, aide := w.Nurse("Nan Poe"), w.Aide("Ola Kim")
	w.Join(nurse, child)
	w.Join(aide, child)
	for _, code := range []string{"bagging", "suction", "blocked-tube"} {
		w.Require(code, assessment.Nurse)
	}
	w.Require("suction", assessment.Aide) // and not what comes first
	w.Require("blocked-tube", assessment.Aide)
	holder := w.Nurse("Pia Voss") // of suctioning with this child, which comes before a general skill
	w.Join(holder, child)
	w.Award(holder, "bagging", child)
	w.Award(holder, "suction", child)
	p := must(w.Office.Visits(t.Context(), w.Coordinator, office.VisitQuery{}))(t)
	if i := slices.IndexFunc(seen(p.Proposed), func(d office.DueVisit) bool { return d.Person.ID == holder.Person }); i < 0 || seen(p.Proposed)[i].Before != "" || seen(p.Proposed)[i].Skill.Code != "blocked-tube" {
		t.Errorf("what comes first is held with the child: %+v", seen(p.Proposed))
	}
	before := map[string]string{}
	for _, s := range seen(p.Proposed) {
		if s.Person.ID == holder.Person {
			continue
		}
		if s.Person.ID != nurse.Person {
			t.Errorf("%s shows %s before what comes first", s.Person.Name, s.Skill.Code)
		}
		before[s.Skill.Code] = s.Before
	}
	if len(before) != 3 || before["bagging"] != "" || !strings.Contains(before["suction"], "Manual ventilation") || !strings.Contains(before["blocked-tube"], "suctioning") {
		t.Errorf("what comes first: %v", before)
	}
	checked(t, w, "bagging", "before it is shown")
	w.Pass(time.Minute)
	told := func() string {
		again := must(w.Office.Visits(t.Context(), w.Coordinator, office.VisitQuery{}))(t)
		i := slices.IndexFunc(seen(again.Proposed), func(d office.DueVisit) bool {
			return d.Person.ID == nurse.Person && d.Skill.Code == "bagging"
		})
		if i < 0 {
			t.Fatalf("a check that comes first takes a visit away: %+v", again.Proposed)
		}
		return seen(again.Proposed)[i].Before
	}
	if says := told(); says != "the knowledge check" {
		t.Errorf("before it comes %q", says)
	}
	takes(t, w, nurse, "bagging")
	w.Pass(time.Minute)
	if says := told(); says != "" {
		t.Errorf("the check is passed, and before it comes %q", says)
	}
	if len(p.Unmet) != 2 || !strings.Contains(p.Unmet[0].Why, "comes first") || !strings.Contains(p.Unmet[1].Why, "comes first") || p.Unmet[0].Person.ID != aide.Person {
		t.Errorf("what no visit meets: %+v", p.Unmet)
	}
}

// A plan that is kept is one: it is proposed no more, and nobody is current by it.
func TestKeepingAPlan(t *testing.T) {
	t.Parallel()
	v := newVisiting(t)
	v.dueBefore(t, 20)
	p := v.visits(t, 0)
	f := office.KeepVisitsForm{Version: p.Version, Visits: []string{p.Proposed[0].Key}}
	wantNone(t, v.Office.KeepVisits(t.Context(), v.Coordinator, f))
	wantRefusal(t, v.Office.KeepVisits(t.Context(), v.Coordinator, f), fault.Conflict, "has changed")
	q := v.visits(t, 0)
	if len(q.Kept) != 1 || q.Kept[0].Key != p.Proposed[0].Key || len(q.Proposed) != len(p.Proposed)-1 || q.Renewals != p.Renewals || fmt.Sprint(q.Kept[0].Sees) != fmt.Sprint(p.Proposed[0].Sees) {
		t.Errorf("kept %+v of %+v", q.Kept, p.Proposed)
	}
	wantNone(t, v.Office.KeepVisits(t.Context(), v.Coordinator, office.KeepVisitsForm{Version: q.Version}))
	q = v.visits(t, 0)
	if len(q.Kept) != 2 || len(q.Proposed) != 0 {
		t.Errorf("%d kept, %d proposed", len(q.Kept), len(q.Proposed))
	}
	end := v.Standing(v.nan, "humidifier", v.mira, civil.Date{}).Through
	if v.Standing(v.nan, "humidifier", v.mira, end.AddDays(1)).Word.Holds() {
		t.Error("a planned visit made somebody current")
	}
	wantRefusal(t, v.Office.KeepVisits(t.Context(), v.Educators[0], f), fault.Forbidden, "role")
	v.dueBefore(t, -1) // over
	over := q.Kept[0].ID
	wantRefusal(t, v.Office.CancelVisit(t.Context(), v.Coordinator, over), fault.Refused, "stays as it was planned")
}

func TestMovingAVisit(t *testing.T) {
	t.Parallel()
	v := newVisiting(t)
	v.dueBefore(t, 20)
	wantNone(t, v.Office.KeepVisits(t.Context(), v.Coordinator, office.KeepVisitsForm{Version: v.visits(t, 0).Version}))
	kept := v.visits(t, 0).Kept[0]
	last := kept.Sees[len(kept.Sees)-1].Through
	late := office.VisitMove{On: last.AddDays(7).String()}
	m := must(v.Office.VisitDesk(t.Context(), v.Coordinator, kept.ID, late))(t)
	if len(m.Breaks) != len(kept.Sees) {
		t.Errorf("a week after the last day it breaks %+v of %+v", m.Breaks, kept.Sees)
	}
	wantRefusal(t, v.Office.MoveVisit(t.Context(), v.Coordinator, kept.ID, late), fault.Conflict, "has changed") // without having read what it breaks
	other := v.Educators[0].Person
	if kept.Educator.ID == other {
		other = v.Educators[1].Person
	}
	next := office.VisitMove{On: kept.On.String(), Educator: other}
	m = must(v.Office.VisitDesk(t.Context(), v.Coordinator, kept.ID, next))(t)
	if len(m.Breaks)+len(m.Faults) != 0 {
		t.Errorf("another educator: %+v", m)
	}
	next.Version = m.Version
	wantNone(t, v.Office.MoveVisit(t.Context(), v.Coordinator, kept.ID, next))
	wantNone(t, v.Office.AddDaysOff(t.Context(), v.Coordinator, other, kept.On.String(), ""))
	q := v.visits(t, 0)
	i := slices.IndexFunc(q.Kept, func(x office.HomeVisitView) bool { return x.ID == kept.ID })
	if x := q.Kept[i]; x.Educator.ID != other || len(x.Faults) != 1 || len(x.Sees) != 0 {
		t.Errorf("on a day off: %+v", x)
	}
	m = must(v.Office.VisitDesk(t.Context(), v.Coordinator, kept.ID, office.VisitMove{}))(t)
	wantRefusal(t, v.Office.MoveVisit(t.Context(), v.Coordinator, kept.ID, office.VisitMove{Version: m.Version}), fault.Refused, "off on that day")
	wantAtField(t, one(v.Office.VisitDesk(t.Context(), v.Coordinator, kept.ID, office.VisitMove{On: v.Today().AddDays(-1).String()})), "on", "day is over")
	wantNone(t, v.Office.CancelVisit(t.Context(), v.Coordinator, kept.ID))
	if q = v.visits(t, 0); len(q.Kept) != 1 || len(q.Proposed) != 1 {
		t.Errorf("%d kept, %d proposed", len(q.Kept), len(q.Proposed))
	}
}

// Nobody goes to the home of a child whom the agency no longer looks after by then.
func TestAVisitAfterAChildHasLeft(t *testing.T) {
	t.Parallel()
	v := newVisiting(t)
	v.dueBefore(t, 20)
	wantNone(t, v.Office.KeepVisits(t.Context(), v.Coordinator, office.KeepVisitsForm{Version: v.visits(t, 0).Version}))
	kept := v.visits(t, 0).Kept[0]
	must(v.Office.ClientLeaves(t.Context(), v.Coordinator, kept.Client.ID, kept.On.AddDays(1)))(t)
	later := kept.On.AddDays(1)
	for later.Weekday() == time.Saturday || later.Weekday() == time.Sunday {
		later = later.AddDays(1)
	}
	move := office.VisitMove{On: later.String()}
	m := must(v.Office.VisitDesk(t.Context(), v.Coordinator, kept.ID, move))(t)
	if len(m.Faults) != 1 || !strings.Contains(m.Faults[0], "no longer looks after the child") {
		t.Errorf("%+v", m.Faults)
	}
	move.Version = m.Version
	wantRefusal(t, v.Office.MoveVisit(t.Context(), v.Coordinator, kept.ID, move), fault.Refused, "no longer looks after the child")
	must(v.Office.ClientLeaves(t.Context(), v.Coordinator, kept.Client.ID, kept.On))(t)
	q := v.visits(t, 0)
	i := slices.IndexFunc(q.Kept, func(x office.HomeVisitView) bool { return x.ID == kept.ID })
	if x := q.Kept[i]; len(x.Faults) != 1 || len(x.Sees) != 0 {
		t.Errorf("planned before they left: %+v", x)
	}
}

// Where nobody has room, each line says who is off and full.
func TestWhatCannotBeVisited(t *testing.T) {
	t.Parallel()
	v := newVisiting(t)
	v.dueBefore(t, 20)
	for _, e := range v.Educators {
		wantNone(t, v.Office.SetAvailability(t.Context(), v.Coordinator, e.Person, office.AvailabilityForm{DaysOff: []int{1, 2, 3, 4, 5, 6, 7}, PerDay: "2", Base: "Office"}))
	}
	p := v.visits(t, 0)
	if len(p.Proposed) != 0 || len(p.Unmet) != 4 || !p.Unmet[0].Room || !slices.ContainsFunc(p.Educators, func(e office.VisitWeeksView) bool { return e.Set && e.Base.Name == "Office" && len(e.DaysOff) == 7 }) || len(p.Bases) != 1 {
		t.Errorf("%+v", p)
	}
	wantNone(t, v.Office.SetAvailability(t.Context(), v.Coordinator, v.Educators[0].Person, office.AvailabilityForm{PerDay: "1", Base: "office"}))
	wantNone(t, v.Office.SetTravelTime(t.Context(), v.Coordinator, office.TravelForm{From: v.mira, Base: "Office", Minutes: "15"}))
	wantNone(t, v.Office.SetTravelTime(t.Context(), v.Coordinator, office.TravelForm{From: v.tam, Base: "Office", Minutes: "50"}))
	wantNone(t, v.Office.SetTravelTime(t.Context(), v.Coordinator, office.TravelForm{From: v.tam, Base: "OFFICE", Minutes: "20"}))
	wantNone(t, v.Office.SetTravelTime(t.Context(), v.Coordinator, office.TravelForm{From: v.tam, To: v.mira, Minutes: "5"}))
	if p = v.visits(t, 0); len(p.Proposed) != 2 || p.Minutes != 2*15+2*20 || len(p.Bases) != 1 || len(p.Ways) != 3 {
		t.Errorf("%d visits, %d minutes, %+v", len(p.Proposed), p.Minutes, p.Ways)
	}
	for field, err := range map[string]error{
		"per_day":  v.Office.SetAvailability(t.Context(), v.Coordinator, v.Educators[0].Person, office.AvailabilityForm{PerDay: "13"}),
		"days_off": v.Office.SetAvailability(t.Context(), v.Coordinator, v.Educators[0].Person, office.AvailabilityForm{PerDay: "1", DaysOff: []int{8}}),
		"minutes":  v.Office.SetTravelTime(t.Context(), v.Coordinator, office.TravelForm{From: v.tam, To: v.mira, Minutes: "-1"}),
		"to":       v.Office.SetTravelTime(t.Context(), v.Coordinator, office.TravelForm{From: v.tam, Minutes: "1"}),
		"through":  v.Office.AddDaysOff(t.Context(), v.Coordinator, v.Educators[0].Person, v.Today().String(), v.Today().AddDays(-1).String()),
		"weeks":    one(v.Office.Visits(t.Context(), v.Coordinator, office.VisitQuery{Weeks: 27})),
	} {
		wantAtField(t, err, field, "")
	}
	wantRefusal(t, v.Office.AddDaysOff(t.Context(), v.Coordinator, v.nan.Person, v.Today().String(), ""), fault.Refused, "no educator")
}
