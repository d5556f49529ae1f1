package crowd

import (
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
)

// story is one caregiver in one skill and, where it is held per child, for one child.
type story struct {
	person *Caregiver
	skill  *Skill
	child  *Child // with whom it is shown; of a general skill the first
	until  civil.Date
}

// histories draws all that a caregiver ever did, skill by skill.
func (c *Crowd) histories(p *Caregiver) {
	until := Now
	if !p.Left.IsZero() {
		until = earliest(until, p.Left.AddDays(-1))
	}
	for i := range c.Skills {
		cares := p.Cares
		if c.Skills[i].Scope == assessment.General {
			cares = cares[:1]
		}
		for _, n := range cares {
			c.history(story{p, &c.Skills[i], &c.Children[n], until})
		}
	}
}

// history draws one case: nothing, taught only, still learning, or held and renewed,
// in time, late or no more; and what may come between.
func (c *Crowd) history(of story) {
	day := c.dayBetween(latest(of.person.From, of.child.From), of.until).AddDays(1)
	switch n := c.random.IntN(100); {
	case n < 5:
		return
	case n < 9:
		c.exposure(of, day)
		return
	case n < 13:
		c.exposure(of, day)
		c.demonstration(of, day.AddDays(3), assessment.Competent)
		return
	}
	if c.one(6) {
		c.demonstration(of, day, assessment.NotYetCompetent)
		day = day.AddDays(c.between(1, 9))
	}
	for range of.skill.Policy.Award.Count {
		c.demonstration(of, day, assessment.Competent)
		day = day.AddDays(c.between(1, 5))
	}
	c.exceptions(of, day)
	c.renewals(of, day)
}

// renewals shows it again before it ends each time, somewhat late, or never again.
func (c *Crowd) renewals(of story, day civil.Date) {
	for {
		switch n := c.random.IntN(20); {
		case n == 0:
			return
		case n < 4:
			day = day.AddMonths(of.skill.Policy.Validity.Months).AddDays(c.between(1, 70))
		default:
			day = day.AddMonths(of.skill.Policy.Validity.Months).AddDays(-c.between(2, 55))
		}
		if day.After(of.until) {
			return
		}
		if c.one(40) {
			c.demonstration(of, day, []assessment.Outcome{assessment.NotYetCompetent, assessment.StoppedForSafety}[c.random.IntN(2)])
			day = day.AddDays(c.between(1, 6))
		}
		c.demonstration(of, day, assessment.Competent)
	}
}

// exceptions are withdrawals, some of them lifted, and waivers.
func (c *Crowd) exceptions(of story, from civil.Date) {
	if c.one(33) {
		c.withdraw(of, c.dayBetween(from, of.until))
	}
	if c.one(33) {
		on := c.dayBetween(from, of.until)
		c.tables.add("waiver", c.Admin.Agency, c.id(), of.person.ID, of.skill.ID, of.client(), day(on), day(on.AddDays(c.between(10, 120))),
			"On leave.", c.sooner(c.at(on)), c.Coordinator.Person, c.Coordinator.Name)
	}
}

// withdraw takes a competency away; of two that wait for it one is given back.
func (c *Crowd) withdraw(of story, on civil.Date) {
	if on.After(of.until) {
		return
	}
	id, at, until := c.id(), c.sooner(c.at(on)), assessment.Redemonstrated
	if c.one(2) {
		until = assessment.Reinstated
	}
	c.tables.add("withdrawal", c.Admin.Agency, id, of.person.ID, of.skill.ID, of.client(), at, string(until), "An incident.", c.Coordinator.Person, c.Coordinator.Name)
	if back := on.AddDays(c.between(2, 40)); until == assessment.Reinstated && c.one(2) && !back.After(of.until) {
		c.tables.add("reinstatement", c.Admin.Agency, c.id(), id, c.sooner(c.at(back)), "Looked into.", c.Ward.Educators[0].Person, c.Ward.Educators[0].Name)
	}
}

func (c *Crowd) exposure(of story, on civil.Date) {
	if on.After(of.until) {
		return
	}
	kind := []string{"teaching", "practice"}[c.random.IntN(2)]
	c.tables.add("exposure", c.Admin.Agency, c.id(), of.person.ID, of.skill.ID, of.client(), kind, day(on), c.sooner(c.at(on)), c.Coordinator.Person)
}

// client is the child as a row has it: none for a general skill.
func (of story) client() any {
	if of.skill.Scope == assessment.General {
		return nil
	}
	return string(of.child.ID)
}

// sooner keeps what is drawn for today before the instant on the clock.
func (c *Crowd) sooner(at time.Time) time.Time {
	if limit := Now.In(c.Zone).Add(6 * time.Hour); at.After(limit) {
		return limit
	}
	return at
}

// demonstration is one record. Most are signed by both on the day; a few later, a few by
// one or nobody yet, and a few are taken back.
func (c *Crowd) demonstration(of story, on civil.Date, outcome assessment.Outcome) {
	if on.After(of.until) {
		return
	}
	r := c.record(of, on, outcome)
	c.tables.add("demonstration", c.Admin.Agency, r.ID, of.person.ID, r.Observer.ID, of.skill.ID, of.skill.Revision, r.Revision, string(of.child.ID), r.Place, r.Real, r.Formal,
		r.equipment, r.performed, r.recorded, string(outcome), r.Score, r.text, r.sum)
	byObserver, byLearner := r.recorded.Add(time.Minute), r.recorded.Add(2*time.Minute)
	switch n := c.random.IntN(100); {
	case n < 3:
		byLearner = c.sooner(byLearner.AddDate(0, 0, c.between(1, 20)))
	case n == 3 && on.After(Now.AddDays(-60)):
		byLearner = time.Time{}
	case n == 4 && on.After(Now.AddDays(-60)):
		byObserver, byLearner = time.Time{}, time.Time{}
	}
	c.sign(r, "observer", r.Observer, r.observer.licence, byObserver)
	c.sign(r, "learner", r.Learner, "", byLearner)
	if c.one(300) && !byLearner.IsZero() {
		c.tables.add("correction", c.Admin.Agency, c.id(), "demonstration", r.ID, c.sooner(byLearner.AddDate(0, 0, c.between(1, 90))), "Written down for the wrong person.", c.Coordinator.Person, c.Coordinator.Name)
	}
}

func (c *Crowd) sign(r record, part string, by bodyPerson, licence string, at time.Time) {
	if at.IsZero() {
		return
	}
	c.tables.add("signature", c.Admin.Agency, r.ID, part, string(by.ID), by.Name, licence, meanings[part], at, c.Zone.String(), r.sum)
}

// meanings are what signatures say of themselves.
var meanings = map[string]string{"observer": "I observed and judged this.", "learner": "I showed this and we talked it over."}
