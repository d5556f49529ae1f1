package workbook

import (
	"fmt"

	"github.com/xuri/excelize/v2"

	"wellshown/assessment/civil"
)

// Book is a table as a file of its own: one sheet, whose header stays in view. Its values
// are texts, days and whole numbers; nil is an empty cell.
type Book struct {
	Sheet, Title, Agency string
	On                   civil.Date // of which day it is: the book names no clock
	Header               []string
	Widths               []float64 // in characters, one a column
	Rows                 [][]any
}

// Bytes writes it. Days are days, counts are numbers, and everything else is typed as text,
// so that no spreadsheet computes it. The same answer gives the same bytes.
func (w Book) Bytes() ([]byte, error) {
	book := excelize.NewFile()
	defer book.Close() // holds nothing that could fail to be kept: the bytes are out by then
	if err := book.SetSheetName(book.GetSheetName(0), w.Sheet); err != nil {
		return nil, err
	}
	// Whose it is and what day it is of: the book names nobody else, and no clock.
	day := w.On.String() + "T12:00:00Z"
	if err := book.SetDocProps(&excelize.DocProperties{Creator: w.Agency, Title: w.Title, Created: day, Modified: day}); err != nil {
		return nil, err
	}
	sheet, err := book.NewStreamWriter(w.Sheet)
	if err != nil {
		return nil, err
	}
	form := "yyyy-mm-dd"
	days, err := book.NewStyle(&excelize.Style{CustomNumFmt: &form})
	if err != nil {
		return nil, err
	}
	if err := w.write(sheet, days); err != nil {
		return nil, err
	}
	out, err := book.WriteToBuffer()
	if err != nil {
		return nil, err
	}
	return out.Bytes(), nil
}

// write fills the sheet: the header and the rows.
func (w Book) write(sheet *excelize.StreamWriter, days int) error {
	for i, width := range w.Widths {
		if err := sheet.SetColWidth(i+1, i+1, width); err != nil {
			return err
		}
	}
	if err := sheet.SetPanes(&excelize.Panes{Freeze: true, YSplit: 1, TopLeftCell: "A2", ActivePane: "bottomLeft"}); err != nil {
		return err
	}
	header := make([]any, len(w.Header))
	for i, name := range w.Header {
		header[i] = name
	}
	if err := sheet.SetRow("A1", header); err != nil {
		return err
	}
	for i, row := range w.Rows {
		cells := make([]any, len(row))
		for n, value := range row {
			if cells[n] = value; value == "" {
				cells[n] = nil
			}
			if d, ok := value.(civil.Date); ok {
				cells[n] = dayCell(d, days)
			}
		}
		if err := sheet.SetRow(fmt.Sprintf("A%d", i+2), cells); err != nil {
			return err
		}
	}
	return sheet.Flush()
}

// dayCell is a day as a spreadsheet counts it, at midnight without any zone; none is empty.
func dayCell(d civil.Date, style int) any {
	if d.IsZero() {
		return nil
	}
	return excelize.Cell{StyleID: style, Value: d.Sub(sheetEpoch)}
}

// sheetEpoch is day 0 of workbooks in the 1900 date system for all days after
// February 1900, which it takes for a leap year (ISO/IEC 29500-1, 18.17.4.1).
var sheetEpoch = civil.MustParse("1899-12-30")
