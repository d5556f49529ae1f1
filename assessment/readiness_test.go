package assessment_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/phrase"
)

// ATS 2016 below is the American Thoracic Society's clinical practice guideline on
// pediatric chronic home invasive ventilation (Am J Respir Crit Care Med 2016;
// 193:e16): recommendations by number, tables 3, 5 and 6.

var denver = func() *time.Location {
	z, err := time.LoadLocation("America/Denver")
	if err != nil {
		panic(err)
	}
	return z
}()

// at is an instant in America/Denver.
func at(t *testing.T, s string) time.Time {
	t.Helper()
	v, err := time.ParseInLocation("2006-01-02T15:04", s, denver)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// relative is somebody current in both skills through a day.
func relative(name, through string) assessment.Relative {
	s := assessment.Standing{Word: assessment.Current, Through: civil.MustParse(through)}
	return assessment.Relative{Name: name, Standings: map[string]assessment.Standing{"suction": s, "bagging": s}}
}

func assess(c assessment.Criterion, f assessment.Facts) assessment.Line {
	f.Zone = denver
	c.ID = "c"
	for i := range f.Evidence {
		f.Evidence[i].Criterion = "c"
	}
	r := assessment.Assess([]assessment.Criterion{c}, f)
	if r.Ready != (r.Lines[0].State != assessment.StateNotMet) || (r.Left() == 0) != r.Ready {
		panic("ready does not follow from the only line")
	}
	return r.Lines[0]
}

func mentions[S fmt.Stringer](words []S, want string) bool {
	return slices.ContainsFunc(words, func(s S) bool { return strings.Contains(s.String(), want) })
}

// ATS 2016, recommendation 3b: at least two specifically trained family
// caregivers.
func TestTwoFamilyCaregivers(t *testing.T) {
	two := assessment.Criterion{Kind: assessment.FamilyCurrent, Skills: []string{"suction", "bagging"}, Count: 2}
	now := at(t, "2026-05-01T12:00")
	t.Run("two current in all are enough", func(t *testing.T) {
		l := assess(two, assessment.Facts{At: now, Family: []assessment.Relative{relative("Mai", "2026-09-01"), relative("Ola", "2026-09-01")}})
		if l.State != assessment.StateMet || len(l.Flags) != 0 || !mentions(l.Evidence, "Mai") {
			t.Errorf("got %+v", l)
		}
	})
	t.Run("one is not, whatever nurses there are", func(t *testing.T) {
		l := assess(two, assessment.Facts{At: now, Family: []assessment.Relative{relative("Mai", "2026-09-01")}})
		if l.State != assessment.StateNotMet || !mentions(l.Left, "One more family caregiver") {
			t.Errorf("got %+v", l)
		}
	})
	t.Run("on the last day of one it is met and flagged", func(t *testing.T) {
		family := []assessment.Relative{relative("Mai", "2026-09-01"), relative("Ola", "2026-05-01")}
		l := assess(two, assessment.Facts{At: now, Family: family})
		if l.State != assessment.StateMet || !mentions(l.Flags, "Ola") {
			t.Errorf("got %+v", l)
		}
	})
	t.Run("somebody current in only one skill is told what is left", func(t *testing.T) {
		ola := relative("Ola", "2026-09-01")
		ola.Standings = map[string]assessment.Standing{"suction": ola.Standings["suction"],
			"bagging": {Word: assessment.Learning, Next: assessment.Next{Demonstrations: 2}}}
		l := assess(two, assessment.Facts{At: now, Family: []assessment.Relative{relative("Mai", "2026-09-01"), ola},
			Titles: map[string]string{"bagging": "Bag and mask"}})
		if l.State != assessment.StateNotMet || !mentions(l.Left, "Ola · Bag and mask") {
			t.Errorf("got %+v", l)
		}
	})
	t.Run("a waived standing makes nobody current", func(t *testing.T) {
		ola := relative("Ola", "2026-09-01")
		ola.Standings["bagging"] = assessment.Standing{Word: assessment.Waived}
		l := assess(two, assessment.Facts{At: now, Family: []assessment.Relative{relative("Mai", "2026-09-01"), ola}})
		if l.State != assessment.StateNotMet {
			t.Errorf("got %+v", l)
		}
	})
	t.Run("a plan that names no skill or number is never met", func(t *testing.T) {
		for _, c := range []assessment.Criterion{{Kind: assessment.FamilyCurrent, Count: 2}, {Kind: assessment.FamilyCurrent, Skills: []string{"suction"}}} {
			l := assess(c, assessment.Facts{At: now, Family: []assessment.Relative{relative("Mai", "2026-09-01"), relative("Ola", "2026-09-01")}})
			if l.State != assessment.StateNotMet {
				t.Errorf("%+v: got %+v", c, l)
			}
		}
	})
}

// ATS 2016, recommendation 4c: nine items, the back-up ventilator among them.
func TestEquipmentAtHome(t *testing.T) {
	c := assessment.Criterion{Kind: assessment.EquipmentHome, Items: []string{"ventilator", "back-up ventilator"}}
	now := at(t, "2026-05-01T12:00")
	says := func(word assessment.EvidenceWord, item, when, note string) assessment.Evidence {
		return assessment.Evidence{Word: word, Item: item, At: at(t, when), By: "Ida Holm", Note: note}
	}
	checked := says(assessment.EvidenceMet, "ventilator", "2026-04-20T10:00", "")
	t.Run("what is missing is named", func(t *testing.T) {
		l := assess(c, assessment.Facts{At: now, Evidence: []assessment.Evidence{checked}})
		if l.State != assessment.StateNotMet || len(l.Left) != 1 || !mentions(l.Left, "back-up ventilator") {
			t.Errorf("got %+v", l)
		}
	})
	t.Run("delivered is not checked", func(t *testing.T) {
		l := assess(c, assessment.Facts{At: now, Evidence: []assessment.Evidence{checked, says(assessment.EvidenceDelivered, "back-up ventilator", "2026-04-21T10:00", "")}})
		if l.State != assessment.StateNotMet || !mentions(l.Left, "not checked yet") {
			t.Errorf("got %+v", l)
		}
	})
	t.Run("waived by name, and still shown", func(t *testing.T) {
		waiver := says(assessment.EvidenceWaived, "back-up ventilator", "2026-04-22T10:00", "lives five minutes from the hospital")
		l := assess(c, assessment.Facts{At: now, Evidence: []assessment.Evidence{checked, waiver}})
		if l.State != assessment.StateWaived || !mentions(l.Evidence, "Ida Holm") || !mentions(l.Evidence, "five minutes") {
			t.Errorf("got %+v", l)
		}
	})
	t.Run("the newest word counts", func(t *testing.T) {
		later := says(assessment.EvidenceNotMet, "ventilator", "2026-04-23T10:00", "alarm does not sound")
		l := assess(c, assessment.Facts{At: now, Evidence: []assessment.Evidence{later, checked, says(assessment.EvidenceMet, "back-up ventilator", "2026-04-20T10:00", "")}})
		if l.State != assessment.StateNotMet || !mentions(l.Left, "alarm does not sound") {
			t.Errorf("got %+v", l)
		}
	})
	t.Run("an empty list is never met", func(t *testing.T) {
		if l := assess(assessment.Criterion{Kind: assessment.EquipmentHome}, assessment.Facts{At: now}); l.State != assessment.StateNotMet {
			t.Errorf("got %+v", l)
		}
	})
}

// ATS 2016, table 5, section 1: home equipment tried and tolerated for 24 to 48
// hours before discharge.
func TestEquipmentTrial(t *testing.T) {
	trial := func(hours int) assessment.Criterion {
		return assessment.Criterion{Kind: assessment.EquipmentTrial, Hours: hours}
	}
	started := assessment.Evidence{Word: assessment.EvidenceStarted, At: at(t, "2026-05-01T10:00"), By: "Ida Holm"}
	say := func(word assessment.EvidenceWord, when string) assessment.Evidence {
		return assessment.Evidence{Word: word, At: at(t, when), By: "Ida Holm"}
	}
	cases := []struct {
		why   string
		hours int
		asOf  string
		more  []assessment.Evidence
		want  assessment.CriterionState
		left  string
	}{
		{"a minute short", 24, "2026-05-02T09:59", nil, assessment.StateNotMet, "23 h 59 min of 24 hours"},
		{"to the minute", 24, "2026-05-02T10:00", nil, assessment.StateMet, ""},
		{"48 planned, 24 done", 48, "2026-05-02T10:00", nil, assessment.StateNotMet, "24 h of 48 hours"},
		{"48 planned and done", 48, "2026-05-03T10:00", nil, assessment.StateMet, ""},
		{"ended early", 24, "2026-05-05T10:00", []assessment.Evidence{say(assessment.EvidenceEnded, "2026-05-02T09:00")}, assessment.StateNotMet, "23 h of 24"},
		// From here on: common practice, no source; withheld where in doubt.
		{"two halves are no whole", 24, "2026-05-05T10:00", []assessment.Evidence{say(assessment.EvidenceEnded, "2026-05-01T22:00"),
			say(assessment.EvidenceStarted, "2026-05-01T23:00"), say(assessment.EvidenceEnded, "2026-05-02T11:00")}, assessment.StateNotMet, "12 h of 24"},
		{"begun anew counts from there", 24, "2026-05-02T10:00", []assessment.Evidence{say(assessment.EvidenceStarted, "2026-05-01T20:00")}, assessment.StateNotMet, "14 h of 24"},
		{"long enough and not tolerated", 24, "2026-05-05T10:00", []assessment.Evidence{say(assessment.EvidenceNotMet, "2026-05-02T16:00")}, assessment.StateNotMet, "0 h of 24"},
		{"found wanting afterwards", 24, "2026-05-05T10:00", []assessment.Evidence{say(assessment.EvidenceEnded, "2026-05-02T16:00"),
			say(assessment.EvidenceNotMet, "2026-05-03T09:00")}, assessment.StateNotMet, "0 h of 24"},
		{"done before and not undone by a later start", 24, "2026-05-03T12:00", []assessment.Evidence{say(assessment.EvidenceEnded, "2026-05-02T16:00"),
			say(assessment.EvidenceStarted, "2026-05-03T11:00")}, assessment.StateMet, ""},
	}
	for _, c := range cases {
		t.Run(c.why, func(t *testing.T) {
			l := assess(trial(c.hours), assessment.Facts{At: at(t, c.asOf), Evidence: append([]assessment.Evidence{started}, c.more...)})
			if l.State != c.want || c.left != "" && !mentions(l.Left, c.left) {
				t.Errorf("got %+v", l)
			}
		})
	}
	t.Run("nobody knows today that it will go on until tomorrow", func(t *testing.T) {
		l := assess(trial(24), assessment.Facts{At: at(t, "2026-06-01T10:00"), Known: at(t, "2026-05-01T20:00"), Evidence: []assessment.Evidence{started}})
		if l.State != assessment.StateNotMet || !mentions(l.Left, "10 h of 24") {
			t.Errorf("got %+v", l)
		}
	})
}

// ATS 2016, table 5, section 2, asks for an independent stay and gives no hours.
func TestIndependentStayWithoutHours(t *testing.T) {
	stay := assessment.Criterion{Kind: assessment.IndependentStay}
	l := assess(stay, assessment.Facts{At: at(t, "2026-06-01T10:00"), Evidence: []assessment.Evidence{
		{Word: assessment.EvidenceStarted, At: at(t, "2026-05-01T10:00")}, {Word: assessment.EvidenceEnded, At: at(t, "2026-05-20T10:00")}}})
	if l.State != assessment.StateNotMet || !mentions(l.Left, "not set") || mentions(l.Left, "24") {
		t.Errorf("nineteen days of an unset number: got %+v", l)
	}
}

// Across the spring change of clocks a day has 23 hours (IANA time zone database,
// America/Denver, 8 March 2026): hours are elapsed hours.
func TestHoursAreElapsed(t *testing.T) {
	l := assess(assessment.Criterion{Kind: assessment.IndependentStay, Hours: 24}, assessment.Facts{At: at(t, "2026-03-08T20:00"),
		Evidence: []assessment.Evidence{{Word: assessment.EvidenceStarted, At: at(t, "2026-03-07T20:00")}}})
	if l.State != assessment.StateNotMet || !mentions(l.Left, "23 h of 24") {
		t.Errorf("got %+v", l)
	}
}

// ATS 2016, table 5, section 4: professionals are trained on the very type of
// ventilator in that home.
func TestTypeOfVentilator(t *testing.T) {
	one := assessment.Terms{Award: assessment.Award{Count: 1, Days: 1, Observers: 1, SpanDays: 30},
		Validity: assessment.Validity{Months: 12, Anchor: assessment.Anniversary}, Fitted: []string{"ventilator"}}
	shownWith := func(has assessment.Fitted) []assessment.Entry {
		signed := at(t, "2026-01-05T11:00")
		return []assessment.Entry{{Kind: assessment.DemonstrationEntry, ID: "d", At: at(t, "2026-01-05T10:00"), Outcome: assessment.Competent,
			Observer: "o", Formal: true, Revision: 1, ObserverSigned: signed, LearnerSigned: signed, Fitted: has}}
	}
	home := assessment.Fitted{"ventilator": "type Q", "circuit": "single limb"}
	for _, c := range []struct {
		why   string
		shown assessment.Fitted
		holds bool
	}{
		{"another type", assessment.Fitted{"ventilator": "type P"}, false},
		{"the same type, whichever machine of it", assessment.Fitted{"ventilator": "type Q"}, true},
		{"the same type, another circuit, which does not matter", assessment.Fitted{"ventilator": "type Q", "circuit": "dual limb"}, true},
	} {
		k, err := assessment.NewCase(denver, assessment.Book{Default: one}, []assessment.Fitting{{Has: home}}, shownWith(c.shown))
		if err != nil {
			t.Fatal(err)
		}
		if got := k.Holds(civil.MustParse("2026-02-01")); got != c.holds {
			t.Errorf("%s: holds is %v", c.why, got)
		}
	}
}

// The American Heart Association's course cards: valid through the end of the
// month two years on; the last day counts.
func TestCardsOnFile(t *testing.T) {
	c := assessment.Criterion{Kind: assessment.CardsOnFile, Count: 2}
	mai, ola := relative("Mai", "2030-01-01"), relative("Ola", "2030-01-01")
	last, err := assessment.Card{IssuedOn: civil.MustParse("2026-10-05")}.LastDay()
	if err != nil {
		t.Fatal(err)
	}
	mai.CardEnds, ola.CardEnds = civil.MustParse("2029-12-31"), last
	family := []assessment.Relative{mai, ola}
	if l := assess(c, assessment.Facts{At: at(t, "2028-10-31T23:59"), Family: family}); l.State != assessment.StateMet {
		t.Errorf("on the last day: got %+v", l)
	}
	if l := assess(c, assessment.Facts{At: at(t, "2028-11-01T00:00"), Family: family}); l.State != assessment.StateNotMet || !mentions(l.Left, "Ola: the resuscitation card ended on 31 October 2028") {
		t.Errorf("the day after: got %+v", l)
	}
	family[1].CardEnds = civil.Date{}
	if l := assess(c, assessment.Facts{At: at(t, "2028-10-31T12:00"), Family: family}); l.State != assessment.StateNotMet || !mentions(l.Left, "Ola: no resuscitation card") {
		t.Errorf("none on file: got %+v", l)
	}
}

// ATS 2016, table 5, section 4: competent staff from the first day. Common
// practice, no source, for the rest.
func TestEarlyShifts(t *testing.T) {
	c := assessment.Criterion{Kind: assessment.EarlyShifts}
	now := at(t, "2026-05-01T12:00")
	if l := assess(c, assessment.Facts{At: now}); l.State != assessment.StateNotMet {
		t.Errorf("none planned: got %+v", l)
	}
	shifts := []assessment.ShiftFact{{Label: phrase.Text("night 1")}, {Label: phrase.Text("night 2"), Lacks: []phrase.Phrase{phrase.Text("Suction")}}}
	if l := assess(c, assessment.Facts{At: now, Shifts: shifts}); l.State != assessment.StateNotMet || !mentions(l.Left, "night 2: not current in Suction") {
		t.Errorf("one lacks a skill: got %+v", l)
	}
	if l := assess(c, assessment.Facts{At: now, Shifts: shifts[:1]}); l.State != assessment.StateMet {
		t.Errorf("all current: got %+v", l)
	}
}

// ATS 2016, recommendation 2: agreed criteria, each weighed for its child: never a
// sum. Waivers are ours.
func TestReadyOnlyIfAll(t *testing.T) {
	now := at(t, "2026-05-01T12:00")
	plan := []assessment.Criterion{{ID: "a", Kind: assessment.Attested}, {ID: "b", Kind: assessment.Attested}}
	say := func(of assessment.CriterionID, word assessment.EvidenceWord, when string) assessment.Evidence {
		return assessment.Evidence{Criterion: of, Word: word, At: at(t, when), By: "Ida Holm", Note: "as agreed"}
	}
	met := []assessment.Evidence{say("a", assessment.EvidenceMet, "2026-04-01T10:00")}
	cases := []struct {
		why   string
		more  []assessment.Evidence
		ready bool
		b     assessment.CriterionState
	}{
		{"one of two", nil, false, assessment.StateNotMet},
		{"both", []assessment.Evidence{say("b", assessment.EvidenceMet, "2026-04-02T10:00")}, true, assessment.StateMet},
		{"the other waived", []assessment.Evidence{say("b", assessment.EvidenceWaived, "2026-04-02T10:00")}, true, assessment.StateWaived},
		{"the waiver ended", []assessment.Evidence{say("b", assessment.EvidenceWaived, "2026-04-02T10:00"),
			say("b", assessment.EvidenceUnwaived, "2026-04-03T10:00")}, false, assessment.StateNotMet},
		{"waived only tomorrow", []assessment.Evidence{say("b", assessment.EvidenceWaived, "2026-05-02T10:00")}, false, assessment.StateNotMet},
		{"met, then not", []assessment.Evidence{say("b", assessment.EvidenceMet, "2026-04-02T10:00"),
			say("b", assessment.EvidenceNotMet, "2026-04-03T10:00")}, false, assessment.StateNotMet},
	}
	for _, c := range cases {
		r := assessment.Assess(plan, assessment.Facts{At: now, Zone: denver, Evidence: append(slices.Clone(met), c.more...)})
		if r.Ready != c.ready || r.Lines[1].State != c.b {
			t.Errorf("%s: got %+v", c.why, r)
		}
	}
	if assessment.Assess(nil, assessment.Facts{At: now, Zone: denver}).Ready {
		t.Error("a child without a plan is ready")
	}
}
