package assessment_test

import (
	"fmt"
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
)

// fortyEntries is ten years of one caregiver: an award, renewals, a failure and
// a withdrawal lifted, rechecks, waivers, practice.
func fortyEntries() []assessment.Entry {
	var days []string
	for y := 2016; y < 2026; y++ {
		days = append(days, fmt.Sprintf("%d-03-10", y), fmt.Sprintf("%d-09-20", y))
	}
	all := shownOn(days...)
	at := func(s string) time.Time { return civil.MustParse(s).In(time.UTC).Add(15 * time.Hour) }
	all[5].Outcome = assessment.NotYetCompetent
	all = append(all,
		assessment.Entry{Kind: assessment.WithdrawalEntry, ID: "w1", At: at("2020-05-01"), Until: assessment.Redemonstrated},
		assessment.Entry{Kind: assessment.WithdrawalEntry, ID: "w2", At: at("2021-05-01"), Until: assessment.Reinstated},
		assessment.Entry{Kind: assessment.ReinstatementEntry, ID: "r2", Of: "w2", At: at("2021-05-20")},
		assessment.Entry{Kind: assessment.CorrectionEntry, ID: "c1", Of: "d3", At: at("2017-06-01")})
	for i := range 2 {
		all = append(all, assessment.Entry{Kind: assessment.RecheckEntry, ID: fmt.Sprint("k", i), Revision: 1, At: at("2022-01-01"), By: civil.MustParse("2022-06-01")})
		all = append(all, assessment.Entry{Kind: assessment.WaiverEntry, ID: fmt.Sprint("v", i), On: civil.MustParse("2023-01-01"), Through: civil.MustParse("2023-02-01")})
	}
	for i := range 12 {
		all = append(all, assessment.Entry{Kind: assessment.PracticeEntry, ID: fmt.Sprint("p", i), On: civil.MustParse("2024-01-01").AddDays(30 * i)})
	}
	return all
}

// fortyNow are forty entries under the terms of the starter checklists.
func fortyNow(b *testing.B) *assessment.Case {
	b.Helper()
	all := fortyEntries()
	if len(all) != 40 {
		b.Fatalf("%d entries", len(all))
	}
	return mustCase(time.UTC, oneShown(12, assessment.Anniversary, 60), all)
}

func BenchmarkStandingOn(b *testing.B) {
	c, day := fortyNow(b), civil.MustParse("2026-02-01")
	if got := c.On(day).Word; got != assessment.Current {
		b.Fatal(got)
	}
	b.ReportAllocs()
	for b.Loop() {
		c.On(day)
	}
}

func BenchmarkHolds(b *testing.B) {
	c, day := fortyNow(b), civil.MustParse("2026-02-01")
	b.ReportAllocs()
	for b.Loop() {
		c.Holds(day)
	}
}

func BenchmarkNewCase(b *testing.B) {
	all, terms := fortyEntries(), oneShown(12, assessment.Anniversary, 60)
	b.ReportAllocs()
	for b.Loop() {
		mustCase(time.UTC, terms, all)
	}
}

func BenchmarkTimeline(b *testing.B) {
	c := fortyNow(b)
	b.ReportAllocs()
	for b.Loop() {
		c.Timeline()
	}
}

// BenchmarkScore scores 29 steps, five of them with values in other units.
func BenchmarkScore(b *testing.B) {
	var steps []assessment.Step
	var entries []assessment.SheetEntry
	low, high := assessment.Bound{Value: assessment.Whole(80)}, assessment.Bound{Parameter: "high"}
	for no := 1; no <= 29; no++ {
		s := assessment.Step{No: no, Weight: 1, Critical: no%4 == 0, Least: assessment.Independent, Kind: assessment.Done}
		e := assessment.SheetEntry{No: no, Mark: assessment.Independent}
		if no%6 == 0 {
			s.Kind = assessment.Measured
			s.Measures = []assessment.Measure{{Name: "pressure", Unit: "mmHg", Low: &low, High: &high, Magnitude: true}}
			e.Values = map[string]assessment.Quantity{"pressure": quantity("-13.3", "kPa")}
		}
		steps, entries = append(steps, s), append(entries, e)
	}
	list := assessment.Checklist{Sections: []assessment.Section{{Steps: steps}}}
	list.Policy.Scoring = assessment.Scoring{Credits: assessment.DefaultCredits(), PassMark: assessment.MustNumber("95/100")}
	params := assessment.Parameters{"high": quantity("120", "mmHg")}
	b.ReportAllocs()
	for b.Loop() {
		r, open, err := assessment.Score(list, params, assessment.Sheet{Entries: entries})
		if err != nil || len(open) > 0 || r.Outcome != assessment.Competent {
			b.Fatal(r, open, err)
		}
	}
}
