package reports

import (
	"slices"
	"strings"
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/office"
)

// twoShifts is the coverage of an invented agency: a night that breaks over the start of
// summer time (IANA, America/Denver, 14 March 2027), and an open day.
func twoShifts(t *testing.T) office.Coverage {
	t.Helper()
	zone, err := time.LoadLocation("America/Denver")
	if err != nil {
		t.Fatal(err)
	}
	at := func(s string) time.Time {
		v, err := time.ParseInLocation("2006-01-02 15:04", s, zone)
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
	night := office.CoverLine{ID: "p.2027-03-13", Source: office.OfPattern, Client: ofMira, Person: lucja, Kind: assessment.Nurse, Starts: at("2027-03-13 19:00"), Ends: at("2027-03-14 07:00"), Word: assessment.Breaks,
		Lacks:   []office.Lack{{Why: assessment.NotHeld, On: civil.MustParse("2027-03-14"), Skill: suctioning, With: ofMira, Word: assessment.Lapsed}},
		Clashes: []office.ShiftClash{{Other: office.ShiftRef{Client: ofTeo}, Rest: 6 * time.Hour}}}
	open := office.CoverLine{ID: "s", Source: office.SingleShift, Client: office.ClientRef{ID: "c3", Code: "=1", FirstName: "=1+1"}, Starts: at("2027-03-15 07:00"), Ends: at("2027-03-15 15:00"), Word: assessment.OpenYet}
	return office.Coverage{Agency: office.AgencyView{Name: "Larkmoor Home Nursing", Zone: "America/Denver"}, Today: civil.MustParse("2027-03-12"), From: civil.MustParse("2027-03-12"), Through: civil.MustParse("2027-03-25"),
		Counts: office.CoverageCounts{Shifts: 9, Covered: 7, Breaks: 1, Open: 1, Clashes: 1}, Lines: []office.CoverLine{night, open}, First: []office.CoverLine{night}}
}

func TestCoverage(t *testing.T) {
	v := twoShifts(t)
	path := drawn(t, "coverage", func() (*paper, error) { return coverage(v) })
	golden(t, "coverage", path)
	says(t, path, "One shift breaks through 25 March 2027", "7 covered, 1 break, 1 open, 1 clash", "Saturday 13 March 2027", "19:00–07:00", "Łucja Żak", "Tracheostomy suctioning lapsed on 2027-03-14", "360 min of rest beside Teo, 3B", "nobody yet", "As planned on 12 March 2027")
	v.Lines, v.First, v.Counts = nil, nil, office.CoverageCounts{}
	if got := coverageFinding(english, v); got != "No shift is planned through 25 March 2027" {
		t.Errorf("nothing planned: %q", got)
	}
	v.Counts = office.CoverageCounts{Shifts: 3, Covered: 3}
	if got := coverageFinding(english, v); got != "Every shift is covered through 25 March 2027" {
		t.Errorf("all covered: %q", got)
	}
}

// The table is RFC 4180 and holds no formula, and the workbook says the same with days as
// days.
func TestCoverageTables(t *testing.T) {
	v := twoShifts(t)
	table, err := tableCSV(coverageHeader, coverageRows(v))
	if err != nil {
		t.Fatal(err)
	}
	want := "2027-03-13,19:00,2027-03-14,07:00,7K,Mira,Łucja Żak,nurse,nurse,breaks,"
	if lines := strings.Split(string(table), "\r\n"); len(lines) != 4 || !strings.HasPrefix(lines[1], want) || !strings.Contains(lines[2], "'=1,'=1+1") {
		t.Errorf("the table:\n%s", table)
	}
	book, err := coverageXLSX(v)
	if err != nil {
		t.Fatal(err)
	}
	rows, styles := readSheet(t, book)
	if len(rows) != 3 {
		t.Fatalf("%d rows", len(rows))
	}
	for i, l := range v.Lines {
		var got []string
		for n := range coverageHeader {
			got = append(got, rows[i+1][string(rune('A'+n))].said(t, styles))
		}
		if !slices.Equal(got, written(coverageFields(l))) {
			t.Errorf("row %d is %q, want %q", i+2, got, written(coverageFields(l)))
		}
	}
	if rows[1]["A"].Type == "inlineStr" || rows[1]["C"].Type == "inlineStr" || rows[1]["B"].Type != "inlineStr" {
		t.Error("days are days, and times are texts")
	}
}
