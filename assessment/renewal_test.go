package assessment_test

import (
	"slices"
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
)

// known keeps of an invented history what acts by a day.
func (g *invented) known(by civil.Date) []assessment.Entry {
	return slices.DeleteFunc(slices.Clone(g.history), func(e assessment.Entry) bool {
		effect, acts := e.EffectDay(g.zone)
		return acts && effect.After(by)
	})
}

// passOn is a pass on a day that both sign at once.
func (g *invented) passOn(day civil.Date) assessment.Entry {
	at := day.In(g.zone).Add(12 * time.Hour)
	return assessment.Entry{ID: "tried", Kind: assessment.DemonstrationEntry, At: at, Outcome: assessment.Competent, Observer: "another", Revision: 1, Real: true, Formal: true, ObserverSigned: at, LearnerSigned: at}
}

// TestWindowsAreWhatTheFoldSaysDayByDay: on invented histories each day of a window is
// tried with a pass on it, and each day before it. No published source: it is the fold
// that is held against.
func TestWindowsAreWhatTheFoldSaysDayByDay(t *testing.T) {
	held, tried, cut, open := 0, 0, 0, 0
	for n := range uint64(24000) {
		seed := n / 8
		g := invent(seed)
		for range n % 8 {
			g.IntN(2)
		}
		today := g.first.AddDays(60 + g.IntN(400))
		until := today.AddDays(g.IntN(90))
		history := g.known(today)
		c, err := assessment.NewCase(g.zone, assessment.Book{Default: g.terms}, nil, history)
		if err != nil {
			continue // what is left of it refers to what is not
		}
		s := c.On(today)
		r, due := c.Renewal(today, until)
		if !s.Word.Holds() {
			if due == (s.Word == assessment.Waived) || due && r.Why == "" && (r.Opens.Before(today) || r.Lapses || r.Through != until) {
				t.Fatalf("seed %d: %s and %v, %t", seed, s.Word, r, due)
			}
			open++
			continue
		}
		lost := today
		for c.Holds(lost) {
			lost = lost.AddDays(1)
		}
		if due != (s.Word == assessment.Due || !lost.AddDays(-1).After(until)) {
			t.Fatalf("seed %d: over on %s, asked through %s: due %t", seed, lost, until, due)
		}
		if !due || r.Why != "" || !r.Lapses {
			continue
		}
		held++
		if r.Through != lost.AddDays(-1) || r.Opens.Before(today) || r.Opens.After(r.Through) {
			t.Fatalf("seed %d: over on %s, and %v from %s", seed, lost, r, today)
		}
		if r.Through != s.Through || g.terms.Validity.RenewalDays == 0 || r.Opens != civil.Later(today, r.Through.AddDays(-g.terms.Validity.RenewalDays)) {
			cut++
		}
		for d := r.Opens; !d.After(r.Through); d = d.AddDays(1) {
			with, err := assessment.NewCase(g.zone, assessment.Book{Default: g.terms}, nil, append(slices.Clone(history), g.passOn(d)))
			if err != nil {
				t.Fatal(err)
			}
			tried++
			for x := today; !x.After(lost); x = x.AddDays(1) {
				if !with.Holds(x) {
					t.Fatalf("seed %d: a pass on %s of %s through %s leaves %s on %s", seed, d, r.Opens, r.Through, with.On(x).Word, x)
				}
			}
		}
	}
	if held < 200 || tried < 1000 || open < 200 || cut == 0 {
		t.Errorf("%d windows, %d days tried, %d not held, %d opened otherwise: too few to show anything", held, tried, open, cut)
	}
	t.Logf("%d windows of what is held, %d days tried, %d of what is not held", held, tried, open)
}

