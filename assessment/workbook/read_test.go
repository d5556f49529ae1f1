package workbook_test

import (
	"archive/zip"
	"bytes"
	"reflect"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/workbook"
)

var most = workbook.Limits{Rows: 6, Columns: 8, Unfolded: 2 << 20}

// book is one that a spreadsheet saved, filled as told.
func book(t *testing.T, fill func(*excelize.File, string)) []byte {
	t.Helper()
	f := excelize.NewFile()
	fill(f, f.GetSheetName(0))
	out, err := f.WriteToBuffer()
	if err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

func texts(rows []workbook.Row) [][]string {
	var all [][]string
	for _, r := range rows {
		var line []string
		for _, c := range r.Cells {
			line = append(line, c.Text)
		}
		all = append(all, line)
	}
	return all
}

func refused(t *testing.T, content []byte, says string) {
	t.Helper()
	_, err := workbook.Read(content, most)
	if f, is := fault.As(err); !is || f.Kind != fault.Invalid || !strings.Contains(f.Message, says) {
		t.Errorf("%q was wanted, and it is %v", says, err)
	}
}

func TestWhatIsWrittenIsReadBack(t *testing.T) {
	b := workbook.Book{Sheet: "people", Title: "People", Agency: "Example", On: civil.MustParse("2026-12-01"), Header: []string{"name", "since", "days"}, Widths: []float64{9, 9, 9},
		Rows: [][]any{{"=1+1", civil.MustParse("2026-03-04"), 12}, {"Ngô Peña", nil, nil}, {"00123", civil.Date{}, -1}}}
	out, err := b.Bytes()
	if err != nil {
		t.Fatal(err)
	}
	rows, err := workbook.Read(out, most)
	want := [][]string{{"name", "since", "days"}, {"=1+1", "2026-03-04", "12"}, {"Ngô Peña"}, {"00123", "", "-1"}}
	if err != nil || !reflect.DeepEqual(texts(rows), want) || rows[1].Cells[0].Formula {
		t.Errorf("read back as %q, %v", texts(rows), err)
	}
}

// ISO/IEC 29500-1, 18.8.30 (formats of numbers) and 18.17.4.1 (how days are counted).
func TestDaysInCells(t *testing.T) {
	for form, want := range map[string]string{
		"yyyy-mm-dd": "2026-03-04", "dd/mm/yyyy": "2026-03-04", "[$-409]d\\-mmm\\-yy;@": "2026-03-04", "yyyy-mm-dd hh:mm": "2026-03-04 19:30", "m/d/yy h:mm AM/PM": "2026-03-04 19:30",
		"0.00": "46085.8125", `0.0" days"`: "46085.8125", "General": "46085.8125", "@": "46085.8125", "[Red]0": "46085.8125",
	} {
		serial := 46085.8125
		if want == "2026-03-04" {
			serial = 46085
		}
		out := book(t, func(f *excelize.File, s string) {
			id, err := f.NewStyle(&excelize.Style{CustomNumFmt: &form})
			if err != nil {
				t.Fatal(err)
			}
			_ = f.SetCellValue(s, "A1", serial)
			_ = f.SetCellStyle(s, "A1", "A1", id)
		})
		rows, err := workbook.Read(out, most)
		if err != nil || rows[0].Cells[0].Text != want {
			t.Errorf("%s shows %q, %v", form, texts(rows), err)
		}
	}
	of1904 := true
	for id, want := range map[int]string{14: "2026-03-04", 22: "2026-03-04 00:00"} {
		out := book(t, func(f *excelize.File, s string) {
			style, _ := f.NewStyle(&excelize.Style{NumFmt: id})
			_ = f.SetWorkbookProps(&excelize.WorkbookPropsOptions{Date1904: &of1904})
			_ = f.SetCellValue(s, "A1", 46085-1462)
			_ = f.SetCellStyle(s, "A1", "A1", style)
		})
		if rows, err := workbook.Read(out, most); err != nil || rows[0].Cells[0].Text != want {
			t.Errorf("counted from 1904, format %d shows %q, %v", id, texts(rows), err)
		}
	}
}

func TestCellsThatHoldNoValue(t *testing.T) {
	out := book(t, func(f *excelize.File, s string) {
		_ = f.SetCellFormula(s, "A1", "=1+1")
		_ = f.SetCellValue(s, "B1", true)
		_ = f.SetCellValue(s, "C1", "'=1+1")
		style, _ := f.NewStyle(&excelize.Style{NumFmt: 20})
		_ = f.SetCellValue(s, "D1", 0.5)
		_ = f.SetCellStyle(s, "D1", "D1", style)
		_ = f.SetCellValue(s, "E1", "kept")
	})
	rows, err := workbook.Read(out, most)
	if err != nil {
		t.Fatal(err)
	}
	c := rows[0].Cells
	if !c[0].Formula || c[1].Wrong == "" || c[2].Formula || c[2].Text != "'=1+1" || !strings.Contains(c[3].Wrong, "time without a day") || c[4] != (workbook.Cell{Text: "kept"}) {
		t.Errorf("cells %+v", c)
	}
}

func TestBooksThatAreTooMuch(t *testing.T) {
	fill := func(cells ...string) []byte {
		return book(t, func(f *excelize.File, s string) {
			for _, c := range cells {
				_ = f.SetCellValue(s, c, "x")
			}
		})
	}
	refused(t, fill("A1", "A2", "A3", "A4", "A5", "A6", "A7"), "more than 5 rows")
	refused(t, fill("A1", "XFD1"), "column 16384")
	refused(t, fill("A1", "A1048576"), "empty rows between")
	refused(t, fill(), "empty")
	two := book(t, func(f *excelize.File, s string) {
		_, _ = f.NewSheet("Other")
		_ = f.SetCellValue(s, "A1", "x")
		_ = f.SetCellValue("Other", "B2", "y")
	})
	refused(t, two, "2 sheets")
}

// with is a workbook with a part more.
func with(t *testing.T, content []byte, name string, part []byte) []byte {
	t.Helper()
	in, err := zip.NewReader(bytes.NewReader(content), int64(len(content)))
	if err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	z := zip.NewWriter(&out)
	for _, f := range in.File {
		if err := z.Copy(f); err != nil {
			t.Fatal(err)
		}
	}
	w, err := z.Create(name)
	if err == nil {
		_, err = w.Write(part)
	}
	if err == nil {
		err = z.Close()
	}
	if err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// OWASP, "Unrestricted File Upload": archives that unfold without end, and files that carry programs.
func TestBooksThatDoHarm(t *testing.T) {
	plain := book(t, func(f *excelize.File, s string) { _ = f.SetCellValue(s, "A1", "x") })
	refused(t, with(t, plain, "xl/vbaProject.bin", []byte("x")), "a macro")
	refused(t, with(t, plain, `xl\VbaProject.BIN`, []byte("x")), "a macro")
	refused(t, with(t, plain, "xl/embeddings/oleObject1.bin", []byte("x")), "another file")
	bomb := with(t, plain, "xl/media/image1.png", bytes.Repeat([]byte{0}, 300<<20))
	if len(bomb) > 1<<20 {
		t.Fatalf("the bomb has %d bytes folded", len(bomb))
	}
	refused(t, bomb, "unfolds to more than 2 MB")
	// One that lies about its size in the directory.
	lying := bytes.ReplaceAll(bomb, []byte{0, 0, 0xc0, 0x12}, []byte{1, 0, 0, 0})
	if bytes.Equal(lying, bomb) {
		t.Fatal("the size was not found")
	}
	refused(t, lying, "cannot be read")
	refused(t, plain[:len(plain)/2], "cannot be read")
}
