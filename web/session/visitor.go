package session

import (
	"context"
	"net/http"
	"time"

	"breakwright/internal/store"
	"breakwright/internal/table"
	"breakwright/web/page"
)

// Visitor is the person who is signed in.
type Visitor struct {
	store.Viewer
	Name, Club string
	// Zone is the club's, for due days and times of day.
	Zone *time.Location
	// Side is a student's break side, "" while nobody has said.
	Side table.Side
}

type visitorKey struct{}

// With puts the visitor into a context.
func With(ctx context.Context, v Visitor) context.Context {
	return context.WithValue(ctx, visitorKey{}, v)
}

// Find gives the visitor of a request, and false for nobody.
func Find(r *http.Request) (Visitor, bool) {
	v, ok := r.Context().Value(visitorKey{}).(Visitor)
	return v, ok
}

// From gives the visitor of a request to a route that only members may call;
// the guard has made sure that there is one.
func From(r *http.Request) Visitor {
	v, ok := Find(r)
	if !ok {
		panic("session: a route for members was reached by nobody")
	}
	return v
}

// Person gives the visitor as the layout shows them; nobody is the zero Person.
func Person(r *http.Request) page.Person {
	v, ok := Find(r)
	if !ok {
		return page.Person{}
	}
	return page.Person{Name: v.Name, Club: v.Club, Coach: v.IsCoach()}
}
