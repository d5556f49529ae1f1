package office

import (
	"context"
	"slices"

	"wellshown/assessment"
	"wellshown/assessment/postgres"
)

// PeopleDesk is a page of people, with how each stands today.
type PeopleDesk struct {
	People  []PersonSummary
	Next    string // where the next page begins; empty on the last
	All     int    // people who are here today, whatever was asked for
	Trouble int    // of them, with a required skill lapsed or withdrawn
}

// PersonSummary is a person with how they stand in what they must hold today.
type PersonSummary struct {
	PersonView
	Summary
}

// Summary is how somebody stands in what they must hold.
type Summary struct {
	Worst    assessment.StandingWord // empty: nothing is required
	Current  int                     // of the required, due ones included
	Required int
}

// PeopleDesk lists people like People, with their standings from the index.
func (o *Office) PeopleDesk(ctx context.Context, by assessment.Actor, q PeopleQuery) (PeopleDesk, error) {
	var v PeopleDesk
	err := o.as(ctx, by, assessment.ReadReports, func(tx *postgres.Tx, now Moment) error {
		found, next, err := people(ctx, tx, now, by, q)
		if err != nil {
			return err
		}
		t, err := o.table(ctx, tx, now.Today, nil)
		if err != nil {
			return err
		}
		v = PeopleDesk{Next: next}
		for _, p := range found {
			v.People = append(v.People, PersonSummary{p, t.summary(p.ID, "")})
		}
		v.count(t)
		return nil
	})
	return v, err
}

func (v *PeopleDesk) count(t *table) {
	for _, p := range t.people {
		if gone(p.LeftOn, t.on) {
			continue
		}
		v.All++
		if w := t.summary(p.ID, "").Worst; w == assessment.Lapsed || w == assessment.Withdrawn {
			v.Trouble++
		}
	}
}

// summary sums up what somebody must hold, for one child and in general, or for
// all children for the empty id.
func (t *table) summary(person assessment.PersonID, client assessment.ClientID) Summary {
	var s Summary
	for _, need := range t.needs[person] {
		if client != "" && need.Client != "" && need.Client != client {
			continue
		}
		word := t.one(person, t.skill(need.Skill), need.Client, true).Word
		s.Required++
		if word.Holds() {
			s.Current++
		}
		if s.Worst == "" || slices.Index(severity, word) < slices.Index(severity, s.Worst) {
			s.Worst = word
		}
	}
	return s
}
