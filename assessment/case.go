package assessment

import (
	"cmp"
	"slices"
	"time"

	"wellshown/assessment/civil"
)

// Book holds the terms of a skill's revisions, and since when each was the
// newest in force. A demonstration's award and validity follow its own revision;
// notice, absence, lapse limit and the need of a card follow the newest in force
// on the day asked about. What a pass depends on in equipment follows both, so that
// no revision makes anything count that did not.
type Book struct {
	Default    Terms         // for a revision that is not listed
	ByRevision map[int]Terms // by revision number
	InForce    []ForcePeriod // in order of From; empty: Default always
}

// ForcePeriod says from which day a revision is the newest in force.
type ForcePeriod struct {
	From     civil.Date
	Revision int
	At       time.Time // when it was put in force; zero: from the start
}

func (b Book) of(revision int) Terms {
	if t, ok := b.ByRevision[revision]; ok {
		return t
	}
	return b.Default
}

func (b Book) newestOn(x civil.Date) Terms {
	newest := b.Default
	for i, p := range b.InForce {
		if i == 0 || !p.From.After(x) {
			newest = b.of(p.Revision)
		}
	}
	return newest
}

// Fitting says what a client has from a day on. A pass that was shown with other
// types of what it depends on does not count from then.
type Fitting struct {
	From civil.Date
	Has  Fitted
}

// Case is all that is known of one caregiver, one skill and, for client-specific
// skills, one client, put in order once so that many days can be asked about.
type Case struct {
	zone     *time.Location
	book     Book
	fittings []Fitting // nil where there is no client
	entries  []dated   // those that act, in order of performance
	starts   []civil.Date
}

type dated struct {
	Entry
	day    civil.Date // performed
	effect civil.Date
	key    time.Time
	class  int
}

// NewCase orders a history. The order in which it is given does not matter.
func NewCase(zone *time.Location, book Book, fittings []Fitting, history []Entry) (*Case, error) {
	if err := CheckHistory(history, zone); err != nil {
		return nil, err
	}
	c := &Case{zone: zone, book: book, fittings: fittings}
	for _, e := range history {
		if effect, acts := e.EffectDay(zone); acts {
			c.entries = append(c.entries, c.place(e, effect))
		}
	}
	c.order()
	return c, nil
}

// order puts the entries in order of performance and finds the days that matter.
func (c *Case) order() {
	slices.SortFunc(c.entries, func(a, b dated) int {
		return cmp.Or(a.key.Compare(b.key), cmp.Compare(a.class, b.class), cmp.Compare(a.ID, b.ID))
	})
	c.starts = c.breaks()
}

// At one instant: withdrawal, failures, passes, reinstatement. What happened in
// practice comes at the end of its day, before anything at the next midnight.
func (c *Case) place(e Entry, effect civil.Date) dated {
	d := dated{Entry: e, effect: effect, key: e.At, day: civil.DayOf(e.At, c.zone)}
	switch {
	case e.Kind == PracticeEntry || e.Kind == TeachingEntry || e.Kind == WaiverEntry:
		d.day, d.key, d.class = e.On, c.endOf(e.On), -1
	case e.Kind == DemonstrationEntry && !e.Formal && e.Outcome == Competent:
		d.key, d.class = c.endOf(d.day), -1
	case e.Kind == DemonstrationEntry && e.Outcome != Competent:
		d.class = 1
	case e.Kind == DemonstrationEntry:
		d.class = 2
	case e.Kind == ReinstatementEntry:
		d.class = 3
	}
	return d
}

func (c *Case) endOf(d civil.Date) time.Time { return d.AddDays(1).In(c.zone) }

// breaks lists, in order, every day on which what acts can change. Between two
// of them only time passes.
func (c *Case) breaks() []civil.Date {
	var days []civil.Date
	for _, e := range c.entries {
		days = append(days, e.effect)
		if e.Kind == WaiverEntry {
			days = append(days, e.Through.AddDays(1))
		}
	}
	for _, p := range c.book.InForce {
		days = append(days, p.From)
	}
	for _, f := range c.fittings {
		if !f.From.IsZero() { // the zero day: what the client has from the start
			days = append(days, f.From)
		}
	}
	slices.SortFunc(days, civil.Date.Compare)
	return slices.Compact(days)
}

// fittedOn is the client's equipment on a day.
func (c *Case) fittedOn(x civil.Date) Fitted {
	var has Fitted
	for _, f := range c.fittings {
		if !f.From.After(x) {
			has = f.Has
		}
	}
	return has
}

// otherEquipment reports whether a pass was shown with equipment of other types
// than the client has, in a kind that matters to its own revision or to the newest.
func (c *Case) otherEquipment(e dated, has Fitted, newest Terms) bool {
	if c.fittings == nil || e.Kind != DemonstrationEntry || e.Outcome != Competent {
		return false
	}
	return has.differs(e.Fitted, newest.Fitted) || has.differs(e.Fitted, c.book.of(e.Revision).Fitted)
}

// acting is what counts on day x, in order of performance: in effect by then,
// not corrected by then, shown with the equipment of that day.
func (c *Case) acting(x civil.Date) []dated {
	corrected := map[string]bool{}
	for _, e := range c.entries {
		if e.Kind == CorrectionEntry && !e.effect.After(x) {
			corrected[e.Of] = true
		}
	}
	has, newest := c.fittedOn(x), c.book.newestOn(x)
	var acting []dated
	for _, e := range c.entries {
		if !e.effect.After(x) && !corrected[e.ID] && !c.otherEquipment(e, has, newest) {
			acting = append(acting, e)
		}
	}
	return acting
}
