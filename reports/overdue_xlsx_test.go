package reports

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"wellshown/assessment/office"
)

// sheetXML is what of a worksheet part is read back (ISO/IEC 29500-1, 18.3.1).
type sheetXML struct {
	Rows []struct {
		Cells []cellXML `xml:"c"`
	} `xml:"sheetData>row"`
}

type cellXML struct {
	At      string  `xml:"r,attr"`
	Type    string  `xml:"t,attr"`
	Style   int     `xml:"s,attr"`
	Formula *string `xml:"f"`
	Value   string  `xml:"v"`
	Text    string  `xml:"is>t"`
}

type stylesXML struct {
	Formats []struct {
		ID   int    `xml:"numFmtId,attr"`
		Code string `xml:"formatCode,attr"`
	} `xml:"numFmts>numFmt"`
	Cells []struct {
		Format int `xml:"numFmtId,attr"`
	} `xml:"cellXfs>xf"`
}

// parts opens a workbook as what it is, a ZIP of XML, without the library that wrote it.
func parts(t *testing.T, book []byte) map[string][]byte {
	t.Helper()
	z, err := zip.NewReader(bytes.NewReader(book), int64(len(book)))
	if err != nil {
		t.Fatal(err)
	}
	all := map[string][]byte{}
	for _, f := range z.File {
		r, err := f.Open()
		if err != nil {
			t.Fatal(err)
		}
		if all[f.Name], err = io.ReadAll(r); err != nil {
			t.Fatal(err)
		}
		r.Close()
	}
	return all
}

// readSheet gives each row's cells by column, and the styles they point at.
func readSheet(t *testing.T, book []byte) ([]map[string]cellXML, stylesXML) {
	t.Helper()
	all := parts(t, book)
	var sheet sheetXML
	if err := xml.Unmarshal(all["xl/worksheets/sheet1.xml"], &sheet); err != nil {
		t.Fatal(err)
	}
	var styles stylesXML
	if err := xml.Unmarshal(all["xl/styles.xml"], &styles); err != nil {
		t.Fatal(err)
	}
	var rows []map[string]cellXML
	for _, r := range sheet.Rows {
		row := map[string]cellXML{}
		for _, c := range r.Cells {
			row[strings.TrimRight(c.At, "0123456789")] = c
		}
		rows = append(rows, row)
	}
	return rows, styles
}

// said is a cell as the CSV has it: text as it is, a day by the calendar of the 1900
// date system (serial 61 is 1 March 1900: ISO/IEC 29500-1, 18.17.4.1), a number in digits.
func (c cellXML) said(t *testing.T, styles stylesXML) string {
	t.Helper()
	switch {
	case c.Formula != nil:
		t.Errorf("%s is a formula: %q", c.At, *c.Formula)
	case c.Type == "inlineStr":
		return c.Text
	case c.Type != "" && c.Type != "n":
		t.Errorf("%s is of the type %q", c.At, c.Type)
	case c.Value == "":
		return ""
	}
	n, err := strconv.Atoi(c.Value)
	if err != nil {
		t.Errorf("%s: %v", c.At, err)
	}
	if c.Style == 0 {
		return c.Value
	}
	for _, f := range styles.Formats {
		if f.ID == styles.Cells[c.Style].Format && f.Code == "yyyy-mm-dd" {
			return time.Date(1900, time.March, 1, 0, 0, 0, 0, time.UTC).AddDate(0, 0, n-61).Format(time.DateOnly)
		}
	}
	t.Errorf("%s is shown neither as a number nor as a day", c.At)
	return c.Value
}

// The workbook says what the table says, with days as days and counts as numbers;
// drawn again it is the same to the byte.
func TestOverdueXLSX(t *testing.T) {
	v := january()
	book, err := overdueXLSX(v)
	if err != nil {
		t.Fatal(err)
	}
	rows, styles := readSheet(t, book)
	if len(rows) != len(v.Lines)+1 {
		t.Fatalf("%d rows for %d lines", len(rows), len(v.Lines))
	}
	for i, row := range rows {
		want := overdueHeader
		if i > 0 {
			want = written(overdueFields(v, v.Lines[i-1]))
		}
		var got []string
		for n := range want {
			got = append(got, row[string(rune('A'+n))].said(t, styles))
		}
		if !slices.Equal(got, want) {
			t.Errorf("row %d is %q, want %q", i+1, got, want)
		}
	}
	for column, typed := range map[string]bool{"A": true, "B": false, "J": true, "K": true} {
		if isText := rows[1][column].Type == "inlineStr"; isText == typed {
			t.Errorf("column %s is of the type %q", column, rows[1][column].Type)
		}
	}
	if says := string(parts(t, book)["docProps/core.xml"]); !strings.Contains(says, "<dc:creator>Larkmoor Home Nursing</dc:creator>") || !strings.Contains(says, "2027-01-15T12:00:00Z") {
		t.Errorf("the book says it is from %s", says)
	}
	if again, err := overdueXLSX(v); err != nil || !bytes.Equal(again, book) {
		t.Errorf("drawn again it differs, %v", err)
	}
}

// written are the values of a row as the CSV has them.
func written(row []any) []string {
	texts := make([]string, len(row))
	for i, value := range row {
		if value != nil {
			texts[i] = fmt.Sprint(value)
		}
	}
	return texts
}

func TestOverdueXLSXWithoutLines(t *testing.T) {
	book, err := overdueXLSX(office.Overdue{On: theDay})
	if err != nil {
		t.Fatal(err)
	}
	if rows, _ := readSheet(t, book); len(rows) != 1 || rows[0]["K"].Text != "days_left" {
		t.Errorf("%v", rows)
	}
}

// No text becomes a formula, a number, a link or markup, and none makes a book that
// cannot be opened (OWASP ASVS 5.0, 1.2.10; characters of XML 1.0, section 2.2).
func TestOverdueXLSXIsNoProgram(t *testing.T) {
	for _, name := range []string{"=1+1", "+49", "-2+3", "@SUM(A1)", "=HYPERLINK(\"https://evil.example\")", "\x00=1", "\x01\x1f", "\xff", "0012", "1e9", "TRUE", "2027-01-15",
		"<f>1+1</f>", "]]>&amp;", "_x0041_", " padded ", strings.Repeat("é", 40_000)} {
		v := january()
		v.Lines = v.Lines[:1]
		v.Lines[0].Person.Name, v.Lines[0].Skill.Title = name, name
		book, err := overdueXLSX(v)
		if err != nil {
			t.Fatalf("%.20q: %v", name, err)
		}
		rows, _ := readSheet(t, book)
		for _, column := range []string{"B", "F"} {
			c := rows[1][column]
			if c.Formula != nil || c.Type != "inlineStr" || strings.ContainsAny(firstOf(c.Text), "=+-@\t\x00") {
				t.Errorf("%.20q is written as %.40q of the type %q", name, c.Text, c.Type)
			}
		}
		for part, body := range parts(t, book) {
			if strings.Contains(part, "externalLink") || strings.Contains(part, "vba") || bytes.Contains(body, []byte("<hyperlink")) {
				t.Errorf("%.20q: the book has %s", name, part)
			}
		}
	}
}
