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
}

// Get and Post make rows.
func Get(pattern string, who Audience, h Handler) Route {
	return Route{http.MethodGet, pattern, who, h}
}

// Post: see Get.
func Post(pattern string, who Audience, h Handler) Route {
	return Route{http.MethodPost, pattern, who, h}
}
