package web

import (
	"fmt"
	"strconv"
	"strings"

	"wellshown/assessment/intake"
	"wellshown/assessment/office"
)

// importPage says what a file will do, row by row.
func (v *visit) importPage(p office.ImportView) ImportPage {
	page := ImportPage{Frame: v.frame("people"), ID: string(p.ID), FileName: p.FileName, List: listWords[p.Kind].short, How: howRead(p), Left: strings.Join(p.Left, ", "), Guessed: p.Guessed, Names: p.Names,
		Version: p.Version, More: p.More, Asking: p.Asking, Columns: listColumns(p.Kind), Effect: listWords[p.Kind].more}
	for _, f := range p.Faults {
		row := ""
		if f.Row > 0 {
			row = "Row " + strconv.Itoa(f.Row)
		}
		page.Wrong = append(page.Wrong, RowFault{row, f.Column, f.Says})
	}
	for _, r := range p.Rows {
		if r.Ask != nil {
			page.Asks = append(page.Asks, rowQuestion(r.Ask))
		}
		switch line := rowLine(p.Kind, r); r.Does {
		case office.ImportNew:
			page.New = append(page.New, line)
		case office.ImportThere:
			page.There = append(page.There, line)
		}
	}
	return page
}

func howRead(p office.ImportView) string {
	switch p.Form {
	case intake.XLSX:
		return "a workbook (XLSX)"
	case intake.Calendar:
		return "a calendar (iCalendar) in " + p.Encoding
	}
	return "a table (CSV) in " + p.Encoding + ", its cells parted by a " + p.Separator
}

func rowQuestion(q *office.ImportQuestion) RowQuestion {
	out := RowQuestion{Name: "row-" + strconv.Itoa(q.Rows[0]), Label: fmt.Sprintf("Row %d: %s", q.Rows[0], q.Written), Answer: q.Answer}
	if len(q.Rows) > 1 {
		var more []string
		for _, n := range q.Rows[1:min(len(q.Rows), 10)] {
			more = append(more, strconv.Itoa(n))
		}
		out.Hint = "The same name stands in row " + strings.Join(more, ", ")
		if len(q.Rows) > 10 {
			out.Hint += " and " + strconv.Itoa(len(q.Rows)-10) + " more"
		}
		out.Hint += "."
	}
	for _, c := range q.Choices {
		out.Options = append(out.Options, Option{Value: string(c.ID), Text: c.Says})
	}
	out.Options = append(out.Options, Option{Value: office.AnotherPerson, Text: q.Another})
	return out
}

// rowLine is a row with its first cell as its head.
func rowLine(k intake.Kind, r office.ImportRow) RowLine {
	line := RowLine{Number: r.Number, Notes: r.Notes}
	var rest []string
	for i, c := range intake.Columns(k) {
		switch text := r.Cells[c.Name]; {
		case i == 0:
			line.Head = text
		case text != "":
			rest = append(rest, c.Name+": "+text)
		}
	}
	line.Says = strings.Join(rest, " · ")
	return line
}
