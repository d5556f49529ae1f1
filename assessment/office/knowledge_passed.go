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
	Reader    bool   // they could read what it asks
	PresentBy string // who says that a trainer was there; empty: nobody had said so by that day
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
		counts := func(s postgres.KnowledgeSitting) bool { return core.Suffices(s.Pass()) && !s.Pass().Unwatched(by) }
		var newest *postgres.KnowledgeSitting
		for i, s := range sittings {
			if s.SkillID != k.ID || !s.Took() || s.HandedInAt.After(by) {
				continue
			}
			if newest == nil || counts(s) || !counts(*newest) {
				newest = &sittings[i]
			}
		}
		if newest == nil {
			continue
		}
		ref, day, pass := SkillRef{k.ID, k.Code, k.Title}, civil.DayOf(*newest.HandedInAt, now.Zone), newest.Pass()
		one := PassedCheck{Skill: ref, Called: Called{ref, called[k.ID]}, On: day, Through: core.Through(day), Holds: counts(*newest) && core.Holds([]civil.Date{day}, on), Right: pass.Right, Of: pass.Of, Reader: pass.Reader}
		if !pass.Watched.IsZero() && !pass.Watched.After(by) {
			one.PresentBy = newest.PresentName
		}
		all = append(all, one)
	}
	return all, nil
}
