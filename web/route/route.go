// Package route says what a page is to the rest of web: a method, a pattern,
// who may call it, and a handler that returns its error. The pages of each
// audience hand in their rows; package web makes the one table of them.
package route

import "net/http"

// Audience says who may call a route.
type Audience string

// The callers a route can be for.
const (
	Anyone  Audience = "anyone"  // signed in or not
	Coach   Audience = "coach"   // a coach, in their own club
	Student Audience = "student" // a student, about themselves
	Member  Audience = "member"  // a coach or a student; the store tells them apart
)

// Handler answers a request, or returns why it could not: package web turns
// the error's kind into a status and a page.
type Handler func(w http.ResponseWriter, r *http.Request) error

// Route is one row of the table.
type Route struct {
	Method   string
	Pattern  string // chi's, for example "/drills/{drill}"
	Audience Audience
	Handle   Handler
	Pace     Pace
}

// Pace says how an answer is made and sent, and so how long it may take.
type Pace string

// The paces.
const (
	// Page is made whole and then sent; what is no other.
	Page Pace = ""
	// Asset is the same for everybody and needs no database.
	Asset Pace = "asset"
	// Upload takes a file in first.
	Upload Pace = "upload"
	// Download is made whole and then sent as slowly as its reader takes it.
	Download Pace = "download"
	// Stream goes on until its reader leaves or the server stops. It sets a
	// deadline for each of its writes.
	Stream Pace = "stream"
)

// At gives the route another pace.
func (r Route) At(p Pace) Route {
	r.Pace = p
	return r
}

// Get and Post make rows.
func Get(pattern string, who Audience, h Handler) Route {
	return Route{Method: http.MethodGet, Pattern: pattern, Audience: who, Handle: h}
}

// Post: see Get.
func Post(pattern string, who Audience, h Handler) Route {
	return Route{Method: http.MethodPost, Pattern: pattern, Audience: who, Handle: h}
}
