package office

import (
	"cmp"
	"context"
	"slices"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/postgres"
)

// ClientRoster is a child's patterns and coming shifts, with what can be chosen.
type ClientRoster struct {
	Client   ClientRef
	Today    civil.Date
	ID       string // that a new pattern or shift will have
	Patterns []PatternView
	Coverage Coverage // from today on
	People   []PersonRef
	Rest     time.Duration
}

// PatternView is a weekly pattern that goes on or is to come.
type PatternView struct {
	ID         assessment.PatternID
	Version    string
	Person     PersonRef // empty: open shifts
	Kind       assessment.CaregiverKind
	Weekdays   []int
	From       civil.Clock
	Until      civil.Clock
	FromOn     civil.Date
	ThroughOn  civil.Date
	ShortRest  string
	Exceptions []PatternDayView // to come, in order
}

// PatternDayView is one day on which it is otherwise.
type PatternDayView struct {
	On        civil.Date
	LeftOut   bool
	Person    PersonRef
	From      civil.Clock
	Until     civil.Clock
	ShortRest string
}

// ClientRoster reads a child's patterns and the coverage of the coming days.
func (o *Office) ClientRoster(ctx context.Context, by assessment.Actor, client assessment.ClientID) (ClientRoster, error) {
	var v ClientRoster
	err := o.as(ctx, by, assessment.ReadReports, func(tx *postgres.Tx, now Moment) error {
		c, err := tx.Clients.Get(ctx, client)
		if err != nil {
			return err
		}
		v = ClientRoster{Client: ClientRef{c.ID, c.Code, c.FirstName}, Today: now.Today}
		if v.Coverage, err = o.coverage(ctx, tx, now, CoverageQuery{Client: client}); err != nil {
			return err
		}
		v.Rest = v.Coverage.Rest
		if v.ID, err = newID[string](o, now.At); err != nil {
			return err
		}
		people, err := tx.People.List(ctx, postgres.PeopleFilter{IncludeLeft: true})
		if err != nil {
			return err
		}
		who := map[assessment.PersonID]PersonRef{}
		for _, p := range people {
			who[p.ID] = PersonRef{p.ID, p.Name, p.Kind, p.Relation}
			if p.Kind != "" && !gone(p.LeftOn, now.Today) {
				v.People = append(v.People, who[p.ID])
			}
		}
		v.Patterns, err = patternViews(ctx, tx, now, client, who)
		return err
	})
	return v, err
}

func patternViews(ctx context.Context, tx *postgres.Tx, now Moment, client assessment.ClientID, who map[assessment.PersonID]PersonRef) ([]PatternView, error) {
	const ahead = 2 * 366
	kept, err := tx.Roster.Patterns(ctx, postgres.RosterFilter{Client: client}, now.Today, now.Today.AddDays(ahead))
	if err != nil || len(kept) == 0 {
		return nil, err
	}
	var ids []assessment.PatternID
	for _, p := range kept {
		ids = append(ids, p.ID)
	}
	days, err := tx.Roster.PatternDays(ctx, ids, now.Today, now.Today.AddDays(ahead))
	if err != nil {
		return nil, err
	}
	var views []PatternView
	for _, p := range kept {
		w := p.Weekly()
		v := PatternView{ID: p.ID, Version: patternVersion(p), Person: who[p.Person], Kind: p.Kind, From: w.From, Until: w.Until, FromOn: p.FromOn, ThroughOn: p.ThroughOn, ShortRest: p.ShortRest}
		for _, d := range p.Weekdays {
			v.Weekdays = append(v.Weekdays, int(d))
		}
		for _, d := range days {
			if d.Pattern == p.ID {
				v.Exceptions = append(v.Exceptions, PatternDayView{d.FallsOn, d.LeftOut, who[d.Person], civil.Clock(d.FromClock), civil.Clock(d.UntilClock), d.ShortRest})
			}
		}
		views = append(views, v)
	}
	slices.SortStableFunc(views, func(a, b PatternView) int {
		return cmp.Or(cmp.Compare(a.From, b.From), a.FromOn.Compare(b.FromOn))
	})
	return views, nil
}
