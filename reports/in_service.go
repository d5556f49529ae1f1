package reports

import (
	"context"
	"fmt"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/office"
)

// InServiceCSV is who took part in how much training, as a table: as OverdueCSV is. Minutes are
// whole numbers, so that they can be added.
func (r *Reports) InServiceCSV(ctx context.Context, by assessment.Actor) ([]byte, string, error) {
	v, err := r.office.InService(ctx, by, "")
	if err != nil {
		return nil, "", fmt.Errorf("list in-service hours: %w", err)
	}
	out, err := tableCSV(inServiceHeader, inServiceRows(v))
	if err != nil {
		return nil, "", fmt.Errorf("write in-service hours as CSV: %w", err)
	}
	return r.handOut(ctx, by, office.Export{Act: assessment.ReadReports, Paper: "in-service hours as a table"})(out, fileName("csv", "in-service", v.Today.String()), nil)
}

var inServiceHeader = []string{"on", "aide", "hired_on", "from", "through", "minutes", "minutes_asked", "minutes_short", "minutes_short_before"}

func inServiceRows(v office.InServiceView) [][]any {
	var rows [][]any
	for _, l := range v.Lines {
		row := []any{v.Today, defused(l.Person.Name), dayOrNone(l.HiredOn), l.From, l.Through, l.Minutes, v.Rule.Minutes, l.Short, l.Missed}
		if !l.Counted {
			row = []any{v.Today, defused(l.Person.Name), dayOrNone(l.HiredOn), nil, nil, nil, v.Rule.Minutes, nil, nil}
		}
		rows = append(rows, row)
	}
	return rows
}

// dayOrNone leaves a field empty where there is no day.
func dayOrNone(d civil.Date) any {
	if d.IsZero() {
		return nil
	}
	return d
}
