package reports

import (
	"context"
	"fmt"

	"wellshown/assessment"
	"wellshown/assessment/office"
	"wellshown/assessment/workbook"
)

// OverdueXLSX is what OverdueCSV says, as a workbook (ISO/IEC 29500) of one sheet
// with the same columns: days are days, counts are numbers, and everything else is
// typed as text, so that no spreadsheet computes it. Texts are defused as well, for
// whoever edits a cell or saves the sheet in another form. The same answer gives the
// same bytes.
func (r *Reports) OverdueXLSX(ctx context.Context, by assessment.Actor, q office.OverdueQuery) ([]byte, string, error) {
	v, err := r.office.Overdue(ctx, by, q)
	if err != nil {
		return nil, "", fmt.Errorf("list what is overdue: %w", err)
	}
	out, err := overdueXLSX(v)
	if err != nil {
		return nil, "", fmt.Errorf("write what is overdue as XLSX: %w", err)
	}
	return r.handOut(ctx, by, office.Export{Act: assessment.ReadReports, Paper: "overdue as a workbook", Subject: string(q.Client)})(out, fileName("xlsx", append([]string{"overdue"}, overdueParts(v)...)...), nil)
}

// overdueWidths are in characters, in the order of overdueHeader.
var overdueWidths = []float64{12, 28, 10, 14, 20, 40, 10, 18, 13, 12, 10}

func overdueXLSX(v office.Overdue) ([]byte, error) {
	return workbook.Book{Sheet: "overdue", Title: "Overdue and coming due on " + english.date(v.On), Agency: v.Agency.Name, On: v.On,
		Header: overdueHeader, Widths: overdueWidths, Rows: overdueRows(v)}.Bytes()
}
