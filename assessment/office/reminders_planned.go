package office

import (
	"context"
	"fmt"
	"slices"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/postgres"
)

// plannedDays are the days on which something can be renewed as things are planned.
type plannedDays struct {
	visits map[assessment.CaseKey]bool         // in the days of its renewal
	shown  map[assessment.CaseKey][]civil.Date // at a station of a skills day
}

// before reports whether a holding can be renewed before it is over.
func (p plannedDays) before(h assessment.Holding, t *table) bool {
	if p.visits[h.CaseKey] {
		return true
	}
	in := func(d civil.Date) bool { return !d.Before(t.on) && !d.After(h.Through) }
	return slices.ContainsFunc(p.shown[h.CaseKey], in)
}

// renewalsPlanned reads the visits and skills days to come, with what each is good for.
func (o *Office) renewalsPlanned(ctx context.Context, tx *postgres.Tx, now Moment, until civil.Date) (plannedDays, error) {
	p := plannedDays{map[assessment.CaseKey]bool{}, map[assessment.CaseKey][]civil.Date{}}
	book, err := o.visitBook(ctx, tx, now, until)
	if err != nil {
		return p, fmt.Errorf("read visits: %w", err)
	}
	for _, v := range book.visits {
		for _, w := range v.Windows {
			p.visits[assessment.CaseKey{Person: w.Person, Skill: book.skill(w.Need.Skill).ID, Client: w.Need.Client}] = true
		}
	}
	days, err := tx.SkillsDays.From(ctx, now.Today)
	if err != nil {
		return p, fmt.Errorf("read skills days: %w", err)
	}
	for _, d := range days {
		if d.HeldOn.After(until) || d.EndedAt != nil {
			continue
		}
		if err := p.addDay(ctx, tx, d); err != nil {
			return p, err
		}
	}
	return p, nil
}

func (p plannedDays) addDay(ctx context.Context, tx *postgres.Tx, d postgres.SkillsDay) error {
	stations, err := tx.SkillsDays.Stations(ctx, d.ID)
	if err != nil {
		return fmt.Errorf("read stations: %w", err)
	}
	learners, err := tx.SkillsDays.Learners(ctx, d.ID)
	if err != nil {
		return fmt.Errorf("read who comes to a skills day: %w", err)
	}
	for _, l := range learners {
		for _, s := range stations {
			for _, client := range distinct([]assessment.ClientID{"", s.ClientID}) { // a general skill is held for no child, whoever's values it is shown with
				key := assessment.CaseKey{Person: l.PersonID, Skill: s.SkillID, Client: client}
				p.shown[key] = append(p.shown[key], d.HeldOn)
			}
		}
	}
	return nil
}

// rosteredLapsed are the days on which somebody is on a shift that asks for what is over,
// from today to the end of the coming roster of a later day.
func (o *Office) rosteredLapsed(ctx context.Context, tx *postgres.Tx, now Moment, last civil.Date) (map[assessment.CaseKey][]civil.Date, error) {
	cover, err := o.coverage(ctx, tx, now, CoverageQuery{Through: last.AddDays(CoverageDays - 1), State: "breaks"})
	if err != nil {
		return nil, fmt.Errorf("read the roster: %w", err)
	}
	days := map[assessment.CaseKey][]civil.Date{}
	for _, line := range cover.Lines {
		for _, lack := range line.Lacks {
			if lack.Why == assessment.NotHeld && lack.Word == assessment.Lapsed {
				key := assessment.CaseKey{Person: line.Person.ID, Skill: lack.Skill.ID, Client: lack.With.ID}
				days[key] = append(days[key], lack.On)
			}
		}
	}
	return days, nil
}
