package store

import (
	"context"
	"time"

	"breakwright/internal/drill"
	"breakwright/internal/store/internal/query"
)

// HasClub reports whether any club was set up: before that, pages lead to the
// first run.
func (s *Store) HasClub(ctx context.Context) (has bool, err error) {
	err = s.withoutActor(ctx, "look for a club", func(q *query.Queries) (err error) {
		has, err = q.HasClub(ctx)
		return err
	})
	return has, err
}

// SetFirstRun makes tokenHash (32 bytes) the one link that may set up a club;
// an earlier link stops working.
func (s *Store) SetFirstRun(ctx context.Context, tokenHash []byte) error {
	return s.withoutActor(ctx, "set the first run", func(q *query.Queries) error { return q.SetFirstRun(ctx, tokenHash) })
}

// FirstRunLife is how long the link that sets up a further club is good.
const FirstRunLife = 72 * time.Hour

// AddFirstRun makes tokenHash (32 bytes) a link that may set up one more club;
// other links go on.
func (s *Store) AddFirstRun(ctx context.Context, tokenHash []byte, at time.Time) error {
	return s.withoutActor(ctx, "make a link for a club", func(q *query.Queries) error {
		return q.AddFirstRun(ctx, query.AddFirstRunParams{Token: tokenHash, Until: at.Add(FirstRunLife)})
	})
}

// HasFirstRun reports whether the link is still good.
func (s *Store) HasFirstRun(ctx context.Context, tokenHash []byte) (has bool, err error) {
	err = s.withoutActor(ctx, "look for the first run", func(q *query.Queries) (err error) {
		has, err = q.HasFirstRun(ctx, tokenHash)
		return err
	})
	return has, err
}

// NewCoach is a coach to be added.
type NewCoach struct {
	ID   PersonID // zero to have one made
	Name string
	// Login is what they sign in with, any text without spaces at its ends;
	// large and small letters are the same, and no two coaches share one.
	Login string
	// SecretHash is an argon2id hash of their passphrase.
	SecretHash string
}

// MaxLogin is the longest login, in characters.
const MaxLogin = 200

// loginTaken says beside the field that somebody else signs in with a name.
const loginTaken = "another coach signs in with this name; choose another"

func (c NewCoach) validate() error {
	var p drill.Problems
	if says := drill.CheckName(c.Name); says != "" {
		p.Add("name", says)
	}
	if says := checkLogin(c.Login); says != "" {
		p.Add("login", says)
	}
	return p.Err()
}

// CreateClubWithCoach sets up a club with its first coach and uses up the link:
// [ErrNotAllowed] when it is not good any more, a problem of the field when another
// coach has that login.
func (s *Store) CreateClubWithCoach(ctx context.Context, tokenHash []byte, c Club, coach NewCoach) (Actor, error) {
	if err := c.validate(); err != nil {
		return Actor{}, err
	}
	if err := coach.validate(); err != nil {
		return Actor{}, err
	}
	v := Actor{Club: idOrNew(c.ID), Person: idOrNew(coach.ID), Role: Coach}
	err := s.withoutActor(ctx, "set up the club", func(q *query.Queries) error {
		opened, err := q.CreateClub(ctx, query.CreateClubParams{
			Token: tokenHash, Club: v.Club.UUID, ClubName: c.Name, ClubZone: c.Zone,
			Coach: v.Person.UUID, CoachName: coach.Name, CoachLogin: coach.Login, CoachSecret: coach.SecretHash,
		})
		if violatesUnique(err, "person_login") {
			return fieldProblem("login", loginTaken)
		}
		if err == nil && !opened {
			return newRefusal(ErrNotAllowed, "this link was used already")
		}
		return err
	})
	if err != nil {
		return Actor{}, err
	}
	return v, nil
}
