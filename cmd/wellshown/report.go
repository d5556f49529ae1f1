package main

import (
	"context"
	"fmt"
	"io"
	"os"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/assessment/wording"
	"wellshown/cmd/wellshown/demo"
	"wellshown/reports"
)

func runReport(ctx context.Context, args []string, out io.Writer) error {
	if len(args) == 0 {
		return usageError("which report?\n\n" + reportUsage)
	}
	if asksHow(args[0]) || len(args) == 2 && asksHow(args[1]) {
		_, err := fmt.Fprint(out, reportUsage)
		return err
	}
	f, err := readReportFlags(args[0], args[1:])
	if err != nil {
		return usageError(fmt.Sprintf("%v\n\n%s", err, reportUsage))
	}
	return withLedger(ctx, func(_ config, o *office.Office) error {
		by, err := o.Desk(ctx, f.agency)
		if fault.KindOf(err) == fault.NotFound {
			return fmt.Errorf("there is no agency with the code %q: give the one that it was founded with (the demo's is %s)", f.agency, demo.Code)
		}
		if err != nil {
			return fmt.Errorf("agency %q: %w", f.agency, err)
		}
		body, err := f.draw(ctx, args[0], reports.New(o), o, by)
		if err != nil {
			return err
		}
		return f.write(body, out)
	})
}

func (f reportFlags) draw(ctx context.Context, kind string, r *reports.Reports, o *office.Office, by assessment.Actor) ([]byte, error) {
	var body []byte
	var err error
	switch kind {
	case "overdue":
		q := office.OverdueQuery{On: f.on, Within: f.within, BySkill: f.by == "skill"}
		as := map[string]func(context.Context, assessment.Actor, office.OverdueQuery) ([]byte, string, error){"pdf": r.Overdue, "csv": r.OverdueCSV, "xlsx": r.OverdueXLSX}
		body, _, err = as[f.format](ctx, by, q)
	case "coverage":
		body, err = f.coverage(ctx, r, o, by)
	case "visits":
		body, _, err = r.Visits(ctx, by, office.VisitQuery{Weeks: f.weeks})
	case "readiness":
		body, err = f.readiness(ctx, r, o, by)
	case "transcript":
		body, err = f.transcript(ctx, r, o, by)
	case "certificate":
		id, cerr := o.CertificateByCode(ctx, by, f.code)
		if cerr != nil {
			return nil, fmt.Errorf("certificate %q: %w", f.code, cerr)
		}
		body, _, err = r.CertificatePDF(ctx, by, id)
	case "packet":
		body, err = f.packet(ctx, r, o, by)
	}
	return body, err
}

func (f reportFlags) coverage(ctx context.Context, r *reports.Reports, o *office.Office, by assessment.Actor) ([]byte, error) {
	var q office.CoverageQuery
	for name, day := range map[string]struct {
		text string
		into *civil.Date
	}{"from": {f.from, &q.From}, "through": {f.through, &q.Through}} {
		if day.text == "" {
			continue
		}
		var err error
		if *day.into, err = civil.Parse(day.text); err != nil {
			return nil, fmt.Errorf("--%s: %w", name, err)
		}
	}
	if f.child != "" {
		var err error
		if q.Client, err = o.ClientByCode(ctx, by, f.child); err != nil {
			return nil, fmt.Errorf("child %q: %w", f.child, err)
		}
	}
	as := map[string]func(context.Context, assessment.Actor, office.CoverageQuery) ([]byte, string, error){"pdf": r.Coverage, "csv": r.CoverageCSV, "xlsx": r.CoverageXLSX}
	body, _, err := as[f.format](ctx, by, q)
	return body, err
}

func (f reportFlags) readiness(ctx context.Context, r *reports.Reports, o *office.Office, by assessment.Actor) ([]byte, error) {
	client, err := o.ClientByCode(ctx, by, f.child)
	if err != nil {
		return nil, fmt.Errorf("child %q: %w", f.child, err)
	}
	var at time.Time
	if !f.on.IsZero() {
		if at, err = o.EndOfDay(ctx, by, f.on); err != nil {
			return nil, err
		}
	}
	body, _, err := r.Readiness(ctx, by, client, at, wording.Of(f.language))
	return body, err
}

func (f reportFlags) transcript(ctx context.Context, r *reports.Reports, o *office.Office, by assessment.Actor) ([]byte, error) {
	person, err := o.PersonNamed(ctx, by, f.person)
	if err != nil {
		return nil, fmt.Errorf("person %q: %w", f.person, err)
	}
	body, _, err := r.Transcript(ctx, by, person, f.on, wording.Of(f.language))
	return body, err
}

// packet is about an incident where a person and a skill are given, else about a person, a
// child, or a period of the whole agency.
func (f reportFlags) packet(ctx context.Context, r *reports.Reports, o *office.Office, by assessment.Actor) ([]byte, error) {
	form := office.PacketForm{Kind: string(office.PacketOfPeriod), Skill: f.skill, From: f.from, Through: f.through}
	if !f.on.IsZero() {
		form.On = f.on.String()
	}
	var err error
	if f.child != "" {
		form.Kind = string(office.PacketOfClient)
		if form.Client, err = o.ClientByCode(ctx, by, f.child); err != nil {
			return nil, fmt.Errorf("child %q: %w", f.child, err)
		}
	}
	if f.person != "" {
		form.Kind = string(office.PacketOfPerson)
		if form.Person, err = o.PersonNamed(ctx, by, f.person); err != nil {
			return nil, fmt.Errorf("person %q: %w", f.person, err)
		}
		if f.skill != "" {
			form.Kind = string(office.PacketOfIncident)
		}
	}
	body, _, err := r.Packet(ctx, by, form, f.format)
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
