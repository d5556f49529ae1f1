package office_test

import (
	"slices"
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/office"
	"wellshown/assessment/wording"
	"wellshown/integration/ward"
)

func learnerIn(p office.PackView, who assessment.Actor) *office.PackLearner {
	for i, l := range p.Learners {
		if l.ID == who.Person {
			return &p.Learners[i]
		}
	}
	return nil
}

func standingIn(l *office.PackLearner, skill string, child assessment.ClientID) *office.PackStanding {
	for i, s := range l.Skills {
		if s.Skill == skill && s.Client == child {
			return &l.Skills[i]
		}
	}
	return nil
}

// A pack says of everybody what the fold says on that day, and holds what a device needs
// and no more (the contract of the bedside, no other source).
func TestThePackOfADay(t *testing.T) {
	t.Parallel()
	b := atBedside(t, "humidifier")
	tam := b.Client("8Q", "Tam")
	gone := b.Nurse("Somebody Gone")
	lan := b.Family("Lan Nguyễn", tam)
	b.Join(b.nurse, b.child)
	b.Require("bagging", assessment.Nurse)
	b.Demonstrate(b.nurse, "humidifier", b.child)
	wantNone(t, b.Office.PersonLeaves(t.Context(), b.Admin, gone.Person, b.Today()))
	must(b.Office.SetParameters(t.Context(), b.Educators[0], tam, []office.ParameterForm{{Name: "temp_low", Value: "", Words: "by hand"}}))(t)
	b.Pass(time.Minute)
	p := must(b.Office.Pack(t.Context(), b.device.Owner, b.device.ID))(t)
	if !p.MadeAt.Equal(b.Now()) || p.ExpiresAt.Sub(p.MadeAt) != 24*time.Hour || p.MayNot != "" || p.Observer.ID != b.device.Owner.Person || p.Device.ID != b.device.ID || p.Zone != b.Zone.String() {
		t.Errorf("the pack: %+v", p)
	}
	if learnerIn(p, gone) != nil || learnerIn(p, b.device.Owner) != nil || learnerIn(p, b.Coordinator) != nil || learnerIn(p, lan) == nil {
		t.Errorf("learners: %+v", p.Learners)
	}
	nan := learnerIn(p, b.nurse)
	held, asked := standingIn(nan, "humidifier", b.child), standingIn(nan, "bagging", "")
	if folded := b.Standing(b.nurse, "humidifier", b.child, civil.Date{}); held == nil || held.Word != folded.Word || held.Through != folded.Through || held.Word != assessment.Current {
		t.Errorf("held: %+v, folded %+v", held, folded)
	}
	if asked == nil || asked.Word != assessment.NotStarted || standingIn(nan, "humidifier", tam) != nil {
		t.Errorf("required: %+v", nan.Skills)
	}
	if !slices.Contains(p.Teams, office.PackMember{Client: tam, Person: lan.Person}) {
		t.Errorf("teams: %+v", p.Teams)
	}
	i := slices.IndexFunc(p.Clients, func(c office.PackClient) bool { return c.ID == tam })
	if _, number := p.Clients[i].Parameters["temp_low"]; number || p.Clients[i].Words["temp_low"] != "by hand" || p.Clients[i].Parameters["temp_high"].Unit != "degC" {
		t.Errorf("ordered for Tam: %+v, %+v", p.Clients[i].Parameters, p.Clients[i].Words)
	}
	k := slices.IndexFunc(p.Skills, func(s office.PackSkill) bool { return s.Code == "humidifier" })
	if p.Skills[k].Revision != 2 || p.Skills[k].RevisionID != inForce(t, b.Ward, "humidifier") || !p.Skills[k].Specific || p.Skills[k].Checklist == nil {
		t.Errorf("humidifier: %+v", p.Skills[k])
	}
	if d := must(b.Office.Devices(t.Context(), b.device.Owner))(t); d[0].UsedAt == nil || !d[0].UsedAt.Equal(b.Now()) {
		t.Errorf("last used: %+v", d)
	}
}

