package office

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// ScenarioForm is a scenario as somebody writes it.
type ScenarioForm struct {
	Code      string // empty: a new one
	Skill     string // code of the skill, of a new one
	Version   int    // that was read; 0: a starter that nobody used yet, or a new one
	Source    string
	ThenAfter string // seconds; empty: when they act
	Texts     map[string]assessment.ScenarioText
}

func (f ScenarioForm) read() (assessment.Scenario, error) {
	var faults form
	s := assessment.Scenario{ID: "new", Skill: "of", Source: faults.maybe("source", f.Source, 500), Texts: map[string]assessment.ScenarioText{}}
	if strings.TrimSpace(f.ThenAfter) != "" {
		n, ok := wholeSeconds(f.ThenAfter)
		if !ok || n == 0 {
			faults.Add("then_after", "Give whole seconds, from 1 to %d, or nothing.", assessment.MostDrillSeconds)
		}
		s.ThenAfter = n
	}
	for _, l := range []string{"en", "es"} {
		t := f.Texts[l]
		s.Texts[l] = assessment.ScenarioText{Title: faults.maybe(l+"_title", t.Title, 200), Read: faults.words(l+"_read", t.Read, 2000), Then: faults.words(l+"_then", t.Then, 2000),
			Recognise: faults.words(l+"_recognise", t.Recognise, 500), Act: faults.words(l+"_act", t.Act, 500), Call: faults.words(l+"_call", t.Call, 500)}
	}
	if err := faults.Err(); err != nil {
		return s, err
	}
	return s, s.Check("en", "es")
}

// SaveScenario keeps what somebody wrote as the next version, unless somebody else has
// changed it meanwhile. It answers the code of the scenario.
func (o *Office) SaveScenario(ctx context.Context, by assessment.Actor, f ScenarioForm) (string, error) {
	code := f.Code
	err := o.as(ctx, by, assessment.EditChecks, func(tx *postgres.Tx, now Moment) error {
		s, err := f.read()
		if err != nil {
			return err
		}
		if err := tx.Drills.LockScenarios(ctx); err != nil {
			return err
		}
		b, err := o.drills(ctx, tx)
		if err != nil {
			return err
		}
		next, err := f.goesOn(b, s)
		if err != nil {
			return err
		}
		code = next.ID
		if next.VersionID != "" { // it says nothing else than what stands
			return nil
		}
		id, err := o.addScenario(ctx, tx, now, by, next, false)
		if err != nil {
			return err
		}
		return o.note(ctx, tx, now, by, assessment.EditChecks, "drill_scenario", string(id))
	})
	return code, err
}

// goesOn is what is to be kept: the next version of what a form was read from, or the first
// of a new scenario. A form that was sent twice is the same one.
func (f ScenarioForm) goesOn(b drillBook, s assessment.Scenario) (DrillScenario, error) {
	if f.Code == "" {
		return f.begins(b, s)
	}
	known, skill, err := b.find(f.Code)
	if err != nil {
		return known, err
	}
	s.ID, s.Skill = known.ID, skill.Code
	switch {
	case known.VersionID != "" && !known.Retired && known.Same(s):
		return known, nil
	case known.Version != f.Version:
		return known, fault.Of(fault.Conflict, "Somebody else has changed this scenario meanwhile. Look at it again, then save.")
	}
	return DrillScenario{Scenario: s, Title: known.Title, Version: known.Version}, nil
}

// begins is the first version of a new scenario of a skill.
func (f ScenarioForm) begins(b drillBook, s assessment.Scenario) (DrillScenario, error) {
	n := slices.IndexFunc(b.skills, func(k postgres.Skill) bool { return k.Code == f.Skill })
	switch {
	case n < 0:
		return DrillScenario{}, faultAt("skill", "Choose the skill.")
	case !b.drilled[b.skills[n].ID]:
		return DrillScenario{}, faultAt("skill", "Drills are for emergency skills: those that are never shown on a child.")
	}
	skill := b.skills[n]
	for _, d := range b.now(skill.ID) {
		if d.VersionID != "" && !d.Retired && d.Same(s) {
			return d, nil
		}
	}
	for i := 1; ; i++ {
		if s.ID = fmt.Sprintf("%s-own-%d", skill.Code, i); len(b.versions[s.ID]) == 0 {
			s.Skill = skill.Code
			return DrillScenario{Scenario: s, Title: b.titled[skill.ID]}, nil
		}
	}
}

// RetireScenario takes a scenario out of what is offered, or back in. Records that name it
// still show it.
func (o *Office) RetireScenario(ctx context.Context, by assessment.Actor, code string, retired bool) error {
	return o.as(ctx, by, assessment.EditChecks, func(tx *postgres.Tx, now Moment) error {
		if err := tx.Drills.LockScenarios(ctx); err != nil {
			return err
		}
		b, err := o.drills(ctx, tx)
		if err != nil {
			return err
		}
		known, _, err := b.find(code)
		if err != nil || known.Retired == retired {
			return err
		}
		id, err := o.addScenario(ctx, tx, now, by, known, retired)
		if err != nil {
			return err
		}
		return o.note(ctx, tx, now, by, assessment.EditChecks, "drill_scenario", string(id))
	})
}
