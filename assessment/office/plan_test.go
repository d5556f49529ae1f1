package office_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/office"
	"wellshown/assessment/phrase"
	"wellshown/assessment/wording"
)

// What the American Thoracic Society's 2016 guideline on pediatric chronic home
// invasive ventilation asks for before going home (Am J Respir Crit Care Med 2016;193:e16:
// table 3, the sections of table 5, table 6, and the pocket guide), each beside the line
// of the standard template that asks for it.
func TestTheStandardTemplateAsksForWhatTheGuidelineDoes(t *testing.T) {
	for _, c := range []struct{ asks, line, source string }{
		{"co-management by a generalist and a respiratory subspecialist (1)", "family doctor and a breathing specialist", "recommendation 1"},
		{"an awake, trained caregiver at all times (3a)", "always awake with the child", "recommendation 3a"},
		{"at least two specifically trained family caregivers (3b)", "Two family caregivers can do everything", "recommendation 3b"},
		{"nine items of equipment (4c)", "The equipment is at home and checked", "recommendation 4c"},
		{"stable settings and oxygen, no acute decompensation (5, 1)", "settings and oxygen unchanged, no recent setback", "table 5, section 1"},
		{"home equipment tried and tolerated (5, 1)", "The home equipment has been tried", "table 5, section 1"},
		{"an independent stay with all care (5, 2)", "done all care by itself", "table 5, section 2"},
		{"competence in every therapy (5, 2)", "can do everything", "table 5, section 2"},
		{"recognising and answering emergencies (5, 2)", "can handle emergencies", "table 5, section 2"},
		{"agreement to care when nursing is absent, for long (5, 2)", "care alone when no nurse comes, for long times too", "table 5, section 2"},
		{"safe transport (5, 1 and 2)", "The way home and later trips are safe", "table 5, sections 1 and 2"},
		{"home inspection with the electrics (5, 3)", "The home is safe and its power is enough", "table 5, section 3"},
		{"24-hour service (5, 3)", "answers day and night", "table 5, section 3"},
		{"same-day replacement (5, 3)", "replaces on the same day", "table 5, section 3"},
		{"a visit each month (5, 3)", "visits each month", "table 5, section 3"},
		{"professionals as able as the family, from the first day (5, 4)", "Every early shift has somebody who can do everything", "table 5, section 4"},
		{"a written safety plan with contacts near the child (5, 5)", "A written emergency plan with telephone numbers hangs by the bed", "table 5, section 5"},
		{"certification in resuscitation (6)", "have a resuscitation card", "table 6"},
	} {
		i := slices.IndexFunc(office.StandardTemplate(), func(l assessment.Criterion) bool { return strings.Contains(l.Title, c.line) })
		if i < 0 {
			t.Errorf("%s: no line asks for it", c.asks)
			continue
		}
		if l := office.StandardTemplate()[i]; !strings.Contains(l.Source, "American Thoracic Society 2016") || !strings.Contains(l.Source, c.source) {
			t.Errorf("%s: the source is %q, not %q", c.asks, l.Source, c.source)
		}
	}
	for _, l := range office.StandardTemplate() {
		if l.Source == "" || l.Spanish == "" || len(l.ItemsSpanish) != len(l.Items) {
			t.Errorf("%s lacks its source or its Spanish", l.Title)
		}
		if hours := l.Kind == assessment.EquipmentTrial; (l.Hours > 0) != hours {
			t.Errorf("%s: %d hours", l.Title, l.Hours)
		}
		if l.Kind == assessment.IndependentStay && (!strings.Contains(l.Source, "gives no hours") || strings.ContainsAny(strings.ReplaceAll(l.Source, "2016, table 5, section 2", ""), "0123456789")) {
			t.Errorf("the stay cites hours: %q", l.Source)
		}
	}
}

// allInPlace is a plan of which all is in place on 5 May 2026, and what is known.
func allInPlace() ([]assessment.Criterion, assessment.Facts) {
	at, through := time.Date(2026, 5, 5, 16, 0, 0, 0, time.UTC), civil.MustParse("2026-12-31")
	plan := office.StandardPlan([]string{"suction", "tube-change", "bagging", "decannulation"})
	held := func() map[string]assessment.Standing {
		all := map[string]assessment.Standing{}
		for _, code := range plan[0].Skills {
			all[code] = assessment.Standing{Word: assessment.Current, Through: through}
		}
		return all
	}
	f := assessment.Facts{At: at, Zone: time.UTC, Family: []assessment.Relative{{Name: "Rosa Quintero", Standings: held(), CardEnds: through}, {Name: "Luis Quintero", Standings: held(), CardEnds: through}},
		Shifts: []assessment.ShiftFact{{Label: phrase.Text("1 June, Ada Marsh")}, {Label: phrase.Text("2 June, Minh Vu")}}}
	for i := range plan {
		c := &plan[i]
		c.ID = assessment.CriterionID(fmt.Sprint(i + 1))
		say := func(word assessment.EvidenceWord, item string, hours int) {
			f.Evidence = append(f.Evidence, assessment.Evidence{Criterion: c.ID, Word: word, Item: item, At: at.Add(-time.Duration(hours) * time.Hour), By: "Ida Holm"})
		}
		switch c.Kind {
		case assessment.IndependentStay, assessment.EquipmentTrial:
			c.Hours = 24
			say(assessment.EvidenceStarted, "", 100)
			say(assessment.EvidenceEnded, "", 60)
		case assessment.EquipmentHome:
			for _, item := range c.Items {
				say(assessment.EvidenceMet, item, 50)
			}
		case assessment.Attested:
			say(assessment.EvidenceMet, "", 40)
		}
	}
	return plan, f
}

