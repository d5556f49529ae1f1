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
		return fmt.Errorf("migrate: %w", err)
	}
	fmt.Fprintln(out, "The database is up to date.")
	return nil
}

// serviceURL is the address under which the service connects: as a role that
// owns nothing and cannot step around row security.
func (c config) serviceURL(ctx context.Context) (string, error) {
	address := c.ServiceURL
	if address == "" {
		var err error
		if address, err = migrations.EnsureService(ctx, c.DatabaseURL); err != nil {
			return "", fmt.Errorf("make the service's role: %w", err)
		}
	}
	if err := migrations.CheckService(ctx, address); err != nil {
		return "", fmt.Errorf("check the service's role: %w", err)
	}
	return address, nil
}
