package localpg

import (
	"context"
	"errors"
	"fmt"
	"net/url"
	"strings"

	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/pgconn"
)

// superuser is PostgreSQL's role that may do everything, and the database that
// always exists.
const superuser = "postgres"

// DSN is the address of a database for a role, as a URL that pgx, goose and
// psql all read. The role postgres always exists and is the superuser; none
// needs a password here.
func (s *Server) DSN(user, database string) string {
	query := url.Values{
		"host":    {s.socket.folder},
		"port":    {port},
		"sslmode": {"disable"},
	}.Encode()
	address := url.URL{
		Scheme:   "postgres",
		User:     url.User(user),
		Path:     "/" + database,
		RawQuery: strings.ReplaceAll(query, "+", "%20"), // to PostgreSQL a plus is a plus
	}
	return address.String()
}

// EnsureDatabase makes an empty database unless there is one of that name,
// and leaves one that exists alone.
func (s *Server) EnsureDatabase(ctx context.Context, name string) error {
	connection, err := pgx.Connect(ctx, s.DSN(superuser, superuser))
	if err != nil {
		return fmt.Errorf("make the database %s: %w", name, err)
	}
	defer connection.Close(ctx)
	_, err = connection.Exec(ctx, "create database "+pgx.Identifier{name}.Sanitize())
	var refused *pgconn.PgError
	if errors.As(err, &refused) && (refused.Code == duplicateDatabase || refused.Code == uniqueViolation) {
		return nil
	}
	if err != nil {
		return fmt.Errorf("make the database %s: %w", name, err)
	}
	return nil
}

// PostgreSQL's error codes (manual, appendix A). Which of the two it is
// depends on whether another maker of the same database was just before us or
// is still at it.
const (
	duplicateDatabase = "42P04"
	uniqueViolation   = "23505"
)
