package session

import (
	"context"
	"net/http"
	"time"

	"breakwright/internal/say"
	"breakwright/internal/store"
	"breakwright/internal/table"
	"breakwright/web/page"
)

// User is the person who is signed in.
type User struct {
	store.Actor
	// Session names the session among the person's own.
	Session    store.SessionID
	Name, Club string
	// Zone is the club's, for due days and times of day.
	Zone *time.Location
	// Side is a student's break side, "" while nobody has said.
	Side table.Side
	// Units are the club's choice, Theme the person's.
	Units say.Units
	Theme store.Theme

	turned time.Time // when the token was made
}

type userKey struct{}

// WithUser puts who is signed in into a context, and the units in which they read.
func WithUser(ctx context.Context, u User) context.Context {
	return say.WithUnits(context.WithValue(ctx, userKey{}, u), u.Units)
}

// Reader is the user as sentences are made for them.
func (u User) Reader() say.Reader {
	if u.IsCoach() {
		return say.Reader{Who: say.Coach, Units: u.Units}
	}
	return say.Reader{Units: u.Units}
}

type failureKey struct{}

func withFailure(ctx context.Context, err error) context.Context {
	return context.WithValue(ctx, failureKey{}, err)
}

// FindFailure returns the reason why it could not be found out who asks, and nil
// when it could.
func FindFailure(r *http.Request) error {
	err, _ := r.Context().Value(failureKey{}).(error)
	return err
}

type erasedKey struct{}

func withErased(ctx context.Context, person string) context.Context {
	return context.WithValue(ctx, erasedKey{}, person)
}

// FindUser returns the user of a request, and false for nobody.
func FindUser(r *http.Request) (User, bool) {
	u, ok := r.Context().Value(userKey{}).(User)
	return u, ok
}

// MustUser returns the user of a request to a route that only members may call;
// the guard has made sure that there is one.
func MustUser(r *http.Request) User {
	u, ok := FindUser(r)
	if !ok {
		panic("session: a route for members was reached by nobody")
	}
	return u
}

// PagePerson returns the user as the layout shows them; nobody is the zero Person.
func PagePerson(r *http.Request) page.Person {
	u, ok := FindUser(r)
	if !ok {
		return page.Person{}
	}
	return page.Person{Name: u.Name, Club: u.Club, Coach: u.IsCoach(), Theme: string(u.Theme)}
}
