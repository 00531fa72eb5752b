package store

import (
	"context"

	"breakwright/internal/store/internal/query"
)

// EraseStudent erases a student with all that they recorded and all that was said
// of it, and the files of the club's exports and imports. It cannot be undone.
// Coaches only.
func (s *Store) EraseStudent(ctx context.Context, v Actor, student PersonID) error {
	return s.eraseAsCoach(ctx, v, "erase the student", "/students/{student}/erase", func(t *tx) (bool, error) { return t.Queries.EraseStudent(ctx, student.UUID) })
}

// EraseCoach erases what is personal of a coach who was removed before; what they
// decided stays, as that of a former coach. Coaches only.
func (s *Store) EraseCoach(ctx context.Context, v Actor, coach PersonID) error {
	return s.eraseAsCoach(ctx, v, "erase the coach", "/club/coaches/{coach}/erase", func(t *tx) (bool, error) { return t.Queries.EraseCoach(ctx, coach.UUID) })
}

// EraseClub erases the actor's club with everybody and everything in it, the
// actor too. Coaches only.
func (s *Store) EraseClub(ctx context.Context, v Actor) error {
	return s.eraseAsCoach(ctx, v, "erase the club", "/club/erase", func(t *tx) (bool, error) { return t.Queries.EraseClub(ctx) })
}

// eraseAsCoach erases, writes down in the same transaction that it was done, and not to
// whom, and has open boards look again.
func (s *Store) eraseAsCoach(ctx context.Context, v Actor, doing, place string, erase func(*tx) (bool, error)) error {
	return s.changeAsCoach(WithNote(ctx, Note{Act: ActErased, Place: place}), v, doing, func(t *tx) error {
		erased, err := erase(t)
		if err == nil && !erased {
			return ErrNotFound
		}
		t.queueEvent(PersonErased, PersonID{}, SetID{})
		return err
	})
}

// WasErased reports whether the hash is that of a token of somebody who was
// erased, or the id that of a student who was, so that their phone can be told. A
// phone knows one of them, or both; nil and zeros are nobody's.
func (s *Store) WasErased(ctx context.Context, tokenHash []byte, person PersonID) (erased bool, err error) {
	err = s.withoutActor(ctx, "look for somebody who was erased", func(q *query.Queries) error {
		erased, err = q.WasErased(ctx, query.WasErasedParams{Token: tokenHash, Person: person.UUID})
		return err
	})
	return erased, err
}

// GetEverything returns all that is kept of a person as JSON: an object with an
// array of rows for each table, without secrets. Of coaches' private notes it has
// the actor's own. The person and coaches only: [ErrNotFound] for others.
func (s *Store) GetEverything(ctx context.Context, v Actor, person PersonID) ([]byte, error) {
	return readInTransaction(ctx, s, v, "gather all of a person", func(t *tx) ([]byte, error) {
		all, err := t.Queries.GetEverythingOf(ctx, person.UUID)
		if err == nil && string(all) == "null" {
			return nil, ErrNotFound
		}
		return all, err
	})
}
