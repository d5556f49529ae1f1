package assessment

import (
	"time"

	"wellshown/assessment/civil"
)

// AsOf is one day told three times over. Somebody was competent that day only where all
// three say so: a signature that came later made nobody competent before, and a record
// that was taken back since is no proof of anything.
type AsOf struct {
	Then    Standing // by what had been written down and signed by the instant asked about
	Now     Standing // by all that is known of that day now
	Cleared Standing // by all that is known now, without what was taken back since
}

// Held reports whether the skill was held by each of the three.
func (a AsOf) Held() bool { return a.Then.Word.Holds() && a.Now.Word.Holds() && a.Cleared.Word.Holds() }

// Word is the standing that stands after all three: that of the first of them that does
// not hold, else of the day as it was known then.
func (a AsOf) Word() StandingWord {
	for _, s := range []Standing{a.Then, a.Now, a.Cleared} {
		if !s.Word.Holds() {
			return s.Word
		}
	}
	return a.Then.Word
}

// Differs reports whether the day is told otherwise now than it was known then.
func (a AsOf) Differs() bool {
	return a.Then.Word.as() != a.Now.Word.as() || a.Then.Word.as() != a.Cleared.Word.as()
}

// AsKnownAt is the book without the revisions that came into force after an instant.
// The oldest stays: it is what is asked where nothing was in force yet.
func (b Book) AsKnownAt(instant time.Time) Book {
	known := b
	known.InForce = nil
	for i, p := range b.InForce {
		if i == 0 || !p.At.After(instant) {
			known.InForce = append(known.InForce, p)
		}
	}
	return known
}

// WithoutTakenBack is a history without what speaks for somebody and was taken back,
// whenever that was. What speaks against them stays, with the correction of it, and so
// acts until the day of that correction: taking it back makes nobody competent before.
func WithoutTakenBack(history []Entry) []Entry {
	corrected := map[string]bool{}
	for _, e := range history {
		if e.Kind == CorrectionEntry {
			corrected[e.Of] = true
		}
	}
	gone := map[string]bool{}
	for _, e := range history {
		gone[e.ID] = corrected[e.ID] && e.speaksFor()
	}
	var kept []Entry
	for _, e := range history {
		if !gone[e.ID] && !(e.Kind == CorrectionEntry && gone[e.Of]) {
			kept = append(kept, e)
		}
	}
	return kept
}

// speaksFor reports whether an entry can make or keep somebody competent.
func (e Entry) speaksFor() bool {
	switch e.Kind {
	case DemonstrationEntry:
		return e.Outcome == Competent
	case ReinstatementEntry, PracticeEntry, TeachingEntry, CardEntry, WaiverEntry:
		return true
	}
	return false
}

// HeldRun is a stretch of days within a period on which a skill was not held.
type HeldRun struct{ From, Through civil.Date }

// NotHeld lists the stretches of a period on which the skill was not held, in order.
func (c *Case) NotHeld(from, through civil.Date) []HeldRun {
	var runs []HeldRun
	add := func(first, last civil.Date) {
		first, last = civil.Later(first, from), sooner(last, through)
		if last.Before(first) {
			return
		}
		if n := len(runs); n > 0 && runs[n-1].Through.AddDays(1) == first {
			runs[n-1].Through = last
			return
		}
		runs = append(runs, HeldRun{first, last})
	}
	line := c.Timeline()
	if len(line) == 0 {
		return []HeldRun{{from, through}}
	}
	add(from, line[0].From.AddDays(-1))
	for i, s := range line {
		last := through
		if i+1 < len(line) {
			last = line[i+1].From.AddDays(-1)
		}
		if !s.Word.Holds() {
			add(s.From, last)
		}
	}
	return runs
}

func sooner(a, b civil.Date) civil.Date {
	if b.Before(a) {
		return b
	}
	return a
}
