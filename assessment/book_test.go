package assessment_test

import (
	"fmt"
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
)

// twoRevisions: revision 1 from the start, revision 2 in force from 1 June 2026.
func twoRevisions(first, second assessment.Terms) assessment.Book {
	return assessment.Book{Default: first, ByRevision: map[int]assessment.Terms{1: first, 2: second},
		InForce: []assessment.ForcePeriod{{From: civil.MustParse("2025-01-01"), Revision: 1}, {From: civil.MustParse("2026-06-01"), Revision: 2}}}
}

func bookCase(t *testing.T, b assessment.Book, fittings []assessment.Fitting, history []assessment.Entry) *assessment.Case {
	t.Helper()
	c, err := assessment.NewCase(time.UTC, b, fittings, history)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func answerOn(c *assessment.Case, day string) string {
	s := c.On(civil.MustParse(day))
	return fmt.Sprintf("%s through %s since %s", s.Word, s.Through, s.Since)
}

func expectDays(t *testing.T, c *assessment.Case, want map[string]string) {
	t.Helper()
	for day, w := range want {
		if got := answerOn(c, day); got != w {
			t.Errorf("on %s: %s, not %s", day, got, w)
		}
	}
}

// A longer validity never stretches what was granted; it counts from the next
// demonstration, which follows its own revision.
func TestValidityFollowsTheDemonstrationsRevision(t *testing.T) {
	book := twoRevisions(oneShown(12, assessment.Anniversary, 60), oneShown(24, assessment.Anniversary, 60))
	history := shownOn("2026-01-10")
	expectDays(t, bookCase(t, book, nil, history), map[string]string{
		"2026-05-31": "current through 2027-01-10 since 2026-01-10",
		"2026-06-01": "current through 2027-01-10 since 2026-01-10",
		"2027-01-11": "lapsed through 2027-01-10 since 2027-01-11",
	})
	next := shownOn("2026-01-10", "2026-12-01")
	next[1].Revision = 2
	expectDays(t, bookCase(t, book, nil, next), map[string]string{"2026-12-01": "current through 2029-01-10 since 2026-01-10"})
	next[1].Revision = 1 // the old revision grants what it always granted
	expectDays(t, bookCase(t, book, nil, next), map[string]string{"2026-12-01": "current through 2028-01-10 since 2026-01-10"})
}

// A shorter one takes nothing away either.
func TestShorterValidityTakesNothingAway(t *testing.T) {
	book := twoRevisions(oneShown(24, assessment.Anniversary, 60), oneShown(6, assessment.Anniversary, 60))
	history := shownOn("2026-01-10", "2026-07-01")
	history[1].Revision = 2
	expectDays(t, bookCase(t, book, nil, history), map[string]string{"2026-07-01": "current through 2028-01-10 since 2026-01-10"})
}

// The award of a demonstration is that of its own revision.
func TestAwardFollowsTheDemonstrationsRevision(t *testing.T) {
	second := oneShown(12, assessment.Anniversary, 60)
	second.Award.Count = 3
	book := twoRevisions(oneShown(12, assessment.Anniversary, 60), second)
	history := shownOn("2026-06-02", "2026-06-03", "2026-06-04")
	for i := range history {
		history[i].Revision = 2
	}
	expectDays(t, bookCase(t, book, nil, history), map[string]string{
		"2026-06-03": "learning through  since 2026-06-02",
		"2026-06-04": "current through 2027-06-04 since 2026-06-04",
	})
	history[1].Revision = 1 // one is enough there
	expectDays(t, bookCase(t, book, nil, history), map[string]string{"2026-06-03": "current through 2027-06-03 since 2026-06-03"})
}

// Notice, absence and lapse limit are those of the newest revision in force on
// the day asked about, whatever revision was shown.
func TestNoticeAbsenceAndLapseLimitFollowTheNewest(t *testing.T) {
	first := oneShown(12, assessment.Anniversary, 60)
	second := oneShown(12, assessment.Anniversary, 60)
	second.Validity.NoticeDays = 300
	c := bookCase(t, twoRevisions(first, second), nil, shownOn("2026-01-10"))
	expectDays(t, c, map[string]string{"2026-05-31": "current through 2027-01-10 since 2026-01-10", "2026-06-01": "due through 2027-01-10 since 2026-01-10"})

	second = oneShown(12, assessment.Anniversary, 60)
	second.Validity.AbsenceDays = 90
	c = bookCase(t, twoRevisions(first, second), nil, shownOn("2026-01-10"))
	expectDays(t, c, map[string]string{"2026-05-31": "current through 2027-01-10 since 2026-01-10", "2026-06-01": "lapsed through 2026-04-10 since 2026-06-01"})

	second = oneShown(12, assessment.Anniversary, 60)
	second.Award.Count, second.Validity.LapseMonths = 2, new(0)
	first.Award.Count = 2
	late := shownOn("2024-01-09", "2024-01-10", "2026-02-01")
	c = bookCase(t, twoRevisions(first, second), nil, late)
	expectDays(t, c, map[string]string{"2026-05-31": "current through 2027-02-01 since 2026-02-01", "2026-06-01": "lapsed through  since 2026-06-01"})
}

// What made a holding that was over for too long leaves nothing to build on, even
// where the old revision's span still reaches it: the run starts empty.
func TestClosedHoldingLeavesNoRun(t *testing.T) {
	first, second := oneShown(1, assessment.Anniversary, 7), oneShown(12, assessment.Anniversary, 60)
	first.Award.Count, first.Award.SpanDays, second.Validity.LapseMonths = 2, 366, new(0)
	c := bookCase(t, twoRevisions(first, second), nil, shownOn("2026-01-09", "2026-01-10", "2026-06-02", "2026-06-10"))
	expectDays(t, c, map[string]string{
		"2026-06-02": "lapsed through  since 2026-02-11",
		"2026-06-10": "due through 2026-07-10 since 2026-06-10",
	})
}

// A skill that needs a resuscitation card ends with the card; without one it
// never began.
func TestCardIsNeeded(t *testing.T) {
	terms := oneShown(12, assessment.Anniversary, 60)
	terms.Validity.CardNeeded = true
	card := func(id, at, through string) assessment.Entry {
		return assessment.Entry{Kind: assessment.CardEntry, ID: id, At: civil.MustParse(at).In(time.UTC), Through: civil.MustParse(through)}
	}
	shown := shownOn("2026-01-10")
	c := bookCase(t, assessment.Book{Default: terms}, nil, shown)
	if s := c.On(civil.MustParse("2026-01-10")); s.Word != assessment.Lapsed || !s.Next.Card || s.Next.Demonstrations != 0 || s.Next.InWords() != "a current resuscitation card" {
		t.Errorf("without a card: %+v", s)
	}
	c = bookCase(t, assessment.Book{Default: terms}, nil, append(shown, card("k1", "2026-02-01", "2026-06-30"), card("k2", "2026-07-05", "2028-06-30")))
	expectDays(t, c, map[string]string{
		"2026-01-31": "lapsed through 2026-01-09 since 2026-01-10",
		"2026-02-01": "current through 2026-06-30 since 2026-02-01",
		"2026-06-30": "due through 2026-06-30 since 2026-02-01",
		"2026-07-01": "lapsed through 2026-06-30 since 2026-07-01",
		"2026-07-05": "current through 2027-01-10 since 2026-07-05",
		"2027-01-11": "lapsed through 2027-01-10 since 2027-01-11",
	})
	// the card that lasts longest counts, and one taken back does not
	both := append(shown, card("k1", "2026-01-05", "2028-01-31"), card("k2", "2026-02-01", "2026-03-31"),
		assessment.Entry{Kind: assessment.CorrectionEntry, ID: "c1", Of: "k1", At: civil.MustParse("2026-05-01").In(time.UTC)})
	expectDays(t, bookCase(t, assessment.Book{Default: terms}, nil, both), map[string]string{
		"2026-04-30": "current through 2027-01-10 since 2026-01-10",
		"2026-05-01": "lapsed through 2026-03-31 since 2026-05-01",
	})
}

// With other equipment fitted, what was shown on the old one no longer counts; a
// failure counts whatever it was shown on.
func TestEquipmentThatWasChanged(t *testing.T) {
	types := func(v string) assessment.Fitted { return assessment.Fitted{"ventilator": v, "suction unit": "any"} }
	fittings := []assessment.Fitting{{Has: types("P")}, {From: civil.MustParse("2026-03-01"), Has: types("Q")}}
	history := shownOn("2026-01-10", "2026-03-05")
	history[0].Fitted, history[1].Fitted = types("P"), types("Q")
	book := assessment.Book{Default: oneShown(12, assessment.Anniversary, 60)}
	book.Default.Fitted = []string{"circuit", "ventilator"}
	expectDays(t, bookCase(t, book, fittings, history), map[string]string{
		"2026-02-28": "current through 2027-01-10 since 2026-01-10",
		"2026-03-01": "not started through  since ",
		"2026-03-05": "current through 2027-03-05 since 2026-03-05",
	})
	history[0].Fitted, history[1].Fitted = types("Q"), types("P")
	history[1].Outcome = assessment.NotYetCompetent
	expectDays(t, bookCase(t, book, fittings, history), map[string]string{
		"2026-02-28": "not started through  since ",
		"2026-03-01": "current through 2027-01-10 since 2026-03-01",
		"2026-03-05": "withdrawn through 2027-01-10 since 2026-03-05",
	})
	expectDays(t, bookCase(t, book, nil, history), map[string]string{"2026-02-28": "current through 2027-01-10 since 2026-01-10"})
}

// TestTimelineIsOnWithRevisions: with two revisions, cards and equipment that
// changes, the timeline and On say the same on every day, and since is the first
// of the unbroken days.
func TestTimelineIsOnWithRevisions(t *testing.T) {
	t.Parallel()
	for seed := range uint64(histories / 30) {
		g := invent(seed)
		second := g.policy()
		second.Validity.CardNeeded = g.chance(30)
		g.terms.Validity.CardNeeded = g.chance(30)
		book := assessment.Book{Default: g.terms, ByRevision: map[int]assessment.Terms{2: second},
			InForce: []assessment.ForcePeriod{{From: g.day(), Revision: 1}}}
		book.InForce = append(book.InForce, assessment.ForcePeriod{From: book.InForce[0].From.AddDays(g.IntN(200)), Revision: 2})
		for i := range g.IntN(3) {
			at := g.instant()
			g.history = append(g.history, assessment.Entry{Kind: assessment.CardEntry, ID: fmt.Sprint("card", i), At: at, Through: g.day()})
		}
		var fittings []assessment.Fitting
		if g.chance(40) {
			fittings = []assessment.Fitting{{Has: has("P")}, {From: g.day(), Has: has("Q")}}
			for i := range g.history {
				g.history[i].Fitted = has(pick(g, "P", "Q", "Q"))
			}
			book.Default.Fitted, second.Fitted = pick(g, nil, kinds), pick(g, nil, kinds)
			book.ByRevision[2] = second
		}
		c, err := assessment.NewCase(g.zone, book, fittings, g.history)
		if err != nil {
			t.Fatal(err)
		}
		sameEveryDay(t, seed, g, c)
	}
}

var kinds = []string{"ventilator"}

func has(ventilator string) assessment.Fitted { return assessment.Fitted{"ventilator": ventilator} }

// A revision that leaves out what the one before it depended on changes no day
// before it, and makes nothing count that was shown with other equipment.
func TestARevisionThatForgetsEquipment(t *testing.T) {
	first, second := oneShown(12, assessment.Anniversary, 60), oneShown(12, assessment.Anniversary, 60)
	first.Fitted = kinds
	book := assessment.Book{ByRevision: map[int]assessment.Terms{1: first, 2: second},
		InForce: []assessment.ForcePeriod{{From: civil.MustParse("2026-01-01"), Revision: 1}, {From: civil.MustParse("2026-04-01"), Revision: 2}}}
	fittings := []assessment.Fitting{{Has: has("P")}, {From: civil.MustParse("2026-03-01"), Has: has("Q")}}
	history := shownOn("2026-01-10")
	history[0].Fitted, history[0].Revision = has("P"), 1
	expectDays(t, bookCase(t, book, fittings, history), map[string]string{
		"2026-02-28": "current through 2027-01-10 since 2026-01-10",
		"2026-03-05": "not started through  since ",
		"2026-04-02": "not started through  since ",
	})
	// The other way round: what begins to matter takes away what was shown with another type.
	book.ByRevision[1], book.ByRevision[2] = second, first
	expectDays(t, bookCase(t, book, fittings, history), map[string]string{
		"2026-03-05": "current through 2027-01-10 since 2026-01-10",
		"2026-04-01": "not started through  since ",
	})
}

func sameEveryDay(t *testing.T, seed uint64, g *invented, c *assessment.Case) {
	t.Helper()
	line := c.Timeline()
	var before assessment.Standing
	g.eachDay(func(d civil.Date) {
		s, seg := c.On(d), segmentOn(line, d)
		if s.Word != seg.Word || s.Through != seg.Through || s.Since != seg.Since {
			t.Fatalf("seed %d on %s: On says %s through %s since %s, the timeline %s through %s since %s",
				seed, d, s.Word, s.Through, s.Since, seg.Word, seg.Through, seg.Since)
		}
		first := s.Since == d
		unbroken := refGroup(string(before.Word)) == refGroup(string(s.Word)) && before.Since == s.Since
		if s.Word != assessment.NotStarted && before.Word != "" && first == unbroken {
			t.Fatalf("seed %d on %s: %s since %s after %s since %s", seed, d, s.Word, s.Since, before.Word, before.Since)
		}
		before = s
	})
}
