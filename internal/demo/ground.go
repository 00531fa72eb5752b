package demo

import (
	"context"
	"fmt"

	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/pgxpool"

	"breakwright/internal/demo/internal/query"
	"breakwright/internal/store"
)

// ground is the database as its owner, who can see all clubs and clear them,
// which no caller of the store can. While it is held no other demo is made in
// the same database.
type ground struct {
	owner   *pgx.Conn
	queries *query.Queries
}

// groundLock is any number that nothing else in the database locks.
const groundLock int64 = 0x64656d6f // "demo"

func enter(ctx context.Context, ownerDSN string) (*ground, error) {
	owner, err := pgx.Connect(ctx, ownerDSN)
	if err != nil {
		return nil, fmt.Errorf("connect as the owner: %w", err)
	}
	g := &ground{owner, query.New(owner)}
	if err := g.queries.LockDemo(ctx, groundLock); err != nil {
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

func (g *ground) look(ctx context.Context) (clubs, error) {
	there, err := g.queries.LookForClubs(ctx, query.LookForClubsParams{Demo: clubID.UUID, Unfinished: unfinishedName})
	if err != nil {
		return clubs{}, fmt.Errorf("look for clubs: %w", err)
	}
	return clubs{filled: there.Filled, others: there.Others}, nil
}

func (g *ground) clear(ctx context.Context) error {
	if err := g.queries.ClearClubs(ctx); err != nil {
		return fmt.Errorf("clear the club: %w", err)
	}
	return nil
}

// backdate gives what was just written the times at which it would have been:
// the store takes them from the database's clock. It must only be called while
// the demo's club is the only one.
func (g *ground) backdate(ctx context.Context) error {
	err := pgx.BeginFunc(ctx, g.owner, func(tx pgx.Tx) error {
		q := g.queries.WithTx(tx)
		for _, one := range []func(context.Context) error{
			q.BackdateSets, q.BackdateBreaks, q.BackdateAdvice, q.BackdatePrescriptions, q.BackdateMessages,
			q.BackdateClub, q.BackdatePeople, q.BackdateClasses, q.BackdateMembers, q.BackdateAssignments,
		} {
			if err := one(ctx); err != nil {
				return err
			}
		}
		return nil
	})
	if err != nil {
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
