package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"net/url"
	"runtime/debug"
	"time"

	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/assessment/postgres"
	"wellshown/cmd/wellshown/demo"
	"wellshown/migrations"
	"wellshown/reports"
)

// demoSeed makes the demo the same every time, but for its days.
const demoSeed = 1

func runDemo(ctx context.Context, _ []string, out io.Writer) error {
	c, err := fromEnvironment()
	if err != nil {
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
	if err := ledgerReady(ctx, c, o); err != nil {
		return err
	}
	made, err := makeDemo(ctx, c, o, db, out)
	if err != nil {
		return err
	}
	fmt.Fprintln(out, made)
	return nil
}

// makeDemo makes the demo where there is none, does the main job once in it and
// keeps the sign-ins: they exist nowhere else.
func makeDemo(ctx context.Context, c config, o *office.Office, db *postgres.DB, out io.Writer) (string, error) {
	if _, err := db.AtDoor().Agency(ctx, demo.Code); fault.KindOf(err) != fault.NotFound {
		return "The demo agency is there already. " + whereSignIns(), err
	}
	defer debug.SetGCPercent(debug.SetGCPercent(400)) // much garbage, little kept
	fmt.Fprintln(out, "Making the demo agency: two years of demonstrations, through the office …")
	if err := mayLeave(); err != nil {
		fmt.Fprintf(out, "No file can be left here (%v): the demo's sign-ins will be shown here at the end.\n", err)
	}
	started := time.Now()
	quick, err := openQuick(ctx, c)
	if err != nil {
		return "", err
	}
	defer quick.Close()
	var done office.DemonstrationView
	opts := demoOptions(c)
	opts.Finish = func(ctx context.Context, made demo.Result) error {
		if done, err = demo.MainJob(ctx, o, made, demoSeed); err != nil {
			return fmt.Errorf("do the main job once: %w", err)
		}
		return leaveSignIns(made.SignIns, out)
	}
	made, err := demo.Make(ctx, quick, opts)
	if err != nil {
		return "", err
	}
	return fmt.Sprintf("The demo is made: %d caregivers, %d children, %d demonstrations (%s). %s has just shown %s: %s.",
		made.Counts.Caregivers, made.Counts.Children, made.Counts.Demonstrations, time.Since(started).Round(time.Second),
		done.Learner, done.Title, done.Outcome), nil
}

func demoOptions(c config) demo.Options {
	opts := demo.Options{Now: time.Now(), Seed: demoSeed, Certificate: reports.Certificate, BaseURL: c.BaseURL, Ledger: c.Ledger}
	if c.DatabaseURL != "" { // only the owner may
		opts.Doubled = func(ctx context.Context) error { return migrations.Analyze(ctx, c.DatabaseURL) }
	}
	return opts
}

// openQuick connects without waiting for the disk at each commit. If the machine
// stops while the demo is made, what is left of it is known by its code, thrown
// away and made again (clearUnfinished); what was committed last may be missing
// then, but never something that a kept commit builds on.
func openQuick(ctx context.Context, c config) (*postgres.DB, error) {
	address, err := c.serviceURL(ctx)
	if err != nil {
		return nil, err
	}
	u, err := url.Parse(address)
	if err != nil {
		return nil, errors.New("read the address of the database")
	}
	q := u.Query()
	q.Set("synchronous_commit", "off")
	u.RawQuery = q.Encode()
	return postgres.Open(ctx, u.String())
}
