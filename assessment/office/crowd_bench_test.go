package office_test

import (
	"cmp"
	"os"
	"slices"
	"strconv"
	"testing"
	"time"

	"wellshown/assessment/office"
	"wellshown/integration/crowd"
)

// medianOf runs what is measured and reports the middle time beside the mean.
func medianOf(b *testing.B, run func() error) {
	b.Helper()
	var each []time.Duration
	for b.Loop() {
		began := time.Now()
		if err := run(); err != nil {
			b.Fatal(err)
		}
		each = append(each, time.Since(began))
	}
	slices.Sort(each)
	b.ReportMetric(float64(each[len(each)/2].Microseconds())/1000, "median-ms")
	b.ReportMetric(float64(each[len(each)*9/10].Microseconds())/1000, "p90-ms")
}

// BenchmarkAgencysDay is what a coordinator opens in the morning: of an agency as many are,
// and of a large one.
func BenchmarkAgencysDay(b *testing.B) {
	for name, size := range map[string]crowd.Size{"500x12": crowd.Usual, "2000x30": crowd.Large} {
		b.Run(name, func(b *testing.B) {
			began := time.Now()
			c := crowd.New(b, size, 1)
			b.Logf("made in %s: %v", time.Since(began).Round(time.Second), c.Rows)
			b.Run("grid", func(b *testing.B) {
				medianOf(b, func() error {
					_, err := c.Office.Grid(b.Context(), c.Coordinator, office.GridQuery{})
					return err
				})
			})
			b.Run("today", func(b *testing.B) {
				medianOf(b, func() error {
					_, err := c.Office.CoordinatorDesk(b.Context(), c.Coordinator)
					return err
				})
			})
			b.Run("visits", func(b *testing.B) {
				medianOf(b, func() error {
					_, err := c.Office.Visits(b.Context(), c.Coordinator, office.VisitQuery{})
					return err
				})
			})
			b.Run("overdue", func(b *testing.B) {
				medianOf(b, func() error {
					_, err := c.Office.Overdue(b.Context(), c.Coordinator, office.OverdueQuery{})
					return err
				})
			})
		})
	}
}

// BenchmarkManyAgencies measures the day of one agency of 500 caregivers beside others as
// large: its cost must not grow with theirs. WELLSHOWN_AGENCIES says how many there are in
// all, 5 unless told; each takes about half a gigabyte.
func BenchmarkManyAgencies(b *testing.B) {
	n, err := strconv.Atoi(cmp.Or(os.Getenv("WELLSHOWN_AGENCIES"), "5"))
	if err != nil || n < 1 {
		b.Fatalf("WELLSHOWN_AGENCIES: %v", err)
	}
	size := crowd.Usual
	size.Thin = true
	c := crowd.New(b, size, 1)
	began := time.Now()
	c.Neighbours(b, n-1)
	b.Logf("%d agencies, made in %s", n, time.Since(began).Round(time.Second))
	for name, ask := range map[string]func() error{
		"grid":  func() error { _, err := c.Office.Grid(b.Context(), c.Coordinator, office.GridQuery{}); return err },
		"today": func() error { _, err := c.Office.CoordinatorDesk(b.Context(), c.Coordinator); return err },
		"overdue": func() error {
			_, err := c.Office.Overdue(b.Context(), c.Coordinator, office.OverdueQuery{})
			return err
		},
		"visits": func() error { _, err := c.Office.Visits(b.Context(), c.Coordinator, office.VisitQuery{}); return err },
	} {
		b.Run(name, func(b *testing.B) { medianOf(b, ask) })
	}
}
