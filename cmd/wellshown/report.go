package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/office"
	"wellshown/reports"
)

const reportUsage = `wellshown report KIND --agency CODE --out FILE [more]

  overdue      --on YYYY-MM-DD --within DAYS --by caregiver|skill --format pdf|csv
  readiness    --child CODE --on YYYY-MM-DD
  transcript   --person NAME-OR-E-MAIL --on YYYY-MM-DD
  certificate  --code CHECK-CODE

A day that is left out is today in the agency's zone. FILE - is standard output.
`

// reportFlags are what the kinds of report ask for.
type reportFlags struct {
	agency, out, on, by, format, child, person, code string
	within                                           int
}

func runReport(ctx context.Context, args []string, out io.Writer) error {
	if len(args) == 0 || args[0] == "-h" || args[0] == "--help" {
		fmt.Fprint(out, reportUsage)
		return nil
	}
	f, err := readReportFlags(args[1:])
	if err != nil {
		return err
	}
	on, err := f.day()
	if err != nil {
		return usageError(err.Error())
	}
	return withOffice(ctx, func(_ config, o *office.Office) error {
		by, err := o.Desk(ctx, f.agency)
		if err != nil {
			return fmt.Errorf("agency %q: %w", f.agency, err)
		}
		body, err := f.draw(ctx, args[0], reports.New(o), o, by, on)
		if err != nil {
			return err
		}
		return f.write(body, out)
	})
}

func readReportFlags(args []string) (reportFlags, error) {
	var f reportFlags
	set := flag.NewFlagSet("report", flag.ContinueOnError)
	set.SetOutput(io.Discard)
	set.StringVar(&f.agency, "agency", "", "")
	set.StringVar(&f.out, "out", "", "")
	set.StringVar(&f.on, "on", "", "")
	set.StringVar(&f.by, "by", "caregiver", "")
	set.StringVar(&f.format, "format", "pdf", "")
	set.StringVar(&f.child, "child", "", "")
	set.StringVar(&f.person, "person", "", "")
	set.StringVar(&f.code, "code", "", "")
	set.IntVar(&f.within, "within", 90, "")
	if err := set.Parse(args); err != nil {
		return f, usageError(fmt.Sprintf("%v\n\n%s", err, reportUsage))
	}
	var faults []error
	if f.agency == "" {
		faults = append(faults, errors.New("--agency is missing: give the agency's code"))
	}
	if f.out == "" {
		faults = append(faults, errors.New("--out is missing: give a file, or - for standard output"))
	}
	if f.format != "pdf" && f.format != "csv" {
		faults = append(faults, fmt.Errorf("--format is %q: it is pdf or csv", f.format))
	}
	if f.by != "caregiver" && f.by != "skill" {
		faults = append(faults, fmt.Errorf("--by is %q: it is caregiver or skill", f.by))
	}
	if f.within < 1 || f.within > 3660 {
		faults = append(faults, fmt.Errorf("--within is %d: it is a number of days from 1 to 3660", f.within))
	}
	if set.NArg() > 0 {
		faults = append(faults, fmt.Errorf("%q is no option", set.Arg(0)))
	}
	if err := errors.Join(faults...); err != nil {
		return f, usageError(fmt.Sprintf("%v\n\n%s", err, reportUsage))
	}
	return f, nil
}

func (f reportFlags) day() (civil.Date, error) {
	if f.on == "" {
		return civil.Date{}, nil
	}
	on, err := civil.Parse(f.on)
	if err != nil {
		return on, fmt.Errorf("--on: %w", err)
	}
	return on, nil
}

func (f reportFlags) draw(ctx context.Context, kind string, r *reports.Reports, o *office.Office, by assessment.Actor, on civil.Date) ([]byte, error) {
	var body []byte
	var err error
	switch kind {
	case "overdue":
		q := office.OverdueQuery{On: on, Within: f.within, BySkill: f.by == "skill"}
		if f.format == "csv" {
			body, _, err = r.OverdueCSV(ctx, by, q)
		} else {
			body, _, err = r.Overdue(ctx, by, q)
		}
	case "readiness":
		body, err = f.readiness(ctx, r, o, by, on)
	case "transcript":
		body, err = f.transcript(ctx, r, o, by, on)
	case "certificate":
		id, cerr := o.CertificateByCode(ctx, by, f.code)
		if cerr != nil {
			return nil, fmt.Errorf("certificate %q: %w", f.code, cerr)
		}
		body, _, err = r.CertificatePDF(ctx, by, id)
	default:
		return nil, usageError(fmt.Sprintf("there is no report %q\n\n%s", kind, reportUsage))
	}
	return body, err
}

func (f reportFlags) readiness(ctx context.Context, r *reports.Reports, o *office.Office, by assessment.Actor, on civil.Date) ([]byte, error) {
	client, err := o.ClientByCode(ctx, by, f.child)
	if err != nil {
		return nil, fmt.Errorf("child %q: %w", f.child, err)
	}
	var at time.Time
	if !on.IsZero() {
		if at, err = o.EndOfDay(ctx, by, on); err != nil {
			return nil, err
		}
	}
	body, _, err := r.Readiness(ctx, by, client, at)
	return body, err
}

func (f reportFlags) transcript(ctx context.Context, r *reports.Reports, o *office.Office, by assessment.Actor, on civil.Date) ([]byte, error) {
	person, err := o.PersonNamed(ctx, by, f.person)
	if err != nil {
		return nil, fmt.Errorf("person %q: %w", f.person, err)
	}
	body, _, err := r.Transcript(ctx, by, person, on)
	return body, err
}

func (f reportFlags) write(body []byte, out io.Writer) error {
	if f.out == "-" {
		_, err := out.Write(body)
		return err
	}
	if err := os.WriteFile(f.out, body, 0o644); err != nil {
		return fmt.Errorf("write the report: %w", err)
	}
	fmt.Fprintf(out, "%s: %d bytes\n", f.out, len(body))
	return nil
}
