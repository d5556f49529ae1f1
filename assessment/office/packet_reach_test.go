package office_test

import (
	"strings"
	"testing"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

// A shift that a surveyor asks about tells them of no child and of nobody whom they were not let
// in for. No source.
func TestASurveyorsPacketAboutAShiftNamesNobodyElse(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier", "cpr-trach")
	ivo := w.Client("3B", "Ivo")
	w.Require("humidifier", assessment.Nurse)
	w.Join(nan, mira)
	w.Join(nan, ivo)
	olga := w.Nurse("Olga Pell")
	w.Award(olga, "humidifier", mira)
	w.Award(nan, "humidifier", ivo)
	w.Demonstrate(nan, "humidifier", mira)
	on := w.Today().AddDays(1).String()
	shift := func(client assessment.ClientID, who assessment.Actor, from, until string) assessment.ShiftID {
		return must(w.Office.AddRosterShift(t.Context(), w.Coordinator, office.RosterShiftForm{Client: client, Person: who.Person, Starts: on + "T" + from, Ends: on + "T" + until}))(t)
	}
	elsewhere, others := shift(ivo, nan, "07:00", "12:00"), shift(mira, olga, "13:00", "19:00")
	w.At(w.Now().AddDate(0, 0, 3))
	sam := w.LetIn(w.Unseeing("Sam Reed"), office.AccessForm{Clients: []assessment.ClientID{mira}})
	for _, skill := range []string{"cpr-trach", "humidifier"} {
		f := office.PacketForm{Kind: "incident", Person: nan.Person, Skill: skill, Shift: elsewhere}
		if err := w.Office.WritePacket(t.Context(), sam, f, office.PacketMoment{}, &gathered{}, nil); fault.KindOf(err) != fault.NotFound {
			t.Errorf("%s on a shift with another child: %v", skill, err)
		}
		f.Shift = "0197a1d0-0000-7000-8000-0000000000f8"
		if err := w.Office.WritePacket(t.Context(), sam, f, office.PacketMoment{}, &gathered{}, nil); fault.KindOf(err) != fault.NotFound {
			t.Errorf("%s on a shift that there is not: %v", skill, err)
		}
	}
	f := office.PacketForm{Kind: "incident", Person: nan.Person, Skill: "humidifier", Shift: others}
	g := packet(t, w, sam, f)
	if g.On == nil || g.On.Person.ID != "" || !g.On.Other || !strings.Contains(strings.Join(g.Answer.Because, " "), "somebody else on that shift") {
		t.Errorf("whoever else is on it: %+v, %+v", g.On, g.Answer)
	}
	if g = packet(t, w, w.Coordinator, f); g.On.Person.Name != "Olga Pell" || g.On.Other {
		t.Errorf("to whoever may know: %+v", g.On)
	}
}

// A checklist that was taken out of force with none in its place was not in force after that.
func TestAPacketSaysThatARetiredChecklistWasNotInForce(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier")
	w.Demonstrate(nan, "humidifier", mira)
	w.Day("2026-02-03")
	wantNone(t, w.Office.Retire(t.Context(), w.Educators[0], inForce(t, w, "humidifier"), ward.Proof))
	w.Day("2026-02-10")
	for night, is := range map[string]bool{"2026-02-02": true, "2026-02-03": false, "2026-02-06": false} {
		for _, r := range packet(t, w, w.Coordinator, incident(nan, "humidifier", mira, night)).tail.Revisions {
			if r.InForce != is {
				t.Errorf("%s: in force %t, retired %v", night, r.InForce, r.RetiredAt)
			}
		}
	}
}
