package store

import (
	"context"
	"time"

	"github.com/google/uuid"

	"breakwright/internal/store/internal/query"
	"breakwright/internal/table"
)

// How long a session goes on.
const (
	// SessionIdle is how long after it was last used.
	SessionIdle = 30 * 24 * time.Hour
	// SessionLongest is how long in all, however much it is used.
	SessionLongest = 180 * 24 * time.Hour
	// SessionTurn is after how long its token is changed.
	SessionTurn = 24 * time.Hour
)

// SessionID names a session in the list of a person's own.
type SessionID struct{ uuid.UUID }

// Session is a person who is signed in, with what every page shows of them.
type Session struct {
	Actor
	ID   SessionID
	Name string
	// Side is "" for a coach, and for a student whose side is not known yet.
	Side table.Side
	// Theme is "light" or "dark", "" for whatever the device has.
	Theme   Theme
	Club    Club
	Turned  time.Time // when its token was made
	Expires time.Time
}

// NewSession is a session to be started.
type NewSession struct {
	// TokenHash (32 bytes) is of a token that only the person holds.
	TokenHash []byte
	// Device says in words what they sign in with, at most 80 letters.
	Device string
	At     time.Time
}

// StartSession signs a person in. [ErrNotFound] when the person is archived.
func (s *Store) StartSession(ctx context.Context, v Actor, n NewSession) error {
	return s.withoutActor(ctx, "start the session", func(q *query.Queries) error {
		started, err := q.StartSession(ctx, query.StartSessionParams{
			Token: n.TokenHash, Club: v.Club.UUID, Person: v.Person.UUID, Device: n.Device, AtTime: n.At, Until: n.At.Add(SessionLongest),
		})
		if err == nil && !started {
			return ErrNotFound
		}
		return err
	})
}

// FindSession says who holds the token, and notes the visit. [ErrNotFound] when
// it is unknown, ended or too old, or the person is archived.
func (s *Store) FindSession(ctx context.Context, tokenHash []byte, at time.Time) (Session, error) {
	var row query.FindSessionRow
	err := s.withoutActor(ctx, "find the session", func(q *query.Queries) (err error) {
		row, err = q.FindSession(ctx, query.FindSessionParams{Token: tokenHash, AtTime: at, IdleSeconds: SessionIdle.Seconds()})
		return err
	})
	if err != nil {
		return Session{}, err
	}
	club := ClubID{row.ClubID}
	return Session{
		Actor: Actor{Club: club, Person: PersonID{row.PersonID}, Role: Role(row.Role)},
		ID:    SessionID{row.SessionID},
		Name:  row.Name, Side: table.Side(row.Side), Theme: Theme(row.Theme),
		Club:   Club{ID: club, Name: row.ClubName, Zone: row.Zone, Units: UnitChoice(row.Units)},
		Turned: row.RotatedAt.UTC(), Expires: row.ExpiresAt.UTC(),
	}, nil
}

// TurnSession gives a session another token. The one before goes on until the
// new one has been used, so that an answer may be lost. False: another request
// has just done it.
func (s *Store) TurnSession(ctx context.Context, tokenHash, fresh []byte, at time.Time) (turned bool, err error) {
	err = s.withoutActor(ctx, "turn the session", func(q *query.Queries) (err error) {
		turned, err = q.RotateSession(ctx, query.RotateSessionParams{Token: tokenHash, Fresh: fresh, AtTime: at, AtLeastSeconds: SessionTurn.Seconds()})
		return err
	})
	return turned, err
}

// RevokeSession signs the holder of the token out. An unknown token is nobody.
func (s *Store) RevokeSession(ctx context.Context, tokenHash []byte) error {
	return s.withoutActor(ctx, "end the session", func(q *query.Queries) error { return q.RevokeSession(ctx, tokenHash) })
}

// RevokeSessions signs a person out everywhere: the actor, or for a coach anyone
// of the club.
func (s *Store) RevokeSessions(ctx context.Context, v Actor, person PersonID) error {
	return s.inTransaction(ctx, v, "end all sessions", func(t *tx) error {
		if !v.IsCoach() && person != v.Person {
			return ErrNotFound
		}
		return t.RevokeSessions(ctx, person.UUID)
	})
}

// OwnSession is one of the actor's sessions that go on.
//
// Whoever is signed in reads and ends their own; of another's even a coach knows
// nothing, but a student's new code or PIN ends theirs. It is kept until it ends.
type OwnSession struct {
	ID                   SessionID
	Device               string
	Began, Seen, Expires time.Time
}

// ListOwnSessions returns the actor's sessions, the one used last first.
func (s *Store) ListOwnSessions(ctx context.Context, v Actor, at time.Time) ([]OwnSession, error) {
	return readInTransaction(ctx, s, v, "list the sessions", func(t *tx) ([]OwnSession, error) {
		rows, err := t.Queries.ListOwnSessions(ctx, query.ListOwnSessionsParams{AtTime: at, IdleSeconds: SessionIdle.Seconds()})
		return mapRows(rows, func(r query.ListOwnSessionsRow) OwnSession {
			return OwnSession{SessionID{r.ID}, r.Device, r.CreatedAt.UTC(), r.LastSeenAt.UTC(), r.ExpiresAt.UTC()}
		}), err
	})
}

// EndOwnSession ends one of the actor's own; another's, or one that has ended,
// is nobody's.
func (s *Store) EndOwnSession(ctx context.Context, v Actor, id SessionID) error {
	return s.inTransaction(ctx, v, "end a session", func(t *tx) error { return t.Queries.EndOwnSession(ctx, id.UUID) })
}

// EndOtherSessions ends all of the actor's sessions but one, and forgets the
// devices they signed in on but the one with that hash.
func (s *Store) EndOtherSessions(ctx context.Context, v Actor, kept SessionID, deviceHash []byte) error {
	return s.inTransaction(ctx, v, "end the other sessions", func(t *tx) error { return t.endOtherSessions(ctx, kept, deviceHash) })
}

func (t *tx) endOtherSessions(ctx context.Context, kept SessionID, deviceHash []byte) error {
	return t.EndOtherSessions(ctx, query.EndOtherSessionsParams{Kept: kept.UUID, Device: deviceHash})
}

// SweepExpired forgets what is over: sessions a month after their end, devices
// not used for a year, links that have ended, counts of tries that have faded, the
// audit log after a year, files of exports and imports after a month.
func (s *Store) SweepExpired(ctx context.Context) error {
	return s.withoutActor(ctx, "sweep what is over", func(q *query.Queries) error {
		if err := q.SweepAccounts(ctx); err != nil {
			return err
		}
		return q.SweepPrivacy(ctx)
	})
}
