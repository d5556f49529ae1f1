package migrations

import (
	"context"
	"errors"
	"net"
	"os"
	"syscall"

	"github.com/jackc/pgx/v5/pgconn"
)

// Unreached says what to do about an error that kept a connection from being made. It is empty for every other error.
// The codes are those of appendix A of PostgreSQL's documentation.
func Unreached(err error) string {
	var failed *pgconn.ConnectError
	if !errors.As(err, &failed) || errors.Is(err, context.Canceled) {
		return ""
	}
	var refused *pgconn.PgError
	var unknown *net.DNSError
	var late net.Error
	switch {
	case errors.As(err, &refused):
		return refusedSays(refused.Code)
	case errors.As(err, &unknown):
		return "there is no host of that name. Look at the host in the address, and whether this machine's network is up"
	case errors.Is(err, syscall.ECONNREFUSED) || errors.Is(err, os.ErrNotExist):
		return "nothing listens there. Start PostgreSQL, or look at the host and port in the address"
	case errors.As(err, &late) && late.Timeout() || errors.Is(err, context.DeadlineExceeded):
		return "it does not answer. Look at the host and port in the address, and whether a firewall lies between"
	}
	return "look at the address, and whether PostgreSQL runs there"
}

func refusedSays(code string) string {
	switch code {
	case "28P01", "28000": // invalid password, invalid authorization
		return "it refuses the name or the password. Look at both in the address; signs such as @ and / are written %40 and %2F in it"
	case "3D000": // no such database
		return "the server has no database of that name. Make it (createdb NAME, as the one who will own it), or name another in the address"
	case "53300": // too many connections
		return "it has no connection left. Stop what else is connected, or raise its max_connections"
	case "57P03": // cannot connect now
		return "it is starting or stopping. Try again in a moment"
	}
	return "it refuses. The reason stands below"
}
