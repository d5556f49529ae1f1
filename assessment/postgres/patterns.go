package postgres

import (
	"context"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
)

// RosterPattern is a shift that comes again each week.
type RosterPattern struct {
	ID         assessment.PatternID
	Client     assessment.ClientID
	Person     assessment.PersonID // empty: open shifts
	Kind       assessment.CaregiverKind
	Weekdays   []int16 // 1 is Monday, 7 is Sunday
	FromClock  int16
	UntilClock int16
	FromOn     civil.Date
	ThroughOn  civil.Date // zero: until further notice
	ShortRest  string
	AddedBy    assessment.PersonID
	AddedAt    time.Time
}

// Weekly is the pattern as the core knows it.
func (p RosterPattern) Weekly() assessment.Pattern {
	w := assessment.Pattern{ID: p.ID, Client: p.Client, Person: p.Person, Kind: p.Kind, From: civil.Clock(p.FromClock), Until: civil.Clock(p.UntilClock), FromOn: p.FromOn, Through: p.ThroughOn}
	for _, d := range p.Weekdays {
		w.Weekdays = append(w.Weekdays, time.Weekday(d%7))
	}
	return w
}

const patternQuery = `
	select p.id, p.client_id as client, coalesce(p.person_id::text, '') as person, p.kind, p.weekdays, p.from_clock, p.until_clock, p.from_on, p.through_on,
		p.short_rest, p.added_by, p.added_at
	from shift_pattern p`

// Patterns lists those of which a shift may begin on a day from one through another, in
// the order of their first days. For a person: theirs, and those of which they take a day.
func (r Roster) Patterns(ctx context.Context, f RosterFilter, from, through civil.Date) ([]RosterPattern, error) {
	return list[RosterPattern](ctx, r.scope, patternQuery+`
		where p.from_on <= $2 and (p.through_on is null or p.through_on >= $1)
			and ($3 = '' or p.client_id = nullif($3, '')::uuid)
			and ($4 = '' or p.person_id = nullif($4, '')::uuid or exists (select from shift_pattern_exception e
				where e.agency_id = p.agency_id and e.pattern_id = p.id and e.person_id = nullif($4, '')::uuid and e.falls_on between $1 and $2))
		order by p.from_on, p.from_clock, p.id`, from, through, string(f.Client), string(f.Person))
}

// Pattern is the one with this id.
func (r Roster) Pattern(ctx context.Context, id assessment.PatternID) (RosterPattern, error) {
	return get[RosterPattern](ctx, r.scope, patternQuery+` where p.id = $1`, id)
}

// LockPattern is Pattern, with others who lock it kept waiting.
func (r Roster) LockPattern(ctx context.Context, id assessment.PatternID) (RosterPattern, error) {
	return get[RosterPattern](ctx, r.scope, patternQuery+` where p.id = $1 for no key update of p`, id)
}

// AddPattern puts a pattern on the roster.
func (r Roster) AddPattern(ctx context.Context, p RosterPattern) error {
	return r.exec(ctx, `
		insert into shift_pattern (agency_id, id, client_id, person_id, kind, weekdays, from_clock, until_clock, from_on, through_on, short_rest, added_by, added_at)
		values ($1, $2, $3, nullif($4, '')::uuid, $5, $6, $7, $8, $9, $10, $11, $12, $13)`,
		r.agency, p.ID, p.Client, string(p.Person), p.Kind, p.Weekdays, p.FromClock, p.UntilClock, p.FromOn, p.ThroughOn, p.ShortRest, p.AddedBy, p.AddedAt)
}

// SavePattern changes a pattern; whose it is stays.
func (r Roster) SavePattern(ctx context.Context, p RosterPattern) error {
	return r.change(ctx, `
		update shift_pattern set person_id = nullif($2, '')::uuid, kind = $3, weekdays = $4, from_clock = $5, until_clock = $6, from_on = $7, through_on = $8, short_rest = $9
		where id = $1`, p.ID, string(p.Person), p.Kind, p.Weekdays, p.FromClock, p.UntilClock, p.FromOn, p.ThroughOn, p.ShortRest)
}

