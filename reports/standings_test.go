package reports

import (
	"bytes"
	"encoding/csv"
	"slices"
	"strings"
	"testing"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/office"
)

// aGrid has every standing there is, a name that would be a formula, and a cell where
// nothing stands.
func aGrid() office.Grid {
	suction, bag := office.SkillRef{ID: "s1", Code: "suction", Title: "Tracheostomy suctioning"}, office.SkillRef{ID: "s2", Code: "bagging", Title: "Bag ventilation"}
	mira := office.ClientRef{ID: "c1", Code: "7K", FirstName: "Mira"}
	g := office.Grid{Agency: office.AgencyView{Name: "Larkmoor Home Nursing"}, On: theDay, Today: theDay, Skills: []office.SkillRef{suction, bag}}
	row := func(name string, cells ...office.GridCell) {
		g.Rows = append(g.Rows, office.GridRow{Person: office.PersonRef{ID: "p", Name: name, Kind: assessment.Nurse}, Cells: cells})
	}
	on := func(days int) civil.Date { return theDay.AddDays(days) }
	row("Ruth Adeyemi", office.GridCell{Required: true, Known: true, Word: assessment.Current, Through: on(200), DaysLeft: 200, Client: mira},
		office.GridCell{Required: true, Known: true, Word: assessment.Due, Through: on(0)})
	row("=Łucja, \"Lu\"", office.GridCell{Required: true, Known: true, Word: assessment.Lapsed, Through: on(-3), Client: mira}, office.GridCell{})
	row("Sam Whitlock", office.GridCell{Known: true, Word: assessment.Withdrawn, Through: on(90), Client: mira},
		office.GridCell{Required: true, Known: true, Word: assessment.NotStarted})
	return g
}

const aGridAsCSV = `on,caregiver,kind,relation,skill_code,skill,child_code,child,required,standing,last_day,days_left
2027-01-15,Ruth Adeyemi,nurse,,suction,Tracheostomy suctioning,7K,Mira,yes,current,2027-08-03,200
2027-01-15,Ruth Adeyemi,nurse,,bagging,Bag ventilation,,,yes,due,2027-01-15,0
2027-01-15,"'=Łucja, ""Lu""",nurse,,suction,Tracheostomy suctioning,7K,Mira,yes,lapsed,2027-01-12,
2027-01-15,Sam Whitlock,nurse,,suction,Tracheostomy suctioning,7K,Mira,no,withdrawn,,
2027-01-15,Sam Whitlock,nurse,,bagging,Bag ventilation,,,yes,not started,,
`

// RFC 4180: CRLF ends each line, quotes are doubled; read back by the standard library.
func TestStandingsCSV(t *testing.T) {
	out, err := tableCSV(standingsHeader, standingsRows(aGrid()))
	if want := strings.ReplaceAll(aGridAsCSV, "\n", "\r\n"); err != nil || string(out) != want {
		t.Errorf("%v\n%s", err, out)
	}
	if rows, err := csv.NewReader(bytes.NewReader(out)).ReadAll(); err != nil || len(rows) != 6 || len(rows[3]) != len(standingsHeader) {
		t.Errorf("%d rows, %v", len(rows), err)
	}
}

// The workbook says what the table says, with days as days.
func TestStandingsXLSX(t *testing.T) {
	g := aGrid()
	book, err := standingsXLSX(g)
	if err != nil {
		t.Fatal(err)
	}
	rows, styles := readSheet(t, book)
	want := [][]string{standingsHeader}
	for _, row := range standingsRows(g) {
		want = append(want, written(row))
	}
	for i, row := range rows {
		var got []string
		for n := range want[i] {
			got = append(got, row[string(rune('A'+n))].said(t, styles))
		}
		if !slices.Equal(got, want[i]) {
			t.Errorf("row %d is %q, want %q", i+1, got, want[i])
		}
	}
	if c := rows[1]["K"]; len(rows) != len(want) || c.Type == "inlineStr" || c.Style == 0 {
		t.Errorf("%d rows; a last day is of the type %q and the style %d", len(rows), c.Type, c.Style)
	}
	if again, err := standingsXLSX(g); err != nil || !bytes.Equal(again, book) {
		t.Errorf("drawn again it differs, %v", err)
	}
}
