package workbook

import (
	"math"
	"regexp"
	"strconv"
	"strings"

	"github.com/xuri/excelize/v2"

	"wellshown/assessment/civil"
)

// dateForm says what the format of a cell shows of a number.
type dateForm int

const (
	noDate dateForm = iota
	dayOnly
	dayAndTime
	timeOnly
)

// dating tells numbers that are days from others. Whether one is stands only in its
// format: the file has a number in either case.
type dating struct {
	book   *excelize.File
	of1904 bool // days are counted from 1904 (ISO/IEC 29500-1, 18.17.4.1)
	styles map[int]dateForm
}

// tell fills in what a cell is besides its text.
func (d dating) tell(sheet, name string, c *Cell) error {
	formula, err := d.book.GetCellFormula(sheet, name)
	if err != nil {
		return err
	}
	kind, err := d.book.GetCellType(sheet, name)
	if err != nil {
		return err
	}
	switch {
	case formula != "" || kind == excelize.CellTypeFormula:
		c.Formula = true
	case kind == excelize.CellTypeError:
		c.Wrong = "the spreadsheet shows a fault here (" + c.Text + "). Write the value"
	case kind == excelize.CellTypeBool:
		c.Wrong = "this is a yes or no of the spreadsheet. Write a text"
	case kind == excelize.CellTypeDate:
		c.Text, _, _ = strings.Cut(strings.Replace(strings.TrimSuffix(c.Text, "Z"), "T", " ", 1), ".")
		c.Text = strings.TrimSuffix(c.Text, " 00:00:00")
	case kind == excelize.CellTypeUnset || kind == excelize.CellTypeNumber:
		return d.number(sheet, name, c)
	}
	return nil
}

func (d dating) number(sheet, name string, c *Cell) error {
	serial, err := strconv.ParseFloat(c.Text, 64)
	if err != nil {
		return nil // no number: it stays the text that it is
	}
	id, err := d.book.GetCellStyle(sheet, name)
	if err != nil {
		return err
	}
	form, known := d.styles[id]
	if !known {
		style, err := d.book.GetStyle(id)
		if err != nil {
			return err
		}
		form = formOf(style)
		d.styles[id] = form
	}
	switch {
	case form == noDate:
		c.Text = strconv.FormatFloat(serial, 'f', -1, 64)
	case form == timeOnly || !d.inCalendar(serial):
		c.Wrong = "this is a time without a day, or a day that is in no calendar. Write the day as YYYY-MM-DD"
	default:
		c.Text = d.text(serial, form)
	}
	return nil
}

// inCalendar leaves out days before March 1900, which the count of days has wrong, and those
// after 9999.
func (d dating) inCalendar(serial float64) bool {
	first := 61.0
	if d.of1904 {
		first = 0
	}
	return serial >= first && serial < 2_950_000
}

func (d dating) text(serial float64, form dateForm) string {
	epoch := sheetEpoch
	if d.of1904 {
		epoch = civil.MustParse("1904-01-01")
	}
	seconds := int(math.Round((serial - math.Floor(serial)) * 86400)) // a fraction of a day is never exact
	day := epoch.AddDays(int(math.Floor(serial)) + seconds/86400)
	seconds %= 86400
	if form == dayOnly && seconds == 0 {
		return day.String()
	}
	text := day.String() + " " + civil.Clock(seconds/60).String()
	if seconds%60 != 0 {
		text += ":" + strconv.Itoa(100 + seconds%60)[1:]
	}
	return text
}

// unread is what a number's format shows as it stands: texts in quotes, characters after a
// backslash, and colours, conditions and places in brackets.
var unread = regexp.MustCompile(`"[^"]*"|\\.|_.|\*.|\[[^\]]*\]`)

func formOf(style *excelize.Style) dateForm {
	if style == nil {
		return noDate
	}
	if style.CustomNumFmt != nil {
		f, _, _ := strings.Cut(strings.ToLower(unread.ReplaceAllString(*style.CustomNumFmt, "")), ";")
		day, time := strings.ContainsAny(f, "yd") || strings.Contains(f, "mmm"), strings.ContainsAny(f, "hs")
		switch {
		case day && time:
			return dayAndTime
		case day:
			return dayOnly
		case time:
			return timeOnly
		}
		return noDate
	}
	switch n := style.NumFmt; {
	case n >= 14 && n <= 17, n >= 27 && n <= 31, n == 36, n >= 50 && n <= 54, n == 57, n == 58:
		return dayOnly
	case n == 22:
		return dayAndTime
	case n >= 18 && n <= 21, n >= 32 && n <= 35, n >= 45 && n <= 47, n == 55, n == 56:
		return timeOnly
	}
	return noDate
}
