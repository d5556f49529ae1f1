package office

import (
	"context"
	"fmt"
	"slices"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/postgres"
)

// panel is who may observe what today, asked of the core for each skill.
type panel struct {
	table *table
	seen  []assessment.Observation // one an educator, without skill
	names []string
}

// panel reads the educators with their licences and appointments.
func (o *Office) panel(ctx context.Context, tx *postgres.Tx, now Moment, t *table) (*panel, error) {
	p := &panel{table: t}
	kept, err := tx.Qualifications.Appointments(ctx, "")
	if err != nil {
		return nil, fmt.Errorf("read appointments: %w", err)
	}
	licences, err := tx.Qualifications.Licences(ctx, "")
	if err != nil {
		return nil, fmt.Errorf("read licences: %w", err)
	}
	for _, person := range t.people {
		if gone(person.LeftOn, t.on) || !slices.Contains(person.Roles, assessment.Educator) {
			continue
		}
		seen := assessment.Observation{Observer: person.ID}
		for _, a := range kept {
			if a.Person == person.ID {
				seen.Appointments = append(seen.Appointments, coreAppointment(a, now.Zone))
			}
		}
		for _, l := range licences {
			if l.Person != person.ID {
				continue
			}
			seen.Licences = append(seen.Licences, assessment.Licence{Kind: l.Kind, Number: l.Number, Through: l.ThroughOn})
		}
		p.seen, p.names = append(p.seen, seen), append(p.names, person.Name)
	}
	return p, nil
}

// of lists by name who may observe a learner in a skill on the table's day.
func (p *panel) of(learner assessment.PersonID, skill SkillRef) []PersonRef {
	var able []PersonRef
	for i, seen := range p.seen {
		seen.Learner, seen.Skill, seen.Title = learner, skill.Code, skill.Title
		seen.Standing = p.table.ownStanding(seen.Observer, skill.ID)
		if seen.MayObserve(p.table.on) == nil {
			able = append(able, PersonRef{ID: seen.Observer, Name: p.names[i]})
		}
	}
	return able
}

// ownStanding is somebody's standing in a skill with whatever client, by the index.
func (t *table) ownStanding(person assessment.PersonID, skill assessment.SkillID) assessment.StandingWord {
	var words []assessment.StandingWord
	for _, client := range t.with(person, skill) {
		words = append(words, t.standing(person, t.position[skill], t.numbers[client]).word())
	}
	return withAny(words)
}

// ownWords orders what somebody's standings with several clients are told by.
var ownWords = []assessment.StandingWord{assessment.NotStarted, assessment.Learning, assessment.Waived, assessment.Lapsed, assessment.Due, assessment.Current}

// withAny is the standing of somebody who stands so with each of several clients:
// current with any counts, unless it is withdrawn with any.
func withAny(words []assessment.StandingWord) assessment.StandingWord {
	best := assessment.NotStarted
	for _, w := range words {
		if w == assessment.Withdrawn {
			return w
		}
		if slices.Index(ownWords, w) > slices.Index(ownWords, best) {
			best = w
		}
	}
	return best
}

func coreAppointments(kept []postgres.Appointment, zone *time.Location) []assessment.Appointment {
	var all []assessment.Appointment
	for _, k := range kept {
		all = append(all, coreAppointment(k, zone))
	}
	return all
}
