package assessment

import (
	"slices"
	"time"

	"wellshown/assessment/civil"
)

// An incident is something that was seen to go wrong on a day in a skill. It takes what it
// concerns away; nothing about it gives anything.

// IncidentScope is what an incident withdraws.
type IncidentScope string

// What an incident withdraws. A deficiency that was confirmed obliges to retrain and
// evaluate again in the skill and all related skills (42 CFR 484.80(h)(3), from memory): the
// same hands do it for every child.
const (
	SkillAndRelated IncidentScope = "skill and related" // with every child
	SkillAlone      IncidentScope = "skill alone"       // as it was named, with the one child
	WithdrawNothing IncidentScope = "nothing"           // only where the agency leaves that to whoever records
)

// IncidentScopes are the scopes that an agency may set.
var IncidentScopes = []IncidentScope{SkillAndRelated, SkillAlone}

// RelatedSkills are the skills that are related to one, sorted, whichever of the two names the
// other, itself left out. The rule does not say who names whom: this is the reading that
// withholds. What is related to a related skill is not related by that.
func RelatedSkills(code string, named map[string][]string) []string {
	related := slices.Clone(named[code])
	for other, names := range named {
		if slices.Contains(names, code) {
			related = append(related, other)
		}
	}
	slices.Sort(related)
	return slices.DeleteFunc(slices.Compact(related), func(s string) bool { return s == code })
}

// IncidentActs are the instants at which an incident takes a standing away. A negative acts
// from the day it was performed, so one withdrawal is of the incident's own instant. What was
// shown between that and the day on which the incident was written down was shown before
// anybody taught it again, so another one is of the latter: only what is shown on a later day
// than both lifts both. An incident that is written down on its own day needs one.
func IncidentActs(happened, recorded time.Time, zone *time.Location) []time.Time {
	if !civil.DayOf(recorded, zone).After(civil.DayOf(happened, zone)) {
		return []time.Time{happened}
	}
	return []time.Time{happened, recorded}
}
