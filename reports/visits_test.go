package reports

import (
	"strings"
	"testing"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/office"
)

// twoVisits is the plan of an invented agency: one visit that is kept, one that cannot be
// made, one that is proposed, and something that no visit meets.
func twoVisits() office.VisitsView {
	renewal := office.DueVisit{Person: lucja, Skill: suctioning, With: ofMira, Word: assessment.Due, Opens: civil.MustParse("2027-03-01"), Through: civil.MustParse("2027-03-30"), Lapses: true}
	gap := office.DueVisit{Person: lan, Skill: tubeChange, Word: assessment.Lapsed}
	noor, ruth := office.PersonRef{ID: "e1", Name: "Noor Haddadin"}, office.PersonRef{ID: "e2", Name: "Ruth Adeyemi"}
	return office.VisitsView{Agency: office.AgencyView{Name: "Larkmoor Home Nursing", Zone: "America/Denver"}, Today: civil.MustParse("2027-03-12"), Until: civil.MustParse("2027-05-06"),
		Kept: []office.HomeVisitView{{UID: "visit-1@ward.example", On: civil.MustParse("2027-03-15"), Client: ofMira, Educator: noor, Sees: []office.DueVisit{renewal, gap}},
			{On: civil.MustParse("2027-03-20"), Client: ofTeo, Educator: noor, Faults: []string{"they are off on that day"}}},
		Proposed: []office.HomeVisitView{{On: civil.MustParse("2027-03-16"), Client: ofTeo, Educator: ruth, Sees: []office.DueVisit{gap}}},
		Unmet:    []office.UnmetVisit{{DueVisit: renewal, Home: ofMira, Why: "no educator may observe this"}}, Renewals: 1, Gaps: 2}
}

func TestVisits(t *testing.T) {
	v := twoVisits()
	path := drawn(t, "visits", func() (*paper, error) { return visits(v) })
	golden(t, "visits", path)
	says(t, path, "Visits meet 1 renewal and 2 skills that are not held; one cannot be met", "Monday 15 March 2027", "Łucja Żak: Tracheostomy suctioning for Mira, 7K", "they are off on that day", "proposed: Tuesday 16 March 2027",
		"no educator may observe this", "A visit makes nobody current", "As planned on 12 March 2027")
	v.Kept, v.Proposed, v.Unmet, v.Renewals, v.Gaps = nil, nil, nil, 0, 0
	if got := visitsFinding(v); got != "No visit meets anything that is due" {
		t.Errorf("nothing planned: %q", got)
	}
}

// The calendar holds what can be made, as whole days, and names no caregiver; read back by
// another program in assessment/calendar's tests (RFC 5545, sections 3.1 and 3.6.1).
func TestVisitsAsACalendar(t *testing.T) {
	body, err := visitsICS(twoVisits())
	if err != nil {
		t.Fatal(err)
	}
	text := strings.ReplaceAll(string(body), "\r\n ", "")
	for _, want := range []string{"UID:visit-1@ward.example\r\n", "DTSTART;VALUE=DATE:20270315\r\n", "DTEND;VALUE=DATE:20270316\r\n", `SUMMARY:Noor Haddadin at 7K\, 2 things are due`} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is not in\n%s", want, text)
		}
	}
	if strings.Count(text, "BEGIN:VEVENT") != 1 || strings.Contains(text, "Łucja") {
		t.Errorf("more than what is planned:\n%s", text)
	}
}
