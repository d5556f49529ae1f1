package postgres

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"testing"

	"github.com/jackc/pgx/v5/pgconn"
	"github.com/jackc/pgx/v5/pgtype"
)

// A fault at the database is told without the values it is about, for it ends in the
// log. Class 22 is "Data Exception" (PostgreSQL, appendix A; the server's messages
// repeat the value); the driver's words are taken from the driver itself.
func TestFaultsOfTheDatabaseRepeatNoValue(t *testing.T) {
	const canary = "canarybird"
	_, unsendable := pgtype.NewMap().Encode(pgtype.Int8OID, pgtype.BinaryFormatCode, canary, nil)
	if unsendable == nil || !strings.Contains(unsendable.Error(), canary) {
		t.Fatalf("the driver says %v: this shows nothing", unsendable)
	}
	for want, err := range map[string]error{
		"database: keep a day: data that does not fit (SQLSTATE 22007)": fmt.Errorf("keep a day: %w",
			&pgconn.PgError{Severity: "ERROR", Code: "22007", Message: `invalid input syntax for type date: "` + canary + `"`, Detail: canary}),
		"database: failed to encode args[0]: an argument that cannot be sent": fmt.Errorf("failed to encode args[0]: %w", unsendable),
		"database: read: ERROR: permission denied for table person (SQLSTATE 42501)": fmt.Errorf("read: %w",
			&pgconn.PgError{Severity: "ERROR", Code: "42501", Message: "permission denied for table person", Detail: canary}),
	} {
		if got := refusal(err); got.Error() != want || !errors.Is(got, err) {
			t.Errorf("told as %q, want %q", got, want)
		}
	}
	if err := refusal(fmt.Errorf("read: %w", context.Canceled)); !errors.Is(err, context.Canceled) {
		t.Errorf("whoever went away is not known any more: %v", err)
	}
}
