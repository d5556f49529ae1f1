package main

import (
	"context"
	"errors"
	"fmt"
	"io"

	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
	"wellshown/cmd/wellshown/demo"
	"wellshown/migrations"
)

// clearUnfinished throws a demo away that was broken off while it was made: there
// is no going on where it stopped, and its records cannot be deleted one by one.
// Nothing else is thrown away with it.
func clearUnfinished(ctx context.Context, c config, out io.Writer) error {
	there, err := hasUnfinished(ctx, c)
	if err != nil || !there {
		return err
	}
	if c.DatabaseURL == "" {
		return errors.New(unfinishedSays + "Only the owner of the database can remove it: set DATABASE_URL to the owner's address and start this again")
	}
	fmt.Fprintln(out, "A demo was begun in this database and broken off. It is thrown away and begun anew.")
	err = migrations.Remake(ctx, c.DatabaseURL, demo.Unfinished)
	switch {
	case errors.Is(err, migrations.ErrInUse):
		return errors.New(unfinishedSays + "Somebody is connected to the database, perhaps to make the demo at this moment. Wait for that, or stop whatever is connected (another wellshown, psql), and start this again")
	case errors.Is(err, migrations.ErrOthers):
		return errors.New(unfinishedSays + "The database holds other agencies too, so nothing was thrown away. wellshown serve works for them as before; for the demo name an empty database in DATABASE_URL")
	case err != nil:
		return fmt.Errorf("%sIt could not be thrown away: %w. Drop the database and make it anew, then start this again", unfinishedSays, err)
	}
	if err := migrations.Up(ctx, c.DatabaseURL); err != nil {
		return fmt.Errorf("migrate: %w", err)
	}
	return nil
}

const unfinishedSays = "a demo was begun in this database and is not finished. "

func hasUnfinished(ctx context.Context, c config) (bool, error) {
	address, err := c.serviceURL(ctx)
	if err != nil {
		return false, err
	}
	pending, err := migrations.Pending(ctx, address)
	if err != nil || len(pending) > 0 {
		return false, err // whoever opens the office says what is pending
	}
	db, err := postgres.Open(ctx, address)
	if err != nil {
		return false, err
	}
	defer db.Close()
	_, err = db.AtDoor().Agency(ctx, demo.Unfinished)
	if fault.KindOf(err) == fault.NotFound {
		return false, nil
	}
	return err == nil, err
}
