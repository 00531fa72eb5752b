package demo

import (
	"context"
	_ "embed"
	"fmt"

	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/pgxpool"

	"breakwright/internal/store"
)

// ground is the database as its owner, who can see all clubs and clear them,
// which no caller of the store can. While it is held no other demo is made in
// the same database.
type ground struct{ owner *pgx.Conn }

// groundLock is any number that nothing else in the database locks.
const groundLock int64 = 0x64656d6f // "demo"

func enter(ctx context.Context, ownerDSN string) (*ground, error) {
	owner, err := pgx.Connect(ctx, ownerDSN)
	if err != nil {
		return nil, fmt.Errorf("connect as the owner: %w", err)
	}
	g := &ground{owner}
	if _, err := owner.Exec(ctx, "select pg_advisory_lock($1)", groundLock); err != nil {
		g.leave()
		return nil, fmt.Errorf("wait for another demo: %w", err)
	}
	return g, nil
}

func (g *ground) leave() { _ = g.owner.Close(context.Background()) } // which unlocks

// clubs is what a database holds.
type clubs struct {
	filled bool // the demo's club, to the end
	others bool // any other
}

func (g *ground) look(ctx context.Context) (found clubs, err error) {
	err = g.owner.QueryRow(ctx,
		"select count(*) filter (where id = $1 and name <> $2) > 0, count(*) filter (where id <> $1) > 0 from club",
		clubID, unfinishedName).Scan(&found.filled, &found.others)
	if err != nil {
		return clubs{}, fmt.Errorf("look for clubs: %w", err)
	}
	return found, nil
}

// clear empties all tables: everything hangs on the club.
func (g *ground) clear(ctx context.Context) error {
	if _, err := g.owner.Exec(ctx, "truncate club, first_run cascade"); err != nil {
		return fmt.Errorf("clear the club: %w", err)
	}
	return nil
}

// backdating gives what was just written the times at which it would have
// been: the store takes them from the database's clock.
//
//go:embed backdate.sql
var backdating string

// backdate must only be called while the demo's club is the only one.
func (g *ground) backdate(ctx context.Context) error {
	if _, err := g.owner.Exec(ctx, backdating); err != nil {
		return fmt.Errorf("backdate the club: %w", err)
	}
	return nil
}

// openQuick opens the store such that a commit does not wait for the disk: a
// filling that a crash cuts short is made again anyway.
func openQuick(ctx context.Context, ownerDSN string) (*store.Store, error) {
	dsn, err := store.AppDSN(ownerDSN, "")
	if err != nil {
		return nil, err
	}
	return store.Open(ctx, dsn, func(c *pgxpool.Config) {
		c.ConnConfig.RuntimeParams["synchronous_commit"] = "off"
	})
}
