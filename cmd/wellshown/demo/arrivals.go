package demo

import (
	"fmt"
	"slices"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/office"
)

// planArrivals lets each child come when the first of its caregivers does, and
// everybody begin to learn on the day they come.
func (s *story) planArrivals() {
	s.children = theChildren()
	for _, c := range s.children {
		c.since = s.opening()
		if c.code != "2C" { // there from the first day, for the educators
			c.since = s.firstPost(c.code)
		}
		s.at(s.hour(c.since, 8, 15), func() error { return s.arrive(c) })
	}
	for i, e := range s.educators {
		l := s.learner(e.person, "", 0)
		l.steady = true
		for _, k := range s.skills {
			l.courses = append(l.courses, course{k, s.childWith("2C"), s.opening()})
		}
		s.at(s.hour(s.opening(), 8, 45), func() error { return s.recordCard(l, 11*(i+2)) })
		s.visitOn(l, s.opening().AddDays(1+i))
	}
	for _, c := range theCaregivers {
		s.planArrival(c)
	}
	s.result.Counts.Caregivers, s.result.Counts.Children = len(theCaregivers), len(s.children)
}

func (s *story) firstPost(code string) civil.Date {
	first := s.today
	for _, c := range theCaregivers {
		for _, p := range c.children {
			if p.child == code {
				first = civil.Earlier(first, s.ago(p.since))
			}
		}
	}
	return first
}

// learner is somebody new. Their person may still have to be added.
func (s *story) learner(p *person, kind assessment.CaregiverKind, care float64) *learner {
	l := &learner{person: p, number: len(s.learners), kind: kind, care: care, chance: s.chance(p.Name), limits: map[string]int{}, stops: map[string]civil.Date{}, shown: map[string]int{}}
	s.learners = append(s.learners, l)
	return l
}

// planArrival lets a caregiver join, be put on the teams and begin.
func (s *story) planArrival(c caregiver) {
	l := s.learner(&person{Actor: assessment.Actor{Name: c.name}}, c.kind, 0.06)
	for _, k := range s.skills {
		for _, p := range c.children {
			if slices.Contains(needs[c.kind], k.code) {
				l.courses = append(l.courses, course{k, s.childWith(p.child), s.ago(p.since)})
			}
		}
	}
	s.at(s.hour(s.ago(c.joined), 8, 30), func() error { return s.welcome(l, c) })
	for _, p := range c.children {
		s.at(s.hour(s.ago(p.since), 8, 40), func() error { return s.addToTeam(l, s.childWith(p.child)) })
	}
}

func (s *story) welcome(l *learner, c caregiver) error {
	p, err := s.join(office.PersonForm{Name: c.name, Kind: string(c.kind), Relation: c.relation, Language: c.language,
		Roles: []string{string(assessment.Caregiver)}}, c.mail)
	if err != nil {
		return err
	}
	*l.person = *p
	role := string(c.kind)
	if c.kind == assessment.Family {
		role = "family caregiver"
	}
	s.signIn(role, l.person)
	months := 1 + l.chance.IntN(12)
	if c.name == kwame { // who lets it run out: it ends about a month before the last day
		months = 14
	}
	return s.recordCard(l, months)
}

func (s *story) addToTeam(l *learner, c *child) error {
	_, err := s.office.AddToTeam(s.ctx, s.coordinate[0].Actor, c.id, office.TeamForm{Person: l.Person, From: s.day().String()})
	if err != nil {
		return fmt.Errorf("put %s on the team of %s: %w", l.Name, c.code, err)
	}
	s.visitOn(l, s.day().AddDays(1+l.chance.IntN(4)))
	return nil
}

// recordCard puts a resuscitation card on file that was issued some months ago,
// and plans the next one for before it ends.
func (s *story) recordCard(l *learner, months int) error {
	issued := s.day().AddMonths(-months)
	v, err := s.office.RecordCard(s.ctx, s.coordinate[1].Actor, l.Person, office.CardForm{Issuer: "Highplains First Aid School", IssuedOn: issued.String()})
	if err != nil {
		return fmt.Errorf("record the card of %s: %w", l.Name, err)
	}
	l.cardEnd = v.Through
	if l.Name != kwame {
		s.at(s.hour(workday(v.Through.AddDays(-12-l.chance.IntN(20))), 16, 0), func() error { return s.recordCard(l, 0) })
	}
	return nil
}
