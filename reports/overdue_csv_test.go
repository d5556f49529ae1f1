package reports

import (
	"bytes"
	"encoding/csv"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

// RFC 4180: fields parted by commas, lines ended by CRLF, as many fields in each
// line as in the header. Read back by encoding/csv of the Go library.
func TestOverdueCSV(t *testing.T) {
	v := january()
	out, err := overdueCSV(v)
	if err != nil {
		t.Fatal(err)
	}
	if lines, ends := strings.Count(string(out), "\n"), strings.Count(string(out), "\r\n"); lines != len(v.Lines)+1 || ends != lines {
		t.Errorf("%d lines, %d of them ended by CRLF", lines, ends)
	}
	rows, err := csv.NewReader(bytes.NewReader(out)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if !slices.Equal(rows[0], overdueHeader) || len(rows) != len(v.Lines)+1 {
		t.Fatalf("%d rows under %q", len(rows)-1, rows[0])
	}
	for n, want := range map[int][]string{
		1: {"2027-01-15", "Nguyễn Thị Lan", "family", "mother", "suction", "Tracheostomy suctioning", "7K", "Mira", "lapsed", "2026-12-12", "-34"},
		3: {"2027-01-15", "Nguyễn Thị Lan", "family", "mother", "bagging", "Manual ventilation with a self-inflating bag", "", "", "due", "2027-01-15", "0"},
		// Withdrawn: no last day, though one was printed once.
		4: {"2027-01-15", "Łucja Żak", "nurse", "", "suction", "Tracheostomy suctioning", "3B", "Teo", "withdrawn", "", ""},
		6: {"2027-01-15", "Zoë Adeyemi", "aide", "", "bagging", "Manual ventilation with a self-inflating bag", "", "", "not started", "", ""},
	} {
		if !slices.Equal(rows[n], want) {
			t.Errorf("line %d is %q, want %q", n, rows[n], want)
		}
	}
}

func TestOverdueCSVWithoutLines(t *testing.T) {
	out, err := overdueCSV(office.Overdue{On: theDay})
	if err != nil {
		t.Fatal(err)
	}
	if string(out) != strings.Join(overdueHeader, ",")+"\r\n" {
		t.Errorf("%q", out)
	}
}

// No name may become a formula in a spreadsheet (OWASP, "CSV Injection"), and
// none may break its line.
func TestOverdueCSVIsNoProgram(t *testing.T) {
	for _, name := range []string{"=1+1", "+49", "-2+3", "@SUM(A1)", "\tx", "\r=1", "＝1", "\x00=1", " =1", `"=1`, "\u00a0\u200b＠1", "'=1", `" '-1`, `He said "hi", then`, "a\nb", "Zoë", "'quoted", ""} {
		v := january()
		v.Lines = v.Lines[:1]
		v.Lines[0].Person.Name, v.Lines[0].Client.FirstName = name, name
		out, err := overdueCSV(v)
		if err != nil {
			t.Fatal(err)
		}
		rows, err := csv.NewReader(bytes.NewReader(out)).ReadAll()
		if err != nil || len(rows) != 2 {
			t.Fatalf("%q: %d rows, %v", name, len(rows), err)
		}
		for _, field := range []string{rows[1][1], rows[1][7]} {
			if strings.ContainsAny(firstOf(field), "=+-@\t\r＝") {
				t.Errorf("%q is written as %q", name, field)
			}
			// encoding/csv reads a carriage return inside quotes as part of the line's end.
			if want := strings.ReplaceAll(defused(name), "\r", ""); strings.ReplaceAll(field, "\r", "") != want {
				t.Errorf("%q comes back as %q, want %q", name, field, want)
			}
		}
	}
}

// A text that is no formula goes out as it came in, for the programs that read it.
func TestPlainTextsAreNotSpoiled(t *testing.T) {
	for text, want := range map[string]string{
		"Łucja Żak": "Łucja Żak", "Anne-Marie": "Anne-Marie", `"Kit" Moss`: `"Kit" Moss`, " 7K": " 7K", "O'Hara": "O'Hara", "a=b": "a=b", "": "", "100 %": "100 %", "🙂": "🙂",
		"=1": "'=1", " =1": "' =1", `"=1`: `'"=1`, "“＋1": "'“＋1", "\x00": "'\x00", "\ufeff=1": "'\ufeff=1", "\u200b@x": "'\u200b@x",
	} {
		if got := defused(text); got != want {
			t.Errorf("%q is written as %q, want %q", text, got, want)
		}
	}
}

func FuzzOverdueCSV(f *testing.F) {
	f.Add("Nguyễn Thị Lan", "mother", "7K", "lapsed", "suction")
	f.Add("=cmd|' /C calc'!A0", "a\r\nb", "\xff\x00", "\"", ",")
	f.Fuzz(func(t *testing.T, name, relation, code, word, skill string) {
		v := january()
		for i := range v.Lines {
			v.Lines[i].Person.Name, v.Lines[i].Person.Relation, v.Lines[i].Client.Code = name, relation, code
			v.Lines[i].Skill.Code = skill
			v.Lines[i].Word = assessment.StandingWord(word)
		}
		out, err := overdueCSV(v)
		if err != nil {
			t.Fatal(err)
		}
		rows, err := csv.NewReader(bytes.NewReader(out)).ReadAll()
		if err != nil || len(rows) != len(v.Lines)+1 {
			t.Fatalf("%d rows, %v", len(rows), err)
		}
		if !utf8.Valid(out) && utf8.ValidString(word) {
			t.Error("not UTF-8")
		}
	})
}
