package civil_test

import (
	"strconv"
	"testing"
	"time"

	"wellshown/assessment/civil"
)

// TestAddMonthsIsPostgreSQLs: the table was printed by PostgreSQL 15.18, so the
// server and the database agree on every end.
func TestAddMonthsIsPostgreSQLs(t *testing.T) {
	for _, row := range facts(t, "add_months.csv") {
		months, err := strconv.Atoi(row[1])
		if err != nil {
			t.Fatal(err)
		}
		if got := civil.MustParse(row[0]).AddMonths(months).String(); got != row[2] {
			t.Errorf("%s + %d months is %s, not %s", row[0], months, row[2], got)
		}
	}
}

// plainDays is the calendar by its definition (Gregorian rule: every fourth year,
// not every hundredth, every four hundredth).
func plainDays(year, month int) int {
	days := []int{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31}[month-1]
	if month == 2 && (year%400 == 0 || year%4 == 0 && year%100 != 0) {
		days++
	}
	return days
}

// TestAddMonthsOnEveryDay: every day from 2000 through 2050, by the lengths that
// policies use, against a count of months written another way.
func TestAddMonthsOnEveryDay(t *testing.T) {
	differ := 0
	for year := 2000; year <= 2050; year++ {
		for month := 1; month <= 12; month++ {
			for day := 1; day <= plainDays(year, month); day++ {
				for _, n := range []int{1, 3, 6, 12, 24, 36} {
					y, m := year, month
					for range n {
						if m++; m > 12 {
							y, m = y+1, 1
						}
					}
					want := civil.Of(y, time.Month(m), min(day, plainDays(y, m)))
					from := civil.Of(year, time.Month(month), day)
					if got := from.AddMonths(n); got != want {
						t.Fatalf("%s + %d months is %s, not %s", from, n, want, got)
					}
					bare := time.Date(year, time.Month(month), day, 0, 0, 0, 0, time.UTC).AddDate(0, n, 0)
					if bare.Format("2006-01-02") != want.String() {
						differ++
					}
				}
			}
		}
	}
	if differ == 0 {
		t.Error("bare addition never differed: the days tried show nothing")
	}
}

// TestBareAdditionIsNotReturned: the standard library documents that AddDate
// normalises its result, so that October 31 plus one month is December 1. Its
// answers for these (run with Go 1.26) must never come out of AddMonths.
func TestBareAdditionIsNotReturned(t *testing.T) {
	for _, c := range []struct {
		from       string
		months     int
		want, bare string
	}{
		{"2024-01-31", 1, "2024-02-29", "2024-03-02"},
		{"2025-01-31", 1, "2025-02-28", "2025-03-03"},
		{"2024-02-29", 12, "2025-02-28", "2025-03-01"},
		{"2024-02-29", 24, "2026-02-28", "2026-03-01"},
		{"2024-02-29", 48, "2028-02-29", "2028-02-29"},
		{"2026-08-31", 6, "2027-02-28", "2027-03-03"},
		{"2025-11-30", 3, "2026-02-28", "2026-03-02"},
		{"2025-05-31", 24, "2027-05-31", "2027-05-31"},
	} {
		from := civil.MustParse(c.from)
		y, m, d := from.Civil()
		if bare := time.Date(y, m, d, 0, 0, 0, 0, time.UTC).AddDate(0, c.months, 0).Format("2006-01-02"); bare != c.bare {
			t.Errorf("the library gives %s for %s + %d months, not %s", bare, c.from, c.months, c.bare)
		}
		if got := from.AddMonths(c.months).String(); got != c.want {
			t.Errorf("%s + %d months is %s, not %s", c.from, c.months, c.want, got)
		}
	}
}

// TestNoDrift: counted from the anchor 31 January 2025, the 31st comes back after
// every short month; and a chain of single months loses it.
func TestNoDrift(t *testing.T) {
	anchor, chain := civil.MustParse("2025-01-31"), civil.MustParse("2025-01-31")
	for n, want := range []string{"2025-02-28", "2025-03-31", "2025-04-30", "2025-05-31"} {
		chain = chain.AddMonths(1)
		if got := anchor.AddMonths(n + 1).String(); got != want {
			t.Errorf("+%d is %s, not %s", n+1, want, got)
		}
	}
	if chain.String() != "2025-05-28" { // PostgreSQL 15.18 drifts alike when each sum starts from the last
		t.Errorf("a chain of single months gives %s", chain)
	}
}

// TestMonthEnd: two years through the end of the month, as resuscitation cards
// run (American Heart Association, course card information).
func TestMonthEnd(t *testing.T) {
	for issued, through := range map[string]string{
		"2026-10-05": "2028-10-31", "2024-02-29": "2026-02-28", "2026-02-05": "2028-02-29", "2026-01-31": "2028-01-31", "2026-12-01": "2028-12-31",
	} {
		if got := civil.MustParse(issued).AddMonths(24).MonthEnd().String(); got != through {
			t.Errorf("issued %s runs through %s, not %s", issued, through, got)
		}
	}
}
