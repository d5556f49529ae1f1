package assessment_test

import (
	"fmt"
	"reflect"
	"slices"
	"testing"

	"wellshown/assessment"
	"wellshown/assessment/civil"
)

// The properties of standing over random histories. Two of them are not true as
// one would say them off-hand, because an early renewal may keep the anchor or
// move it: vectors named "paradox" in testdata/standing show how. What is tested
// here is the strongest form that holds.

// added is one more formal demonstration, both signatures made.
func (g *invented) added(outcome assessment.Outcome) assessment.Entry {
	e := assessment.Entry{ID: "added", Kind: assessment.DemonstrationEntry}
	g.demonstration(&e)
	e.Outcome, e.Formal = outcome, true
	if e.ObserverSigned.IsZero() {
		e.ObserverSigned = e.At
	}
	if e.LearnerSigned.IsZero() {
		e.LearnerSigned = e.At
	}
	return e
}

func (g *invented) with(e assessment.Entry) []assessment.Entry {
	return append(slices.Clone(g.history), e)
}

// TestOrderGivenChangesNothing: the order in which entries are given.
func TestOrderGivenChangesNothing(t *testing.T) {
	t.Parallel()
	for seed := range uint64(histories) {
		g := invent(seed)
		want := g.oneCase().Timeline()
		g.Shuffle(len(g.history), func(i, j int) { g.history[i], g.history[j] = g.history[j], g.history[i] })
		if got := g.oneCase().Timeline(); !reflect.DeepEqual(got, want) {
			t.Fatalf("seed %d: another order gives %+v, not %+v", seed, got, want)
		}
	}
}

// TestLaterEntriesChangeNothing: an entry with an effect day after X changes
// nothing on X, the reasons and what is needed next included.
func TestLaterEntriesChangeNothing(t *testing.T) {
	t.Parallel()
	for seed := range uint64(histories) {
		g := invent(seed)
		from, to := g.spanOf()
		x := from.AddDays(g.IntN(to.Sub(from)))
		past := mustCase(g.zone, g.terms, g.upTo(x))
		if got, want := past.On(x), g.oneCase().On(x); !reflect.DeepEqual(got, want) {
			t.Fatalf("seed %d on %s: with what comes later %+v, without %+v", seed, x, want, got)
		}
	}
}

// upTo is the history without what comes into effect after x, and without what
// names such an entry.
func (g *invented) upTo(x civil.Date) []assessment.Entry {
	w := g.reference()
	kept := map[string]bool{}
	for _, e := range g.history {
		day, acts := w.effectDay(e)
		kept[e.ID] = acts && day <= refOfCivil(x)
	}
	return slices.DeleteFunc(slices.Clone(g.history), func(e assessment.Entry) bool {
		return !kept[e.ID] || e.Of != "" && !kept[e.Of]
	})
}

// TestWithdrawalNeverHelps: adding a withdrawal makes nobody current on any day.
func TestWithdrawalNeverHelps(t *testing.T) {
	t.Parallel()
	for seed := range uint64(histories) {
		g := invent(seed)
		before := g.oneCase().Timeline()
		e := assessment.Entry{ID: "added", Kind: assessment.WithdrawalEntry, At: g.instant(), Until: pick(g, assessment.Redemonstrated, assessment.Reinstated)}
		after := mustCase(g.zone, g.terms, g.with(e)).Timeline()
		g.eachDay(func(d civil.Date) {
			if segmentOn(after, d).Word.Holds() && !segmentOn(before, d).Word.Holds() {
				t.Fatalf("seed %d: withdrawn at %v, and current on %s where they were not", seed, e.At, d)
			}
		})
	}
}

func (g *invented) eachDay(do func(civil.Date)) {
	from, to := g.spanOf()
	for d := from; !d.After(to); d = d.AddDays(1) {
		do(d)
	}
}

// TestFailureNeverHelps: adding a formal demonstration that is not competent
// makes nobody current on any day, wherever it cannot delay an award (it empties
// no run, or one demonstration is an award). Where it delays one, on every day
// up to the end that the last pass gives by itself.
func TestFailureNeverHelps(t *testing.T) {
	t.Parallel()
	for seed := range uint64(2 * histories) {
		g := invent(seed)
		before := g.oneCase().Timeline()
		e := g.added(pick(g, assessment.NotYetCompetent, assessment.StoppedForSafety))
		history := g.with(e)
		after := mustCase(g.zone, g.terms, history).Timeline()
		always := !g.terms.Award.Consecutive || g.terms.Award.Count == 1 || g.lastShown(e)
		g.eachDay(func(d civil.Date) {
			helped := segmentOn(after, d).Word.Holds() && !segmentOn(before, d).Word.Holds()
			if helped && (always || g.plainly(history, d)) {
				t.Fatalf("seed %d: failed at %v, and current on %s where they were not", seed, e.At, d)
			}
		})
	}
}

