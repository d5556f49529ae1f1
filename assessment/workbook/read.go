package workbook

import (
	"archive/zip"
	"bytes"
	"fmt"
	"io"
	"path"
	"strings"

	"github.com/xuri/excelize/v2"

	"wellshown/assessment/fault"
)

// Limits are how much is read of a book that somebody sends.
type Limits struct {
	Rows     int   // filled ones, the header among them
	Columns  int   // the number of the last filled one
	Unfolded int64 // bytes of all parts together
}

// emptyRows is how many rows may lie between filled ones in all, so that one cell at the
// end of a sheet does not make a million rows of it.
const emptyRows = 10_000

// Row is a row of a sheet that holds anything.
type Row struct {
	Number int // as spreadsheets count: the first is 1
	Cells  []Cell
}

// Cell is what one cell holds, as text. A day is YYYY-MM-DD, and a day with a time
// YYYY-MM-DD HH:MM, whatever the book shows.
type Cell struct {
	Text    string
	Formula bool // it is computed: its text is no value that somebody wrote
	Wrong   string
}

// Like reports whether a file is one of the kind that workbooks are.
func Like(content []byte) bool { return bytes.HasPrefix(content, []byte("PK\x03\x04")) }

// Read is the one sheet of a book that holds anything. A book that runs programs, is locked, unfolds
// to more than the limits or holds several filled sheets is refused.
func Read(content []byte, most Limits) ([]Row, error) {
	if err := inspect(content, most); err != nil {
		return nil, err
	}
	// Nothing of it is ever put on a disk: no part may be larger than all may be.
	book, err := excelize.OpenReader(bytes.NewReader(content), excelize.Options{UnzipSizeLimit: most.Unfolded, UnzipXMLSizeLimit: most.Unfolded, RawCellValue: true})
	if err != nil {
		return nil, unreadable()
	}
	defer book.Close() // only read: there is nothing to lose
	var rows []Row
	var filled []string
	for _, sheet := range book.GetSheetList() {
		found, err := read(book, sheet, most)
		if err != nil {
			return nil, err
		}
		if len(found) > 0 {
			rows, filled = found, append(filled, sheet)
		}
	}
	switch len(filled) {
	case 0:
		return nil, fault.Of(fault.Invalid, "This workbook is empty. Fill in a row beneath the names of the columns.")
	case 1:
		return rows, nil
	}
	return nil, fault.Of(fault.Invalid, "This workbook has %d sheets that hold something (%s). Keep the one that is to be brought in, and save it as a file of its own.", len(filled), strings.Join(filled[:min(len(filled), 5)], ", "))
}

func unreadable() error {
	return fault.Of(fault.Invalid, "This cannot be read as a workbook. Open it in a spreadsheet, save it as XLSX without a password, and send that, or save it as CSV.")
}

// inspect looks at the parts of a file before anything is unfolded.
func inspect(content []byte, most Limits) error {
	parts, err := zip.NewReader(bytes.NewReader(content), int64(len(content)))
	if err != nil {
		return unreadable()
	}
	var size uint64
	for _, part := range parts.File {
		name := strings.ToLower(path.Clean(strings.ReplaceAll(part.Name, `\`, "/")))
		switch {
		case strings.HasSuffix(name, "vbaproject.bin") || strings.Contains(name, "/macrosheets/") || strings.Contains(name, "/activex/") || strings.Contains(name, "/embeddings/"):
			return fault.Of(fault.Invalid, "This workbook carries a program (a macro) or another file in it, and is not opened. Save it as a plain workbook (XLSX) and send that.")
		case part.UncompressedSize64 > uint64(most.Unfolded):
			size = part.UncompressedSize64
		default:
			size += part.UncompressedSize64
		}
		if size > uint64(most.Unfolded) {
			return fault.Of(fault.Invalid, "This workbook unfolds to more than %d MB, which no list of ours needs. Copy the rows into a new workbook and send that.", most.Unfolded>>20)
		}
	}
	for _, part := range parts.File {
		if err := whole(part); err != nil {
			return unreadable()
		}
	}
	return nil
}

// whole unfolds a part and throws it away: one that is longer than the list of parts says,
// or another than its checksum, is noticed here and not by the library.
func whole(part *zip.File) error {
	in, err := part.Open()
	if err != nil {
		return err
	}
	defer in.Close() // it is only read
	_, err = io.Copy(io.Discard, in)
	return err
}

// read is one sheet. It is walked once before any cell is asked about, so that what the
// library builds of it is bounded.
func read(book *excelize.File, sheet string, most Limits) ([]Row, error) {
	walked, err := walk(book, sheet, most)
	if err != nil || len(walked) == 0 {
		return nil, err
	}
	props, err := book.GetWorkbookProps()
	if err != nil {
		return nil, unreadable()
	}
	dates := dating{book: book, of1904: props.Date1904 != nil && *props.Date1904, styles: map[int]dateForm{}}
	for i, row := range walked {
		for n := range row.Cells {
			name, err := excelize.CoordinatesToCellName(n+1, row.Number)
			if err != nil {
				return nil, unreadable()
			}
			if err := dates.tell(sheet, name, &walked[i].Cells[n]); err != nil {
				return nil, unreadable()
			}
		}
	}
	return walked, nil
}

func walk(book *excelize.File, sheet string, most Limits) ([]Row, error) {
	lines, err := book.Rows(sheet)
	if err != nil {
		return nil, nil // a sheet of charts has no rows
	}
	defer lines.Close()
	var rows []Row
	number := 0
	for lines.Next() {
		number++
		texts, err := lines.Columns()
		if err != nil {
			return nil, unreadable()
		}
		switch {
		case number > most.Rows+emptyRows:
			return nil, fault.Of(fault.Invalid, "This sheet goes on to row %d and further, with empty rows between. Delete the empty ones and send it again.", number)
		case len(texts) > most.Columns:
			return nil, fault.Of(fault.Invalid, "Row %d has something in column %d, and at most %d columns are read. Delete the columns that are not needed.", number, len(texts), most.Columns)
		case len(texts) == 0:
			continue
		case len(rows) == most.Rows:
			return nil, TooManyRows(most.Rows - 1)
		}
		row := Row{Number: number}
		for _, t := range texts {
			row.Cells = append(row.Cells, Cell{Text: t})
		}
		rows = append(rows, row)
	}
	if lines.Error() != nil {
		return nil, unreadable()
	}
	return rows, nil
}

// TooManyRows is the refusal of more rows than are taken at once.
func TooManyRows(most int) error {
	return fault.Of(fault.Invalid, "This file has more than %s rows. Split it into several files of at most that many, each with the names of the columns in its first row.", thousands(most))
}

func thousands(n int) string {
	if n < 1000 {
		return fmt.Sprint(n)
	}
	return fmt.Sprintf("%d,%03d", n/1000, n%1000)
}
