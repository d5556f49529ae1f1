package office

import (
	"context"
	"fmt"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/postgres"
)

// waysHome answers readiness now for those of some children who have a plan, with
// what they share read once.
func (o *Office) waysHome(ctx context.Context, tx *postgres.Tx, now Moment, clients []postgres.Client) (map[assessment.ClientID]ReadinessView, error) {
	answers := map[assessment.ClientID]ReadinessView{}
	var plans []*planned
	for _, c := range clients {
		p := newPlanned(now.Today)
		p.client = c
		if err := p.readPlan(ctx, tx); err != nil {
			return nil, err
		}
		if len(p.criteria) > 0 {
			plans = append(plans, p)
		}
	}
	if len(plans) == 0 {
		return answers, nil
	}
	if err := o.share(ctx, tx, now, plans); err != nil {
		return nil, err
	}
	for _, p := range plans {
		v, err := p.answer(now, now.At)
		if err != nil {
			return nil, fmt.Errorf("answer for %s: %w", p.client.Code, err)
		}
		answers[p.client.ID] = v
	}
	return answers, nil
}

// share reads what several plans are judged by.
func (o *Office) share(ctx context.Context, tx *postgres.Tx, now Moment, plans []*planned) error {
	d, err := o.demands(ctx, tx, now.Today, postgres.TeamFilter{})
	if err != nil {
		return err
	}
	cards := map[assessment.PersonID]civil.Date{}
	if err := readCards(ctx, tx, cards); err != nil {
		return err
	}
	people := []assessment.PersonID{noPerson} // none asks for everybody
	for _, p := range plans {
		p.demands, p.cards = d, cards
		people = append(people, p.gatherFamily()...)
	}
	book, err := o.casebook(ctx, tx, now, postgres.HistoryFilter{People: people})
	if err != nil {
		return err
	}
	for _, p := range plans {
		p.open(book)
	}
	return nil
}