// TestPassNeverTakesAway: adding a competent formal demonstration takes current
// away on no day where it is the last one shown, nor, wherever it comes, on any
// day up to the end that the last pass gives by itself.
func TestPassNeverTakesAway(t *testing.T) {
	t.Parallel()
	for seed := range uint64(2 * histories) {
		g := invent(seed)
		before := g.oneCase().Timeline()
		e := g.added(assessment.Competent)
		history := g.with(e)
		after := mustCase(g.zone, g.terms, history).Timeline()
		g.eachDay(func(d civil.Date) {
			taken := segmentOn(before, d).Word.Holds() && !segmentOn(after, d).Word.Holds()
			if taken && (g.lastShown(e) || g.plainly(history, d)) {
				t.Fatalf("seed %d: passed at %v, and no longer current on %s", seed, e.At, d)
			}
		})
	}
}

// lastShown reports whether every other formal demonstration came before e.
func (g *invented) lastShown(e assessment.Entry) bool {
	return !slices.ContainsFunc(g.history, func(o assessment.Entry) bool {
		return o.Kind == assessment.DemonstrationEntry && o.Formal && !o.At.Before(e.At)
	})
}

// plainly reports whether day x lies where anchors and limits decide nothing: no
// later than the end that the last pass in effect gives by itself, no lapse limit
// that could ask for the full award again, no pass and failure at one instant.
func (g *invented) plainly(history []assessment.Entry, x civil.Date) bool {
	if g.terms.Validity.LapseMonths != nil && g.terms.Award.Count > 1 || tied(history) {
		return false
	}
	w, last := refWorld{g.zone, g.terms, history}, refDay(0)
	for _, e := range w.seenOn(refOfCivil(x)) {
		if e.Kind == assessment.DemonstrationEntry && e.Formal && e.Outcome == assessment.Competent {
			last = max(last, w.day(e))
		}
	}
	return last > 0 && refOfCivil(x) <= w.end(last, 1)
}

// tied reports whether a formal pass and a formal failure share an instant.
func tied(history []assessment.Entry) bool {
	passed := map[string]bool{}
	at := func(e assessment.Entry) string { return fmt.Sprint(e.At.UnixNano()) }
	for _, e := range history {
		if e.Kind == assessment.DemonstrationEntry && e.Formal && e.Outcome == assessment.Competent {
			passed[at(e)] = true
		}
	}
	return slices.ContainsFunc(history, func(e assessment.Entry) bool {
		return e.Kind == assessment.DemonstrationEntry && e.Formal && e.Outcome != assessment.Competent && passed[at(e)]
	})
}

// TestTimelineIsOn: the segments of a timeline and the answer for each day are the
// same, reasons included; Holds is the word's; days left are counted to the last.
func TestTimelineIsOn(t *testing.T) {
	t.Parallel()
	for seed := range uint64(histories / 24) {
		g := invent(seed)
		c := g.oneCase()
		line := c.Timeline()
		g.eachDay(func(d civil.Date) {
			s, want := c.On(d), segmentOn(line, d)
			if s.Word != want.Word || s.Through != want.Through || s.Since != want.Since || !slices.Equal(s.Because, want.Because) {
				t.Fatalf("seed %d on %s: On says %+v, the timeline %+v", seed, d, s, want)
			}
			if c.Holds(d) != s.Word.Holds() || s.Word.Holds() != (s.Word == assessment.Current || s.Word == assessment.Due) {
				t.Fatalf("seed %d on %s: Holds says %v of %s", seed, d, c.Holds(d), s.Word)
			}
			if left := s.DaysLeft; s.Word.Holds() && left != s.Through.Sub(d) || !s.Word.Holds() && left != 0 {
				t.Fatalf("seed %d on %s: %d days left of %s through %s", seed, d, left, s.Word, s.Through)
			}
		})
	}
}

// TestKnownLaterIsNotKnown: a history as known at an instant is what was recorded
// by then with the signatures made by then; taking it twice changes nothing, and
// later knowledge adds to it and takes nothing away.
func TestKnownLaterIsNotKnown(t *testing.T) {
	t.Parallel()
	for seed := range uint64(histories) {
		g := invent(seed)
		for i := range g.history {
			g.history[i].Recorded = g.instant()
		}
		instant := g.instant()
		known := assessment.AsKnownAt(g.history, instant)
		if again := assessment.AsKnownAt(known, instant); !reflect.DeepEqual(again, known) {
			t.Fatalf("seed %d: known twice is not known once", seed)
		}
		n := 0
		for _, e := range g.history {
			if !e.Recorded.After(instant) {
				n++
			}
		}
		if n != len(known) {
			t.Fatalf("seed %d: %d entries were recorded by then, %d are known", seed, n, len(known))
		}
		for _, e := range known {
			if e.Recorded.After(instant) || e.ObserverSigned.After(instant) || e.LearnerSigned.After(instant) {
				t.Fatalf("seed %d: entry %s tells what was not known at %v", seed, e.ID, instant)
			}
		}
	}
}
