package office

import (
	"context"
	"fmt"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/postgres"
)

// PassedCheck is the newest pass of the check of one skill, as it stood on a day.
type PassedCheck struct {
	Skill     SkillRef
	Called    Called
	On        civil.Date
	Through   civil.Date // last day; zero: without end
	Holds     bool       // on that day
	Right, Of int
}

// passedChecks lists the newest pass of each check that somebody has passed by the end of
// a day, by the rules as they stood then. Nothing is folded from it.
func passedChecks(ctx context.Context, tx *postgres.Tx, now Moment, person assessment.PersonID, on civil.Date) ([]PassedCheck, error) {
	by := on.AddDays(1).In(now.Zone).Add(-time.Nanosecond)
	if by.After(now.At) {
		by = now.At
	}
	rules, err := rulesBySkill(ctx, tx, by)
	if err != nil {
		return nil, err
	}
	skills, err := tx.Checklists.Skills(ctx)
	if err != nil {
		return nil, err
	}
	sittings, err := tx.Knowledge.Sittings(ctx, person, "")
	if err != nil {
		return nil, fmt.Errorf("read somebody's checks: %w", err)
	}
	called, err := lessonTitles(ctx, tx)
	if err != nil {
		return nil, err
	}
	var all []PassedCheck
	for _, k := range skills {
		core := rules[k.ID].Core()
		var newest *postgres.KnowledgeSitting
		for i, s := range sittings {
			if s.SkillID != k.ID || !s.Took() || s.HandedInAt.After(by) {
				continue
			}
			if newest == nil || core.Suffices(*s.RightCount, len(s.Items)) || !core.Suffices(*newest.RightCount, len(newest.Items)) {
				newest = &sittings[i]
			}
		}
		if newest == nil {
			continue
		}
		ref, day := SkillRef{k.ID, k.Code, k.Title}, civil.DayOf(*newest.HandedInAt, now.Zone)
		all = append(all, PassedCheck{Skill: ref, Called: Called{ref, called[k.ID]}, On: day, Through: core.Through(day), Holds: core.Suffices(*newest.RightCount, len(newest.Items)) && core.Holds([]civil.Date{day}, on), Right: *newest.RightCount, Of: len(newest.Items)})
	}
	return all, nil
}
