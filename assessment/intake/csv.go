package intake

import (
	"encoding/csv"
	"errors"
	"io"
	"strings"

	"wellshown/assessment/fault"
	"wellshown/assessment/workbook"
)

// separators are tried in this order; the first under which most of our columns are found is it.
var separators = []struct {
	rune rune
	name string
}{{',', "comma"}, {';', "semicolon"}, {'\t', "tab"}}

// csv reads a table as RFC 4180 has it, but for the separator and for single line feeds.
func (t *Table) csv(text string) error {
	best, found := 0, -1
	for i, s := range separators {
		header, err := rows(text, s.rune).Read()
		if err != nil {
			continue
		}
		if n := known(t.Kind, header); n > found {
			best, found = i, n
		}
	}
	t.Separator = separators[best].name
	in := rows(text, separators[best].rune)
	header, err := in.Read()
	if err != nil {
		return t.broken(err)
	}
	at, err := t.header(header)
	if err != nil {
		return err
	}
	for {
		cells, err := in.Read()
		if errors.Is(err, io.EOF) {
			return nil
		}
		if err != nil {
			return t.broken(err)
		}
		number, _ := in.FieldPos(0)
		if !filled(cells) {
			continue
		}
		if len(t.Rows) == MostRows {
			return workbook.TooManyRows(MostRows)
		}
		if len(cells) != len(header) {
			t.wrong(number, "", cellsDiffer(len(cells), len(header), t.Separator))
			continue
		}
		row := t.row(number)
		for i, text := range cells {
			if at[i] == "" {
				continue
			}
			if strings.HasPrefix(strings.TrimSpace(text), "=") {
				t.wrong(number, at[i], "This is a formula. Write the value itself.")
				continue
			}
			t.fill(row, at[i], text)
		}
	}
}

func rows(text string, separator rune) *csv.Reader {
	r := csv.NewReader(strings.NewReader(text))
	r.Comma, r.FieldsPerRecord, r.ReuseRecord = separator, -1, false
	return r
}

// broken says where a table stops being one.
func (t *Table) broken(err error) error {
	var at *csv.ParseError
	if !errors.As(err, &at) {
		return fault.Of(fault.Invalid, "This file is empty. Its first row holds the names of the columns; the template shows them.")
	}
	switch {
	case errors.Is(at.Err, csv.ErrBareQuote):
		return fault.Of(fault.Invalid, "In row %d a quotation mark stands in the middle of a cell. Put the whole cell between quotation marks and write each one inside twice, or save the file from the spreadsheet as XLSX.", at.Line)
	case errors.Is(at.Err, csv.ErrQuote):
		return fault.Of(fault.Invalid, "The cell that begins in row %d with a quotation mark does not end with one before the next separator. Close it, or save the file from the spreadsheet as XLSX.", at.StartLine)
	}
	return fault.Of(fault.Invalid, "Row %d cannot be read. Save the file from the spreadsheet as XLSX, or as CSV in UTF-8.", at.Line)
}

func filled(cells []string) bool {
	for _, c := range cells {
		if strings.TrimSpace(c) != "" {
			return true
		}
	}
	return false
}
