package office

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/postgres"
)

// supervisionBook is what supervision is worked out from, read once.
type supervisionBook struct {
	names       names
	clients     []postgres.Client
	teams       []postgres.Member // of aides
	care        map[assessment.ClientID][]assessment.SkilledCare
	visits      []postgres.SupervisoryVisit // the newest first
	aides       []PersonRef
	supervisors []PersonRef
}

func (o *Office) supervisionBook(ctx context.Context, tx *postgres.Tx, now Moment) (*supervisionBook, error) {
	b := &supervisionBook{care: map[assessment.ClientID][]assessment.SkilledCare{}}
	var err error
	if b.names, err = o.names(ctx, tx); err != nil {
		return nil, err
	}
	if b.clients, err = tx.Clients.List(ctx, postgres.ClientFilter{On: now.Today}); err != nil {
		return nil, fmt.Errorf("read children: %w", err)
	}
	if b.visits, err = tx.Practice.Supervised(ctx); err != nil {
		return nil, fmt.Errorf("read assessments: %w", err)
	}
	settings, err := tx.Practice.SkilledCare(ctx)
	if err != nil {
		return nil, fmt.Errorf("read skilled care: %w", err)
	}
	for _, s := range settings {
		b.care[s.Client] = append(b.care[s.Client], assessment.SkilledCare{From: s.FromOn, Skilled: s.Skilled, Episodes: s.EpisodesFrom})
	}
	members, err := tx.Teams.List(ctx, postgres.TeamFilter{})
	if err != nil {
		return nil, fmt.Errorf("read teams: %w", err)
	}
	for _, m := range members {
		if m.Kind == assessment.Aide && !gone(m.ClientLeft, now.Today) && !gone(m.PersonLeft, now.Today) {
			b.teams = append(b.teams, m)
		}
	}
	return b, b.people(ctx, tx, now)
}

// people are the aides, and who may supervise them today.
func (b *supervisionBook) people(ctx context.Context, tx *postgres.Tx, now Moment) error {
	people, err := tx.People.List(ctx, postgres.PeopleFilter{})
	if err != nil {
		return fmt.Errorf("read people: %w", err)
	}
	licences, err := tx.Qualifications.Licences(ctx, "")
	if err != nil {
		return fmt.Errorf("read licences: %w", err)
	}
	for _, p := range people {
		switch {
		case gone(p.LeftOn, now.Today):
		case p.Kind == assessment.Aide:
			b.aides = append(b.aides, b.names.people[p.ID])
		case licensed(licences, p.ID, now.Today):
			b.supervisors = append(b.supervisors, b.names.people[p.ID])
		}
	}
	return nil
}

func licensed(all []postgres.Licence, who assessment.PersonID, on civil.Date) bool {
	return slices.ContainsFunc(all, func(l postgres.Licence) bool {
		return l.Person == who && assessment.Licence{Kind: l.Kind, Through: l.ThroughOn}.CurrentOn(on)
	})
}

// lines are each aide with each child whose team they are on, those that are due first first.
func (b *supervisionBook) lines(today civil.Date) []SupervisionLine {
	began := b.began(today)
	var lines []SupervisionLine
	for at, since := range began {
		lines = append(lines, b.line(at, since, began, today))
	}
	slices.SortFunc(lines, func(x, y SupervisionLine) int {
		return cmp.Or(x.first().Compare(y.first()), cmp.Compare(strings.ToLower(x.Aide.Name), strings.ToLower(y.Aide.Name)), cmp.Compare(x.Client.Code, y.Client.Code))
	})
	return lines
}

// served is an aide with a child.
type served struct {
	aide   assessment.PersonID
	client assessment.ClientID
}

// began is since when each aide who is on a team today has been on it without a day between.
func (b *supervisionBook) began(today civil.Date) map[served]civil.Date {
	stretches := map[served][]postgres.Member{}
	for _, m := range b.teams {
		at := served{m.Person, m.Client}
		stretches[at] = append(stretches[at], m)
	}
	began := map[served]civil.Date{}
	for at, all := range stretches {
		slices.SortFunc(all, func(x, y postgres.Member) int { return y.FromOn.Compare(x.FromOn) })
		for _, m := range all {
			first, there := began[at]
			switch open := m.ThroughOn.IsZero(); {
			case m.FromOn.After(today):
			case !there && (open || !m.ThroughOn.Before(today)), there && (open || !m.ThroughOn.Before(first.AddDays(-1))):
				began[at] = m.FromOn
			}
		}
	}
	return began
}

func (b *supervisionBook) line(at served, since civil.Date, began map[served]civil.Date, today civil.Date) SupervisionLine {
	care, known := assessment.CareOn(b.care[at.client], today)
	l := SupervisionLine{Aide: b.names.people[at.aide], Client: b.names.clients[at.client], Skilled: care.Skilled, Known: known}
	first := since // of the watching
	if care.Skilled {
		for other, from := range began {
			if other.aide == at.aide && b.skilledOn(other.client, today) {
				first = civil.Earlier(first, from)
			}
		}
	}
	for _, v := range b.visits { // the newest first
		if v.TakenBackAt != nil || v.Aide != at.aide || v.MadeOn.After(today) {
			continue
		}
		here := v.Client == at.client
		if here && l.Last.IsZero() {
			l.Last = v.MadeOn
		}
		if v.Watched && l.Watched.IsZero() && (here || care.Skilled && b.skilledOn(v.Client, v.MadeOn)) {
			l.Watched = v.MadeOn
		}
	}
	l.By, l.WatchBy = assessment.SuperviseBy(civil.Later(l.Last, since), b.care[at.client], today), assessment.WatchBy(civil.Later(l.Watched, first), care.Skilled)
	l.Late, l.Unseen = today.After(l.By), today.After(l.WatchBy)
	return l
}

// skilledOn reports whether a child gets skilled care on a day, as far as it is known.
func (b *supervisionBook) skilledOn(client assessment.ClientID, on civil.Date) bool {
	care, _ := assessment.CareOn(b.care[client], on)
	return care.Skilled
}
