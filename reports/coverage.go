package reports

import (
	"context"
	"fmt"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/office"
	"wellshown/assessment/workbook"
)

// Coverage prints which shifts are covered, by day: those that the query asks for.
func (r *Reports) Coverage(ctx context.Context, by assessment.Actor, q office.CoverageQuery) ([]byte, string, error) {
	v, err := r.office.Coverage(ctx, by, q)
	if err != nil {
		return nil, "", fmt.Errorf("print the coverage: %w", err)
	}
	p, err := coverage(v)
	return r.handOut(ctx, by, office.Export{Act: assessment.ReadReports, Paper: "coverage", Subject: string(q.Client)})(document(p, err, "coverage", v.From.String(), v.Through.String()))
}

// CoverageCSV is what Coverage prints as a table: as OverdueCSV is.
func (r *Reports) CoverageCSV(ctx context.Context, by assessment.Actor, q office.CoverageQuery) ([]byte, string, error) {
	v, err := r.office.Coverage(ctx, by, q)
	if err != nil {
		return nil, "", fmt.Errorf("list the coverage: %w", err)
	}
	out, err := tableCSV(coverageHeader, coverageRows(v))
	if err != nil {
		return nil, "", fmt.Errorf("write the coverage as CSV: %w", err)
	}
	return r.handOut(ctx, by, office.Export{Act: assessment.ReadReports, Paper: "coverage as a table", Subject: string(q.Client)})(out, fileName("csv", "coverage", v.From.String(), v.Through.String()), nil)
}

// CoverageXLSX is what CoverageCSV says, as a workbook with days as days.
func (r *Reports) CoverageXLSX(ctx context.Context, by assessment.Actor, q office.CoverageQuery) ([]byte, string, error) {
	v, err := r.office.Coverage(ctx, by, q)
	if err != nil {
		return nil, "", fmt.Errorf("list the coverage: %w", err)
	}
	out, err := coverageXLSX(v)
	if err != nil {
		return nil, "", fmt.Errorf("write the coverage as XLSX: %w", err)
	}
	return r.handOut(ctx, by, office.Export{Act: assessment.ReadReports, Paper: "coverage as a workbook", Subject: string(q.Client)})(out, fileName("xlsx", "coverage", v.From.String(), v.Through.String()), nil)
}

// coverage draws the answer. The paper carries noon of the first day, so that the same
// answer gives the same bytes whenever it is printed.
func coverage(v office.Coverage) (*paper, error) {
	at, zone, err := noonOn(v.From, v.Agency.Zone)
	if err != nil {
		return nil, err
	}
	span := english.date(v.From) + " to " + english.date(v.Through)
	p, err := newPaper(meta{Title: "Coverage from " + span, Language: "en", Agency: v.Agency.Name, Demo: v.Agency.Demo, Issued: at, Zone: zone, Stands: "As planned on " + english.date(v.Today)})
	if err != nil {
		return nil, err
	}
	p.letterhead(coverageFinding(p.say, v))
	c := v.Counts
	p.row(label("shifts"), strong(counted(c.Shifts, "shift", "shifts")+" from "+span), text(fmt.Sprintf("%d covered, %d break, %d open, %d clash with another", c.Covered, c.Breaks, c.Open, c.Clashes)))
	for _, l := range v.First {
		p.row(label("first to break"), strong(child(l.Client)), text(shiftTimes(p.say, l)+", "+l.Person.Name))
	}
	p.gap(6)
	p.table(coverageTable(p.say, v))
	return p, nil
}

// coverageFinding is the answer as a sentence.
func coverageFinding(say phrases, v office.Coverage) string {
	through := say.date(v.Through)
	switch c := v.Counts; {
	case c.Shifts == 0:
		return "No shift is planned through " + through
	case c.Breaks == 1:
		return "One shift breaks through " + through
	case c.Breaks > 1:
		return capital(spelled(c.Breaks)) + " shifts break through " + through
	case c.Open > 0:
		return "No shift breaks through " + through + "; " + counted(c.Open, "is open", "are open")
	}
	return "Every shift is covered through " + through
}

func shiftTimes(say phrases, l office.CoverLine) string {
	return say.shortDate(civil.DayOf(l.Starts, l.Starts.Location())) + ", " + l.Starts.Format("15:04") + "–" + l.Ends.Format("15:04")
}

func coverageTable(say phrases, v office.Coverage) table {
	t := table{columns: []column{{"shift", 1.1, toLeft}, {"child", 1, toLeft}, {"who", 1.6, toLeft}, {"answer", 3.2, toLeft}}, empty: "No such shift through " + say.date(v.Through) + "."}
	var last civil.Date
	for _, l := range v.Lines {
		if on := civil.DayOf(l.Starts, l.Starts.Location()); on != last {
			last = on
			t.rows = append(t.rows, tableRow{section: []words{group(on.Format("Monday 2 January 2006"))}})
		}
		who := l.Person.Name
		if who == "" {
			who = "nobody yet"
		}
		t.rows = append(t.rows, tableRow{cells: cells(text(l.Starts.Format("15:04")+"–"+l.Ends.Format("15:04")), text(child(l.Client)), text(who), text(strings.Join(append([]string{string(l.Word)}, coverageWhy(l)...), "; ")))})
	}
	return t
}

// coverageWhy says what stands in the way, and what clashes.
func coverageWhy(l office.CoverLine) []string {
	var says []string
	for _, k := range l.Lacks {
		switch k.Why {
		case assessment.NotHeld:
			says = append(says, k.Skill.Title+" "+string(k.Word)+" on "+k.On.String())
		case assessment.OtherKind:
			says = append(says, "the shift asks for another kind: "+string(k.Asks))
		default:
			says = append(says, string(k.Why)+" on "+k.On.String())
		}
	}
	for _, c := range l.Clashes {
		if c.Overlap {
			says = append(says, "at the same time with "+child(c.Other.Client))
		} else {
			says = append(says, fmt.Sprintf("%d min of rest beside %s", int(c.Rest.Minutes()), child(c.Other.Client)))
		}
	}
	if l.ShortRest != "" {
		says = append(says, "less rest than is asked: "+l.ShortRest)
	}
	return says
}

var coverageHeader = []string{"day", "from", "until_day", "until", "child_code", "child", "caregiver", "kind", "asks_for", "answer", "why", "source"}

// coverageWidths are in characters, in the order of coverageHeader.
var coverageWidths = []float64{12, 8, 12, 8, 10, 18, 28, 10, 10, 10, 60, 12}

// coverageFields is one line; days and times are those of the agency's clocks.
func coverageFields(l office.CoverLine) []any {
	zone := l.Starts.Location()
	return []any{civil.DayOf(l.Starts, zone), l.Starts.Format("15:04"), civil.DayOf(l.Ends, zone), l.Ends.Format("15:04"), defused(l.Client.Code), defused(l.Client.FirstName),
		defused(l.Person.Name), string(l.Person.Kind), string(l.Kind), string(l.Word), defused(strings.Join(coverageWhy(l), "; ")), string(l.Source)}
}

func coverageRows(v office.Coverage) [][]any {
	rows := make([][]any, len(v.Lines))
	for i, l := range v.Lines {
		rows[i] = coverageFields(l)
	}
	return rows
}

func coverageXLSX(v office.Coverage) ([]byte, error) {
	return workbook.Book{Sheet: "coverage", Title: "Coverage from " + v.From.String() + " through " + v.Through.String(), Agency: v.Agency.Name, On: v.From,
		Header: coverageHeader, Widths: coverageWidths, Rows: coverageRows(v)}.Bytes()
}