// A pack carries what a device says to learners who do not read English, each text of it, and
// what its checklists say in it; where all read English it carries nothing (the contract of the
// bedside, no other source).
func TestAPackCarriesTheLanguagesOfItsLearners(t *testing.T) {
	t.Parallel()
	b := atBedside(t, "humidifier")
	if p := must(b.Office.Pack(t.Context(), b.device.Owner, b.device.ID))(t); len(p.Tongues) != 0 || learnerIn(p, b.nurse).Language != wording.English {
		t.Errorf("where all read English: %+v", p.Tongues)
	}
	wantNone(t, b.Office.SetLanguage(t.Context(), b.nurse, string(wording.Spanish)))
	p := must(b.Office.Pack(t.Context(), b.device.Owner, b.device.ID))(t)
	if len(p.Tongues) != 1 || learnerIn(p, b.nurse).Language != wording.Spanish {
		t.Fatalf("for one who reads Spanish: %+v", p.Tongues)
	}
	es := p.Tongues[0]
	if es.Language != wording.Spanish || es.Dir != "ltr" || es.Edition != office.HandedEdition() || len(es.Says) != len(office.HandedTexts) {
		t.Errorf("%s %s %s, %d texts of %d", es.Language, es.Dir, es.Edition, len(es.Says), len(office.HandedTexts))
	}
	for _, s := range p.Skills {
		for _, step := range s.Checklist.Steps() {
			if want, known := wording.In(wording.Spanish).Theirs(step.Text); known != (es.Theirs[step.Text] != "") || known && es.Theirs[step.Text] != want {
				t.Errorf("%s: %q is %q, and not %q", s.Code, step.Text, es.Theirs[step.Text], want)
			}
		}
	}
	if len(es.Theirs) < 20 {
		t.Errorf("of checklists it says %d texts", len(es.Theirs))
	}
}

// What goes along of a skills day is what is the observer's own on that day: nobody else's
// station, no other day, and none that was ended; what came from a device was shown there
// (the contract of the bedside, no other source).
func TestThePackOfASkillsDay(t *testing.T) {
	t.Parallel()
	d := newSkillsDay(t)
	device := d.Device(d.Educators[0])
	days := func(of ward.Device) []office.SkillsDayView {
		return must(d.Office.Pack(t.Context(), of.Owner, of.ID))(t).Days
	}
	own := days(device)
	if len(own) != 1 || own[0].ID != d.day.ID || own[0].HeldOn != d.Today() || own[0].Place != "skills room" || len(own[0].Stations) != 1 || own[0].Stations[0].No != 1 || own[0].Stations[0].Client.ID != d.mira {
		t.Fatalf("the first educator takes along %+v", own)
	}
	if floor := own[0].Floor(own[0].Stations[0]); len(floor.ToCome) != 1 || floor.ToCome[0].Person.ID != d.nan.Person || !floor.ToCome[0].Visit(1).Leads || floor.ToCome[0].Onward.Station != 1 {
		t.Errorf("to station 1 come %+v", floor.ToCome)
	}
	other := days(d.Device(d.Educators[1]))
	if len(other) != 1 || len(other[0].Stations) != 1 || other[0].Stations[0].No != 2 || !slices.Equal(other[0].Floor(other[0].Stations[0]).ToCome[0].Visit(2).First, []int{1}) {
		t.Errorf("the second educator takes along %+v", other)
	}
	if none := days(d.Device(d.Educator("Ina Moe"))); len(none) != 0 {
		t.Errorf("whoever has no station takes along %+v", none)
	}
	sheet := d.Fill(device, d.nan, "bagging", d.mira, d.Now(), ward.Simulated)
	d.Pass(30 * time.Minute)
	must(d.Office.Receive(t.Context(), device.Owner, device.Send(sheet, d.Now())))(t)
	own = days(device)
	floor := own[0].Floor(own[0].Stations[0])
	if len(floor.ToCome) != 0 || len(floor.Done) != 1 || string(floor.Done[0].Visit(1).Shown[0].ID) != sheet.ID || floor.Done[0].Onward.Station != 0 {
		t.Errorf("once it was received, %+v are to come, and %+v have shown it", floor.ToCome, floor.Done)
	}
	d.Pass(24 * time.Hour)
	if late := days(device); len(late) != 0 {
		t.Errorf("on the day after: %+v", late)
	}
	d.Pass(-24 * time.Hour)
	wantNone(t, d.Office.EndSkillsDay(t.Context(), d.Coordinator, d.day.ID))
	if ended := days(device); len(ended) != 0 {
		t.Errorf("ended: %+v", ended)
	}
}

// Whoever may observe nothing is told why, and gets no checklist (ours, no source).
func TestThePackOfWhoMayNotObserve(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	ines := w.Educator("Ines Park")
	p := must(w.Office.Pack(t.Context(), ines, w.Device(ines).ID))(t)
	if p.MayNot == "" || len(p.Skills) != 0 {
		t.Errorf("%q, %d skills", p.MayNot, len(p.Skills))
	}
	for _, l := range p.Learners {
		if len(l.Skills) != 0 {
			t.Errorf("of %s: %+v", l.Name, l.Skills)
		}
	}
}
