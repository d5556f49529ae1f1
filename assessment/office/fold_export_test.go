package office

import (
	"context"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/postgres"
)

// FoldedDay is what the records say on a day, and what is required then, without a look at
// the index.
type FoldedDay struct {
	Standings map[assessment.CaseKey]assessment.Standing // of whatever is known or required
	Needs     map[assessment.PersonID][]assessment.Need
	Skills    map[string]assessment.SkillID
}

// FoldEverything folds every case of an agency on some days.
func (o *Office) FoldEverything(ctx context.Context, by assessment.Actor, days []civil.Date) (map[civil.Date]FoldedDay, error) {
	all := map[civil.Date]FoldedDay{}
	err := o.as(ctx, by, assessment.ReadReports, func(tx *postgres.Tx, now Moment) error {
		b, err := o.casebook(ctx, tx, now, postgres.HistoryFilter{})
		if err != nil {
			return err
		}
		known := map[assessment.CaseKey]bool{}
		for _, key := range b.keys() {
			known[key] = true
		}
		skills := map[string]assessment.SkillID{}
		for code, s := range b.byCode {
			skills[code] = s.ID
		}
		for _, day := range days {
			needs, err := o.needsOfAll(ctx, tx, day)
			if err != nil {
				return err
			}
			for person, asked := range needs {
				for _, n := range asked {
					known[assessment.CaseKey{Person: person, Skill: skills[n.Skill], Client: n.Client}] = true
				}
			}
			all[day] = FoldedDay{map[assessment.CaseKey]assessment.Standing{}, needs, skills}
		}
		for key := range known {
			c, err := b.caseOf(key)
			if err != nil {
				return err
			}
			for _, day := range days {
				all[day].Standings[key] = c.On(day)
			}
		}
		return nil
	})
	return all, err
}
