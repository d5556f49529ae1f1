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
	switch why, unwatched := lacking(passes, rule, learner, skill, title, at, now.Zone); {
	case unwatched:
		return fault.Of(fault.Refused, "%s An educator who was there says so on the page of the check. Else have it taken again with a trainer there, or make this a practice.", why)
	case why != "":
		return fault.Of(fault.Refused, "%s Have it taken first, or make this a practice.", why)
	}
	return nil
}

// lacking says why somebody's check does not hold at an instant; empty: it does, or none is
// asked. Unwatched: all that is missing is somebody's word that a trainer was there.
func lacking(passes []postgres.KnowledgeSitting, rule postgres.KnowledgeRule, learner assessment.PersonID, skill assessment.SkillID, title string, at time.Time, zone *time.Location) (why string, unwatched bool) {
	if rule.Asked != knowledge.First {
		return "", false
	}
	var own []time.Time
	var newest time.Time // of those before
	core, easier := rule.Core(), false
	for _, s := range passes {
		if s.PersonID != learner || s.SkillID != skill {
			continue
		}
		p := s.Pass()
		switch before := !p.HandedIn.After(at); {
		case !core.Suffices(p):
			easier = easier || before
		case before && p.Unwatched(at):
			unwatched = unwatched || core.HeldAt([]time.Time{p.HandedIn}, at, zone)
		case before:
			own, newest = append(own, p.HandedIn), p.HandedIn
		}
	}
	switch {
	case core.HeldAt(own, at, zone):
		return "", false
	case unwatched:
		return fmt.Sprintf("The knowledge check of %s comes first. It was passed by somebody who could read what it asks, and nobody else had said by then that a trainer was there.", title), true
	case !newest.IsZero():
		return fmt.Sprintf("The knowledge check of %s comes first, and its last pass held through %s.", title, core.Through(civil.DayOf(newest, zone))), false
	case easier:
		return fmt.Sprintf("The knowledge check of %s comes first, and was passed only by a rule that asked less.", title), false
	}
	return fmt.Sprintf("The knowledge check of %s comes first, and is not passed.", title), false
}

// checkBook is the rules and passes of one moment, for many learners.
type checkBook struct {
	rules  map[assessment.SkillID]postgres.KnowledgeRule
	passes map[assessment.PersonID][]postgres.KnowledgeSitting
	at     time.Time
	zone   *time.Location
}

// readChecks reads the rules, and the passes of some people where any rule asks for one.
func readChecks(ctx context.Context, tx *postgres.Tx, now Moment, people []assessment.PersonID) (checkBook, error) {
	b := checkBook{rules: map[assessment.SkillID]postgres.KnowledgeRule{}, passes: map[assessment.PersonID][]postgres.KnowledgeSitting{}, at: now.At, zone: now.Zone}
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
	why, _ := lacking(b.passes[learner], rule, learner, skill, title, b.at, b.zone)
	return why
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
