package demo

import (
	"context"
	"fmt"

	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/pgxpool"

	"breakwright/internal/demo/internal/query"
	"breakwright/internal/store"
)

// ownerDatabase is the database as its owner, who can see all clubs and clear them,
// which no caller of the store can. While it is held no other demo is made in
// the same database.
type ownerDatabase struct {
	owner   *pgx.Conn
	queries *query.Queries
}

// demoLock is any number that nothing else in the database locks.
const demoLock int64 = 0x64656d6f // "demo"

func lockOwnerDatabase(ctx context.Context, ownerDSN string) (*ownerDatabase, error) {
	owner, err := pgx.Connect(ctx, ownerDSN)
	if err != nil {
		return nil, fmt.Errorf("connect as the owner: %w", err)
	}
	g := &ownerDatabase{owner, query.New(owner)}
	if err := g.queries.LockDemo(ctx, demoLock); err != nil {
		g.closeConnection()
		return nil, fmt.Errorf("wait for another demo: %w", err)
	}
	return g, nil
}

func (g *ownerDatabase) closeConnection() { _ = g.owner.Close(context.Background()) } // which unlocks

// presentClubs is what a database holds.
type presentClubs struct {
	filled bool // the demo's club, to the end
	others bool // any other
}

func (g *ownerDatabase) findClubs(ctx context.Context) (presentClubs, error) {
	there, err := g.queries.FindClubs(ctx, query.FindClubsParams{Demo: clubID.UUID, Unfinished: unfinishedName})
	if err != nil {
		return presentClubs{}, fmt.Errorf("look for clubs: %w", err)
	}
	return presentClubs{filled: there.Filled, others: there.Others}, nil
}

func (g *ownerDatabase) clearClubs(ctx context.Context) error {
	if err := g.queries.ClearClubs(ctx); err != nil {
		return fmt.Errorf("clear the club: %w", err)
	}
	return nil
}

// backdateClub gives what was just written the times at which it would have been:
// the store takes them from the database's clock. It must only be called while
// the demo's club is the only one.
func (g *ownerDatabase) backdateClub(ctx context.Context) error {
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

// openUnsynced opens the store such that a commit does not wait for the disk: a
// filling that a crash cuts short is made again anyway.
func openUnsynced(ctx context.Context, ownerDSN string) (*store.Store, error) {
	dsn, err := store.AppDSN(ownerDSN, "")
	if err != nil {
		return nil, err
	}
	return store.Open(ctx, dsn, func(c *pgxpool.Config) {
		c.ConnConfig.RuntimeParams["synchronous_commit"] = "off"
	})
}
