package assessment

import (
	"slices"
	"time"

	"wellshown/assessment/civil"
)

// holding is a competency while the walk goes on. Months counts from the anchor:
// with one policy it is the step count times the months of each step, and it
// stays right where revisions grant different lengths.
type holding struct {
	anchor   civil.Date
	months   int
	through  civil.Date
	revision int        // highest revision shown by what made or renewed it
	last     civil.Date // last practised
	award    []string   // ids of what made it
	made     []string   // the same, and of everything that renewed it since
}

// bar is a withdrawal or failure that has not been lifted.
type bar struct {
	id    string
	until Until // empty: a failure, lifted by a pass at a later instant
	at    time.Time
	day   civil.Date
}

// fold is the state of the walk over what acts on one day.
type fold struct {
	c        *Case
	on       civil.Date
	rules    Validity // newest in force on that day
	holding  *holding
	ever     bool // a holding was there, though it may be closed
	lastMade []string
	run      []dated
	bars     []bar
	seen     []string // what makes it "learning"
	waiver   string
	rechecks []dated
	cards    []dated
}

// walk folds all that acts on day x, in order of performance.
func (c *Case) walk(x civil.Date) *fold {
	f := &fold{c: c, on: x, rules: c.book.newestOn(x).Validity}
	for _, e := range c.acting(x) {
		f.take(e)
	}
	return f
}

func (f *fold) take(e dated) {
	switch e.Kind {
	case DemonstrationEntry:
		f.seen = append(f.seen, e.ID)
		f.demonstration(e)
	case WithdrawalEntry:
		f.bars = append(f.bars, bar{id: e.ID, until: e.Until, at: e.At, day: e.day})
	case ReinstatementEntry:
		f.bars = slices.DeleteFunc(f.bars, func(b bar) bool { return b.until == Reinstated && b.id == e.Of })
	case WaiverEntry:
		if !e.Through.Before(f.on) {
			f.waiver = e.ID
		}
	case RecheckEntry:
		f.rechecks = append(f.rechecks, e)
	case CardEntry:
		f.cards = append(f.cards, e)
	case PracticeEntry:
		f.seen = append(f.seen, e.ID)
		f.practised(e.day)
	case TeachingEntry:
		f.seen = append(f.seen, e.ID)
	}
}

func (f *fold) demonstration(e dated) {
	switch {
	case e.Formal && e.Outcome == Competent:
		f.passed(e)
	case e.Formal:
		f.failed(e)
	case e.Outcome == Competent:
		f.practised(e.day)
	}
}

// failed: not yet competent, or stopped for safety.
func (f *fold) failed(e dated) {
	if f.c.book.of(e.Revision).Award.Consecutive {
		f.run = nil
	}
	if f.holding != nil {
		f.bars = append(f.bars, bar{id: e.ID, at: e.At, day: e.day})
	}
}

func (f *fold) passed(e dated) {
	f.lift(e)
	terms := f.c.book.of(e.Revision)
	switch h := f.holding; {
	case h == nil || f.overTooLong(e.day):
		f.close()
		f.run = append(f.run, e)
		f.award(e, terms)
		return
	case !e.day.After(h.through) && !e.day.Before(h.through.AddDays(-terms.Validity.RenewalDays)):
		h.months += terms.Validity.Months
		h.through = terms.Validity.end(h.anchor, h.months)
	case e.day.Before(h.through):
		if end := terms.Validity.end(e.day, terms.Validity.Months); !h.through.After(end) {
			h.anchor, h.months, h.through = e.day, terms.Validity.Months, end
		}
	default:
		h.anchor, h.months = e.day, terms.Validity.Months
		h.through = terms.Validity.end(e.day, terms.Validity.Months)
	}
	f.renewed(e)
}

// lift removes the bars that a pass at this instant may lift.
func (f *fold) lift(e dated) {
	f.bars = slices.DeleteFunc(f.bars, func(b bar) bool {
		switch b.until {
		case Reinstated:
			return false
		case Redemonstrated:
			return e.day.After(b.day)
		}
		return e.At.After(b.at)
	})
}

func (f *fold) overTooLong(day civil.Date) bool {
	l := f.rules.LapseMonths
	return l != nil && day.After(f.holding.through.AddMonths(*l))
}

// close ends a holding that has been over for too long: the full award again.
func (f *fold) close() {
	if f.holding != nil {
		f.lastMade, f.holding, f.run = f.holding.made, nil, nil
	}
}

func (f *fold) award(e dated, terms Terms) {
	within := slices.DeleteFunc(slices.Clone(f.run), func(d dated) bool {
		return d.day.Before(e.day.AddDays(-terms.Award.SpanDays))
	})
	if !terms.Award.met(tally(within)) {
		return
	}
	h := &holding{anchor: e.day, months: terms.Validity.Months, last: e.day}
	h.through = terms.Validity.end(h.anchor, h.months)
	for _, d := range within {
		h.award = append(h.award, d.ID)
		h.revision = max(h.revision, d.Revision)
	}
	h.made = h.award
	f.holding, f.ever = h, true
}

func (f *fold) renewed(e dated) {
	f.run = nil
	h := f.holding
	h.last = e.day
	h.revision = max(h.revision, e.Revision)
	h.made = append(slices.Clone(h.made), e.ID)
}

// practised keeps a holding from lapsing through absence. Work done after the
// absence has run out revives nobody.
func (f *fold) practised(day civil.Date) {
	h := f.holding
	if h == nil || f.rules.AbsenceDays == 0 || day.After(h.last.AddDays(f.rules.AbsenceDays)) {
		return
	}
	h.last = day
}

// end is the last day of validity, months after the anchor.
func (v Validity) end(anchor civil.Date, months int) civil.Date {
	end := anchor.AddMonths(months)
	if v.Anchor == MonthEnd {
		end = end.MonthEnd()
	}
	return end
}

// counts is what an award looks at.
type counts struct{ shown, days, observers, real int }

func tally(run []dated) counts {
	days, observers := map[civil.Date]bool{}, map[string]bool{}
	t := counts{shown: len(run)}
	for _, d := range run {
		days[d.day] = true
		observers[d.Observer] = true
		if d.Real {
			t.real++
		}
	}
	t.days, t.observers = len(days), len(observers)
	return t
}

func (a Award) met(t counts) bool {
	return t.shown >= a.Count && t.days >= a.Days && t.observers >= a.Observers && t.real >= a.Real
}
