package office_test

import (
	"slices"
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
			b.Run("overdue", func(b *testing.B) {
				medianOf(b, func() error {
					_, err := c.Office.Overdue(b.Context(), c.Coordinator, office.OverdueQuery{})
					return err
				})
			})
		})
	}
}