// TestWhenARenewalOpens: by hand, from the rules of a policy.
func TestWhenARenewalOpens(t *testing.T) {
	zone := time.UTC
	passed := civil.MustParse("2026-01-10")
	pass := func(day civil.Date, id string) assessment.Entry {
		at := day.In(zone).Add(12 * time.Hour)
		return assessment.Entry{ID: id, Kind: assessment.DemonstrationEntry, At: at, Outcome: assessment.Competent, Observer: "o", Formal: true, Real: true, Revision: 1, ObserverSigned: at, LearnerSigned: at}
	}
	award := assessment.Award{Count: 1, Days: 1, Observers: 1, SpanDays: 30}
	terms := assessment.Terms{Award: award, Validity: assessment.Validity{Months: 6, Anchor: assessment.Anniversary, RenewalDays: 30, NoticeDays: 14}}
	plain, noticed, carded := terms, terms, terms
	noticed.Validity.RenewalDays = 0
	carded.Validity.CardNeeded = true
	card := assessment.Entry{ID: "card", Kind: assessment.CardEntry, At: passed.In(zone), Through: civil.MustParse("2026-06-20")}
	recheck := assessment.Entry{ID: "recheck", Kind: assessment.RecheckEntry, At: civil.MustParse("2026-04-01").In(zone), Revision: 2, By: civil.MustParse("2026-05-20")}
	withdrawn := assessment.Entry{ID: "away", Kind: assessment.WithdrawalEntry, At: civil.MustParse("2026-05-01").In(zone).Add(time.Hour), Until: assessment.Reinstated}
	again := withdrawn
	again.Until = assessment.Redemonstrated
	changed := []assessment.Fitting{{Has: assessment.Fitted{}}, {From: civil.MustParse("2026-05-25"), Has: assessment.Fitted{"ventilator": "another"}}}
	fitted := terms
	fitted.Fitted = []string{"ventilator"}
	for _, c := range []struct {
		name, today, until string
		terms              assessment.Terms
		fittings           []assessment.Fitting
		more               []assessment.Entry
		want               string
	}{
		{"in the last thirty days", "2026-05-01", "2026-07-20", plain, nil, nil, "2026-06-10 2026-07-10 true"},
		{"open already", "2026-06-20", "2026-07-20", plain, nil, nil, "2026-06-20 2026-07-10 true"},
		{"over after the plan", "2026-05-01", "2026-07-09", plain, nil, nil, "none"},
		{"on the last day of the plan", "2026-05-01", "2026-07-10", plain, nil, nil, "2026-06-10 2026-07-10 true"},
		{"no such days: from when it is due", "2026-05-01", "2026-07-20", noticed, nil, nil, "2026-06-26 2026-07-10 true"},
		{"a card runs out first", "2026-05-01", "2026-07-20", carded, nil, []assessment.Entry{card}, string(assessment.AwaitsCard)},
		{"another revision is asked before", "2026-05-01", "2026-07-20", plain, nil, []assessment.Entry{recheck}, "2026-05-06 2026-05-20 true"},
		{"withdrawn until reinstated", "2026-05-01", "2026-05-20", plain, nil, []assessment.Entry{withdrawn}, string(assessment.AwaitsReinstatement)},
		{"withdrawn until shown on a later day", "2026-05-01", "2026-05-20", plain, nil, []assessment.Entry{again}, "2026-05-02 2026-05-20 false"},
		{"the child's equipment changes", "2026-05-01", "2026-05-30", fitted, changed, nil, "2026-05-25 2026-05-30 false"},
	} {
		history := append([]assessment.Entry{pass(passed, "p")}, c.more...)
		book := assessment.Book{Default: c.terms, ByRevision: map[int]assessment.Terms{1: c.terms, 2: c.terms}, InForce: []assessment.ForcePeriod{{From: civil.MustParse("2026-01-01"), Revision: 1}, {From: civil.MustParse("2026-04-01"), Revision: 2}}}
		k, err := assessment.NewCase(zone, book, c.fittings, history)
		if err != nil {
			t.Fatal(c.name, err)
		}
		r, due := k.Renewal(civil.MustParse(c.today), civil.MustParse(c.until))
		got := "none"
		if due {
			got = r.Opens.String() + " " + r.Through.String() + map[bool]string{true: " true", false: " false"}[r.Lapses]
			if r.Why != "" {
				got = string(r.Why)
			}
		}
		if got != c.want {
			t.Errorf("%s: %s, not %s", c.name, got, c.want)
		}
	}
}
