package office

import (
	"context"
	"fmt"
	"slices"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/postgres"
)

// wayHomes are the plans of several children with what they share, read once.
type wayHomes struct {
	plans  []*planned
	people []assessment.PersonID // whose histories they are judged by
}

// waysHome answers readiness now for those of some children who have a plan.
func (o *Office) waysHome(ctx context.Context, tx *postgres.Tx, now Moment, clients []postgres.Client) (map[assessment.ClientID]ReadinessView, error) {
	w, err := o.gatherPlans(ctx, tx, now, clients, nil)
	if err != nil || len(w.plans) == 0 {
		return nil, err
	}
	book, err := o.casebook(ctx, tx, now, postgres.HistoryFilter{People: append(w.people, noPerson)}) // none asks for everybody
	if err != nil {
		return nil, err
	}
	return w.answer(now, book)
}

// gatherPlans reads the plans of children, and who signed them, without the histories behind them. What
// is demanded today of everybody is read where it is not known yet.
func (o *Office) gatherPlans(ctx context.Context, tx *postgres.Tx, now Moment, clients []postgres.Client, d *demands) (wayHomes, error) {
	var w wayHomes
	with, err := tx.Plans.Clients(ctx)
	if err != nil {
		return w, fmt.Errorf("read who has a plan: %w", err)
	}
	for _, c := range clients {
		if !slices.Contains(with, c.ID) {
			continue
		}
		p := newPlanned(now.Today)
		p.client = c
		w.plans = append(w.plans, p)
	}
	if len(w.plans) == 0 {
		return w, nil
	}
	if err := readPlans(ctx, tx, now, w.plans...); err != nil {
		return w, err
	}
	if d == nil {
		if d, err = o.demands(ctx, tx, now.Today, postgres.TeamFilter{}); err != nil {
			return w, err
		}
	}
	cards := map[assessment.PersonID]civil.Date{}
	if err := readCards(ctx, tx, now, now.Today, cards); err != nil {
		return w, err
	}
	for _, p := range w.plans {
		p.demands, p.cards = d, cards
		w.people = append(w.people, p.gatherFamily()...)
	}
	return w, readSignatures(ctx, tx, now, w.plans...)
}

// answer judges each plan by a casebook that holds the histories of its people.
func (w wayHomes) answer(now Moment, book *casebook) (map[assessment.ClientID]ReadinessView, error) {
	answers := map[assessment.ClientID]ReadinessView{}
	for _, p := range w.plans {
		p.open(book)
		v, err := p.answer(now, now.At)
		if err != nil {
			return nil, fmt.Errorf("answer for %s: %w", p.client.Code, err)
		}
		answers[p.client.ID] = v
	}
	return answers, nil
}
