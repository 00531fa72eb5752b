package store

import (
	"context"
	"errors"
	"fmt"
	"strings"

	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/pgconn"
)

// ensureRole makes the app role, or gives it the password that AppDSN will
// use, unless it can sign in already: an owner who may not change roles can
// have an administrator make it beforehand.
func ensureRole(ctx context.Context, owner *pgx.Conn, ownerDSN, secret string) error {
	dsn, err := AppDSN(ownerDSN, secret)
	if err != nil {
		return err
	}
	if canSignIn(ctx, dsn) {
		return checkRole(ctx, owner)
	}
	if secret == "" {
		secret = owner.Config().Password
	}
	if err := writeRole(ctx, owner, appPassword(secret)); err != nil {
		return err
	}
	return checkRole(ctx, owner)
}

func canSignIn(ctx context.Context, dsn string) bool {
	app, err := pgx.Connect(ctx, dsn)
	if err != nil {
		return false
	}
	_ = app.Close(ctx)
	return true
}

const (
	codeDuplicateObject = "42710"
	codeInternal        = "XX000" // "tuple concurrently updated": another database's migration is at the role
)

func writeRole(ctx context.Context, owner *pgx.Conn, password string) error {
	secret := "null"
	if password != "" {
		secret = "'" + password + "'" // hexadecimal: nothing to escape
	}
	const attempts = 5
	var err error
	for range attempts {
		_, err = owner.Exec(ctx, "create role "+AppRole+" login nosuperuser nobypassrls nocreatedb nocreaterole noinherit password "+secret)
		if isCode(err, codeDuplicateObject, codeUnique) {
			_, err = owner.Exec(ctx, "alter role "+AppRole+" login password "+secret)
		}
		if !isCode(err, codeInternal) {
			break
		}
	}
	if isCode(err, codePrivilege) {
		return fmt.Errorf("%w: have an administrator run: create role %s login password '…' (the password in the address that AppDSN gives): %w",
			ErrRole, AppRole, err)
	}
	return err
}

func isCode(err error, codes ...string) bool {
	var answered *pgconn.PgError
	return errors.As(err, &answered) && strings.Contains(strings.Join(codes, " "), answered.Code)
}

// checkRole refuses to hand the club's data to a role that could read across
// the walls.
func checkRole(ctx context.Context, owner *pgx.Conn) error {
	var stepsOver bool
	err := owner.QueryRow(ctx, "select rolsuper or rolbypassrls from pg_roles where rolname = $1", AppRole).Scan(&stepsOver)
	if err != nil {
		return err
	}
	if stepsOver {
		return ErrOpenWalls
	}
	return nil
}
