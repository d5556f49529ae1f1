package intake_test

import (
	"fmt"
	"reflect"
	"strings"
	"testing"
	"time"

	"wellshown/assessment/fault"
	"wellshown/assessment/intake"
)

func read(t *testing.T, kind intake.Kind, content string) intake.Table {
	t.Helper()
	table, err := intake.Read(kind, []byte(content), time.LoadLocation)
	if err != nil {
		t.Fatal(err)
	}
	return table
}

// refused is why a file is not read at all.
func refused(t *testing.T, kind intake.Kind, content string) string {
	t.Helper()
	_, err := intake.Read(kind, []byte(content), time.LoadLocation)
	f, is := fault.As(err)
	if !is || f.Kind != fault.Invalid {
		t.Fatalf("%.60q is refused with %v", content, err)
	}
	return f.Message
}

func cells(t intake.Table) []map[string]string {
	var all []map[string]string
	for _, r := range t.Rows {
		all = append(all, r.Cells)
	}
	return all
}

// RFC 4180, section 2: the seven rules, with names of ours for its letters.
func TestRFC4180(t *testing.T) {
	want := []map[string]string{{"code": "AAA", "first name": "bbb"}, {"code": "ZZZ", "first name": "yyy"}}
	for rule, text := range map[string]string{
		"1: each record on a line of its own":     "code,first name\r\nAAA,bbb\r\nZZZ,yyy\r\n",
		"2: the last may lack its line break":     "code,first name\r\nAAA,bbb\r\nZZZ,yyy",
		"5: fields may be quoted":                 "\"code\",\"first name\"\r\n\"AAA\",\"bbb\"\r\nZZZ,yyy",
		"single line feeds, which many write":     "code,first name\nAAA,bbb\nZZZ,yyy\n",
		"single carriage returns, of old systems": "code,first name\rAAA,bbb\rZZZ,yyy\r",
	} {
		if table := read(t, intake.Clients, text); !reflect.DeepEqual(cells(table), want) || len(table.Faults) != 0 {
			t.Errorf("rule %s: %v, %v", rule, cells(table), table.Faults)
		}
	}
	table := read(t, intake.Clients, "code,first name\r\nAAA,\"b \"\"b\"\", bb\"\r\n")
	if got := table.Rows[0].Cells["first name"]; got != `b "b", bb` {
		t.Errorf("rules 6 and 7, commas and quotes within quotes: %q", got)
	}
	table = read(t, intake.Clients, "code,first name\r\nAAA,\"b\r\nbb\"\r\nZZZ,yyy\r\n")
	if len(table.Faults) != 1 || table.Faults[0].Row != 2 || table.Faults[0].Column != "first name" || table.Rows[1].Number != 4 {
		t.Errorf("rule 6, a line break within quotes is a fault of its cell: %+v, the next row is %d", table.Faults, table.Rows[1].Number)
	}
	table = read(t, intake.Clients, "code,first name\r\nAAA\r\nZZZ,yyy,1\r\n")
	if len(table.Faults) != 2 || !strings.Contains(table.Faults[0].Says, "1 cell") || !strings.Contains(table.Faults[1].Says, "3 cells") {
		t.Errorf("rule 4, each line has the same number of fields: %+v", table.Faults)
	}
	for text, says := range map[string]string{
		"code,first name\r\nAAA,b\"b\r\n":           "In row 2 a quotation mark",
		"code,first name\r\nA,b\r\nAAA,\"bb\r\nZ,y": "begins in row 3",
	} {
		if got := refused(t, intake.Clients, text); !strings.Contains(got, says) {
			t.Errorf("quotes that are wrong: %q", got)
		}
	}
}

// Common practice, no source: spreadsheets of many countries write semicolons, and tabs come from the clipboard.
func TestSeparators(t *testing.T) {
	for name, by := range map[string]string{"comma": ",", "semicolon": ";", "tab": "\t"} {
		text := strings.NewReplacer("|", by).Replace("E-Mail|Full name|KIND|phone, at home;or work|\n\n|Orme; Nan, RN|nurse||\n||||\nx@y.example|Lee|aide|5|\n")
		text = strings.Replace(text, "phone, at home;or work", `"phone, at home;or work"`, 1)
		text = strings.Replace(text, "Orme; Nan, RN", `"Orme; Nan, RN"`, 1)
		table := read(t, intake.People, text)
		want := []map[string]string{{"name": "Orme; Nan, RN", "kind": "nurse"}, {"name": "Lee", "kind": "aide", "e-mail": "x@y.example"}}
		if table.Separator != name || !reflect.DeepEqual(cells(table), want) {
			t.Errorf("%s: read by the %s as %v", name, table.Separator, cells(table))
		}
		if !reflect.DeepEqual(table.Left, []string{"phone, at home;or work"}) || table.Rows[0].Number != 3 || table.Rows[1].Number != 5 {
			t.Errorf("%s: left %q, rows %d and %d", name, table.Left, table.Rows[0].Number, table.Rows[1].Number)
		}
	}
}

