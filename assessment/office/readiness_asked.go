package office

import (
	"slices"

	"wellshown/assessment"
)

// asked are the criteria as they are judged: what is required of the child's family today, and
// stands on no line for skills, is asked beside what the lines for the whole family name. A
// plan that was made before something was required must not come to "ready" without it.
func (p *planned) asked() []assessment.Criterion {
	named := p.skills(assessment.FamilyCurrent, assessment.EmergencyDrills)
	var more []string
	for _, n := range p.demands.of(assessment.Family, p.client.ID) {
		if !slices.Contains(named, n.Skill) && !slices.Contains(more, n.Skill) {
			more = append(more, n.Skill)
		}
	}
	all := slices.Clone(p.criteria)
	for i, c := range all {
		if c.Kind == assessment.FamilyCurrent && len(c.Skills) > 0 {
			all[i].Skills = slices.Concat(c.Skills, more)
		}
	}
	return all
}

// skills are those that criteria of some kinds name.
func (p *planned) skills(kinds ...assessment.CriterionKind) []string {
	return skillsOf(p.criteria, kinds...)
}

func skillsOf(criteria []assessment.Criterion, kinds ...assessment.CriterionKind) []string {
	var all []string
	for _, c := range criteria {
		if !slices.Contains(kinds, c.Kind) {
			continue
		}
		for _, s := range c.Skills {
			if !slices.Contains(all, s) {
				all = append(all, s)
			}
		}
	}
	return all
}
