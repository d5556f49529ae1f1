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
			ended = append(ended, knowledge.Sitting{Ended: *s.HandedInAt, Passed: s.Took()})
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

// OwnCheck is where somebody stands with the check of one skill.
type OwnCheck struct {
	Skill   SkillRef
	Called  Called
	Rule    postgres.KnowledgeRule
	Open    assessment.RecordID // a sitting that goes on; empty: none
	Passed  civil.Date          // day of the newest pass that holds; zero: none holds
	Through civil.Date          // last day of it; zero: without end
	Ran     civil.Date          // last day of a pass that holds no more, where none does
	Easier  bool                // passed, but by a rule that asked less than is asked now, and by no other
	Next    NextTry
	Tries   []Try // newest first
}

// Holds reports whether a pass holds today.
func (c OwnCheck) Holds() bool { return !c.Passed.IsZero() }

// Try is a sitting that was handed in.
type Try struct {
	ID       assessment.RecordID
	On       civil.Date
	Right    int
	Of       int
	Passed   bool
	Critical int // critical items that were missed
	Present  *bool
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

func ownCheck(now Moment, skill SkillRef, rule postgres.KnowledgeRule, own []postgres.KnowledgeSitting, taught []time.Time) OwnCheck {
	c := OwnCheck{Skill: skill, Rule: rule, Next: NextTry{Tries: rule.Tries}}
	var ended []knowledge.Sitting
	core := rule.Core()
	for _, s := range own {
		if s.HandedInAt == nil {
			c.Open = s.ID
			continue
		}
		day := civil.DayOf(*s.HandedInAt, now.Zone)
		ended = append(ended, knowledge.Sitting{Ended: *s.HandedInAt, Passed: s.Took()})
		c.Tries = append([]Try{{ID: s.ID, On: day, Right: *s.RightCount, Of: len(s.Items), Passed: s.Took(), Critical: len(s.Critical), Present: s.Present}}, c.Tries...)
		switch {
		case !s.Took():
		case !core.Suffices(*s.RightCount, len(s.Items)):
			c.Easier = !c.Holds() && c.Ran.IsZero()
		case core.Holds([]civil.Date{day}, now.Today):
			c.Passed, c.Through, c.Ran, c.Easier = day, core.Through(day), civil.Date{}, false
		default:
			c.Easier, c.Ran = false, core.Through(day)
		}
	}
	if c.Next.From, c.Next.Teach = core.Next(ended, taught); len(ended) == 0 {
		c.Next = NextTry{Tries: rule.Tries}
	}
	return c
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
