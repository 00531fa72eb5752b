package store

import (
	"context"
	"encoding/hex"
	"time"

	"github.com/google/uuid"

	"breakwright/internal/store/internal/query"
)

// InviteLife is how long a coach's invitation is good.
const InviteLife = 7 * 24 * time.Hour

// Invite is a link by which somebody may become a coach of the club, once.
//
// A coach makes, lists and withdraws it ([ErrNotAllowed] for a student); who holds the
// link uses it, a wrong one is [ErrNotFound]. It is kept until it is used, withdrawn or
// too old.
type Invite struct {
	// Key names it in a list: the link cannot be made from it.
	Key       string
	InvitedBy string
	Expires   time.Time
}

// InviteCoach keeps the hash (32 bytes) of a new link. Coaches only.
func (s *Store) InviteCoach(ctx context.Context, v Actor, tokenHash []byte, at time.Time) error {
	return s.changeAsCoach(ctx, v, "invite a coach", func(t *tx) error {
		err := t.InsertInvite(ctx, query.InsertInviteParams{
			ClubID: v.Club.UUID, TokenHash: tokenHash, InvitedBy: v.Person.UUID, ExpiresAt: at.Add(InviteLife),
		})
		if err != nil {
			return err
		}
		if err := t.requireRoom(ctx, RoomForInvitations, uuid.Nil); err != nil {
			return err
		}
		return t.requireRoom(ctx, RoomForCoaches, uuid.Nil)
	})
}

// ListInvites returns the links that are still good, oldest first. Coaches only.
func (s *Store) ListInvites(ctx context.Context, v Actor) ([]Invite, error) {
	return readInTransaction(ctx, s, v, "list the invitations", func(t *tx) ([]Invite, error) {
		if err := v.requireCoach(); err != nil {
			return nil, err
		}
		rows, err := t.Queries.ListInvites(ctx)
		return mapRows(rows, func(r query.ListInvitesRow) Invite {
			return Invite{Key: hex.EncodeToString(r.TokenHash), InvitedBy: r.InvitedBy, Expires: r.ExpiresAt.UTC()}
		}), err
	})
}

// WithdrawInvite makes a link useless. Coaches only.
func (s *Store) WithdrawInvite(ctx context.Context, v Actor, key string) error {
	return s.changeAsCoach(ctx, v, "withdraw an invitation", func(t *tx) error {
		hash, err := hex.DecodeString(key)
		if err != nil {
			return ErrNotFound
		}
		return t.RemoveInvite(ctx, hash)
	})
}

// FoundInvite is what an invited person sees.
type FoundInvite struct{ Club, InvitedBy string }

// FindInvite looks a link up: [ErrNotFound] when it is not good, or not any more.
func (s *Store) FindInvite(ctx context.Context, tokenHash []byte) (FoundInvite, error) {
	var row query.FindInviteRow
	err := s.withoutActor(ctx, "find the invitation", func(q *query.Queries) (err error) {
		row, err = q.FindInvite(ctx, tokenHash)
		return err
	})
	return FoundInvite{Club: row.ClubName, InvitedBy: row.InvitedBy}, err
}

// AcceptInvite makes a coach and uses up the link: [ErrNotFound] when it is not
// good any more, a problem of the field when another coach has that login.
func (s *Store) AcceptInvite(ctx context.Context, tokenHash []byte, coach NewCoach) (Actor, error) {
	if err := coach.validate(); err != nil {
		return Actor{}, err
	}
	v := Actor{Person: idOrNew(coach.ID), Role: Coach}
	ctx = WithNote(ctx, Note{Act: ActChanged, Place: "/invite/{token}", About: v.Person.UUID})
	err := s.inTransaction(ctx, Actor{}, "accept the invitation", func(t *tx) error {
		club, err := t.Queries.AcceptInvite(ctx, query.AcceptInviteParams{
			Token: tokenHash, Coach: v.Person.UUID, CoachName: coach.Name, CoachLogin: coach.Login, CoachSecret: coach.SecretHash,
		})
		if violatesUnique(err, "person_login") {
			return fieldProblem("login", loginTaken)
		}
		if err != nil {
			return err
		}
		if v.Club, err = ParseID[ClubID](club); err != nil {
			return err
		}
		return t.switchActor(ctx, v) // who writes the note
	})
	if err != nil {
		return Actor{}, err
	}
	return v, nil
}

// FormerCoach is one who was removed.
type FormerCoach struct {
	ID      PersonID
	Name    string
	Removed time.Time
}

// ListFormerCoaches returns them by name. Coaches only.
func (s *Store) ListFormerCoaches(ctx context.Context, v Actor) ([]FormerCoach, error) {
	return readInTransaction(ctx, s, v, "list former coaches", func(t *tx) ([]FormerCoach, error) {
		if err := v.requireCoach(); err != nil {
			return nil, err
		}
		rows, err := t.Queries.ListFormerCoaches(ctx)
		return mapRows(rows, func(r query.ListFormerCoachesRow) FormerCoach {
			return FormerCoach{PersonID{r.ID}, r.Name, r.ArchivedAt.UTC()}
		}), err
	})
}
