package reports

import (
	"context"
	"fmt"

	"wellshown/assessment"
	"wellshown/assessment/office"
	"wellshown/assessment/workbook"
)

// StandingsCSV is the grid of people and skills on a day as a table (RFC 4180): a line for
// each cell in which anything stands, of all who fit and not of one page. Texts that a spreadsheet would take
// for a formula are defused by an apostrophe before them.
func (r *Reports) StandingsCSV(ctx context.Context, by assessment.Actor, q office.GridQuery) ([]byte, string, error) {
	g, err := r.wholeGrid(ctx, by, q)
	if err != nil {
		return nil, "", err
	}
	out, err := tableCSV(standingsHeader, standingsRows(g))
	if err != nil {
		return nil, "", fmt.Errorf("write standings as CSV: %w", err)
	}
	return r.handOut(ctx, by, office.Export{Act: assessment.ReadReports, Paper: "standings as a table", Subject: string(q.Client)})(out, fileName("csv", "standings", g.On.String()), nil)
}

// StandingsXLSX is what StandingsCSV says, as a workbook with days as days.
func (r *Reports) StandingsXLSX(ctx context.Context, by assessment.Actor, q office.GridQuery) ([]byte, string, error) {
	g, err := r.wholeGrid(ctx, by, q)
	if err != nil {
		return nil, "", err
	}
	out, err := standingsXLSX(g)
	if err != nil {
		return nil, "", fmt.Errorf("write standings as XLSX: %w", err)
	}
	return r.handOut(ctx, by, office.Export{Act: assessment.ReadReports, Paper: "standings as a workbook", Subject: string(q.Client)})(out, fileName("xlsx", "standings", g.On.String()), nil)
}

// wholeGrid asks for all who fit, on whichever page.
func (r *Reports) wholeGrid(ctx context.Context, by assessment.Actor, q office.GridQuery) (office.Grid, error) {
	q.After, q.Limit = "", 0
	g, err := r.office.Grid(ctx, by, q)
	if err != nil {
		return g, fmt.Errorf("list standings: %w", err)
	}
	return g, nil
}

var (
	standingsHeader = []string{"on", "caregiver", "kind", "relation", "skill_code", "skill", "child_code", "child", "required", "standing", "last_day", "days_left"}
	standingsWidths = []float64{12, 28, 10, 14, 20, 40, 10, 18, 10, 13, 12, 10} // in characters
)

func standingsXLSX(g office.Grid) ([]byte, error) {
	return workbook.Book{Sheet: "standings", Title: "Standings on " + english.date(g.On), Agency: g.Agency.Name, On: g.On,
		Header: standingsHeader, Widths: standingsWidths, Rows: standingsRows(g)}.Bytes()
}

func standingsRows(g office.Grid) [][]any {
	rows := [][]any{}
	for _, r := range g.Rows {
		for i, c := range r.Cells {
			if c.Known {
				rows = append(rows, standingsFields(g, r.Person, g.Skills[i], c))
			}
		}
	}
	return rows
}

// standingsFields is one cell. A withdrawn holding holds through no day; days are counted
// where it holds.
func standingsFields(g office.Grid, p office.PersonRef, s office.SkillRef, c office.GridCell) []any {
	required, last, left := "no", any(nil), any(nil)
	if c.Required {
		required = "yes"
	}
	if c.Word != assessment.Withdrawn && !c.Through.IsZero() {
		last = c.Through
	}
	if c.Word.Holds() {
		left = c.DaysLeft
	}
	return []any{g.On, defused(p.Name), string(p.Kind), defused(p.Relation), defused(s.Code), defused(s.Title),
		defused(c.Client.Code), defused(c.Client.FirstName), required, string(c.Word), last, left}
}
