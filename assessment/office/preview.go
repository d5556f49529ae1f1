package office

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// PreviewDays is how far ahead shifts are held against a change, from today on. Standings
// have no such end: a change is told for every day to come. Common practice, no source.
const PreviewDays = 60

// Preview is what a change would do: whose standing becomes another one and on which days,
// and which shifts that breaks.
type Preview struct {
	Agency        AgencyView
	At            time.Time
	Today         civil.Date
	ShiftsThrough civil.Date       // last day on which shifts were looked at
	Standings     []StandingChange // by name, skill, child and day
	People        int              // whose standing changes
	Broken        []CoverLine      // shifts that would break, and do not
	Mended        []CoverLine      // shifts that break, and would not any more
	Otherwise     []CoverLine      // shifts that break either way, for other reasons than now
	Version       string           // of all this: another one for anything else
}

// Nothing reports whether the change would change no standing and no shift.
func (p Preview) Nothing() bool {
	return len(p.Standings)+len(p.Broken)+len(p.Mended)+len(p.Otherwise) == 0
}

// StandingChange is a run of days on which somebody's standing would be another one.
type StandingChange struct {
	Person PersonRef
	Skill  SkillRef
	Client ClientRef // empty: of every child
	assessment.Turn
}

// rehearse tries an act out, by the very code that does it, in a transaction that is
// always undone, and tells what it would change. It asks for all that the act asks for
// but a signature. Whoever saw it before gives the version of that, so that the same is
// told in the same version; empty: nobody did.
func (o *Office) rehearse(ctx context.Context, by assessment.Actor, act assessment.Act, seen string, do func(*postgres.Tx, Moment) error) (Preview, error) {
	if err := by.May(act); err != nil {
		return Preview{}, err
	}
	var v Preview
	err := o.db.Rehearsal(ctx, by.Agency, o.withMoment(ctx, by.Person, string(act), func(tx *postgres.Tx, now Moment) error {
		since, ok := seenSince(seen, now)
		if !ok {
			since = now.At
		}
		var err error
		v, err = o.compared(ctx, tx, now, since, do)
		return err
	}))
	if err != nil {
		return v, fmt.Errorf("see beforehand what it changes to %s: %w", act, err)
	}
	return v, nil
}

// compared does something and tells what it changed. Of today's shifts it leaves out those
// that were over at an instant, so that what was looked at a while ago can be told again.
func (o *Office) compared(ctx context.Context, tx *postgres.Tx, now Moment, since time.Time, do func(*postgres.Tx, Moment) error) (Preview, error) {
	before, err := o.stands(ctx, tx, now, since)
	if err != nil {
		return Preview{}, err
	}
	if err := do(tx, now); err != nil {
		return Preview{}, err
	}
	after, err := o.stands(ctx, tx, now, since)
	if err != nil {
		return Preview{}, err
	}
	v := Preview{Agency: viewAgency(now.Agency), At: now.At.In(now.Zone), Today: now.Today, ShiftsThrough: now.Today.AddDays(PreviewDays - 1)}
	v.tellStandings(before, after)
	v.tellShifts(now, before, after)
	v.Version, err = v.version(since)
	return v, err
}

// stand is how everything stands at one moment, from today on.
type stand struct {
	lines map[assessment.CaseKey][]assessment.Segment
	book  *coverBook
	cover []assessment.ShiftCover
}

func (o *Office) stands(ctx context.Context, tx *postgres.Tx, now Moment, since time.Time) (stand, error) {
	var s stand
	var err error
	if s.lines, err = tx.Segments.Coming(ctx, now.Today); err != nil {
		return s, fmt.Errorf("read the index of standings: %w", err)
	}
	last := now.Today.AddDays(PreviewDays - 1)
	if s.book, err = o.coverBook(ctx, tx, now, now.Today.AddDays(-besideRest), last.AddDays(besideRest), postgres.RosterFilter{}); err != nil {
		return s, err
	}
	shifts := slices.DeleteFunc(s.book.touching(now.Today, last, now.Zone), func(s assessment.Shift) bool { return s.Open() || !s.Ends.After(since) })
	c, err := s.book.judge(ctx, tx, now, shifts, on(shifts), false)
	if err != nil {
		return s, err
	}
	s.cover = c.All(shifts)
	return s, nil
}

func (p *Preview) tellStandings(before, after stand) {
	people := map[assessment.PersonID]bool{}
	tell := func(key assessment.CaseKey) {
		for _, turn := range assessment.Turns(before.lines[key], after.lines[key], p.Today) {
			c := StandingChange{Person: after.book.person(key.Person), Skill: after.book.skill(key.Skill), Turn: turn}
			if key.Client != "" {
				c.Client = after.book.client(key.Client)
			}
			p.Standings = append(p.Standings, c)
			people[key.Person] = true
		}
	}
	for key := range before.lines {
		tell(key)
	}
	for key := range after.lines {
		if _, told := before.lines[key]; !told {
			tell(key)
		}
	}
	p.People = len(people)
	slices.SortFunc(p.Standings, func(a, b StandingChange) int {
		return cmp.Or(cmp.Compare(a.Person.Name, b.Person.Name), cmp.Compare(a.Person.ID, b.Person.ID), cmp.Compare(a.Skill.Code, b.Skill.Code),
			cmp.Compare(a.Client.Code, b.Client.Code), cmp.Compare(a.Client.ID, b.Client.ID), a.From.Compare(b.From))
	})
}

func (p *Preview) tellShifts(now Moment, before, after stand) {
	was := map[assessment.ShiftID]assessment.ShiftCover{}
	for _, a := range before.cover {
		was[a.Shift.ID] = a
	}
	for _, a := range after.cover {
		b, known := was[a.Shift.ID]
		if !known {
			continue
		}
		l := after.book.line(now, a, nil)
		switch broke, breaks := b.Word == assessment.Breaks, a.Word == assessment.Breaks; {
		case breaks && !broke:
			p.Broken = append(p.Broken, l)
		case broke && !breaks:
			p.Mended = append(p.Mended, before.book.line(now, b, nil))
		case breaks && !slices.EqualFunc(a.Obstacles, b.Obstacles, sameObstacle):
			p.Otherwise = append(p.Otherwise, l)
		}
	}
}

func sameObstacle(a, b assessment.Obstacle) bool {
	return a.Why == b.Why && a.On == b.On && a.Need == b.Need && a.Word == b.Word && a.Asks == b.Asks && a.Other.ID == b.Other.ID && a.Rest == b.Rest
}

// skill is a skill by its id.
func (b *coverBook) skill(id assessment.SkillID) SkillRef {
	for _, s := range b.skills {
		if s.ID == id {
			return SkillRef{s.ID, s.Code, s.Title}
		}
	}
	return SkillRef{ID: id}
}

// errPreviewed answers whoever agrees to what would be something else by now.
var errPreviewed = fault.Of(fault.Conflict, "What this changes is not what you looked at: something has changed since, or another day has begun. Look at it as it is now, then decide. Nothing has been signed.")

// asSaid is a refusal without what was attempted.
func asSaid(err error) string {
	if f, ok := fault.As(err); ok {
		return f.Error()
	}
	return err.Error()
}
