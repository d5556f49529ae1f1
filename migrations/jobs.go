package migrations

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"log/slog"

	"github.com/jackc/pgx/v5/pgxpool"
	"github.com/pressly/goose/v3"
	"github.com/riverqueue/river/riverdriver/riverpgxv5"
	"github.com/riverqueue/river/rivermigrate"
)

// What the queue of jobs needs is made by the queue's own migrator, in a schema of
// its own, as one of our migrations. A newer queue that needs more is another one,
// with its own number and a higher version.
const (
	JobsSchema  = "river"
	jobsNumber  = 28
	jobsVersion = 8
)

// jobsRights are just what workers and whoever adds a job need: the queue's tables
// without the one that says which of its migrations it has had.
const jobsRights = `
grant usage on schema ` + JobsSchema + ` to ` + ServiceRole + `;
grant select, insert, update, delete on ` + JobsSchema + `.river_job, ` + JobsSchema + `.river_leader, ` + JobsSchema + `.river_queue, ` + JobsSchema + `.river_notification to ` + ServiceRole + `;
grant usage on all sequences in schema ` + JobsSchema + ` to ` + ServiceRole + `;`

// jobs is the migration that makes the queue's tables. The queue's migrator has a
// transaction for each of its own, so that this one is not in one; broken off, it
// goes on where it was.
func jobs(ownerURL string) *goose.Migration {
	up := func(ctx context.Context, db *sql.DB) error {
		if _, err := db.ExecContext(ctx, `create schema if not exists `+JobsSchema); err != nil {
			return fmt.Errorf("make the schema of jobs: %w", err)
		}
		if err := migrateJobs(ctx, ownerURL, rivermigrate.DirectionUp, jobsVersion); err != nil {
			return err
		}
		_, err := db.ExecContext(ctx, jobsRights)
		return err
	}
	down := func(ctx context.Context, db *sql.DB) error {
		if err := migrateJobs(ctx, ownerURL, rivermigrate.DirectionDown, -1); err != nil {
			return err
		}
		_, err := db.ExecContext(ctx, `drop schema `+JobsSchema)
		return err
	}
	return goose.NewGoMigration(jobsNumber, &goose.GoFunc{RunDB: up}, &goose.GoFunc{RunDB: down})
}

func migrateJobs(ctx context.Context, ownerURL string, direction rivermigrate.Direction, through int) error {
	config, err := pgxpool.ParseConfig(ownerURL)
	if err != nil {
		return errors.New("read the database URL")
	}
	config.MaxConns = 1
	config.ConnConfig.RuntimeParams["search_path"] = searchPath
	pool, err := pgxpool.NewWithConfig(ctx, config)
	if err != nil {
		return fmt.Errorf("connect for the tables of jobs: %w", err)
	}
	defer pool.Close()
	migrator, err := rivermigrate.New(riverpgxv5.New(pool), &rivermigrate.Config{Schema: JobsSchema, Logger: slog.New(slog.DiscardHandler)})
	if err != nil {
		return fmt.Errorf("read the queue's migrations: %w", err)
	}
	if _, err := migrator.Migrate(ctx, direction, &rivermigrate.MigrateOpts{TargetVersion: through}); err != nil {
		return fmt.Errorf("make or undo the tables of jobs: %w", err)
	}
	return nil
}

// jobsText is what the queue's migrations say, so that a database made by others is
// told from one of this program.
func jobsText() string {
	migrator, err := rivermigrate.New(riverpgxv5.New(nil), &rivermigrate.Config{Schema: JobsSchema, Logger: slog.New(slog.DiscardHandler)})
	if err != nil {
		panic(err) // embedded in the library, so it is there
	}
	text := jobsRights
	for _, m := range migrator.AllVersions() {
		if m.Version <= jobsVersion {
			text += m.SQLUp
		}
	}
	return text
}
