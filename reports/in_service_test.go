package reports

import (
	"strings"
	"testing"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/office"
)

// threeAides are one who is short by an hour, one who was hired on an unknown day, and one whose
// name a spreadsheet would compute.
func threeAides() office.InServiceView {
	day := civil.MustParse
	short := assessment.InService{From: day("2025-03-15"), Through: day("2026-03-14"), Minutes: 660, Short: 60}
	return office.InServiceView{Today: day("2026-03-01"), On: true, Rule: assessment.InServiceRule{Minutes: 720, Year: assessment.EmploymentAnniversary}, Lines: []office.InServiceLine{
		{Person: office.PersonRef{Name: "Ada Lund"}, HiredOn: day("2025-03-15"), Counted: true, InService: short, Ends: true, Missed: 30},
		{Person: office.PersonRef{Name: "Łucja Żak"}},
		{Person: office.PersonRef{Name: "=1+1"}, HiredOn: day("2025-06-01"), Counted: true, InService: assessment.InService{From: day("2025-06-01"), Through: day("2026-05-31"), Minutes: 720}}}}
}

// RFC 4180; what a spreadsheet would compute is defused (OWASP, "CSV Injection").
func TestInServiceCSV(t *testing.T) {
	out, err := tableCSV(inServiceHeader, inServiceRows(threeAides()))
	if err != nil {
		t.Fatal(err)
	}
	want := strings.Join([]string{
		"on,aide,hired_on,from,through,minutes,minutes_asked,minutes_short,minutes_short_before",
		"2026-03-01,Ada Lund,2025-03-15,2025-03-15,2026-03-14,660,720,60,30",
		"2026-03-01,Łucja Żak,,,,,720,,",
		"2026-03-01,'=1+1,2025-06-01,2025-06-01,2026-05-31,720,720,0,0", ""}, "\r\n")
	if string(out) != want {
		t.Errorf("%q\nwant %q", out, want)
	}
}
