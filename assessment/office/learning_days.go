package office

import (
	"context"
	"strconv"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/postgres"
)

// LearningDesk is how many days the agency plans for each skill.
type LearningDesk struct {
	Agency AgencyView
	Skills []SkillDays // in teaching order
}

// SkillDays is a skill with the days that are planned for learning it.
type SkillDays struct {
	SkillRef
	Days int
	Set  bool // by the agency; else what is planned where it set none
}

// LearningDesk answers for today.
func (o *Office) LearningDesk(ctx context.Context, by assessment.Actor) (LearningDesk, error) {
	var v LearningDesk
	err := o.as(ctx, by, assessment.PlanLearning, func(tx *postgres.Tx, now Moment) error {
		v = LearningDesk{Agency: viewAgency(now.Agency)}
		skills, err := tx.Checklists.Skills(ctx)
		if err != nil {
			return err
		}
		days, err := tx.Learning.Days(ctx)
		if err != nil {
			return err
		}
		for _, s := range skills {
			one := SkillDays{SkillRef: SkillRef{s.ID, s.Code, s.Title}, Days: assessment.PlannedDays(s.Code)}
			for _, d := range days {
				if d.Skill == s.ID {
					one.Days, one.Set = d.Days, true
				}
			}
			v.Skills = append(v.Skills, one)
		}
		return nil
	})
	return v, err
}

// SetLearningDays plans days for one skill from now on.
func (o *Office) SetLearningDays(ctx context.Context, by assessment.Actor, skill, days string) error {
	return o.as(ctx, by, assessment.PlanLearning, func(tx *postgres.Tx, now Moment) error {
		var faults form
		n, err := strconv.Atoi(strings.TrimSpace(days))
		if err != nil || n < 1 || n > assessment.MostLearningDays {
			faults.Add("days", "Give whole days, from 1 to %d.", assessment.MostLearningDays)
		}
		s, err := tx.Checklists.SkillByCode(ctx, skill)
		if err != nil {
			faults.Add("skill", "Choose the skill.")
		}
		if err := faults.Err(); err != nil {
			return err
		}
		id, err := newID[assessment.RecordID](o, now.At)
		if err != nil {
			return err
		}
		if err := tx.Learning.SetDays(ctx, id, postgres.LearningDays{Skill: s.ID, Days: n}, by.Person, now.At); err != nil {
			return err
		}
		return o.note(ctx, tx, now, by, assessment.PlanLearning, "learning_days", string(id))
	})
}
