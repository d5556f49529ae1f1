package postgres

import (
	"context"

	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/pgxpool"
)

// Option changes how a database is opened.
type Option func(*pgxpool.Config)

// Watched has sent called with the text of each statement, or "batch" for several
// at once, when it is sent; from many goroutines at a time. It never sees values.
func Watched(sent func(sql string)) Option {
	return func(c *pgxpool.Config) { c.ConnConfig.Tracer = watcher(sent) }
}

// watcher is told by pgx of each statement.
type watcher func(sql string)

func (w watcher) TraceQueryStart(ctx context.Context, _ *pgx.Conn, q pgx.TraceQueryStartData) context.Context {
	w(q.SQL)
	return ctx
}

func (w watcher) TraceQueryEnd(context.Context, *pgx.Conn, pgx.TraceQueryEndData) {}

func (w watcher) TraceBatchStart(ctx context.Context, _ *pgx.Conn, _ pgx.TraceBatchStartData) context.Context {
	w("batch")
	return ctx
}

func (w watcher) TraceBatchQuery(context.Context, *pgx.Conn, pgx.TraceBatchQueryData) {}

func (w watcher) TraceBatchEnd(context.Context, *pgx.Conn, pgx.TraceBatchEndData) {}
