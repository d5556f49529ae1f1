package office

import (
	"context"
	"fmt"
	"slices"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/postgres"
)

// ShiftSource says what a shift comes of.
type ShiftSource string

// What shifts come of.
const (
	SingleShift ShiftSource = "single"
	OfPattern   ShiftSource = "pattern"
	OfWayHome   ShiftSource = "way home" // one of the early shifts of a readiness plan
)

// rosterBook is every shift from a day through another, with what the core does not ask.
type rosterBook struct {
	shifts []assessment.Shift // in order
	told   map[assessment.ShiftID]shiftTold
	rest   time.Duration
}

// shiftTold is what is known of a shift besides.
type shiftTold struct {
	source    ShiftSource
	shortRest string
	usual     assessment.PersonID // who is on it where the pattern has no exception
}

// How many days either side of what is asked about are read: for clashes the longest rest
// there is, a day, and a shift; for who could take a shift, the week it lies in besides.
const (
	besideRest = 2
	besideWeek = 8
)

// rosterBook reads the roster from a day through another: single shifts, those of patterns and the early ones of ways home. What lies after a child has
// left is no shift of anybody's.
func (o *Office) rosterBook(ctx context.Context, tx *postgres.Tx, now Moment, from, through civil.Date, f postgres.RosterFilter, clients map[assessment.ClientID]postgres.Client) (*rosterBook, error) {
	b := &rosterBook{told: map[assessment.ShiftID]shiftTold{}}
	var err error
	if b.rest, err = tx.Roster.Rest(ctx); err != nil {
		return nil, fmt.Errorf("read the rest that is asked: %w", err)
	}
	single, err := tx.Roster.Shifts(ctx, f, from.In(now.Zone), through.AddDays(1).In(now.Zone))
	if err != nil {
		return nil, fmt.Errorf("read shifts: %w", err)
	}
	for _, s := range single {
		b.add(s.Planned(), shiftTold{source: SingleShift, shortRest: s.ShortRest})
	}
	if err := b.addPatterns(ctx, tx, now, f, from, through); err != nil {
		return nil, err
	}
	if err := b.addEarly(ctx, tx, now, from, through); err != nil {
		return nil, err
	}
	b.shifts = slices.DeleteFunc(b.shifts, func(s assessment.Shift) bool {
		return gone(clients[s.Client].LeftOn, civil.DayOf(s.Starts, now.Zone))
	})
	slices.SortStableFunc(b.shifts, func(a, c assessment.Shift) int { return a.Starts.Compare(c.Starts) })
	return b, nil
}

func (b *rosterBook) add(s assessment.Shift, told shiftTold) {
	b.shifts, b.told[s.ID] = append(b.shifts, s), told
}

func (b *rosterBook) addPatterns(ctx context.Context, tx *postgres.Tx, now Moment, f postgres.RosterFilter, from, through civil.Date) error {
	kept, err := tx.Roster.Patterns(ctx, f, from.AddDays(-1), through)
	if err != nil {
		return fmt.Errorf("read patterns: %w", err)
	}
	if len(kept) == 0 {
		return nil
	}
	var patterns []assessment.Pattern
	var ids []assessment.PatternID
	told := map[assessment.PatternID]shiftTold{}
	for _, p := range kept {
		patterns, ids = append(patterns, p.Weekly()), append(ids, p.ID)
		told[p.ID] = shiftTold{OfPattern, p.ShortRest, p.Person}
	}
	days, err := tx.Roster.PatternDays(ctx, ids, from.AddDays(-1), through)
	if err != nil {
		return fmt.Errorf("read exceptions of patterns: %w", err)
	}
	var exceptions []assessment.PatternException
	except := map[assessment.ShiftID]string{}
	for _, d := range days {
		exceptions = append(exceptions, d.Exception())
		except[assessment.Pattern{ID: d.Pattern}.ShiftID(d.FallsOn)] = d.ShortRest
	}
	for _, s := range assessment.PatternShifts(patterns, exceptions, from, through, now.Zone) {
		id, _, _ := patternDay(s.ID)
		of := told[id]
		if short, excepted := except[s.ID]; excepted {
			of.shortRest = short
		}
		b.add(s, of)
	}
	return nil
}

// addEarly adds the early shifts of ways home, each with what its plan names besides.
func (b *rosterBook) addEarly(ctx context.Context, tx *postgres.Tx, now Moment, from, through civil.Date) error {
	early, err := tx.Plans.EarlyShifts(ctx, from.In(now.Zone), through.AddDays(1).In(now.Zone))
	if err != nil || len(early) == 0 {
		return err
	}
	also, err := earlyNeeds(ctx, tx, early)
	if err != nil {
		return err
	}
	for _, s := range early {
		b.add(plannedEarly(s, also), shiftTold{source: OfWayHome})
	}
	return nil
}

// plannedEarly is an early shift as the core knows it.
func plannedEarly(s postgres.Shift, also map[assessment.ClientID][]assessment.Need) assessment.Shift {
	return assessment.Shift{ID: assessment.ShiftID(s.ID), Client: s.Client, Person: s.Person, Starts: s.StartsAt, Ends: s.EndsAt, Also: also[s.Client]}
}

// earlyNeeds is what the plans of ways home name for their early shifts.
func earlyNeeds(ctx context.Context, tx *postgres.Tx, early []postgres.Shift) (map[assessment.ClientID][]assessment.Need, error) {
	var clients []assessment.ClientID
	for _, s := range early {
		if !slices.Contains(clients, s.Client) {
			clients = append(clients, s.Client)
		}
	}
	lines, err := tx.Plans.Criteria(ctx, clients...)
	if err != nil {
		return nil, fmt.Errorf("read the plans: %w", err)
	}
	skills, err := tx.Checklists.Skills(ctx)
	if err != nil {
		return nil, fmt.Errorf("read skills: %w", err)
	}
	scopes := map[string]assessment.Scope{}
	for _, s := range skills {
		scopes[s.Code] = s.Scope
	}
	also := map[assessment.ClientID][]assessment.Need{}
	for _, l := range lines {
		if l.Kind != assessment.EarlyShifts {
			continue
		}
		for _, code := range l.Skills {
			n := assessment.Need{Skill: code}
			if scopes[code] == assessment.ClientSpecific {
				n.Client = l.Client
			}
			if !slices.Contains(also[l.Client], n) {
				also[l.Client] = append(also[l.Client], n)
			}
		}
	}
	return also, nil
}

// uuidLength is how long an id is; that of a pattern's shift begins with the pattern's.
const uuidLength = 36

// patternDay takes the id of a pattern's shift apart; false for one of its own.
func patternDay(id assessment.ShiftID) (assessment.PatternID, civil.Date, bool) {
	if len(id) <= uuidLength || id[uuidLength] != '.' {
		return "", civil.Date{}, false
	}
	on, err := civil.Parse(string(id[uuidLength+1:]))
	if err != nil {
		return "", civil.Date{}, false
	}
	pattern, err := assessment.ParseID[assessment.PatternID](string(id[:uuidLength]))
	return pattern, on, err == nil
}

// touching are the shifts that touch a day from one through another.
func (b *rosterBook) touching(from, through civil.Date, zone *time.Location) []assessment.Shift {
	first, end := from.In(zone), through.AddDays(1).In(zone)
	var some []assessment.Shift
	for _, s := range b.shifts {
		if s.Starts.Before(end) && s.Ends.After(first) {
			some = append(some, s)
		}
	}
	return some
}
