package reports

import (
	"context"
	"fmt"

	"github.com/xuri/excelize/v2"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/office"
)

// OverdueXLSX is what OverdueCSV says, as a workbook (ISO/IEC 29500) of one sheet
// with the same columns: days are days, counts are numbers, and everything else is
// typed as text, so that no spreadsheet computes it. Texts are defused as well, for
// whoever edits a cell or saves the sheet in another form. The same answer gives the
// same bytes.
func (r *Reports) OverdueXLSX(ctx context.Context, by assessment.Actor, q office.OverdueQuery) ([]byte, string, error) {
	v, err := r.office.Overdue(ctx, by, q)
	if err != nil {
		return nil, "", fmt.Errorf("list what is overdue: %w", err)
	}
	out, err := overdueXLSX(v)
	if err != nil {
		return nil, "", fmt.Errorf("write what is overdue as XLSX: %w", err)
	}
	return r.handOut(ctx, by, office.Export{Act: assessment.ReadReports, Paper: "overdue as a workbook", Subject: string(q.Client)})(out, fileName("xlsx", append([]string{"overdue"}, overdueParts(v)...)...), nil)
}

const overdueSheet = "overdue"

// overdueWidths are in characters, in the order of overdueHeader.
var overdueWidths = []float64{12, 28, 10, 14, 20, 40, 10, 18, 13, 12, 10}

func overdueXLSX(v office.Overdue) ([]byte, error) {
	return workbook{name: overdueSheet, title: "Overdue and coming due on " + english.date(v.On), agency: v.Agency.Name, day: v.On, header: overdueHeader, widths: overdueWidths, lines: len(v.Lines),
		cells: func(i, days int) []any { return sheetCells(v, v.Lines[i], days) }}.bytes()
}

// workbook is a book of one sheet: a header, which stays in view, and lines.
type workbook struct {
	name, title, agency string
	day                 civil.Date // what it is of: the book names nobody else, and no clock
	header              []string
	widths              []float64 // in characters
	lines               int
	cells               func(line, days int) []any // days is the style of a day
}

func (b workbook) bytes() ([]byte, error) {
	book := excelize.NewFile()
	defer book.Close() // holds nothing that could fail to be kept: the bytes are out by then
	if err := book.SetSheetName(book.GetSheetName(0), b.name); err != nil {
		return nil, err
	}
	at := b.day.String() + "T12:00:00Z"
	if err := book.SetDocProps(&excelize.DocProperties{Creator: b.agency, Title: b.title, Created: at, Modified: at}); err != nil {
		return nil, err
	}
	sheet, err := book.NewStreamWriter(b.name)
	if err != nil {
		return nil, err
	}
	form := "yyyy-mm-dd"
	days, err := book.NewStyle(&excelize.Style{CustomNumFmt: &form})
	if err != nil {
		return nil, err
	}
	if err := b.write(sheet, days); err != nil {
		return nil, err
	}
	out, err := book.WriteToBuffer()
	if err != nil {
		return nil, err
	}
	return out.Bytes(), nil
}

func (b workbook) write(sheet *excelize.StreamWriter, days int) error {
	for i, width := range b.widths {
		if err := sheet.SetColWidth(i+1, i+1, width); err != nil {
			return err
		}
	}
	if err := sheet.SetPanes(&excelize.Panes{Freeze: true, YSplit: 1, TopLeftCell: "A2", ActivePane: "bottomLeft"}); err != nil {
		return err
	}
	header := make([]any, len(b.header))
	for i, name := range b.header {
		header[i] = name
	}
	if err := sheet.SetRow("A1", header); err != nil {
		return err
	}
	for i := range b.lines {
		if err := sheet.SetRow(fmt.Sprintf("A%d", i+2), b.cells(i, days)); err != nil {
			return err
		}
	}
	return sheet.Flush()
}

// sheetCells is overdueFields with days and counts as what they are.
func sheetCells(v office.Overdue, l office.OverdueLine, days int) []any {
	fields := overdueFields(v, l)
	cells := make([]any, len(fields))
	for i, text := range fields {
		if text != "" {
			cells[i] = text
		}
	}
	cells[0] = dayCell(v.On, days)
	if last := len(cells) - 1; cells[last] != nil { // there is a last day
		cells[last-1], cells[last] = dayCell(l.Through, days), l.DaysLeft
	}
	return cells
}

// dayCell is a day as a spreadsheet counts it, at midnight without any zone.
func dayCell(d civil.Date, style int) excelize.Cell {
	return excelize.Cell{StyleID: style, Value: d.Sub(sheetEpoch)}
}

// sheetEpoch is day 0 of workbooks in the 1900 date system for all days after
// February 1900, which it takes for a leap year (ISO/IEC 29500-1, 18.17.4.1).
var sheetEpoch = civil.MustParse("1899-12-30")
