package intake

import (
	"bytes"
	"strings"
	"time"

	"wellshown/assessment/fault"
	"wellshown/assessment/workbook"
)

// How much is taken at once. What an agency has is far below it.
const (
	MostBytes   = 4 << 20
	MostRows    = 5000
	mostColumns = 60
	mostCell    = 500 // letters in one cell
	mostFaults  = 1000
)

// Form is what sort of file it is.
type Form string

// The forms of files.
const (
	CSV      Form = "CSV"
	XLSX     Form = "XLSX"
	Calendar Form = "iCalendar"
)

// Table is a file as rows of our columns.
type Table struct {
	Kind      Kind
	Form      Form
	Encoding  string   // of text: UTF8, UTF16, Windows1252
	Separator string   // of CSV, in words: comma, semicolon, tab
	Left      []string // columns that are not taken, as the file names them
	Rows      []Row
	Faults    []Fault // in order of rows
	More      int     // faults beyond those that are told
}

// Row is one row that holds anything.
type Row struct {
	Number int               // of the line where it begins; of calendars, the number of the event
	Cells  map[string]string // by the name of the column; what is empty is not there
}

// Fault is one thing that needs mending.
type Fault struct {
	Row    int    // 0: of the file as a whole
	Column string // empty: of the row as a whole
	Says   string // what is wrong, and what to write
}

// Zones finds a time zone by its name; an error where it is none.
type Zones func(name string) (*time.Location, error)

// Read reads a file. What is wrong with single rows is among the table's faults; what cannot be
// read at all, or is too much, is the error.
func Read(kind Kind, content []byte, zones Zones) (Table, error) {
	t := Table{Kind: kind}
	var err error
	switch {
	case len(content) == 0:
		return t, fault.Of(fault.Invalid, "Nothing was sent. Choose a file: a table as CSV or XLSX.")
	case len(content) > MostBytes:
		return t, TooLarge()
	case workbook.Like(content):
		t.Form = XLSX
		err = t.book(content)
	case bytes.HasPrefix(content, []byte("\xd0\xcf\x11\xe0")):
		err = fault.Of(fault.Invalid, "This is a workbook of an old form (XLS), or one with a password. Save it as XLSX without a password, or as CSV.")
	case bytes.HasPrefix(content, []byte("%PDF-")):
		err = fault.Of(fault.Invalid, "This is a PDF, whatever its name says. Send a table as CSV or XLSX.")
	default:
		err = t.text(content, zones)
	}
	if err == nil && len(t.Rows) == 0 && len(t.Faults) == 0 {
		err = fault.Of(fault.Invalid, "There is no row beneath the names of the columns. Fill in at least one.")
	}
	return t, err
}

// TooLarge is the refusal of more bytes than are taken.
func TooLarge() error {
	return fault.Of(fault.Invalid, "This file is too large: a list has at most %d MB. Send the rows alone, without pictures, or split it into several files.", MostBytes>>20)
}

func (t *Table) text(content []byte, zones Zones) error {
	text, encoding, err := letters(content)
	if err != nil {
		return err
	}
	t.Encoding = encoding
	if strings.HasPrefix(strings.ToUpper(strings.TrimSpace(text[:min(len(text), 64)])), "BEGIN:VCALENDAR") {
		t.Form = Calendar
		if t.Kind != Shifts {
			return fault.Of(fault.Invalid, "This is a calendar. Only shifts come as one; send a table as CSV or XLSX.")
		}
		return t.calendar(text, zones)
	}
	t.Form = CSV
	return t.csv(text)
}

// wrong notes a fault of a row.
func (t *Table) wrong(row int, column, says string) {
	if len(t.Faults) == mostFaults {
		t.More++
		return
	}
	t.Faults = append(t.Faults, Fault{row, column, says})
}
