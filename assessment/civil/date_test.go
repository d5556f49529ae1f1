package civil_test

import (
	"encoding/csv"
	"fmt"
	"os"
	"strconv"
	"testing"
	"time"
	_ "time/tzdata" // the same zones on every machine

	"wellshown/assessment/civil"
)

// facts reads a table of testdata without its comments and heading.
func facts(t *testing.T, file string) [][]string {
	t.Helper()
	f, err := os.Open("testdata/" + file)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil || len(rows) < 2 {
		t.Fatalf("%d rows: %v", len(rows), err)
	}
	return rows[1:]
}

// TestDayArithmeticIsPostgreSQLs: the table was printed by PostgreSQL 15.18.
func TestDayArithmeticIsPostgreSQLs(t *testing.T) {
	for _, row := range facts(t, "day_arithmetic.csv") {
		a := civil.MustParse(row[1])
		got := a.MonthEnd().String()
		switch row[0] {
		case "difference":
			got = strconv.Itoa(a.Sub(civil.MustParse(row[2])))
		case "plus":
			days, err := strconv.Atoi(row[2])
			if err != nil {
				t.Fatal(err)
			}
			got = a.AddDays(days).String()
		}
		if got != row[3] {
			t.Errorf("%v: got %s", row, got)
		}
	}
}

// ISO 8601 days of the week: 1 January 2026 is a Thursday, 29 February 2000 a
// Tuesday, 1 January 1900 a Monday (tables of any almanac; from memory).
func TestWeekday(t *testing.T) {
	for day, want := range map[string]time.Weekday{"2026-01-01": time.Thursday, "2000-02-29": time.Tuesday, "1900-01-01": time.Monday} {
		if got := civil.MustParse(day).Weekday(); got != want {
			t.Errorf("%s is a %s, not a %s", day, want, got)
		}
	}
}

func TestParseRefuses(t *testing.T) {
	for _, bad := range []string{"", "2026-02-29", "2026-02-31", "2026-13-01", "2026-00-10", "2026-01-00", "2026-1-05", "26-01-05", "0000-01-01",
		"2026/01/05", "2026-01-05T00:00:00Z", " 2026-01-05", "2026-01-05 ", "20260105", "+026-01-05", "-026-01-05", "２026-01-05", "1900-02-29", "2026-W01-1"} {
		if d, err := civil.Parse(bad); err == nil {
			t.Errorf("%q was read as %s", bad, d)
		} else if !d.IsZero() {
			t.Errorf("%q was refused and gave %s", bad, d)
		}
	}
}

func TestFirstAndLastDay(t *testing.T) {
	first, last := civil.MustParse("0001-01-01"), civil.MustParse("9999-12-31")
	if last != civil.Last || first.IsZero() || first.AddDays(-1) != first || last.AddDays(1) != last {
		t.Error("the calendar wraps at its ends")
	}
	if first.AddMonths(-1) != first || last.AddMonths(1) != last || first.AddMonths(1<<30) != last || last.AddMonths(-1<<30) != first {
		t.Error("months wrap at the ends of the calendar")
	}
	if first.AddDays(1<<40) != last || last.AddDays(-1<<40) != first {
		t.Error("days wrap at the ends of the calendar")
	}
	if n := last.Sub(first); n != 3652058 { // 10 000 years less one, less a day, by the Gregorian leap rule
		t.Errorf("the calendar has %d days between its ends", n)
	}
}

// TestZeroIsNoDay: the zero Date sorts first, prints as nothing and is read back
// as nothing.
func TestZeroIsNoDay(t *testing.T) {
	var none civil.Date
	if !none.IsZero() || none.String() != "" || !none.Before(civil.MustParse("0001-01-01")) {
		t.Errorf("the zero Date is %q", none)
	}
	back := civil.MustParse("2026-01-01")
	if err := back.UnmarshalText(nil); err != nil || !back.IsZero() {
		t.Errorf("empty text was read as %s: %v", back, err)
	}
}

func TestOrder(t *testing.T) {
	a, b := civil.MustParse("2026-02-28"), civil.MustParse("2026-03-01")
	if !a.Before(b) || a.After(b) || b.Before(a) || !b.After(a) || a.Before(a) || a.After(a) {
		t.Error("before and after are wrong")
	}
	if a.Compare(b) != -1 || b.Compare(a) != 1 || a.Compare(a) != 0 {
		t.Error("Compare is wrong")
	}
	if civil.Earlier(a, b) != a || civil.Earlier(b, a) != a || civil.Later(a, b) != b || civil.Later(b, a) != b {
		t.Error("Earlier or Later is wrong")
	}
}

// TestEveryDayRoundTrips: each day of four centuries, the whole Gregorian cycle,
// is read back from what it prints, and follows the one before it.
func TestEveryDayRoundTrips(t *testing.T) {
	before := civil.MustParse("1799-12-31")
	for d := civil.MustParse("1800-01-01"); d.String() < "2200-01-02"; d = d.AddDays(1) {
		y, m, day := d.Civil()
		if s := fmt.Sprintf("%04d-%02d-%02d", y, m, day); d.String() != s || civil.MustParse(s) != d || civil.Of(y, m, day) != d {
			t.Fatalf("%s is not read back", s)
		}
		if d.Sub(before) != 1 || d.String() <= before.String() {
			t.Fatalf("%s does not follow %s", d, before)
		}
		before = d
	}
}

func TestDatabaseForm(t *testing.T) {
	d := civil.MustParse("2024-02-29")
	v, err := d.Value()
	if at, ok := v.(time.Time); err != nil || !ok || at.Format(time.RFC3339) != "2024-02-29T00:00:00Z" {
		t.Errorf("Value is %v, %v", v, err)
	}
	var none civil.Date
	if v, err := none.Value(); v != nil || err != nil {
		t.Errorf("no day is %v, %v and not null", v, err)
	}
	for _, src := range []any{v, "2024-02-29"} {
		var back civil.Date
		if err := back.Scan(src); err != nil || back != d {
			t.Errorf("Scan(%v) gives %s, %v", src, back, err)
		}
	}
	back := d
	if err := back.Scan(nil); err != nil || !back.IsZero() {
		t.Errorf("null is read as %s, %v", back, err)
	}
	for _, src := range []any{int64(5), "2024-02-30", []byte("2024-02-29")} {
		if err := new(civil.Date).Scan(src); err == nil {
			t.Errorf("Scan took %v", src)
		}
	}
	if text, err := d.MarshalText(); string(text) != "2024-02-29" || err != nil {
		t.Errorf("text is %s, %v", text, err)
	}
}

// FuzzParseDate: what is read prints as it was written and is a day of the
// calendar; nothing panics.
func FuzzParseDate(f *testing.F) {
	for _, s := range []string{"2024-02-29", "2023-02-29", "0001-01-01", "9999-12-31", "0000-00-00", "", "2026-1-1"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		d, err := civil.Parse(s)
		if err != nil {
			if !d.IsZero() {
				t.Errorf("%q was refused and gave %s", s, d)
			}
			return
		}
		if d.String() != s || d.IsZero() || d.After(civil.Last) {
			t.Errorf("%q was read as %s", s, d)
		}
		if d.AddMonths(1).Before(d) || d.AddDays(1).Before(d) || d.MonthEnd().Before(d) {
			t.Errorf("time runs backwards from %s", d)
		}
	})
}
