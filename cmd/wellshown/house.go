package main

import (
	"context"
	"errors"
	"fmt"
	"io"

	"wellshown/assessment/office"
	"wellshown/assessment/postgres"
	"wellshown/migrations"
	"wellshown/reports"
)

// openOffice connects as the service and opens the office. It refuses a database
// whose schema is not the one this program was built for.
func openOffice(ctx context.Context, c config) (*office.Office, *postgres.DB, error) {
	address, err := c.serviceURL(ctx)
	if err != nil {
		return nil, nil, err
	}
	pending, err := migrations.Pending(ctx, address)
	if err != nil {
		return nil, nil, fmt.Errorf("look for pending migrations: %w", err)
	}
	if len(pending) > 0 {
		return nil, nil, fmt.Errorf("the database lacks %d migrations: run wellshown migrate first", len(pending))
	}
	db, err := postgres.Open(ctx, address)
	if err != nil {
		return nil, nil, err
	}
	if err := reports.Prepare(); err != nil {
		return nil, nil, fmt.Errorf("prepare the fonts: %w", err)
	}
	return office.New(db, office.Options{Certificate: reports.Certificate, Packet: reports.NewPacket, BaseURL: c.BaseURL, Secrets: c.Secrets, Ledger: c.Ledger, Mail: c.mail()}), db, nil
}

// withOffice runs a command over an open office.
func withOffice(ctx context.Context, do func(config, *office.Office) error) error {
	c, err := fromEnvironment()
	if err != nil {
		return err
	}
	o, db, err := openOffice(ctx, c)
	if err != nil {
		return err
	}
	defer db.Close()
	return do(c, o)
}

// withLedger is withOffice for commands that write into the ledger.
func withLedger(ctx context.Context, do func(config, *office.Office) error) error {
	return withOffice(ctx, func(c config, o *office.Office) error {
		if err := ledgerReady(ctx, c, o); err != nil {
			return err
		}
		return do(c, o)
	})
}

func runRebuild(ctx context.Context, _ []string, out io.Writer) error {
	return withOffice(ctx, func(_ config, o *office.Office) error {
		found, err := o.Rebuild(ctx)
		if err != nil {
			return err
		}
		fmt.Fprintf(out, "Looked at %d cases (agencies: %d); %d were wrong in the index and are right now.\n", found.Cases, found.Agencies, len(found.Wrong))
		for _, key := range found.Wrong {
			fmt.Fprintf(out, "person %s, skill %s, child %s\n", key.Person, key.Skill, key.Client)
		}
		if len(found.Wrong) > 0 {
			return errors.New("the index was wrong: find out why before trusting what was shown")
		}
		return nil
	})
}