// The Unicode Standard, 23.8: byte order marks; the WHATWG's encoding standard: bytes of windows-1252.
func TestEncodings(t *testing.T) {
	sixteen := func(s string, big bool) string {
		var b []byte
		for _, r := range "\ufeff" + s {
			lo, hi := byte(r), byte(r>>8)
			if big {
				lo, hi = hi, lo
			}
			b = append(b, lo, hi)
		}
		return string(b)
	}
	const text = "code,first name\nAAA,Ngô Peña\n"
	for _, c := range []struct{ content, encoding, name string }{
		{text, intake.UTF8, "Ngô Peña"},
		{"\ufeff" + text, intake.UTF8, "Ngô Peña"},
		{sixteen(text, false), intake.UTF16, "Ngô Peña"},
		{sixteen(text, true), intake.UTF16, "Ngô Peña"},
		{"code,first name\nAAA,Ng\xf4 Pe\xf1a\n", intake.Windows1252, "Ngô Peña"},
		{"code,first name\nAAA,\x8eofia O\x92Dea\n", intake.Windows1252, "Žofia O’Dea"},
	} {
		table := read(t, intake.Clients, c.content)
		if table.Encoding != c.encoding || table.Rows[0].Cells["first name"] != c.name {
			t.Errorf("%.20q is read as %s: %v", c.content, table.Encoding, cells(table))
		}
	}
	for what, content := range map[string]string{
		"a mark of UTF-8 before other bytes": "\ufeffcode,first name\nAAA,Pe\xf1a\n",
		"half a letter of UTF-16":            sixteen(text, false) + "x",
		"half a pair of UTF-16":              sixteen("code,first name\nAAA,x\n", false) + "\x00\xd8",
		"UTF-16 without a mark":              sixteen(text, false)[2:],
		"a byte that is in neither":          "code,first name\nAAA,Pe\x81a\n",
		"a picture":                          "\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR",
		"a PDF":                              "%PDF-1.7\n",
		"an old workbook":                    "\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1",
		"nothing":                            "",
		"blank lines":                        "\n\n \n",
		"only names of columns":              "code,first name\n",
		"no names of columns":                "AAA,Mira\nBBB,Lee\n",
		"a column twice":                     "code,first name,Client Code\nA,b,c\n",
	} {
		if says := refused(t, intake.Clients, content); !strings.HasSuffix(says, ".") || len(says) < 20 {
			t.Errorf("%s: %q", what, says)
		}
	}
}

// OWASP, "CSV Injection": what a spreadsheet would compute.
func TestFormulasInCSV(t *testing.T) {
	table := read(t, intake.People, "name,kind\n=1+1,nurse\n\"=HYPERLINK(\"\"x\"\")\",nurse\n +1 Lee,nurse\n-Nan,nurse\n@Ann,nurse\n")
	if len(table.Faults) != 2 || table.Faults[0] != (intake.Fault{Row: 2, Column: "name", Says: "This is a formula. Write the value itself."}) || table.Faults[1].Row != 3 {
		t.Errorf("faults %+v", table.Faults)
	}
	if got := fmt.Sprint(table.Rows[2].Cells["name"], table.Rows[3].Cells["name"], table.Rows[4].Cells["name"]); got != "+1 Lee-Nan@Ann" {
		t.Errorf("texts that only look like one became %q", got)
	}
}

func TestTooMuch(t *testing.T) {
	head := "code,first name\n"
	if got := len(read(t, intake.Clients, head+strings.Repeat("AAA,b\n", intake.MostRows)).Rows); got != intake.MostRows {
		t.Errorf("%d rows are read", got)
	}
	for what, content := range map[string]string{
		"more than 5,000 rows":  head + strings.Repeat("AAA,b\n", 100_000),
		"too large":             head + strings.Repeat("x", intake.MostBytes),
		"has 61 columns":        strings.Repeat("a,", 60) + "code\n",
		"cannot be read as a w": "PK\x03\x04 and then nothing of one",
	} {
		if got := refused(t, intake.Clients, content); !strings.Contains(got, what) {
			t.Errorf("%s: %q", what, got)
		}
	}
	table := read(t, intake.Clients, head+"AAA,"+strings.Repeat("b", 501)+"\n"+strings.Repeat("AAA\n", 1500))
	if len(table.Faults) != 1000 || table.More != 501 || table.Faults[0].Column != "first name" {
		t.Errorf("%d faults and %d more, the first %+v", len(table.Faults), table.More, table.Faults[0])
	}
}

func FuzzRead(f *testing.F) {
	f.Add("people", []byte("name,kind\nNan,nurse\n"))
	f.Add("clients", []byte("\xff\xfec\x00o\x00"))
	f.Add("shifts", []byte(night))
	f.Add("carried-in", []byte("person;skill;observed on;signed by;where\n\"a\"\"\";b;2026-03-04;c;d\n"))
	f.Fuzz(func(t *testing.T, kind string, content []byte) {
		table, err := intake.Read(intake.Kind(kind), content, func(string) (*time.Location, error) { return time.UTC, nil })
		if err != nil {
			if _, is := fault.As(err); !is {
				t.Fatalf("%v is no refusal", err)
			}
			return
		}
		last := 0
		for _, r := range table.Rows {
			if r.Number <= last {
				t.Fatalf("row %d comes after %d", r.Number, last)
			}
			last = r.Number
			for column, text := range r.Cells {
				if text == "" || strings.ContainsAny(text, "\r\n\x00\ufffd") || text != strings.Join(strings.Fields(text), " ") {
					t.Fatalf("%s of row %d is %q", column, r.Number, text)
				}
			}
		}
	})
}
