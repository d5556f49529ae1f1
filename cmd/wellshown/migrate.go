package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"

	"wellshown/migrations"
)

func runMigrate(ctx context.Context, _ []string, out io.Writer) error {
	c, err := readDatabases(os.Getenv)
	if err != nil {
		return err
	}
	if c.DatabaseURL == "" {
		return errors.New("migrate needs DATABASE_URL: the service's own role may not change tables")
	}
	if err := migrations.Up(ctx, c.DatabaseURL); err != nil {
		return reached("DATABASE_URL", fmt.Errorf("migrate: %w", err))
	}
	if c.ServiceURL != "" {
		if err := migrations.LetServiceIn(ctx, c.DatabaseURL, c.ServiceURL); err != nil {
			return reached("SERVICE_DATABASE_URL", fmt.Errorf("let the service in: %w", err))
		}
	}
	fmt.Fprintln(out, "The database is up to date.")
	return nil
}

// serviceURL is the address under which the service connects: as a role that
// owns nothing and cannot step around row security.
func (c config) serviceURL(ctx context.Context) (string, error) {
	address, named := c.ServiceURL, "SERVICE_DATABASE_URL"
	if address == "" {
		var err error
		named = "DATABASE_URL"
		if address, err = migrations.EnsureService(ctx, c.DatabaseURL); err != nil {
			return "", reached(named, fmt.Errorf("make the service's role: %w", err))
		}
	}
	if err := migrations.CheckService(ctx, address); err != nil {
		return "", reached(named, fmt.Errorf("check the service's role: %w", err))
	}
	return address, nil
}

// reached puts what to do before an error that says that the database cannot be
// reached; the address itself is not shown, for it holds a password.
func reached(named string, err error) error {
	if says := migrations.Unreached(err); says != "" {
		return fmt.Errorf("cannot reach the database of %s: %s.\n%w", named, says, err)
	}
	return err
}
