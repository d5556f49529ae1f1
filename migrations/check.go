package migrations

import (
	"context"
	"errors"
	"fmt"
	"strings"

	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/pgconn"
)

// CheckService refuses a URL whose role row security would not bind: a superuser, one that may bypass row security,
// or one that owns the database or anything in it, itself or through a role that it is a member of. Owners may switch
// policies and triggers off, so a service that owns its tables has no protection from its own mistakes.
func CheckService(ctx context.Context, url string) error {
	var name string
	var mighty bool
	var owned []string
	err := withConnection(ctx, url, func(c *pgx.Conn) error {
		err := c.QueryRow(ctx, `select rolname, rolsuper or rolbypassrls from pg_roles where rolname = current_user`).Scan(&name, &mighty)
		if err != nil {
			return err
		}
		rows, err := c.Query(ctx, ownedByMe)
		if err != nil {
			return err
		}
		owned, err = pgx.CollectRows(rows, pgx.RowTo[string])
		return err
	})
	switch {
	case err != nil:
		return fmt.Errorf("check the service's role: %w", err)
	case mighty:
		return fmt.Errorf("the service must not run as %s: row security does not bind that role", name)
	case len(owned) > 0:
		return fmt.Errorf("the service must not run as %s: it owns, or may act for the owner of, %s", name, strings.Join(owned, ", "))
	}
	return nil
}

// ownedByMe names what the current role could change the rules of; five examples are enough to act on.
const ownedByMe = `
select what
from (
  select 1 as rank, 'the database ' || datname as what, datdba as owner
  from pg_database
  where datname = current_database()
  union all
  select 2, 'the schema ' || nspname, nspowner
  from pg_namespace
  where nspname !~ '^pg_' and nspname <> 'information_schema'
  union all
  select 3, 'the table ' || c.oid::regclass::text, c.relowner
  from pg_class c
  join pg_namespace n on n.oid = c.relnamespace
  where c.relkind in ('r', 'p', 'v', 'm', 'f') and n.nspname !~ '^pg_' and n.nspname <> 'information_schema'
  union all
  select 4, 'the function ' || p.oid::regprocedure::text, p.proowner
  from pg_proc p
  join pg_namespace n on n.oid = p.pronamespace
  where n.nspname !~ '^pg_' and n.nspname <> 'information_schema'
) as things
where pg_has_role(current_user, owner, 'member')
order by rank, what
limit 5`

// EnsureDatabase makes the database that a URL names if the server has none of that name. The role in the URL must be
// allowed to create databases; it will own it.
func EnsureDatabase(ctx context.Context, ownerURL string) error {
	config, err := parse(ownerURL)
	if err != nil {
		return err
	}
	name := config.Database
	err = withConnection(ctx, ownerURL, func(*pgx.Conn) error { return nil })
	var refused *pgconn.PgError
	if !errors.As(err, &refused) || refused.Code != "3D000" { // no such database
		if err != nil {
			return fmt.Errorf("open the database %s: %w", name, err)
		}
		return nil
	}
	config.Database = "postgres"
	conn, err := pgx.ConnectConfig(ctx, config)
	if err != nil {
		return fmt.Errorf("make the database %s: %w", name, err)
	}
	defer conn.Close(context.WithoutCancel(ctx))
	_, err = conn.Exec(ctx, `create database `+pgx.Identifier{name}.Sanitize())
	if errors.As(err, &refused) && (refused.Code == "42P04" || refused.Code == "23505") { // another program was quicker
		return nil
	}
	if err != nil {
		return fmt.Errorf("make the database %s: %w", name, err)
	}
	return nil
}
