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

// checkHolds refuses a demonstration of a skill whose check is asked before it is shown,
// where the learner had no pass that held at the instant at which it was performed, by the
// rule as it stood then. It only ever withholds: passing makes nobody current.
func (o *Office) checkHolds(ctx context.Context, tx *postgres.Tx, now Moment, learner assessment.PersonID, skill assessment.SkillID, title string, at time.Time) error {
	rule, err := ruleAt(ctx, tx, skill, at)
	if err != nil || rule.Asked != knowledge.First {
		return err
	}
	passes, err := tx.Knowledge.Passes(ctx, string(learner))
	if err != nil {
		return fmt.Errorf("read the checks that somebody passed: %w", err)
	}
	if why := lacking(passes, rule, learner, skill, title, at, now.Zone); why != "" {
		return fault.Of(fault.Refused, "%s Have it taken first, or make this a practice.", why)
	}
	return nil
}

// lacking says why somebody's check does not hold at an instant; empty: it does, or none
// is asked.
func lacking(passes []postgres.KnowledgePass, rule postgres.KnowledgeRule, learner assessment.PersonID, skill assessment.SkillID, title string, at time.Time, zone *time.Location) string {
	if rule.Asked != knowledge.First {
		return ""
	}
	var own []time.Time
	var newest time.Time // of those before
	core, easier := rule.Core(), false
	for _, p := range passes {
		if p.PersonID != learner || p.SkillID != skill {
			continue
		}
		if !core.Suffices(p.RightCount, p.Asked) {
			easier = easier || !p.HandedInAt.After(at)
			continue
		}
		own = append(own, p.HandedInAt)
		if !p.HandedInAt.After(at) {
			newest = p.HandedInAt
		}
	}
	switch {
	case core.HeldAt(own, at, zone):
		return ""
	case !newest.IsZero():
		return fmt.Sprintf("The knowledge check of %s comes first, and its last pass held through %s.", title, core.Through(civil.DayOf(newest, zone)))
	case easier:
		return fmt.Sprintf("The knowledge check of %s comes first, and was passed only by a rule that asked less.", title)
	}
	return fmt.Sprintf("The knowledge check of %s comes first, and is not passed.", title)
}

// checkBook is the rules and passes of one moment, for many learners.
type checkBook struct {
	rules  map[assessment.SkillID]postgres.KnowledgeRule
	passes map[assessment.PersonID][]postgres.KnowledgePass
	at     time.Time
	zone   *time.Location
}

// readChecks reads the rules, and the passes of some people where any rule asks for one.
func readChecks(ctx context.Context, tx *postgres.Tx, now Moment, people []assessment.PersonID) (checkBook, error) {
	b := checkBook{rules: map[assessment.SkillID]postgres.KnowledgeRule{}, passes: map[assessment.PersonID][]postgres.KnowledgePass{}, at: now.At, zone: now.Zone}
	kept, err := tx.Knowledge.Rules(ctx, now.At)
	if err != nil {
		return b, fmt.Errorf("read the rules of checks: %w", err)
	}
	for _, r := range kept {
		if r.Asked == knowledge.First {
			b.rules[r.SkillID] = r
		}
	}
	if len(b.rules) == 0 || len(people) == 0 {
		return b, nil
	}
	var ids []string
	for _, p := range people {
		ids = append(ids, string(p))
	}
	passes, err := tx.Knowledge.Passes(ctx, ids...)
	if err != nil {
		return b, fmt.Errorf("read the checks that were passed: %w", err)
	}
	for _, p := range passes {
		b.passes[p.PersonID] = append(b.passes[p.PersonID], p)
	}
	return b, nil
}

// why says why somebody's check keeps a skill from being shown so that it counts; empty:
// it does not.
func (b checkBook) why(learner assessment.PersonID, skill assessment.SkillID, title string) string {
	rule, asked := b.rules[skill]
	if !asked {
		return ""
	}
	return lacking(b.passes[learner], rule, learner, skill, title, b.at, b.zone)
}

// lacking lists the skills of a pack that somebody cannot show so that they count.
func (b checkBook) lacking(learner assessment.PersonID, skills []PackSkill) []PackCheck {
	var all []PackCheck
	for _, s := range skills {
		if why := b.why(learner, s.ID, s.Title); why != "" {
			all = append(all, PackCheck{s.Code, why})
		}
	}
	return all
}
