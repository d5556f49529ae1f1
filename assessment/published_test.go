package assessment_test

import (
	"fmt"
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
)

// Published facts held against the rules. The source stands beside each.

// oneShown are terms under which one demonstration is an award.
func oneShown(months int, anchor assessment.Anchor, renewal int) assessment.Terms {
	return assessment.Terms{
		Award:    assessment.Award{Count: 1, Days: 1, Observers: 1, SpanDays: 180, Consecutive: true},
		Validity: assessment.Validity{Months: months, Anchor: anchor, RenewalDays: renewal, NoticeDays: 30},
	}
}

// shownOn is a history of formal competent demonstrations at noon on some days.
func shownOn(days ...string) []assessment.Entry {
	var all []assessment.Entry
	for i, d := range days {
		all = append(all, shownAt(fmt.Sprintf("d%d", i+1), d+"T12:00:00Z"))
	}
	return all
}

func shownAt(id, at string) assessment.Entry {
	t, err := time.Parse(time.RFC3339, at)
	if err != nil {
		panic(err)
	}
	return assessment.Entry{Kind: assessment.DemonstrationEntry, ID: id, At: t, Outcome: assessment.Competent, Observer: "o1",
		Real: true, Formal: true, Revision: 1, ObserverSigned: t, LearnerSigned: t}
}

func throughOf(terms assessment.Terms, on string, history []assessment.Entry) string {
	s := mustCase(time.UTC, terms, history).On(civil.MustParse(on))
	return fmt.Sprintf("%s through %s", s.Word, s.Through)
}

func wordOn(terms assessment.Terms, on string, history []assessment.Entry) string {
	return string(mustCase(time.UTC, terms, history).On(civil.MustParse(on)).Word)
}

// Resuscitation cards: two years through the end of the month of issue (American
// Heart Association, course card information). Renewed early, a new card counts
// from its own issue. As a policy: 24 months, month end, no renewal window.
func TestResuscitationCardAsPolicy(t *testing.T) {
	card := oneShown(24, assessment.MonthEnd, 0)
	for _, c := range []struct{ issued, on, want string }{
		{"2026-10-05", "2028-10-31", "due through 2028-10-31"},
		{"2026-10-05", "2028-11-01", "lapsed through 2028-10-31"},
		{"2024-02-29", "2025-01-01", "current through 2026-02-28"},
		{"2026-02-05", "2027-01-01", "current through 2028-02-29"},
		{"2026-01-31", "2027-01-01", "current through 2028-01-31"},
		{"2026-01-15", "2026-06-01", "current through 2028-01-31"}, // pages that say "two years" and print one are wrong
	} {
		if got := throughOf(card, c.on, shownOn(c.issued)); got != c.want {
			t.Errorf("issued %s, on %s: %s, not %s", c.issued, c.on, got, c.want)
		}
	}
	if got := throughOf(card, "2026-08-10", shownOn("2024-10-20", "2026-08-10")); got != "current through 2028-08-31" {
		t.Errorf("a card through 2026-10-31 renewed on 10 August 2026 is %s", got)
	}
}

// The same on the card itself; where only the course is known its month counts,
// which can never give a later end (Vanderbilt resuscitation programme, FAQ). An
// end printed as month and year is the last day of that month.
func TestResuscitationCard(t *testing.T) {
	day := civil.MustParse
	for _, c := range []struct {
		card assessment.Card
		want string
	}{
		{assessment.Card{CourseOn: day("2026-01-30"), IssuedOn: day("2026-02-05")}, "2028-02-29"},
		{assessment.Card{CourseOn: day("2026-01-30")}, "2028-01-31"},
		{assessment.Card{IssuedOn: day("2026-02-05"), Through: day("2027-12-31")}, "2027-12-31"},
		{assessment.Card{IssuedOn: day("2026-02-05"), Through: day("2029-12-31")}, "2028-02-29"},
		{assessment.Card{Through: day("2029-12-31")}, "2029-12-31"},
	} {
		if got, err := c.card.LastDay(); err != nil || got.String() != c.want {
			t.Errorf("%+v ends on %s (%v), not %s", c.card, got, err, c.want)
		}
	}
	if got, err := (assessment.Card{}).LastDay(); err == nil {
		t.Errorf("a card of no day ends on %s", got)
	}
	if got, err := assessment.ParseCardEnd("06/2027"); err != nil || got.String() != "2027-06-30" {
		t.Errorf("06/2027 is %s, %v", got, err)
	}
	for _, bad := range []string{"13/2027", "00/2027", "6/2027", "06/27", "06-2027", "06/0000", "", " 06/2027"} {
		if got, err := assessment.ParseCardEnd(bad); err == nil {
			t.Errorf("%q was read as %s", bad, got)
		}
	}
}

// A published renewal window, by calendar months (14 CFR 135.323(b), aviation, an
// analogy): done in the month before or in the due month counts as done in the due
// month. The early side only; 60 days before 30 June begin on 1 May.
func TestRenewalInTheMonthBefore(t *testing.T) {
	terms := oneShown(12, assessment.MonthEnd, 60)
	for _, c := range []struct{ done, want string }{
		{"2026-05-03", "current through 2027-06-30"},
		{"2026-04-30", "current through 2027-04-30"},
		{"2026-06-30", "current through 2027-06-30"},
		{"2026-07-02", "current through 2027-07-31"},
	} {
		if got := throughOf(terms, c.done, shownOn("2025-06-15", c.done)); got != c.want {
			t.Errorf("due in June 2026, done on %s: %s, not %s", c.done, got, c.want)
		}
	}
	late := shownOn("2025-06-15", "2026-07-02")
	if before, after := wordOn(terms, "2026-07-01", late), wordOn(terms, "2026-06-30", late); before != "lapsed" || after != "due" {
		t.Errorf("done on 2 July: %s on 1 July, %s on 30 June", before, after)
	}
}

