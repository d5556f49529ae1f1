package office

import (
	"context"
	"fmt"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/knowledge"
	"wellshown/assessment/postgres"
)

// NextTry is when somebody may take a check again.
type NextTry struct {
	From  time.Time // zero: at any time
	Teach bool      // somebody teaches them again before
	Tries int       // in a row that were not passed, after which that is so
}

// Waits reports whether the time has not come yet.
func (n NextTry) Waits(at time.Time) bool { return at.Before(n.From) }

func (n NextTry) mayBegin(now Moment) error {
	switch {
	case n.Waits(now.At):
		return fault.Of(fault.Refused, "The next try is from %s, %s on. Until then there is time to read and to ask.", civil.DayOf(n.From, now.Zone), n.From.In(now.Zone).Format("15:04"))
	case n.Teach:
		return fault.Of(fault.Refused, "Before the next try an educator goes through it with you. Ask your educator.")
	}
	return nil
}

// nextTry asks the core, by the sittings that were handed in and by what was taught.
func nextTry(ctx context.Context, tx *postgres.Tx, now Moment, person assessment.PersonID, skill assessment.SkillID, rule postgres.KnowledgeRule, own []postgres.KnowledgeSitting) (NextTry, error) {
	var ended []knowledge.Sitting
	for _, s := range own {
		if s.HandedInAt != nil {
			ended = append(ended, knowledge.Sitting{Ended: s.Ended(), Told: *s.HandedInAt, Passed: s.Took()})
		}
	}
	n := NextTry{Tries: rule.Tries}
	if len(ended) == 0 {
		return n, nil
	}
	lessons, err := tx.Knowledge.Taught(ctx, person, skill)
	if err != nil {
		return n, fmt.Errorf("read what was taught: %w", err)
	}
	n.From, n.Teach = rule.Core().Next(ended, taughtAt(lessons, now.Zone))
	return n, nil
}

// taughtAt is when teaching counts as given: when it was written down on its own day, else
// at the beginning of that day, so that what came before a try is not taken for what came
// after it.
func taughtAt(lessons []postgres.TaughtOn, zone *time.Location) []time.Time {
	var all []time.Time
	for _, t := range lessons {
		if civil.DayOf(t.RecordedAt, zone) == t.OnDay {
			all = append(all, t.RecordedAt)
		} else {
			all = append(all, t.OnDay.In(zone))
		}
	}
	return all
}

// Try is a sitting that was handed in.
type Try struct {
	ID       assessment.RecordID
	On       civil.Date
	Right    int
	Of       int
	Passed   bool
	Critical int // critical items that were missed
	Present  *bool
	Late     bool // handed in when its time was over
}

// CheckSummary is the check of one skill as those see it who keep it.
type CheckSummary struct {
	Skill   SkillRef
	Rule    postgres.KnowledgeRule
	Items   int // in use
	Retired int
	Handed  int // sittings handed in
	Passed  int
	Starter bool // there are starter items
}

// ChecksView is what somebody has to know, and what others do.
type ChecksView struct {
	Today civil.Date
	At    time.Time
	Zone  *time.Location
	Takes bool // the actor may take checks
	Own   []OwnCheck
	All   []CheckSummary // for those who look after everybody's; else nothing
}

// Checks lists the checks that are asked, as far as they concern the actor.
func (o *Office) Checks(ctx context.Context, by assessment.Actor) (ChecksView, error) {
	var v ChecksView
	err := o.as(ctx, by, assessment.ReadChecks, func(tx *postgres.Tx, now Moment) (err error) {
		v = ChecksView{Today: now.Today, At: now.At, Zone: now.Zone, Takes: by.Reach(assessment.TakeCheck) != assessment.Nothing}
		if v.Takes {
			if v.Own, err = o.ownChecks(ctx, tx, now, by.Person); err != nil {
				return err
			}
		}
		if by.Reach(assessment.ReadBank) == assessment.Everything {
			v.All, err = o.allChecks(ctx, tx, now)
		}
		return err
	})
	return v, err
}

func rulesBySkill(ctx context.Context, tx *postgres.Tx, at time.Time) (map[assessment.SkillID]postgres.KnowledgeRule, error) {
	skills, err := tx.Checklists.Skills(ctx)
	if err != nil {
		return nil, err
	}
	kept, err := tx.Knowledge.Rules(ctx, at)
	if err != nil {
		return nil, fmt.Errorf("read the rules of checks: %w", err)
	}
	rules := map[assessment.SkillID]postgres.KnowledgeRule{}
	for _, s := range skills {
		rules[s.ID] = usualRule
	}
	for _, r := range kept {
		rules[r.SkillID] = r
	}
	return rules, nil
}

func (o *Office) allChecks(ctx context.Context, tx *postgres.Tx, now Moment) ([]CheckSummary, error) {
	skills, err := tx.Checklists.Skills(ctx)
	if err != nil {
		return nil, err
	}
	rules, err := rulesBySkill(ctx, tx, now.At)
	if err != nil {
		return nil, err
	}
	counts, err := tx.Knowledge.Counts(ctx)
	if err != nil {
		return nil, fmt.Errorf("count items and sittings: %w", err)
	}
	var all []CheckSummary
	for _, s := range skills {
		c := CheckSummary{Skill: SkillRef{s.ID, s.Code, s.Title}, Rule: rules[s.ID], Starter: hasStarterItems(s.Code)}
		for _, n := range counts {
			if n.SkillID == s.ID {
				c.Items, c.Retired, c.Handed, c.Passed = n.Items, n.Retired, n.Handed, n.Passed
			}
		}
		all = append(all, c)
	}
	return all, nil
}
