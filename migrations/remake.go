package migrations

import (
	"context"
	"crypto/rand"
	"errors"
	"fmt"
	"slices"
	"strings"

	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/pgconn"
)

// ErrInUse says that somebody else is connected to a database that was to be dropped.
var ErrInUse = errors.New("the database is in use")

// ErrOthers says that a database that was to be dropped holds other agencies than the one named.
var ErrOthers = errors.New("the database holds other agencies")

// Remake drops a database whose only agency has the code `only`, and makes it anew without a table in it. It drops
// nothing that holds anything else (ErrOthers) and nothing that anybody is connected to (ErrInUse). So that nobody comes
// in between looking and dropping, it looks under a passing name, which nobody else knows. The role in the URL must own
// the database and be allowed to create databases.
func Remake(ctx context.Context, ownerURL, only string) error {
	config, err := parse(ownerURL)
	if err != nil {
		return err
	}
	name, server := config.Database, config.Copy()
	server.Database = "postgres"
	conn, err := pgx.ConnectConfig(ctx, server)
	if err != nil {
		return fmt.Errorf("remake the database %s: %w", name, err)
	}
	defer conn.Close(context.WithoutCancel(ctx))
	if err := remake(context.WithoutCancel(ctx), conn, config, only); err != nil { // half of it would be worse than either
		return fmt.Errorf("remake the database %s: %w", name, err)
	}
	return nil
}

func remake(ctx context.Context, server *pgx.Conn, config *pgx.ConnConfig, only string) error {
	renamed := config.Copy()
	renamed.Database = "wellshown_remade_" + strings.ToLower(rand.Text())
	name, passing := quoted(config.Database), quoted(renamed.Database)
	if _, err := server.Exec(ctx, `alter database `+name+` rename to `+passing); err != nil {
		var refused *pgconn.PgError
		if errors.As(err, &refused) && refused.Code == "55006" { // object in use
			return ErrInUse
		}
		return err
	}
	if err := holdsOnly(ctx, renamed, only); err != nil {
		_, back := server.Exec(ctx, `alter database `+passing+` rename to `+name)
		return errors.Join(err, back)
	}
	for _, sql := range []string{`drop database ` + passing, `create database ` + name} {
		if _, err := server.Exec(ctx, sql); err != nil {
			return err
		}
	}
	return nil
}

func holdsOnly(ctx context.Context, config *pgx.ConnConfig, only string) error {
	conn, err := pgx.ConnectConfig(ctx, config)
	if err != nil {
		return err
	}
	defer conn.Close(ctx)
	rows, err := conn.Query(ctx, `select agency_code from door_agencies()`)
	if err != nil {
		return err
	}
	codes, err := pgx.CollectRows(rows, pgx.RowTo[string])
	if err != nil {
		return err
	}
	if !slices.Equal(codes, []string{only}) {
		return ErrOthers
	}
	return nil
}

func quoted(name string) string { return pgx.Identifier{name}.Sanitize() }