// An early window of 30, 60 or 90 days: common practice, no source.
func TestRenewalWindow(t *testing.T) {
	for _, c := range []struct {
		window     int
		done, want string
	}{
		{60, "2026-07-12", "current through 2027-09-10"}, {60, "2026-07-11", "current through 2027-07-11"},
		{30, "2026-08-11", "current through 2027-09-10"}, {30, "2026-08-10", "current through 2027-08-10"},
		{90, "2026-06-12", "current through 2027-09-10"}, {90, "2026-06-11", "current through 2027-06-11"},
	} {
		if got := throughOf(oneShown(12, assessment.Anniversary, c.window), c.done, shownOn("2025-09-10", c.done)); got != c.want {
			t.Errorf("window of %d days, done on %s: %s, not %s", c.window, c.done, got, c.want)
		}
	}
}

// Assessed every three years (Joint Commission HR.01.06.01) or every year (ACHC
// HC4-6A); where both apply the earlier governs.
func TestThreeYearsAndOne(t *testing.T) {
	three := mustCase(time.UTC, oneShown(36, assessment.Anniversary, 0), shownOn("2024-03-04")).On(civil.MustParse("2024-04-01"))
	one := mustCase(time.UTC, oneShown(12, assessment.Anniversary, 0), shownOn("2024-03-04")).On(civil.MustParse("2024-04-01"))
	if three.Through.String() != "2027-03-04" || one.Through.String() != "2025-03-04" || civil.Earlier(three.Through, one.Through) != one.Through {
		t.Errorf("through %s and %s", three.Through, one.Through)
	}
}

// Valid through the end of the local day, across the change to daylight time of 8
// March 2026 in New York: a shift that crosses midnight into a lapsed day is
// uncovered from 00:00 (common practice, no source).
func TestExpiryAtLocalMidnight(t *testing.T) {
	zone, err := time.LoadLocation("America/New_York")
	if err != nil {
		t.Fatal(err)
	}
	c := mustCase(zone, oneShown(12, assessment.Anniversary, 60), []assessment.Entry{shownAt("d1", "2025-03-10T12:00:00-04:00")})
	at := func(s string) time.Time {
		i, err := time.Parse(time.RFC3339, s)
		if err != nil {
			t.Fatal(err)
		}
		return i
	}
	if last := at("2026-03-11T03:59:59Z"); !c.Holds(civil.DayOf(last, zone)) {
		t.Error("23:59:59 daylight time on the last day is not current")
	}
	if next := at("2026-03-11T04:00:00Z"); c.Holds(civil.DayOf(next, zone)) {
		t.Error("the next midnight is still current")
	}
	through := c.On(civil.MustParse("2026-03-10")).Through
	if end := through.AddDays(1).In(zone); !end.Equal(at("2026-03-11T00:00:00-04:00")) {
		t.Errorf("it holds until %s", end)
	}
}

// Three consecutive correct performances kept a skill better than one (US Army
// Research Institute, mastery training): the count starts again after a failure.
func TestThreeConsecutive(t *testing.T) {
	terms := oneShown(12, assessment.Anniversary, 60)
	terms.Award.Count = 3
	days := shownOn("2026-01-01", "2026-01-02", "2026-01-03")
	if a, b := wordOn(terms, "2026-01-02", days), wordOn(terms, "2026-01-03", days); a != "learning" || b != "current" {
		t.Errorf("three in a row: %s on the second day, %s on the third", a, b)
	}
	broken := shownOn("2026-01-01", "2026-01-02", "2026-01-03", "2026-01-04")
	broken[2].Outcome = assessment.NotYetCompetent
	if got := mustCase(time.UTC, terms, broken).On(civil.MustParse("2026-01-04")); got.Word != assessment.Learning || got.Next.Demonstrations != 2 {
		t.Errorf("pass, pass, fail, pass with three consecutive: %s, %d to go", got.Word, got.Next.Demonstrations)
	}
	terms.Award.Consecutive = false
	if got := wordOn(terms, "2026-01-04", broken); got != "current" {
		t.Errorf("pass, pass, fail, pass with three in total: %s", got)
	}
}

// One hospital's programme asks each caregiver for three tube insertions (Burr,
// Delaware J Public Health 2024): after two, one is to go.
func TestTwoOfThreeInsertions(t *testing.T) {
	terms := oneShown(12, assessment.Anniversary, 60)
	terms.Award.Count = 3
	s := mustCase(time.UTC, terms, shownOn("2026-01-01", "2026-01-02")).On(civil.MustParse("2026-01-02"))
	if s.Word != assessment.Learning || s.Next.InWords() != "one competent demonstration" {
		t.Errorf("after two of three: %s, needed: %s", s.Word, s.Next.InWords())
	}
}

// Stated confidence did not track skill (Hospital Pediatrics 2021;11:571): only
// what was shown counts. Taught and practised, never shown: learning at best.
func TestConfidenceIsNoEvidence(t *testing.T) {
	terms := oneShown(12, assessment.Anniversary, 60)
	if got := wordOn(terms, "2026-06-01", nil); got != "not started" {
		t.Errorf("without a demonstration: %s", got)
	}
	var busy []assessment.Entry
	for i := range 20 {
		busy = append(busy, assessment.Entry{Kind: assessment.PracticeEntry, ID: fmt.Sprint("p", i), On: civil.MustParse("2026-01-01").AddDays(i)})
	}
	if got := wordOn(terms, "2026-06-01", busy); got != "learning" {
		t.Errorf("twenty days of practice and nothing shown: %s", got)
	}
}
