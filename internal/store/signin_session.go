package store

import (
	"context"
	"time"

	"breakwright/internal/store/internal/query"
	"breakwright/internal/table"
)

// Session is a person who is signed in, with what every page shows of them.
type Session struct {
	Actor
	Name string
	// Side is "" for a coach, and for a student whose side is not known yet.
	Side    table.Side
	Club    Club
	Expires time.Time
}

// StartSession signs a person in until then, under the hash (32 bytes) of a
// token that only they hold. [ErrNotFound] when the person is archived.
func (s *Store) StartSession(ctx context.Context, v Actor, tokenHash []byte, until time.Time) error {
	return s.withoutActor(ctx, "start the session", func(q *query.Queries) error {
		started, err := q.StartSession(ctx, query.StartSessionParams{
			Token: tokenHash, Club: v.Club.UUID, Person: v.Person.UUID, Until: until,
		})
		if err == nil && !started {
			return ErrNotFound
		}
		return err
	})
}

// FindSession says who holds the token. [ErrNotFound] when it is unknown,
// revoked or expired, or the person is archived.
func (s *Store) FindSession(ctx context.Context, tokenHash []byte) (Session, error) {
	var row query.FindSessionRow
	err := s.withoutActor(ctx, "find the session", func(q *query.Queries) (err error) {
		row, err = q.FindSession(ctx, tokenHash)
		return err
	})
	if err != nil {
		return Session{}, err
	}
	club := ClubID{row.ClubID}
	return Session{
		Actor:   Actor{Club: club, Person: PersonID{row.PersonID}, Role: Role(row.Role)},
		Name:    row.Name,
		Side:    table.Side(row.Side),
		Club:    Club{ID: club, Name: row.ClubName, Zone: row.Zone},
		Expires: row.ExpiresAt.UTC(),
	}, nil
}

// RevokeSession signs the holder of the token out. An unknown token is nobody.
func (s *Store) RevokeSession(ctx context.Context, tokenHash []byte) error {
	return s.withoutActor(ctx, "end the session", func(q *query.Queries) error { return q.RevokeSession(ctx, tokenHash) })
}

// RevokeSessions signs a person out everywhere: the viewer, or for a coach anyone
// of the club.
func (s *Store) RevokeSessions(ctx context.Context, v Actor, person PersonID) error {
	return s.inTransaction(ctx, v, "end all sessions", func(t *tx) error {
		if !v.IsCoach() && person != v.Person {
			return ErrNotFound
		}
		return t.RevokeSessions(ctx, person.UUID)
	})
}

// SweepSessions forgets sessions that ended a month ago.
func (s *Store) SweepSessions(ctx context.Context) error {
	return s.withoutActor(ctx, "sweep the sessions", func(q *query.Queries) error { return q.SweepSessions(ctx) })
}
