package session

import (
	"context"
	"net/http"
	"time"

	"github.com/go-chi/chi/v5"

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

// WithUser puts the visitor into a context, and the units in which they read.
func WithUser(ctx context.Context, v User) context.Context {
	return say.WithUnits(context.WithValue(ctx, userKey{}, v), v.Units)
}

// Reader is the visitor as sentences are made for them.
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

// FindFailure gives the reason why it could not be found out who asks, and nil
// when it could.
func FindFailure(r *http.Request) error {
	err, _ := r.Context().Value(failureKey{}).(error)
	return err
}

type erasedKey struct{}

func withErased(ctx context.Context, person string) context.Context {
	return context.WithValue(ctx, erasedKey{}, person)
}

// FindUser gives the visitor of a request, and false for nobody.
func FindUser(r *http.Request) (User, bool) {
	v, ok := r.Context().Value(userKey{}).(User)
	return v, ok
}

// MustUser gives the visitor of a request to a route that only members may call;
// the guard has made sure that there is one.
func MustUser(r *http.Request) User {
	v, ok := FindUser(r)
	if !ok {
		panic("session: a route for members was reached by nobody")
	}
	return v
}

// PagePerson gives the visitor as the layout shows them; nobody is the zero Person.
func PagePerson(r *http.Request) page.Person {
	v, ok := FindUser(r)
	if !ok {
		return page.Person{}
	}
	return page.Person{Name: v.Name, Club: v.Club, Coach: v.IsCoach(), Theme: string(v.Theme)}
}

// FindNamed gets what a part of the address names, in the name of who asks. What is no
// id is nobody's: [store.ErrNotFound].
func FindNamed[ID store.ID, Noun any](r *http.Request, part string, get func(context.Context, store.Actor, ID) (Noun, error)) (Noun, error) {
	id, err := store.ParseID[ID](chi.URLParam(r, part))
	if err != nil {
		var none Noun
		return none, err
	}
	return get(r.Context(), MustUser(r).Actor, id)
}

// FindStudent gets the student that the address names; a coach's id is nobody's here,
// so that no coach is archived, renamed or erased as if they were a student.
func FindStudent(r *http.Request, s *store.Store) (store.Person, error) {
	person, err := FindNamed(r, "student", s.GetPerson)
	if err == nil && person.Role != store.Student {
		return store.Person{}, store.ErrNotFound
	}
	return person, err
}
