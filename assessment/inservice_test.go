package assessment_test

import (
	"testing"

	"wellshown/assessment"
	"wellshown/assessment/civil"
)

// 12 hours in 12 months: 42 CFR 484.80(d), from memory; by calendar year or by the anniversary of
// the hire, orientation left out: a letter of New York's Department of Health to home care
// agencies, read at second hand. The worked days are derived from these.
var inServiceSessions = []assessment.InServiceSession{
	{On: civil.MustParse("2025-03-16"), Minutes: 240, Counts: true, Orientation: true},
	{On: civil.MustParse("2025-04-01"), Minutes: 360, Counts: true},
	{On: civil.MustParse("2026-02-01"), Minutes: 300, Counts: true},
	{On: civil.MustParse("2026-03-20"), Minutes: 60, Counts: true},
}

func TestInServiceHours(t *testing.T) {
	hired := civil.MustParse("2025-03-15")
	for _, c := range []struct {
		year              assessment.InServiceYear
		on, from, through string
		orientation       bool
		minutes, short    int
	}{
		{assessment.EmploymentAnniversary, "2025-03-15", "2025-03-15", "2026-03-14", false, 660, 60},
		{assessment.EmploymentAnniversary, "2026-03-14", "2025-03-15", "2026-03-14", false, 660, 60},
		{assessment.EmploymentAnniversary, "2026-03-15", "2026-03-15", "2027-03-14", false, 60, 660},
		{assessment.CalendarYear, "2025-12-31", "2025-01-01", "2025-12-31", false, 360, 360},
		{assessment.CalendarYear, "2026-01-01", "2026-01-01", "2026-12-31", false, 360, 360},
		{assessment.EmploymentAnniversary, "2026-03-14", "2025-03-15", "2026-03-14", true, 900, 0},
	} {
		rule := assessment.InServiceRule{Year: c.year, Minutes: assessment.InServiceMinutes, Orientation: c.orientation}
		got, ok := rule.InService(hired, civil.MustParse(c.on), inServiceSessions)
		if !ok || got.From.String() != c.from || got.Through.String() != c.through || got.Minutes != c.minutes || got.Short != c.short {
			t.Errorf("%s on %s: %+v, %v", c.year, c.on, got, ok)
		}
	}
}

// The duty begins with the hire (the same letter); what does not count toward in-service, and
// what was before the hire, does not (common practice, no source).
func TestInServiceHoursThatDoNotCount(t *testing.T) {
	rule := assessment.InServiceRule{Year: assessment.EmploymentAnniversary, Minutes: assessment.InServiceMinutes}
	hired := civil.MustParse("2025-03-15")
	if _, ok := rule.InService(hired, civil.MustParse("2025-03-14"), nil); ok {
		t.Error("there is a duty before the hire")
	}
	if _, ok := rule.InService(civil.Date{}, hired, nil); ok {
		t.Error("there is an anniversary without a hire")
	}
	rule.Year = assessment.CalendarYear
	got, ok := rule.InService(hired, hired, []assessment.InServiceSession{
		{On: civil.MustParse("2025-03-14"), Minutes: 100, Counts: true},
		{On: hired, Minutes: 10, Counts: true}, {On: hired, Minutes: 1000}, {On: civil.MustParse("2026-01-01"), Minutes: 100, Counts: true}})
	if !ok || got.Minutes != 10 || got.Short != 710 {
		t.Errorf("%+v, %v", got, ok)
	}
	if got, ok := rule.InService(civil.Date{}, hired, nil); !ok || got.From.String() != "2025-01-01" {
		t.Errorf("without a day of hire: %+v, %v", got, ok)
	}
}

// Windows clamp and never drift: hired on 29 February, the fourth year begins on one again
// (PostgreSQL's date + interval, run on version 15, for each sum).
func TestInServiceWindowsDoNotDrift(t *testing.T) {
	hired := civil.MustParse("2024-02-29")
	for on, want := range map[string][2]string{
		"2025-02-27": {"2024-02-29", "2025-02-27"}, "2025-02-28": {"2025-02-28", "2026-02-27"},
		"2028-02-28": {"2027-02-28", "2028-02-28"}, "2028-02-29": {"2028-02-29", "2029-02-27"},
	} {
		from, through, ok := assessment.EmploymentAnniversary.Window(hired, civil.MustParse(on))
		if !ok || from.String() != want[0] || through.String() != want[1] {
			t.Errorf("on %s: %s..%s, %v", on, from, through, ok)
		}
	}
}
