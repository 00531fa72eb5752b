package demo

import (
	"context"
	"errors"
	"fmt"
	"time"

	"breakwright/internal/store"
)

// ErrOtherClub: the database holds a club that is not the demo's.
var ErrOtherClub = errors.New("this database holds a club that is not the demo's, and it was left alone")

// Options say how the club is to be made.
type Options struct {
	// Fresh throws away what visitors of the demo did, and fills it anew.
	Fresh bool
	// Now is the moment the club has lived up to.
	Now time.Time
	// Say is called with what takes its time; it must not be nil.
	Say func(string)
}

// Prepare sees that the owner's database, which must be migrated, holds the
// demo's club, and gives the logins. A club that is there stays as it is
// unless options say otherwise; one whose filling was cut short is made again.
// With [ErrOtherClub] nothing was changed.
//
// Programs that start together wait for one another.
func Prepare(ctx context.Context, ownerDSN string, options Options) (Logins, error) {
	logins, err := prepareLocked(ctx, ownerDSN, options)
	if err != nil {
		return Logins{}, fmt.Errorf("prepare the demo: %w", err)
	}
	return logins, nil
}

func prepareLocked(ctx context.Context, ownerDSN string, options Options) (Logins, error) {
	g, err := lockOwnerDatabase(ctx, ownerDSN)
	if err != nil {
		return Logins{}, err
	}
	defer g.closeConnection()
	found, err := g.findClubs(ctx)
	if err != nil {
		return Logins{}, err
	}
	s, err := openUnsynced(ctx, ownerDSN)
	if err != nil {
		return Logins{}, err
	}
	defer s.Close()
	switch {
	case found.others && (options.Fresh || !found.filled):
		return Logins{}, ErrOtherClub
	case options.Fresh || !found.filled:
		if err := g.clearClubs(ctx); err != nil {
			return Logins{}, err
		}
		if err := refillClub(ctx, s, g, options); err != nil {
			return Logins{}, err
		}
	}
	return findLogins(ctx, s)
}

// refillClub fills an empty database. The club has its name last, which is how a
// filling that was cut short is known.
func refillClub(ctx context.Context, s *store.Store, g *ownerDatabase, options Options) error {
	options.Say("Filling the demo's club: every break in it is computed, which takes some seconds")
	if err := fillClub(ctx, s, options); err != nil {
		return err
	}
	if err := g.backdateClub(ctx); err != nil {
		return err
	}
	return s.ChangeClub(ctx, demoCoach, store.Club{ID: clubID, Name: clubName, Zone: clubZone})
}