// EndPattern has a pattern's last shift begin on a day at the latest.
func (r Roster) EndPattern(ctx context.Context, id assessment.PatternID, through civil.Date) error {
	return r.change(ctx, `update shift_pattern set through_on = $2 where id = $1`, id, through)
}

// RemovePattern takes a pattern off the roster, its exceptions too.
func (r Roster) RemovePattern(ctx context.Context, id assessment.PatternID) error {
	if err := r.exec(ctx, `delete from shift_pattern_exception where pattern_id = $1`, id); err != nil {
		return err
	}
	return r.change(ctx, `delete from shift_pattern where id = $1`, id)
}

// PatternDay is how it is on one day of a pattern.
type PatternDay struct {
	Pattern    assessment.PatternID
	FallsOn    civil.Date
	LeftOut    bool
	Person     assessment.PersonID
	FromClock  int16
	UntilClock int16
	ShortRest  string
	SetBy      assessment.PersonID
	SetAt      time.Time
}

// Exception is the day as the core knows it.
func (d PatternDay) Exception() assessment.PatternException {
	return assessment.PatternException{Pattern: d.Pattern, On: d.FallsOn, LeftOut: d.LeftOut, Person: d.Person, From: civil.Clock(d.FromClock), Until: civil.Clock(d.UntilClock)}
}

const patternDayQuery = `
	select e.pattern_id as pattern, e.falls_on, e.left_out, coalesce(e.person_id::text, '') as person, e.from_clock, e.until_clock, e.short_rest, e.set_by, e.set_at
	from shift_pattern_exception e`

// PatternDays lists the exceptions of some patterns on days from one through another, in
// order; of all patterns for none.
func (r Roster) PatternDays(ctx context.Context, patterns []assessment.PatternID, from, through civil.Date) ([]PatternDay, error) {
	return list[PatternDay](ctx, r.scope, patternDayQuery+`
		where e.falls_on between $1 and $2 and ($3::uuid[] is null or e.pattern_id = any($3))
		order by e.falls_on, e.pattern_id`, from, through, patterns)
}

// SetPatternDay says how it is on one day.
func (r Roster) SetPatternDay(ctx context.Context, d PatternDay) error {
	return r.exec(ctx, `
		insert into shift_pattern_exception (agency_id, pattern_id, falls_on, left_out, person_id, from_clock, until_clock, short_rest, set_by, set_at)
		values ($1, $2, $3, $4, nullif($5, '')::uuid, $6, $7, $8, $9, $10)
		on conflict (agency_id, pattern_id, falls_on) do update
		set left_out = excluded.left_out, person_id = excluded.person_id, from_clock = excluded.from_clock, until_clock = excluded.until_clock,
			short_rest = excluded.short_rest, set_by = excluded.set_by, set_at = excluded.set_at`,
		r.agency, d.Pattern, d.FallsOn, d.LeftOut, string(d.Person), d.FromClock, d.UntilClock, d.ShortRest, d.SetBy, d.SetAt)
}

// LiftPatternDay has a day be as the pattern says.
func (r Roster) LiftPatternDay(ctx context.Context, id assessment.PatternID, on civil.Date) error {
	return r.change(ctx, `delete from shift_pattern_exception where pattern_id = $1 and falls_on = $2`, id, on)
}

// MovePatternDays has exceptions from a day on belong to another pattern.
func (r Roster) MovePatternDays(ctx context.Context, from, to assessment.PatternID, on civil.Date) error {
	days, err := list[PatternDay](ctx, r.scope, patternDayQuery+` where e.pattern_id = $1 and e.falls_on >= $2 order by e.falls_on`, from, on)
	if err != nil {
		return err
	}
	for _, d := range days {
		d.Pattern = to
		if err := r.SetPatternDay(ctx, d); err != nil {
			return err
		}
	}
	return r.DropPatternDays(ctx, from, on)
}

// DropPatternDays takes away the exceptions from a day on.
func (r Roster) DropPatternDays(ctx context.Context, of assessment.PatternID, on civil.Date) error {
	return r.exec(ctx, `delete from shift_pattern_exception where pattern_id = $1 and falls_on >= $2`, of, on)
}
