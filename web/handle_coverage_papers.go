package web

import (
	"context"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

func (s *Site) coveragePDF(v *visit) error {
	return s.coverageFile(v, s.opt.Papers.Coverage, "application/pdf")
}

func (s *Site) coverageCSV(v *visit) error {
	return s.coverageFile(v, s.opt.Papers.CoverageCSV, "text/csv; charset=utf-8")
}

func (s *Site) coverageXLSX(v *visit) error {
	return s.coverageFile(v, s.opt.Papers.CoverageXLSX, "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet")
}

// coverageFile is what the page shows, as a file.
func (s *Site) coverageFile(v *visit, draw func(context.Context, assessment.Actor, office.CoverageQuery) ([]byte, string, error), kind string) error {
	q, bad := coverageQuery(v)
	if bad != nil {
		return bad
	}
	body, name, err := draw(v.ctx(), v.by(), q)
	if err != nil {
		return err
	}
	return file(v.c, body, name, kind)
}
