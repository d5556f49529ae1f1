package main

import (
	"context"
	"fmt"
	"io"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/assessment/postgres"
	"wellshown/assessment/wording"
	"wellshown/cmd/wellshown/demo"
	"wellshown/reports"
)

// runUp is what `make run` runs: everything from an empty database to a page. That
// the port is free shows before the demo is made, not after.
func runUp(ctx context.Context, _ []string, out io.Writer) error {
	c, err := fromEnvironment()
	if err != nil {
		return err
	}
	listener, err := c.listen()
	if err != nil {
		return err
	}
	defer listener.Close()
	if err := runMigrate(ctx, nil, out); err != nil {
		return err
	}
	if err := clearUnfinished(ctx, c, out); err != nil {
		return err
	}
	o, db, err := openOffice(ctx, c)
	if err != nil {
		return err
	}
	defer db.Close()
	made, err := demoInEmpty(ctx, c, o, db, out)
	if err != nil {
		return err
	}
	if err := leavePapers(ctx, c, o, made, out); err != nil {
		return err
	}
	return serve(ctx, c, o, listener, out)
}

// demoInEmpty makes the demo only where no agency is, and tells whether it did.
func demoInEmpty(ctx context.Context, c config, o *office.Office, db *postgres.DB, out io.Writer) (bool, error) {
	agencies, err := db.AtDoor().Agencies(ctx)
	if err != nil {
		return false, fmt.Errorf("look whether the database is empty: %w", err)
	}
	if len(agencies) > 0 {
		return false, nil
	}
	says, err := makeDemo(ctx, c, o, db, out)
	if err != nil {
		return false, err
	}
	fmt.Fprintln(out, says)
	return true, nil
}

// leavePapers draws the three papers of the demo agency as it stands today. A
// database without the demo has none to leave. Where the sign-ins are was said if
// the demo was made just now.
func leavePapers(ctx context.Context, c config, o *office.Office, made bool, out io.Writer) error {
	by, err := o.Desk(ctx, demo.Code)
	if fault.KindOf(err) == fault.NotFound {
		return nil
	}
	if err != nil {
		return err
	}
	if !made {
		fmt.Fprintln(out, whereSignIns())
	}
	fmt.Fprintf(out, "Sign in at %s/sign-in; the API describes itself at %s/api/v1/openapi.json. Commands name the demo's agency %s.\n", c.BaseURL, c.BaseURL, demo.Code)
	if err := mayLeave(); err != nil {
		fmt.Fprintf(out, "No file can be left here (%v), so no papers are drawn.\n", err)
		return nil
	}
	papers := reports.New(o)
	for name, draw := range map[string]func() ([]byte, error){
		"certificate.pdf": func() ([]byte, error) { return newestCertificate(ctx, o, papers, by) },
		"overdue.pdf": func() ([]byte, error) {
			body, _, err := papers.Overdue(ctx, by, office.OverdueQuery{})
			return body, err
		},
		"readiness.pdf": func() ([]byte, error) {
			child, err := o.ClientByCode(ctx, by, demo.GoingHome)
			if err != nil {
				return nil, err
			}
			body, _, err := papers.Readiness(ctx, by, child, time.Time{}, wording.English)
			return body, err
		},
	} {
		body, err := draw()
		if err != nil {
			return fmt.Errorf("draw %s: %w", name, err)
		}
		if err := leave(name, body, 0o644); err != nil {
			return err
		}
	}
	fmt.Fprintf(out, "Papers are in %s: certificate.pdf, overdue.pdf, readiness.pdf.\n", papersFolder)
	return nil
}

func newestCertificate(ctx context.Context, o *office.Office, papers *reports.Reports, by assessment.Actor) ([]byte, error) {
	issued, err := o.Certificates(ctx, by, "", "", 1)
	if err != nil {
		return nil, err
	}
	if len(issued.Items) == 0 {
		return nil, fault.Of(fault.NotFound, "No certificate was issued yet.")
	}
	body, _, err := papers.CertificatePDF(ctx, by, issued.Items[0].ID)
	return body, err
}
