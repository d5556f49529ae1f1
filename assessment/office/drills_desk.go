package office

import (
	"context"
	"fmt"
	"slices"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/postgres"
)

// DrillsDesk is all scenarios by skill, and the last drill in each skill of each caregiver who
// is with the agency today.
type DrillsDesk struct {
	Skills []DrilledSkill
	Last   []LastDrill
	Zone   *time.Location
}

// DrilledSkill is an emergency skill with its scenarios.
type DrilledSkill struct {
	Skill     SkillRef
	Scenarios []DrillScenario // with those that are not offered any more
}

// LastDrill is the newest drill of somebody in a skill.
type LastDrill struct {
	postgres.Demonstration
	RecordedDrill
	On civil.Date
}

// Drills lists scenarios and last drills for those who keep them.
func (o *Office) Drills(ctx context.Context, by assessment.Actor) (DrillsDesk, error) {
	var v DrillsDesk
	err := o.as(ctx, by, assessment.ReadBank, func(tx *postgres.Tx, now Moment) error {
		v = DrillsDesk{Zone: now.Zone}
		b, err := o.drills(ctx, tx)
		if err != nil {
			return err
		}
		for _, s := range b.skills {
			if b.drilled[s.ID] {
				v.Skills = append(v.Skills, DrilledSkill{b.titled[s.ID], b.now(s.ID)})
			}
		}
		last, err := tx.Drills.Last(ctx, now.Today)
		if err != nil {
			return fmt.Errorf("list the last drills: %w", err)
		}
		for _, d := range last {
			r, err := DrillOf(d)
			if err != nil {
				return err
			}
			if r != nil {
				v.Last = append(v.Last, LastDrill{d, *r, civil.DayOf(d.PerformedAt, now.Zone)})
			}
		}
		return nil
	})
	return v, err
}

// BeforeDrill is what an observer can choose from before a drill begins.
type BeforeDrill struct {
	BeforeOpening
	Scenarios []DrillScenario // offered, of the skills among them
}

// BeforeDrill lists whom and what the actor may drill today.
func (o *Office) BeforeDrill(ctx context.Context, by assessment.Actor, chosen Chosen) (BeforeDrill, error) {
	before, err := o.BeforeOpening(ctx, by, chosen)
	if err != nil {
		return BeforeDrill{}, err
	}
	v := BeforeDrill{BeforeOpening: before}
	err = o.as(ctx, by, assessment.Observe, func(tx *postgres.Tx, now Moment) error {
		v = BeforeDrill{BeforeOpening: before}
		b, err := o.drills(ctx, tx)
		if err != nil {
			return err
		}
		v.Skills = slices.DeleteFunc(slices.Clone(before.Skills), func(s ObservableSkill) bool { return len(b.offered(s.ID)) == 0 })
		for _, s := range v.Skills {
			v.Scenarios = append(v.Scenarios, b.offered(s.ID)...)
		}
		return nil
	})
	return v, err
}
