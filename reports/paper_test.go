package reports

import (
	"bytes"
	"strings"
	"sync"
	"testing"
	"time"
)

func TestSameInputSameBytes(t *testing.T) {
	first := finished(t, specimen(t, "Nguyễn Thị Ánh"))
	var running sync.WaitGroup
	for range 20 {
		running.Go(func() {
			if again := finished(t, specimen(t, "Nguyễn Thị Ánh")); !bytes.Equal(first, again) {
				t.Errorf("two runs differ: %d and %d bytes", len(first), len(again))
			}
		})
	}
	running.Wait()
	if bytes.Equal(first, finished(t, specimen(t, "Nguyễn Thị Lan"))) {
		t.Error("another name gives the same bytes")
	}
}

func TestAPaperNeedsItsFacts(t *testing.T) {
	for name, change := range map[string]func(*meta){
		"no instant":  func(m *meta) { m.Issued = time.Time{} },
		"no title":    func(m *meta) { m.Title = " \n" },
		"no language": func(m *meta) { m.Language = "" },
		"not a tag":   func(m *meta) { m.Language = "en)>> BDC" },
	} {
		m := meta{Title: "T", Language: "en", Issued: issued}
		change(&m)
		if _, err := newPaper(m); err == nil {
			t.Errorf("%s: taken", name)
		}
	}
}

func TestFaultsComeOutOfBytes(t *testing.T) {
	for name, write := range map[string]func(*paper){
		"too many cells": func(p *paper) {
			p.table(table{columns: []column{{"a", 1, toLeft}}, rows: []tableRow{{cells: cells(text("1"), text("2"))}}})
		},
		"no columns":       func(p *paper) { p.table(table{rows: []tableRow{{}}}) },
		"no share":         func(p *paper) { p.table(table{columns: []column{{title: "a"}}, rows: []tableRow{{}}}) },
		"no web address":   func(p *paper) { p.check(check{Code: "X", Address: "javascript:alert(1)"}) },
		"no web page":      func(p *paper) { p.check(check{Code: "X", Address: "ftp://wellshown.example/check"}) },
		"endless address":  func(p *paper) { p.check(check{Code: "X", Address: "https://x.example/" + strings.Repeat("a", 3000)}) },
		"the library gave": func(p *paper) { p.draw(drawing{broken{}}) },
	} {
		p := blankPaper(t)
		write(p)
		if pdf, err := p.bytes(); err == nil || pdf != nil {
			t.Errorf("%s: printed", name)
		}
	}
}

// broken stands for a fault inside the PDF library.
type broken struct{}

func (b broken) moved(_, _ float64) instruction { return b }
func (broken) put(*canvas)                      { panic("unexpected text") }

// ISO 32000-1, 14.3.3 (document information) and 14.9.2 (language of marked content).
func TestTheFileSaysWhatItIs(t *testing.T) {
	p := blankPaper(t, func(m *meta) { m.Title, m.Language = "Constancia de Łucja", "es-MX" })
	p.paragraph("Hola")
	path := filed(t, finished(t, p))
	info := tool(t, "pdfinfo", "-rawdates", path)
	for _, want := range []string{"Constancia de Łucja", "Larkmoor Home Nursing", "D:20261118224200", "Wellshown", "612 x 792 pts (letter)"} {
		if !strings.Contains(info, want) {
			t.Errorf("pdfinfo does not say %q:\n%s", want, info)
		}
	}
	if strings.Count(info, "D:20261118224200") != 2 {
		t.Errorf("made and changed are not both the instant of issue:\n%s", info)
	}
	source := tool(t, "qpdf", "--qdf", "--object-streams=disable", path, "-")
	if strings.Count(source, "/Span <</Lang (es-MX)>> BDC") != 1 || strings.Count(source, "EMC") != 1 {
		t.Error("the page does not name its language")
	}
}

func TestSizes(t *testing.T) {
	for want, change := range map[string]func(*meta){
		"612 x 792 pts (letter)": func(*meta) {},
		"792 x 612 pts (letter)": func(m *meta) { m.Landscape = true },
		"595.28 x 841.89 pts":    func(m *meta) { m.Size = a4 },
		"841.89 x 595.28 pts":    func(m *meta) { m.Size, m.Landscape = a4, true },
	} {
		p := blankPaper(t, change)
		p.paragraph("text")
		if info := tool(t, "pdfinfo", filed(t, finished(t, p))); !strings.Contains(info, want) {
			t.Errorf("page is not %s:\n%s", want, info)
		}
	}
}

func TestToolsFindNoFault(t *testing.T) {
	long := blankPaper(t)
	long.letterhead("A long list")
	long.table(longTable(200))
	for name, p := range map[string]*paper{
		"specimen": specimen(t, "Zoë"), "everywhere": everywhere(t, "Łucja (née) \\ Ольга č"), "long": long,
	} {
		path := filed(t, finished(t, p))
		if out := tool(t, "qpdf", "--check", path); !strings.Contains(out, "No syntax or stream encoding errors found") {
			t.Errorf("%s: qpdf: %s", name, out)
		}
		fonts := strings.Split(strings.TrimSpace(tool(t, "pdffonts", path)), "\n")[2:]
		if len(fonts) < 2 || len(fonts) > int(faceCount) {
			t.Errorf("%s: %d fonts", name, len(fonts))
		}
		for _, f := range fonts { // … emb sub uni object ID
			if cols := strings.Fields(f); len(cols) < 5 || cols[len(cols)-5] != "yes" || cols[len(cols)-3] != "yes" {
				t.Errorf("%s: font not embedded or without Unicode map: %s", name, f)
			}
		}
	}
}

// The benchmark's document is one page with three faces and a QR code.
func BenchmarkOnePage(b *testing.B) {
	if err := Prepare(); err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		finished(b, specimen(b, "Nguyễn Thị Lan"))
	}
}

func BenchmarkTwoHundredRows(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		p := blankPaper(b)
		p.table(longTable(200))
		finished(b, p)
	}
}
