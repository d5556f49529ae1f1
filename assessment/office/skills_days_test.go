package office_test

import (
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

// skillsDay is a ward with a day on 2 February: bagging with the first educator at
// station 1, suction with the second at station 2, judged by Mira's values; Nan and
// Olu come.
type skillsDay struct {
	*ward.Ward
	t        *testing.T
	mira     assessment.ClientID
	nan, olu assessment.Actor
	day      office.SkillsDayView
}

func newSkillsDay(t *testing.T) *skillsDay {
	t.Helper()
	w, mira, nan := quick(t, "bagging", "suction", "humidifier")
	d := &skillsDay{w, t, mira, nan, w.Nurse("Olu Hart"), office.SkillsDayView{}}
	w.Join(nan, mira)
	w.Require("suction", assessment.Nurse)
	w.Day("2026-02-02")
	d.day = must(w.Office.PlanSkillsDay(t.Context(), w.Coordinator, d.form()))(t)
	return d
}

func (d *skillsDay) form() office.SkillsDayForm {
	return office.SkillsDayForm{On: "2026-02-02", Name: "Winter skills day", Place: "skills room", Learners: []assessment.PersonID{d.nan.Person, d.olu.Person},
		Stations: []office.StationForm{{No: 1, Skill: "bagging", Observer: d.Educators[0].Person, Client: d.mira}, {No: 2, Skill: "suction", Observer: d.Educators[1].Person, Client: d.mira}}}
}

func (d *skillsDay) now() office.SkillsDayView {
	d.t.Helper()
	return must(d.Office.SkillsDay(d.t.Context(), d.Coordinator, d.day.ID))(d.t)
}

func (d *skillsDay) learner(who assessment.Actor) office.LearnerOfDay {
	d.t.Helper()
	return must(d.now().Learner(who.Person))(d.t)
}

// check reads the name check at an educator's station.
func (d *skillsDay) check(n int, who assessment.Actor) office.NameCheck {
	d.t.Helper()
	return must(d.Office.NameCheck(d.t.Context(), d.Educators[n-1], d.day.ID, n, who.Person))(d.t)
}

// begin is what a name check sends.
func (d *skillsDay) begin(n int, c office.NameCheck) office.BeginForm {
	return office.BeginForm{ID: string(c.ID), Day: d.day.ID, Station: n, Learner: c.Learner.Person.ID, Version: c.Version, Formal: true}
}

func TestPlanASkillsDay(t *testing.T) {
	t.Parallel()
	d := newSkillsDay(t)
	if v := d.day; v.Name != "Winter skills day" || len(v.Stations) != 2 || len(v.Learners) != 2 || v.Stations[1].Skill.Code != "suction" || !v.Stations[1].Specific ||
		v.Stations[0].Observer.ID != d.Educators[0].Person || v.Stations[0].Closed != "" || !v.Open() {
		t.Errorf("planned: %+v", v)
	}
	twice := d.form()
	twice.ID = string(d.day.ID)
	if again := must(d.Office.PlanSkillsDay(t.Context(), d.Coordinator, twice))(t); again.ID != d.day.ID || len(must(d.Office.SkillsDays(t.Context(), d.Coordinator))(t).Days) != 1 {
		t.Error("sent twice it is planned twice")
	}
	twice.Name = "Another"
	_, err := d.Office.PlanSkillsDay(t.Context(), d.Coordinator, twice)
	wantRefusal(t, err, fault.Conflict, "planned already")
	empty := must(d.Office.PlanSkillsDay(t.Context(), d.Coordinator, office.SkillsDayForm{On: "2026-03-02", Name: "Spring", Place: "hall"}))(t)
	if empty.Open() || len(empty.Stations)+len(empty.Learners) != 0 {
		t.Errorf("empty: %+v", empty)
	}
}

// What a station needs is known before the day: its observer holds a licence, an
// appointment and the skill then (the rules of observing), and the child is there.
func TestPlansThatAreRefused(t *testing.T) {
	t.Parallel()
	d := newSkillsDay(t)
	sick := d.Educator("Ina Moe")
	gone := d.Nurse("Gil Roe")
	wantNone(t, d.Office.PersonLeaves(t.Context(), d.Coordinator, gone.Person, d.Today()))
	for _, c := range []struct {
		field, says string
		change      func(*office.SkillsDayForm)
	}{
		{"on", "day is over", func(f *office.SkillsDayForm) { f.On = "2026-02-01" }},
		{"on", "YYYY", func(f *office.SkillsDayForm) { f.On = "" }},
		{"name", "name", func(f *office.SkillsDayForm) { f.Name = " " }},
		{"place", "200", func(f *office.SkillsDayForm) { f.Place = strings.Repeat("x", 201) }},
		{"learners", "no longer", func(f *office.SkillsDayForm) { f.Learners = append(f.Learners, gone.Person) }},
		{"learners", "nothing to show", func(f *office.SkillsDayForm) { f.Learners = append(f.Learners, d.Coordinator.Person) }},
		{"learners", "at most 200", func(f *office.SkillsDayForm) {
			for i := range 201 {
				f.Learners = append(f.Learners, assessment.PersonID(strings.Repeat("a", i+1)))
			}
		}},
		{"stations", "Station 1: choose the skill", func(f *office.SkillsDayForm) { f.Stations[0].Observer = "" }},
		{"stations", "Station 1: Tracheostomy suctioning", func(f *office.SkillsDayForm) { f.Stations[0].Skill, f.Stations[0].Client = "suction", "" }},
		{"stations", "each once", func(f *office.SkillsDayForm) { f.Stations[1].No = 1 }},
		{"stations", "from 1 to 24", func(f *office.SkillsDayForm) { f.Stations[1].No = 25 }},
		{"stations", "not appointed", func(f *office.SkillsDayForm) { f.Stations[1].Observer = sick.Person }},
		{"stations", "no educator", func(f *office.SkillsDayForm) { f.Stations[1].Observer = d.olu.Person }},
		{"stations", "not appointed", func(f *office.SkillsDayForm) { f.On = "2027-02-02" }}, // the appointments end before
	} {
		f := d.form()
		c.change(&f)
		_, err := d.Office.PlanSkillsDay(t.Context(), d.Coordinator, f)
		wantAtField(t, err, c.field, c.says)
	}
	unknown := d.form()
	unknown.Learners[0] = "01941f29-7c3a-7d52-8000-000000000000"
	_, err := d.Office.PlanSkillsDay(t.Context(), d.Coordinator, unknown)
	wantRefusal(t, err, fault.NotFound, "no such record")
	for _, who := range []assessment.Actor{d.Admin, d.nan, d.Surveyor("Hal Wren")} {
		_, err := d.Office.PlanSkillsDay(t.Context(), who, d.form())
		wantRefusal(t, err, fault.Forbidden, "plan a skills day")
	}
}

func TestChangeAndEndASkillsDay(t *testing.T) {
	t.Parallel()
	d := newSkillsDay(t)
	wantNone(t, d.Office.TakeAtStation(t.Context(), d.Educators[1], office.MoveForm{Day: d.day.ID, Station: 2, Learner: d.nan.Person}))
	f := d.form()
	f.Version, f.Place = d.day.Version, "gym"
	f.Stations = []office.StationForm{f.Stations[0], {No: 3, Skill: "humidifier", Observer: d.Educators[0].Person, Client: d.mira}}
	f.Learners = append(f.Learners[:1], d.Nurse("Pia Lund").Person)
	v := must(d.Office.ChangeSkillsDay(t.Context(), d.Educators[0], d.day.ID, f))(t)
	if v.Place != "gym" || len(v.Stations) != 2 || v.Stations[1].No != 3 || len(v.Learners) != 2 || v.Learners[0].At != 0 || v.Learners[1].Person.Name != "Pia Lund" {
		t.Errorf("changed to %+v", v)
	}
	_, err := d.Office.ChangeSkillsDay(t.Context(), d.Coordinator, d.day.ID, f)
	wantRefusal(t, err, fault.Conflict, "Somebody has changed")
	desk := must(d.Office.SkillsDayDesk(t.Context(), d.Coordinator, d.day.ID))(t)
	if f.Version = desk.Version; desk.Version != v.Version || len(desk.Comes) != 2 || !slices.ContainsFunc(desk.Observers, func(p office.PersonRef) bool { return p.ID == d.Educators[0].Person }) {
		t.Errorf("the desk has %+v", desk)
	}
	wantNone(t, d.Office.EndSkillsDay(t.Context(), d.Coordinator, d.day.ID))
	wantRefusal(t, d.Office.EndSkillsDay(t.Context(), d.Coordinator, d.day.ID), fault.Conflict, "ended already")
	_, err = d.Office.ChangeSkillsDay(t.Context(), d.Coordinator, d.day.ID, f)
	wantRefusal(t, err, fault.Conflict, "has been ended")
	over := must(d.Office.PlanSkillsDay(t.Context(), d.Coordinator, d.form()))(t)
	d.Pass(24 * time.Hour)
	f.Version = over.Version
	_, err = d.Office.ChangeSkillsDay(t.Context(), d.Coordinator, over.ID, f)
	wantRefusal(t, err, fault.Conflict, "is over")
}

// Where a learner goes follows standings as they change during the day: what is shown
// waits for its signatures before what rests on it can begin (a positive acts from the
// later signature, testdata/standing).
func TestWhereALearnerGoes(t *testing.T) {
	t.Parallel()
	d := newSkillsDay(t)
	l := d.learner(d.nan)
	if l.Onward.Station != 1 || l.Round[0].Station.No != 1 || !l.Round[0].Leads || l.Round[1].WhyAsked(civil.Date.String) != "required, never shown" || !slices.Equal(l.Round[1].First, []int{1}) {
		t.Errorf("Nan goes to %+v, %+v", l.Onward, l.Round)
	}
	if o := d.learner(d.olu); o.Onward.Station != 0 || o.Round[0].Asking != assessment.Free {
		t.Errorf("of Olu, who is on no team, nobody asks anything: %+v", o)
	}
	shown := d.Demonstrate(d.nan, "bagging", d.mira, ward.Simulated, ward.UnsignedByLearner)
	if l = d.learner(d.nan); l.Onward.Station != 0 || !slices.Equal(l.Onward.Unsigned, []int{1}) || !l.Visit(1).Passed() || l.Visit(1).Shown[0].ByLearner {
		t.Errorf("shown and not signed: %+v", l.Onward)
	}
	d.Sign(d.nan, shown.ID, office.PartLearner)
	if l = d.learner(d.nan); l.Onward.Station != 2 || l.Visit(1).Asking != assessment.Held {
		t.Errorf("signed: %+v", l.Onward)
	}
	d.Demonstrate(d.nan, "suction", d.mira, ward.SeenBy(d.Educators[1]), ward.Stopped)
	if l = d.learner(d.nan); l.Onward.Station != 2 || !l.Onward.Again || l.Visit(2).Passed() || !l.Visit(2).Tried() {
		t.Errorf("stopped: %+v", l.Onward)
	}
	floor := must(d.Office.SkillsDayStation(t.Context(), d.Educators[1], d.day.ID, 2))(t)
	if len(floor.Done) != 1 || floor.Done[0].Person.ID != d.nan.Person || len(floor.ToCome)+len(floor.Here) != 0 || !floor.Own {
		t.Errorf("station 2 has %+v", floor)
	}
	card := must(d.Office.SkillsDayCard(t.Context(), d.Coordinator, d.day.ID, d.nan.Person))(t)
	if len(card.Learner.Round) != 2 || card.Learner.Visit(2).Shown[0].Outcome == assessment.Competent {
		t.Errorf("the card says %+v", card.Learner)
	}
}

// An educator takes to the bedside what is theirs: their stations of the day, and who
// comes.
func TestSkillsDaysOn(t *testing.T) {
	t.Parallel()
	d := newSkillsDay(t)
	own := must(d.Office.SkillsDaysOn(t.Context(), d.Educators[1], d.Today()))(t)
	if len(own) != 1 || len(own[0].Stations) != 1 || own[0].Stations[0].No != 2 || len(own[0].Learners) != 2 || len(own[0].Learners[0].Round) != 1 {
		t.Errorf("the second educator's: %+v", own)
	}
	for who, by := range map[string]assessment.Actor{"an educator of no station": d.Educator("Ina Moe")} {
		if none := must(d.Office.SkillsDaysOn(t.Context(), by, d.Today()))(t); len(none) != 0 {
			t.Errorf("%s has %+v", who, none)
		}
	}
	if other := must(d.Office.SkillsDaysOn(t.Context(), d.Educators[1], d.Today().AddDays(1)))(t); len(other) != 0 {
		t.Errorf("on the next day: %+v", other)
	}
	wantNone(t, d.Office.EndSkillsDay(t.Context(), d.Educators[1], d.day.ID))
	if ended := must(d.Office.SkillsDaysOn(t.Context(), d.Educators[1], d.Today()))(t); len(ended) != 0 {
		t.Errorf("ended: %+v", ended)
	}
}
