package office

import (
	"context"
	"fmt"
	"slices"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/postgres"
)

// reminderBook is what notices of some days are worked out from, read once.
type reminderBook struct {
	rules    assessment.ReminderRules
	people   map[assessment.PersonID]postgres.Person // who may be told: those who are still there
	planners assessment.Planners
	days     map[civil.Date][]assessment.Holding
	told     map[assessment.Notice]bool
}

// letter is what one person is told on a day.
type letter struct {
	to      assessment.PersonID
	notices []assessment.Notice
}

// reminderBook reads what is needed for today and some days after it.
func (o *Office) reminderBook(ctx context.Context, tx *postgres.Tx, now Moment, ahead int) (*reminderBook, error) {
	b := &reminderBook{people: map[assessment.PersonID]postgres.Person{}, days: map[civil.Date][]assessment.Holding{}}
	var err error
	if b.rules, _, err = reminderRules(ctx, tx); err != nil {
		return nil, err
	}
	if err := b.readPeople(ctx, tx, now.Today); err != nil || b.rules.Off {
		return b, err
	}
	last := now.Today.AddDays(ahead)
	plans, err := o.renewalsPlanned(ctx, tx, now, last.AddDays(b.rules.Unplanned))
	if err != nil {
		return nil, err
	}
	rostered, err := o.rosteredLapsed(ctx, tx, now, last)
	if err != nil {
		return nil, err
	}
	earliest := last
	for on := now.Today; !on.After(last); on = on.AddDays(1) {
		t, err := o.table(ctx, tx, on, nil)
		if err != nil {
			return nil, err
		}
		for _, h := range holdings(t) {
			h.Planned = plans.before(h, t)
			h.Rostered = slices.ContainsFunc(rostered[h.CaseKey], func(d civil.Date) bool { return !d.Before(on) && d.Sub(on) < CoverageDays })
			b.days[on] = append(b.days[on], h)
			earliest = civil.Earlier(earliest, h.Through)
		}
	}
	b.told, err = tx.Reminders.Told(ctx, earliest)
	return b, err
}

func (b *reminderBook) readPeople(ctx context.Context, tx *postgres.Tx, today civil.Date) error {
	people, err := tx.People.List(ctx, postgres.PeopleFilter{On: today})
	if err != nil {
		return fmt.Errorf("read people: %w", err)
	}
	for _, p := range people {
		b.people[p.ID] = p
		if slices.Contains(p.Roles, assessment.Coordinator) {
			b.planners.Coordinators = append(b.planners.Coordinators, p.ID)
		}
		if slices.Contains(p.Roles, assessment.Administrator) {
			b.planners.Administrators = append(b.planners.Administrators, p.ID)
		}
	}
	return nil
}

// holdings is what must be held on the day of a table and is, or was. Who has left, or
// will have before it ends, is not reminded of it.
func holdings(t *table) []assessment.Holding {
	var all []assessment.Holding
	for _, p := range t.people {
		for _, need := range t.needs[p.ID] {
			skill := t.skill(need.Skill)
			cell := t.one(p.ID, skill, need.Client, true)
			if cell.Through.IsZero() || gone(p.LeftOn, t.on) || cell.Word.Holds() && gone(p.LeftOn, cell.Through.AddDays(1)) {
				continue
			}
			all = append(all, assessment.Holding{CaseKey: assessment.CaseKey{Person: p.ID, Skill: skill.ID, Client: need.Client}, Word: cell.Word, Through: cell.Through})
		}
	}
	return all
}

// lettersOn is what is told on a day that was not told before, a letter a person. It is
// taken as told for the days after it.
func (b *reminderBook) lettersOn(on civil.Date) []letter {
	var letters []letter
	for _, n := range b.rules.Notices(on, b.days[on], b.planners) {
		to, here := b.people[n.To]
		if !here || b.told[n] || gone(to.LeftOn, on) {
			continue
		}
		b.told[n] = true
		if len(letters) == 0 || letters[len(letters)-1].to != n.To {
			letters = append(letters, letter{to: n.To})
		}
		last := &letters[len(letters)-1]
		last.notices = append(last.notices, n)
	}
	return letters
}
