package office_test

import (
	"strings"
	"sync"
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

// A sheet that begins at a station is of exactly who was shown, for the child and the
// skill that were shown (common practice, no source: two identifiers before anything is
// written about somebody).
func TestASheetIsOfWhoWasChecked(t *testing.T) {
	t.Parallel()
	d := newSkillsDay(t)
	c := d.check(1, d.nan)
	if c.Learner.Person.Name != "Nan Orme" || len(c.Learner.Cares) != 1 || c.Station.Client.ID != d.mira || c.MayNot != "" || c.Version == "" {
		t.Errorf("shown: %+v", c)
	}
	v := must(d.Office.BeginAtStation(t.Context(), d.Educators[0], d.begin(1, c)))(t)
	if v.ID != c.ID || v.LearnerID != d.nan.Person || v.Learner != "Nan Orme" || v.ClientID != d.mira || v.ObserverID != d.Educators[0].Person || v.Place != "skills room" || v.RealClient {
		t.Errorf("begun: %+v", v.Sheet)
	}
	if l := d.learner(d.nan); l.At != 1 || l.Visit(1).Open == nil || l.Visit(1).Open.ID != v.ID {
		t.Errorf("Nan is %+v", l)
	}
	if again := must(d.Office.BeginAtStation(t.Context(), d.Educators[0], d.begin(1, c)))(t); again.ID != v.ID {
		t.Error("a second click begins a second sheet")
	}
	if next := d.check(1, d.nan); next.Open == nil || next.Version != c.Version {
		t.Errorf("the open sheet is not told: %+v", next)
	}
	_, err := d.Office.BeginAtStation(t.Context(), d.Educators[0], d.begin(1, d.check(1, d.nan)))
	wantRefusal(t, err, fault.Conflict, "Go on with that one")
	if o := d.check(1, d.olu); len(o.Others) != 1 || o.Others[0].LearnerID != d.nan.Person {
		t.Errorf("beside Olu, Nan's open sheet is not told of: %+v", o.Others)
	}
}

// A name check of one person begins nothing of another, and what has changed since it
// was read begins nothing at all.
func TestNothingBeginsOfAnother(t *testing.T) {
	t.Parallel()
	d := newSkillsDay(t)
	nan, olu := d.check(1, d.nan), d.check(1, d.olu)
	first := d.Educators[0]
	refuse := func(why string, by assessment.Actor, f office.BeginForm, kind fault.Kind, says string) {
		t.Helper()
		_, err := d.Office.BeginAtStation(t.Context(), by, f)
		if fault.KindOf(err) != kind || !strings.Contains(err.Error(), says) {
			t.Errorf("%s: %v", why, err)
		}
	}
	swapped := d.begin(1, nan)
	swapped.Learner = d.olu.Person
	refuse("Nan's check with Olu's id", first, swapped, fault.Conflict, "not what stands here")
	moved := d.begin(1, nan)
	moved.Station = 2
	refuse("the check of another station", d.Educators[1], moved, fault.Conflict, "not what stands here")
	bare := d.begin(1, nan)
	bare.Version = ""
	refuse("no check at all", first, bare, fault.Conflict, "not what stands here")
	refuse("another's station", d.Educators[1], d.begin(1, nan), fault.Refused, "Only its observer")
	for why, id := range map[string]assessment.PersonID{"nobody": "01941f29-7c3a-7d52-8000-000000000000", "somebody who does not come": d.Nurse("Pia Lund").Person} {
		f := d.begin(1, nan)
		f.Learner = id
		refuse(why, first, f, fault.NotFound, "no such record")
	}
	must(edited(t, d.Ward, d.Admin, d.nan.Person, office.PersonForm{Name: "Nan Orme-Hill", Kind: "nurse", Email: d.Email(d.nan)}))(t)
	refuse("the name has changed", first, d.begin(1, nan), fault.Conflict, "not what stands here")
	f := d.form()
	f.Version, f.Stations[0].Skill = d.now().Version, "humidifier"
	must(d.Office.ChangeSkillsDay(t.Context(), d.Coordinator, d.day.ID, f))(t)
	refuse("the skill of the station has changed", first, d.begin(1, olu), fault.Conflict, "not what stands here")
	if own := must(d.Office.Sheets(t.Context(), first))(t); len(own) != 0 {
		t.Errorf("sheets were begun: %+v", own)
	}
	now := d.check(1, d.olu)
	d.Pass(24 * time.Hour)
	refuse("the day after", first, d.begin(1, now), fault.Refused, "is over")
	if c := d.check(1, d.olu); !strings.Contains(c.MayNot, "is over") {
		t.Errorf("the page says %q", c.MayNot)
	}
}

// The same id for two people is a conflict, not the sheet of the first.
func TestAnIdIsOneSheet(t *testing.T) {
	t.Parallel()
	d := newSkillsDay(t)
	nan, olu := d.begin(1, d.check(1, d.nan)), d.begin(1, d.check(1, d.olu))
	must(d.Office.BeginAtStation(t.Context(), d.Educators[0], nan))(t)
	olu.ID = nan.ID
	_, err := d.Office.BeginAtStation(t.Context(), d.Educators[0], olu)
	wantRefusal(t, err, fault.Conflict, "another demonstration under this id")
	if l := d.learner(d.olu); l.At != 0 {
		t.Errorf("Olu was moved to station %d by what was refused", l.At)
	}
}

// Nobody observes themselves, though they come as a learner.
func TestNobodyAtTheirOwnStation(t *testing.T) {
	t.Parallel()
	d := newSkillsDay(t)
	edda := d.Educators[0]
	p := must(d.Office.Person(t.Context(), d.Admin, edda.Person))(t)
	must(edited(t, d.Ward, d.Admin, edda.Person, office.PersonForm{Name: p.Name, Kind: "nurse", Email: p.Email, Roles: []string{"educator"}}))(t)
	f := d.form()
	f.Version, f.Learners = d.now().Version, append(f.Learners, edda.Person)
	must(d.Office.ChangeSkillsDay(t.Context(), d.Coordinator, d.day.ID, f))(t)
	if v := d.learner(edda).Visit(1); len(v.Cannot) == 0 || !strings.Contains(v.Cannot[0], "Nobody observes themselves") {
		t.Errorf("their own station: %+v", v)
	}
	c := d.check(1, edda)
	_, err := d.Office.BeginAtStation(t.Context(), edda, d.begin(1, c))
	wantRefusal(t, err, fault.Refused, "cannot observe yourself")
	wantRefusal(t, d.Office.TakeAtStation(t.Context(), edda, office.MoveForm{Day: d.day.ID, Station: 1, Learner: edda.Person}), fault.Refused, "cannot observe yourself")
}

// A learner is at one station at a time, and whoever reads an old list moves nobody.
func TestPassingOn(t *testing.T) {
	t.Parallel()
	d := newSkillsDay(t)
	take := func(n int, who assessment.Actor) error {
		return d.Office.TakeAtStation(t.Context(), d.Educators[n-1], office.MoveForm{Day: d.day.ID, Station: n, Learner: who.Person})
	}
	pass := func(from, to int, who assessment.Actor) error {
		return d.Office.PassOn(t.Context(), d.Educators[from-1], office.MoveForm{Day: d.day.ID, Station: from, Learner: who.Person, To: to})
	}
	wantNone(t, take(1, d.nan))
	wantNone(t, take(1, d.nan))
	wantRefusal(t, take(2, d.nan), fault.Conflict, "at station 1 now")
	_, err := d.Office.BeginAtStation(t.Context(), d.Educators[1], d.begin(2, d.check(2, d.nan)))
	wantRefusal(t, err, fault.Conflict, "at station 1 now")
	wantNone(t, pass(1, 2, d.nan))
	wantRefusal(t, pass(1, 0, d.nan), fault.Conflict, "at station 2")
	wantRefusal(t, pass(2, 9, d.nan), fault.NotFound, "no such record")
	wantNone(t, pass(2, 0, d.nan))
	wantRefusal(t, pass(2, 1, d.nan), fault.Conflict, "at no station")
	if l := d.learner(d.nan); l.At != 0 || l.Since == nil {
		t.Errorf("Nan is at %d", l.At)
	}
	d.Pass(24 * time.Hour)
	wantRefusal(t, take(1, d.nan), fault.Refused, "is over")
}

// Many taps at once: each sheet is of the one it was checked for, and nobody is at two
// stations.
func TestManyBeginAtOnce(t *testing.T) {
	t.Parallel()
	d := newSkillsDay(t)
	f := d.form()
	f.Version = d.now().Version
	f.Stations = append(f.Stations[:1], office.StationForm{No: 2, Skill: "bagging", Observer: d.Educators[1].Person, Client: d.mira})
	var all []assessment.Actor
	for _, name := range []string{"Ada", "Ben", "Cleo", "Dov", "Ebo", "Fay"} {
		who := d.Nurse(name)
		all, f.Learners = append(all, who), append(f.Learners, who.Person)
	}
	must(d.Office.ChangeSkillsDay(t.Context(), d.Coordinator, d.day.ID, f))(t)
	begun := map[assessment.DemonstrationID]assessment.PersonID{}
	var mu sync.Mutex
	var wg sync.WaitGroup
	for _, who := range all {
		for n := 1; n <= 2; n++ {
			form := d.begin(n, d.check(n, who))
			for range 2 {
				wg.Go(func() {
					v, err := d.Office.BeginAtStation(t.Context(), d.Educators[n-1], form)
					switch {
					case err == nil && (string(v.ID) != form.ID || v.LearnerID != form.Learner || v.ObserverID != d.Educators[n-1].Person):
						t.Errorf("asked for %+v, begun %+v", form, v.Sheet)
					case err != nil && fault.KindOf(err) != fault.Conflict:
						t.Errorf("%s at station %d: %v", who.Name, n, err)
					}
					if err == nil {
						mu.Lock()
						defer mu.Unlock()
						begun[v.ID] = v.LearnerID
					}
				})
			}
		}
	}
	wg.Wait()
	if len(begun) != len(all) {
		t.Errorf("%d sheets of %d learners", len(begun), len(all))
	}
	for n := range 2 {
		for _, s := range must(d.Office.Sheets(t.Context(), d.Educators[n]))(t) {
			if begun[s.ID] != s.LearnerID {
				t.Errorf("sheet %s is of %s, and was begun of %s", s.ID, s.LearnerID, begun[s.ID])
			}
			if l := must(d.now().Learner(s.LearnerID))(t); l.At != n+1 {
				t.Errorf("%s has a sheet at station %d and is at %d", s.Learner, n+1, l.At)
			}
		}
	}
}

// Another agency's day is no day.
func TestAnotherAgencysSkillsDay(t *testing.T) {
	t.Parallel()
	d := newSkillsDay(t)
	other := ward.Beside(t, d.Ward)
	_, err := other.Office.SkillsDay(t.Context(), other.Coordinator, d.day.ID)
	wantRefusal(t, err, fault.NotFound, "no such record")
	_, err = other.Office.NameCheck(t.Context(), other.Educators[0], d.day.ID, 1, d.nan.Person)
	wantRefusal(t, err, fault.NotFound, "no such record")
	wantRefusal(t, other.Office.EndSkillsDay(t.Context(), other.Coordinator, d.day.ID), fault.NotFound, "no such record")
	wantRefusal(t, other.Office.TakeAtStation(t.Context(), other.Educators[0], office.MoveForm{Day: d.day.ID, Station: 1, Learner: d.nan.Person}), fault.NotFound, "no such record")
}
