package reports

import (
	"bytes"
	"encoding/csv"
	"os"
	"os/exec"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
	"time"

	"wellshown/assessment/civil"
	"wellshown/assessment/intake"
	"wellshown/assessment/workbook"
)

// converted is a file as LibreOffice saves it anew in another form. It is run by hand, with WELLSHOWN_SOFFICE
// naming its program (Debian's libreoffice-calc-nogui): installing it takes longer than all else that it would show.
func converted(t *testing.T, name string, content []byte, to string) []byte {
	t.Helper()
	program := os.Getenv("WELLSHOWN_SOFFICE")
	if program == "" {
		t.Skip("WELLSHOWN_SOFFICE names no LibreOffice")
	}
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, name), content, 0o600); err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(program, "--headless", "--convert-to", to, "--outdir", filepath.Join(dir, "out"), filepath.Join(dir, name))
	cmd.Env = append(os.Environ(), "HOME="+dir)
	if said, err := cmd.CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, said)
	}
	ending, _, _ := strings.Cut(to, ":")
	out, err := os.ReadFile(filepath.Join(dir, "out", strings.TrimSuffix(name, filepath.Ext(name))+"."+ending))
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// LibreOffice opens the grid that is handed out: real days, and texts that stay texts.
func TestLibreOfficeOpensTheGrid(t *testing.T) {
	g := aGrid()
	g.Rows[0].Person.Name = "=1+1"
	book, err := standingsXLSX(g)
	if err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(bytes.NewReader(converted(t, "grid.xlsx", book, "csv:Text - txt - csv (StarCalc):44,34,76"))).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	want := standingsRows(g)
	if len(rows) != len(want)+1 || !reflect.DeepEqual(rows[0], standingsHeader) {
		t.Fatalf("it reads %q", rows)
	}
	for i, row := range want {
		for n, value := range row {
			text := ""
			switch v := value.(type) {
			case civil.Date:
				text = v.String()
			case string:
				text = v
			default:
				continue
			}
			if got := rows[i+1][n]; got != text {
				t.Errorf("row %d, %s: it reads %q, and %q was written", i+2, standingsHeader[n], got, text)
			}
		}
	}
}

// What LibreOffice saves is read: days that are real dates, letters of many scripts, and formulas as such.
func TestAListThatLibreOfficeSaved(t *testing.T) {
	book, err := workbook.Book{Sheet: "clients", Title: "Children", Agency: "Example", On: civil.MustParse("2026-12-01"), Header: []string{"code", "first name", "start"}, Widths: []float64{9, 9, 12},
		Rows: [][]any{{"7K", "Nguyễn", civil.MustParse("2026-03-04")}, {"B2", "=Łucja", civil.Date{}}}}.Bytes()
	if err != nil {
		t.Fatal(err)
	}
	want := []map[string]string{{"code": "7K", "first name": "Nguyễn", "start": "2026-03-04"}, {"code": "B2", "first name": "=Łucja"}}
	var got []map[string]string
	table, err := intake.Read(intake.Clients, converted(t, "clients.xlsx", book, "xlsx:Calc MS Excel 2007 XML"), time.LoadLocation)
	for _, r := range table.Rows {
		got = append(got, r.Cells)
	}
	if err != nil || len(table.Faults) != 0 || !reflect.DeepEqual(got, want) {
		t.Errorf("it saved %v, %v, %v", got, table.Faults, err)
	}
	formulas := converted(t, "sums.csv", []byte("code,first name,start\nA1,=1+1,2026-03-04\nA2,Bo,2026-03-05\n"), "xlsx:Calc MS Excel 2007 XML")
	table, err = intake.Read(intake.Clients, formulas, time.LoadLocation)
	if err != nil || len(table.Faults) != 1 || table.Faults[0].Row != 2 || !strings.Contains(table.Faults[0].Says, "formula") || table.Rows[1].Cells["start"] != "2026-03-05" {
		t.Errorf("of formulas it saved %v, %v, %v", table.Rows, table.Faults, err)
	}
}
