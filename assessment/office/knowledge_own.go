package office

import (
	"context"
	"fmt"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/knowledge"
	"wellshown/assessment/postgres"
)

// OwnCheck is where somebody stands with the check of one skill.
type OwnCheck struct {
	Skill   SkillRef
	Called  Called
	Rule    postgres.KnowledgeRule
	Open    assessment.RecordID // a sitting that goes on; empty: none
	Ends    time.Time           // when its time is over
	Over    bool                // it is: no pass comes of it any more
	Passed  civil.Date          // day of the newest pass that holds; zero: none holds
	Through civil.Date          // last day of it; zero: without end
	Ran     civil.Date          // last day of a pass that holds no more, where none does
	Easier  bool                // passed, but by a rule that asked less than is asked now, and by no other
	Waits   bool                // passed by who could read what is asked, and counts once somebody else says that a trainer was there
	Next    NextTry
	Tries   []Try // newest first
}

// Holds reports whether a pass holds today.
func (c OwnCheck) Holds() bool { return !c.Passed.IsZero() }

// ownChecks are the checks that are asked, and where a person stands with each.
func (o *Office) ownChecks(ctx context.Context, tx *postgres.Tx, now Moment, person assessment.PersonID) ([]OwnCheck, error) {
	skills, err := tx.Checklists.Skills(ctx)
	if err != nil {
		return nil, err
	}
	rules, err := rulesBySkill(ctx, tx, now.At)
	if err != nil {
		return nil, err
	}
	sittings, err := tx.Knowledge.Sittings(ctx, person, "")
	if err != nil {
		return nil, fmt.Errorf("read somebody's checks: %w", err)
	}
	lessons, err := tx.Knowledge.Taught(ctx, person, "")
	if err != nil {
		return nil, fmt.Errorf("read what was taught: %w", err)
	}
	called, err := lessonTitles(ctx, tx)
	if err != nil {
		return nil, err
	}
	var all []OwnCheck
	for _, s := range skills {
		var own []postgres.KnowledgeSitting
		for _, one := range sittings {
			if one.SkillID == s.ID {
				own = append(own, one)
			}
		}
		rule := rules[s.ID]
		if rule.Asked == knowledge.NotAsked && len(own) == 0 {
			continue
		}
		var taught []postgres.TaughtOn
		for _, t := range lessons {
			if t.SkillID == s.ID {
				taught = append(taught, t)
			}
		}
		c := ownCheck(now, SkillRef{s.ID, s.Code, s.Title}, rule, own, taughtAt(taught, now.Zone))
		c.Called = Called{c.Skill, called[s.ID]}
		all = append(all, c)
	}
	return all, nil
}

func ownCheck(now Moment, skill SkillRef, rule postgres.KnowledgeRule, own []postgres.KnowledgeSitting, taught []time.Time) OwnCheck {
	c := OwnCheck{Skill: skill, Rule: rule, Next: NextTry{Tries: rule.Tries}}
	var ended []knowledge.Sitting
	core := rule.Core()
	for _, s := range own {
		if s.HandedInAt == nil {
			c.Open, c.Ends, c.Over = s.ID, s.Ends(), s.Over(now.At)
			continue
		}
		day := civil.DayOf(*s.HandedInAt, now.Zone)
		ended = append(ended, knowledge.Sitting{Ended: s.Ended(), Told: *s.HandedInAt, Passed: s.Took()})
		c.Tries = append([]Try{{ID: s.ID, On: day, Right: *s.RightCount, Of: len(s.Items), Passed: s.Took(), Critical: len(s.Critical), Present: s.Present, Late: s.Over(*s.HandedInAt)}}, c.Tries...)
		if s.Took() {
			c.weigh(core, s.Pass(), day, now)
		}
	}
	if c.Next.From, c.Next.Teach = core.Next(ended, taught); len(ended) == 0 {
		c.Next = NextTry{Tries: rule.Tries}
	}
	return c
}

// weigh takes in the next pass, of all in the order in which they were handed in.
func (c *OwnCheck) weigh(core knowledge.Rule, p knowledge.Pass, day civil.Date, now Moment) {
	switch {
	case !core.Suffices(p):
		c.Easier = !c.Holds() && c.Ran.IsZero()
	case p.Unwatched(now.At): // it never held, so it does not end either
		c.Waits = !c.Holds() && core.Holds([]civil.Date{day}, now.Today)
	case !core.Holds([]civil.Date{day}, now.Today):
		c.Easier, c.Ran = false, core.Through(day)
	default:
		c.Passed, c.Through, c.Ran, c.Easier, c.Waits = day, core.Through(day), civil.Date{}, false, false
	}
}
