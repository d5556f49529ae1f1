package reports

import (
	"context"
	"fmt"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/intake"
	"wellshown/assessment/office"
	"wellshown/assessment/workbook"
)

// ListTemplate is an empty list of a kind as CSV or XLSX: our columns, and example rows that are to be
// written over.
func (r *Reports) ListTemplate(ctx context.Context, by assessment.Actor, kind intake.Kind, form string) ([]byte, string, error) {
	out := r.handOut(ctx, by, office.Export{Act: assessment.ReadReports, Paper: "template of a list"})
	return out(listTemplate(kind, form))
}

func listTemplate(kind intake.Kind, form string) ([]byte, string, error) {
	columns := intake.Columns(kind)
	if len(columns) == 0 || form != "csv" && form != "xlsx" {
		return nil, "", fault.Of(fault.NotFound, "There is no such list.")
	}
	var header []string
	var widths []float64
	rows := [][]any{}
	for i, c := range columns {
		header, widths = append(header, c.Name), append(widths, 24)
		for n, text := range c.Example {
			if i == 0 {
				rows = append(rows, nil)
			}
			rows[n] = append(rows[n], text)
		}
	}
	name := fileName(form, string(kind), "template")
	if form == "csv" {
		body, err := tableCSV(header, rows)
		return body, name, err
	}
	body, err := workbook.Book{Sheet: string(kind), Title: string(kind), Agency: "Wellshown", On: civil.MustParse("2026-01-01"), Header: header, Widths: widths, Rows: rows}.Bytes()
	return body, name, err
}

// CarriedPaper is a photo or scan of an old paper, as it was kept.
func (r *Reports) CarriedPaper(ctx context.Context, by assessment.Actor, person assessment.PersonID, id assessment.RecordID) ([]byte, string, error) {
	page, err := r.office.CarriedPaper(ctx, by, person, id)
	if err != nil {
		return nil, "", fmt.Errorf("hand out an old paper: %w", err)
	}
	return r.handOut(ctx, by, office.Export{Act: assessment.ReadRecords, Paper: "old paper", Subject: string(person)})(page.Content, fileName(pageEndings[page.MediaType], "old-paper", page.AttachedAt.Format("2006-01-02")), nil)
}