// lacking is one thing that is taken away, with the line that then fails and what it
// must name in either language.
type lacking struct {
	why     string
	line    int
	english string
	spanish string
	take    func(plan []assessment.Criterion, f *assessment.Facts)
}

// oneLacks lists every single thing that a plan of all criteria rests on.
func oneLacks() []lacking {
	var all []lacking
	plan, known := allInPlace()
	names := map[string]string{"suction": "Suctioning"}
	for i, c := range plan {
		switch c.Kind {
		case assessment.FamilyCurrent, assessment.EmergencyDrills:
			for who, r := range known.Family {
				for _, code := range c.Skills {
					title := names[code]
					if title == "" {
						title = code
					}
					all = append(all, lacking{fmt.Sprintf("%s in %s, %s", r.Name, code, c.Kind), i, r.Name + " · " + title, r.Name + " · " + title,
						func(_ []assessment.Criterion, f *assessment.Facts) {
							f.Family[who].Standings[code] = assessment.Standing{Word: assessment.Lapsed, Next: assessment.Next{Demonstrations: 1}}
						}})
				}
			}
		case assessment.CardsOnFile:
			for who, r := range known.Family {
				all = append(all, lacking{"the card of " + r.Name, i, r.Name + ": no resuscitation card", r.Name + ": aún no hay tarjeta de reanimación",
					func(_ []assessment.Criterion, f *assessment.Facts) { f.Family[who].CardEnds = civil.Date{} }})
			}
		case assessment.EarlyShifts:
			for k, s := range known.Shifts {
				all = append(all, lacking{"the shift " + s.Label.String(), i, s.Label.String() + ": not current in suction", s.Label.String() + ": no está al día en suction",
					func(_ []assessment.Criterion, f *assessment.Facts) {
						f.Shifts[k].Lacks = []phrase.Phrase{phrase.Text("suction")}
					}})
			}
			all = append(all, lacking{"all shifts", i, "No early shift is planned yet.", "Aún no hay ningún primer turno", func(_ []assessment.Criterion, f *assessment.Facts) { f.Shifts = nil }})
		}
	}
	for n, e := range known.Evidence {
		if e.Word == assessment.EvidenceEnded { // without it the stretch only goes on
			continue
		}
		i := slices.IndexFunc(plan, func(c assessment.Criterion) bool { return c.ID == e.Criterion })
		all = append(all, lacking{fmt.Sprintf("%s of %s %s", e.Word, plan[i].Title, e.Item), i, plan[i].Title + e.Item, plan[i].Spanish + plan[i].Item(e.Item).Spanish,
			func(_ []assessment.Criterion, f *assessment.Facts) { f.Evidence = slices.Delete(f.Evidence, n, n+1) }})
	}
	return all
}

// Two family caregivers current in all, and all else: ready. Any single thing less, in
// turn: not ready, and it is named, in English and in Spanish (ATS 2016, recommendation 2:
// agreed criteria; that each counts is ours).
func TestAnySingleThingThatLacksIsNamed(t *testing.T) {
	plan, f := allInPlace()
	if r := assessment.Assess(plan, f); !r.Ready {
		t.Fatalf("with everything it is not ready: %+v", r)
	}
	es := wording.In(wording.Spanish)
	tried := map[assessment.CriterionID]bool{}
	for _, c := range oneLacks() {
		plan, f := allInPlace()
		f.Titles = map[string]string{"suction": "Suctioning"}
		c.take(plan, &f)
		r := assessment.Assess(plan, f)
		l := r.Lines[c.line]
		tried[l.Criterion.ID] = true
		if r.Ready || l.State != assessment.StateNotMet || len(l.Left) == 0 {
			t.Errorf("without %s: ready %v, %+v", c.why, r.Ready, l.Left)
			continue
		}
		english, spanish := l.Criterion.Title, es.Own(l.Criterion.Name())
		for _, todo := range l.Left {
			english, spanish = english+todo.String(), spanish+es.Of(todo.Phrase)
		}
		if !strings.Contains(english, c.english) || !strings.Contains(spanish, c.spanish) {
			t.Errorf("without %s:\n%s\n%s", c.why, english, spanish)
		}
		for k, other := range r.Lines {
			if k != c.line && other.State == assessment.StateNotMet && other.Criterion.Kind != assessment.EmergencyDrills && other.Criterion.Kind != assessment.FamilyCurrent {
				t.Errorf("without %s: %s is not met either", c.why, other.Criterion.Title)
			}
		}
	}
	if len(tried) != len(plan) {
		t.Errorf("only %d of %d lines were tried", len(tried), len(plan))
	}
}
