package reports

import (
	"context"
	"fmt"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

// OverdueCSV is what Overdue prints as a table: RFC 4180, UTF-8, lines ended by
// CRLF, one header, days as YYYY-MM-DD. Texts that a spreadsheet would take for a
// formula are defused by an apostrophe before them.
func (r *Reports) OverdueCSV(ctx context.Context, by assessment.Actor, q office.OverdueQuery) ([]byte, string, error) {
	v, err := r.office.Overdue(ctx, by, q)
	if err != nil {
		return nil, "", fmt.Errorf("list what is overdue: %w", err)
	}
	out, err := overdueCSV(v)
	if err != nil {
		return nil, "", fmt.Errorf("write what is overdue as CSV: %w", err)
	}
	return r.handOut(ctx, by, office.Export{Act: assessment.ReadReports, Paper: "overdue as a table", Subject: string(q.Client)})(out, fileName("csv", append([]string{"overdue"}, overdueParts(v)...)...), nil)
}

var overdueHeader = []string{"on", "caregiver", "kind", "relation", "skill_code", "skill", "child_code", "child", "standing", "last_day", "days_left"}

func overdueCSV(v office.Overdue) ([]byte, error) { return tableCSV(overdueHeader, overdueRows(v)) }

func overdueRows(v office.Overdue) [][]any {
	rows := make([][]any, len(v.Lines))
	for i, l := range v.Lines {
		rows[i] = overdueFields(v, l)
	}
	return rows
}

// overdueFields is one line. Days are counted only where there is a last day:
// below zero once it has passed.
func overdueFields(v office.Overdue, l office.OverdueLine) []any {
	var last, days any
	if l.Word != assessment.Withdrawn && !l.Through.IsZero() {
		last, days = l.Through, l.DaysLeft
	}
	return []any{v.On, defused(l.Person.Name), string(l.Person.Kind), defused(l.Person.Relation), defused(l.Skill.Code),
		defused(l.Skill.Title), defused(l.Client.Code), defused(l.Client.FirstName), string(l.Word), last, days}
}
