package intake

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"

	"wellshown/assessment/fault"
	"wellshown/assessment/workbook"
)

// book reads a workbook.
func (t *Table) book(content []byte) error {
	read, err := workbook.Read(content, workbook.Limits{Rows: MostRows + 1, Columns: mostColumns, Unfolded: 16 << 20})
	if err != nil {
		return err
	}
	var header []string
	for _, c := range read[0].Cells {
		header = append(header, c.Text)
	}
	at, err := t.header(header)
	if err != nil {
		return err
	}
	for _, r := range read[1:] {
		if !slices.ContainsFunc(r.Cells, func(c workbook.Cell) bool { return c.Formula || c.Wrong != "" || strings.TrimSpace(c.Text) != "" }) {
			continue
		}
		row := t.row(r.Number)
		for i, c := range r.Cells {
			switch {
			case i >= len(at) && strings.TrimSpace(c.Text) != "":
				t.wrong(r.Number, "", cellsDiffer(len(r.Cells), len(header), "column"))
			case i >= len(at) || at[i] == "":
			case c.Formula:
				t.wrong(r.Number, at[i], "This is a formula. Write the value itself: copy the column and paste values only.")
			case c.Wrong != "":
				t.wrong(r.Number, at[i], strings.ToUpper(c.Wrong[:1])+c.Wrong[1:]+".")
			default:
				t.fill(row, at[i], c.Text)
			}
		}
	}
	return nil
}

func cellsDiffer(has, header int, separator string) string {
	return fmt.Sprintf("This row has %s, and the first row names %s. Look for a %s too many or too few, and put cells that hold one between quotation marks.", count(has, "cell"), count(header, "column"), separator)
}

func count(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

// row begins a row.
func (t *Table) row(number int) map[string]string {
	cells := map[string]string{}
	t.Rows = append(t.Rows, Row{number, cells})
	return cells
}

// fill puts a text into a row, in the normal form that Unicode calls NFC and with runs of
// white space as one space.
func (t *Table) fill(row map[string]string, column, text string) {
	number := t.Rows[len(t.Rows)-1].Number
	text = strings.Trim(text, " \u00a0\t\r\n")
	switch {
	case strings.ContainsAny(text, "\r\n"):
		t.wrong(number, column, "There is a line break in this cell. Write it in one line.")
	case strings.ContainsFunc(text, func(r rune) bool { return unicode.IsControl(r) && r != '\t' }):
		t.wrong(number, column, "This holds characters that cannot be read or printed. Type it again.")
	case utf8.RuneCountInString(text) > mostCell:
		t.wrong(number, column, fmt.Sprintf("This is longer than %d characters. Shorten it.", mostCell))
	default:
		if text = norm.NFC.String(strings.Join(strings.Fields(text), " ")); text != "" {
			row[column] = text
		}
	}
}

// header finds our columns among those of a file, by place; empty: not taken.
func (t *Table) header(names []string) ([]string, error) {
	if len(names) > mostColumns {
		return nil, fault.Of(fault.Invalid, "This file has %d columns, and at most %d are read. Delete those that are not needed.", len(names), mostColumns)
	}
	at := make([]string, len(names))
	seen := map[string]string{}
	for i, name := range names {
		c := columnOf(t.Kind, name)
		if c == "" {
			if name = strings.TrimSpace(name); name != "" {
				t.Left = append(t.Left, name)
			}
			continue
		}
		if before, twice := seen[c]; twice {
			return nil, fault.Of(fault.Invalid, "Two columns are both our column %q: %q and %q. Rename or delete one of them.", c, before, name)
		}
		at[i], seen[c] = c, name
	}
	var missing []string
	for _, c := range Columns(t.Kind) {
		if c.Needed && seen[c.Name] == "" {
			missing = append(missing, c.Name)
		}
	}
	if len(missing) > 0 {
		return nil, fault.Of(fault.Invalid, "The first row must name the columns, and %s missing: %s. It reads: %s. Write our names into it, as the template has them.",
			map[bool]string{true: "one is", false: "some are"}[len(missing) == 1], strings.Join(missing, ", "), reads(names))
	}
	return at, nil
}

// reads is a row as it is said in a fault.
func reads(names []string) string {
	var said []string
	for _, n := range names[:min(len(names), 12)] {
		runes := []rune(strings.Join(strings.FieldsFunc(n, func(r rune) bool { return unicode.IsControl(r) || unicode.IsSpace(r) }), " "))
		said = append(said, string(runes[:min(len(runes), 40)]))
	}
	return strings.Join(said, " | ")
}

func known(k Kind, header []string) int {
	n := 0
	for _, name := range header {
		if columnOf(k, name) != "" {
			n++
		}
	}
	return n
}

// columnOf is our name of a column, however its letters are written and its words are
// joined; empty: it is none of ours.
func columnOf(k Kind, name string) string {
	plain := plainName(name)
	for _, c := range Columns(k) {
		if plainName(c.Name) == plain {
			return c.Name
		}
	}
	for _, c := range Columns(k) {
		if slices.ContainsFunc(c.Also, func(also string) bool { return plainName(also) == plain }) {
			return c.Name
		}
	}
	return ""
}

func plainName(s string) string {
	return strings.Join(strings.FieldsFunc(strings.ToLower(s), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) }), " ")
}
