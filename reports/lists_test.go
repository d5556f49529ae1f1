package reports

import (
	"testing"
	"time"

	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/intake"
	"wellshown/assessment/office"
)

// A template is a list that can be read, with every column of ours: no published source.
func TestTemplatesOfLists(t *testing.T) {
	for _, kind := range intake.Kinds {
		for _, form := range []string{"csv", "xlsx"} {
			body, name, err := listTemplate(kind, form)
			if err != nil || name != string(kind)+"-template."+form {
				t.Fatalf("%s: %q, %v", kind, name, err)
			}
			table, err := intake.Read(kind, body, time.LoadLocation)
			if err != nil || len(table.Faults) != 0 || len(table.Left) != 0 || len(table.Rows) != 2 {
				t.Errorf("%s as %s is read as %+v, %v", kind, form, table, err)
				continue
			}
			for _, c := range intake.Columns(kind) {
				if c.Needed && table.Rows[0].Cells[c.Name] != c.Example[0] {
					t.Errorf("%s as %s: %s is %q", kind, form, c.Name, table.Rows[0].Cells[c.Name])
				}
			}
		}
	}
	if _, _, err := listTemplate("children", "csv"); fault.KindOf(err) != fault.NotFound {
		t.Errorf("a list that there is not: %v", err)
	}
}

// What was carried in stands on a transcript in words of its own, and only where there is any.
func TestTranscriptWithWhatWasCarriedIn(t *testing.T) {
	v := ofLucja(t)
	saysNot(t, drawnTranscript(t, "transcript-plain", v), "Carried in")
	v.CarriedIn = []office.CarriedEntry{
		{Skill: suctioning, Client: ofMira, ObservedOn: civil.MustParse("2025-03-04"), ThroughOn: civil.MustParse("2026-03-04"), Signer: "A. Roe, RN", Place: "Old Town Homecare", Papers: []int{1, 2}},
		{Skill: bagging, ObservedOn: civil.MustParse("2024-05-05"), Signer: "B. Roe", Place: "Old Town Hospital"},
		{Skill: bagging, ObservedOn: theDay.AddDays(1), Signer: "C. Later", Place: "Elsewhere"},
	}
	says(t, drawnTranscript(t, "transcript-carried-in", v), "Carried in, by old papers", "It was not observed here", "makes nobody current", "for Mira, 7K", "2 papers attached", "A. Roe, RN", "Old Town Homecare", "4 Mar 2026", "no paper attached")
	saysNot(t, drawnTranscript(t, "transcript-carried-in", v), "C. Later")
}
