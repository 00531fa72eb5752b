package store

import (
	"context"
	"time"

	"breakwright/internal/account"
	"breakwright/internal/store/internal/query"
)

// TryKind is how a try at a person's secret was counted.
type TryKind string

// The kinds of tries.
const (
	// TryOnDevice: on a device on which the person has signed in before.
	TryOnDevice TryKind = "device"
	// TryByStranger: on any other.
	TryByStranger TryKind = "stranger"
	// TryLocked: refused, there were too many wrong ones.
	TryLocked TryKind = "locked"
)

// TakeTry counts a try at a person's secret before it is looked at, so that
// tries at once are counted too. deviceHash (32 bytes) is that of the device's
// own token. A try that was right is given back with [Store.SettleTry].
func (s *Store) TakeTry(ctx context.Context, who Actor, deviceHash []byte, at time.Time) (kind TryKind, err error) {
	limit := account.LimitOfPIN()
	if who.IsCoach() {
		limit = account.LimitOfPassphrase()
	}
	err = s.withoutActor(ctx, "count a try", func(q *query.Queries) error {
		word, err := q.TakeTry(ctx, query.TakeTryParams{
			Club: who.Club.UUID, Person: who.Person.UUID, Device: deviceHash, AtTime: at, MostDevice: limit.OnDevice,
			MostStranger: limit.ByStrangers, WindowSeconds: limit.Window.Seconds(), OpensItself: limit.OpensItself,
		})
		kind = TryKind(word)
		return err
	})
	return kind, err
}

// SettleTry gives back a try that was right; the device is known from now on.
func (s *Store) SettleTry(ctx context.Context, who Actor, deviceHash []byte, kind TryKind, at time.Time) error {
	return s.withoutActor(ctx, "settle a try", func(q *query.Queries) error {
		return q.SettleTry(ctx, query.SettleTryParams{
			Club: who.Club.UUID, Person: who.Person.UUID, Device: deviceHash, AtTime: at, How: string(kind),
		})
	})
}

// ReturnTry gives back a stranger's try that was not looked at, or was right.
func (s *Store) ReturnTry(ctx context.Context, who Actor) error {
	return s.withoutActor(ctx, "give a try back", func(q *query.Queries) error {
		return q.ReturnTry(ctx, query.ReturnTryParams{Club: who.Club.UUID, Person: who.Person.UUID})
	})
}

// TakeNetworkTry takes a try from a network's bucket, see [account.NetworkBucket].
// False: it has none left.
func (s *Store) TakeNetworkTry(ctx context.Context, bucket int, at time.Time) (allowed bool, err error) {
	limit := account.LimitOfNetwork()
	err = s.withoutActor(ctx, "count a network's try", func(q *query.Queries) (err error) {
		allowed, err = q.TakeNetworkTry(ctx, query.TakeNetworkTryParams{
			Bucket: bucket, Most: limit.Burst, PerSecond: limit.PerSecond, AtTime: at,
		})
		return err
	})
	return allowed, err
}

// ReturnNetworkTry gives a try back that was right.
func (s *Store) ReturnNetworkTry(ctx context.Context, bucket int) error {
	return s.withoutActor(ctx, "give a network's try back", func(q *query.Queries) error { return q.ReturnNetworkTry(ctx, bucket) })
}

// LockedPerson is somebody whom too many wrong secrets have locked out of
// devices that they have not used before.
type LockedPerson struct {
	ID     PersonID
	Name   string
	Role   Role
	Wrong  int // tries
	Locked time.Time
}

// ListLockedPeople returns those of the club, the longest locked first. Coaches only.
func (s *Store) ListLockedPeople(ctx context.Context, v Actor) ([]LockedPerson, error) {
	return readInTransaction(ctx, s, v, "list who is locked out", func(t *tx) ([]LockedPerson, error) {
		if err := v.requireCoach(); err != nil {
			return nil, err
		}
		return t.loadLockedPeople(ctx)
	})
}

func (t *tx) loadLockedPeople(ctx context.Context) ([]LockedPerson, error) {
	rows, err := t.Queries.ListLockedPeople(ctx)
	return mapRows(rows, func(r query.ListLockedPeopleRow) LockedPerson {
		return LockedPerson{ID: PersonID{r.ID}, Name: r.Name, Role: Role(r.Role), Wrong: r.Wrong, Locked: r.LockedAt.UTC()}
	}), err
}

// FreePerson lets somebody try again. Repeating it is harmless. Coaches only.
func (s *Store) FreePerson(ctx context.Context, v Actor, person PersonID) error {
	return s.changeAsCoach(ctx, v, "free the person", func(t *tx) error {
		if _, err := t.loadPerson(ctx, person); err != nil {
			return err
		}
		return t.Queries.FreePerson(ctx, person.UUID)
	})
}
