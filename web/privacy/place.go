package privacy

import (
	"net/http"
	"strings"

	"github.com/go-chi/chi/v5"
	"github.com/google/uuid"

	"breakwright/internal/store"
	"breakwright/web/page"
	"breakwright/web/route"
	"breakwright/web/session"
)

// auditedPart is a part of the program, by the beginning of its routes.
type auditedPart struct {
	beginning string
	// words are what the audit log calls it.
	words string
	// people says that to look at it is to look at what is kept of people.
	people bool
}

// places lists them; the longest beginning that fits is meant.
var places = []auditedPart{
	{"/", "the program", false},
	{"/account", "their own account", false},
	{"/assignments", "an assignment", true},
	{"/audit", "this log", false},
	{"/calendar.ics", "due days, as a calendar", false},
	{"/classes", "the classes", true},
	{"/classes/{class}", "a class", true},
	{"/classes/{class}/codes", "join codes", true},
	{"/club", "the club's page", false},
	{"/club/coaches", "the club's coaches", false},
	{"/club/coaches/erase", "a former coach", false},
	{"/club/erase", "the club", false},
	{"/club/file", "the page of the club's file", false},
	{"/club/file.zip", "all that the club recorded", true},
	{"/club/invites", "an invitation of a coach", false},
	{"/decided", "decided changes", true},
	{"/desk", "the desk", true},
	{"/drills", "the drills", false},
	{"/drills/{drill}", "a drill", false},
	{"/export", "break logs", true},
	{"/export/struck", "breaks that were struck", true},
	{"/import", "a break log that came in", true},
	{"/jobs", "an export or import", true},
	{"/my", "their own sets", false},
	{"/my/export", "their own break log", false},
	{"/my/everything", "all that is kept of them", false},
	{"/prescriptions", "a change of setup", true},
	{"/records", "exports and imports", true},
	{"/rules", "the adviser's rules", false},
	{"/sets", "a set", true},
	{"/sets/{set}/correct", "a break put right", true},
	{"/sets/{set}/move", "a set moved to another table or drill", true},
	{"/sets/{set}/messages", "a message about a set", true},
	{"/students", "the list of students", true},
	{"/students/change", "several students", true},
	{"/students/changes", "several students", true},
	{"/students/codes", "join codes", true},
	{"/students/message", "a message to several students", true},
	{"/students/{student}", "a student's page", true},
	{"/students/{student}/code", "a join code", true},
	{"/students/{student}/erase", "a student", true},
	{"/students/{student}/everything", "all that is kept of a student", true},
	{"/students/{student}/message", "a message to a student", true},
	{"/students/{student}/note", "a private note", true},
	{"/table", "their own phone", false},
	{"/tables", "the tables", false},
	{"/today", "their own drills", false},
	{"/what-if", "a computed break", false},
}

// PlaceWords returns what the audit log calls the place of a route.
func PlaceWords(pattern string) string { return findPlace(pattern).words }

// findPlace returns the place of a route.
func findPlace(pattern string) auditedPart {
	best := places[0]
	for _, p := range places {
		if (pattern == p.beginning || strings.HasPrefix(pattern, p.beginning+"/")) && len(p.beginning) > len(best.beginning) {
			best = p
		}
	}
	return best
}

// exports are the routes by which what is kept of people leaves the program.
var exports = map[string]bool{
	"GET /export": true, "GET /export/struck": true, "POST /export": true, "GET /jobs/{job}/file": true, "GET /my/export": true,
	"GET /my/everything": true, "GET /students/{student}/everything": true, "GET /club/file.zip": true,
}

// FindNote returns what the audit log is to say of a request, if anything: what a
// coach looks at and changes, and what anybody takes out. Parts of a page that is
// open, and boards that go on, were written down with their page.
func FindNote(row route.Route, r *http.Request, visitor session.User) (store.Note, bool) {
	n := store.Note{Place: row.Pattern, About: findSubject(r)}
	switch {
	case exports[row.Method+" "+row.Pattern]:
		n.Act = store.ActExported
		if visitor.Role == store.Student {
			n.About = visitor.Person.UUID
		}
	case visitor.Role != store.Coach:
		return n, false
	case row.Method != http.MethodGet:
		n.Act = store.ActChanged
	case findPlace(row.Pattern).people && row.Pace != route.Stream && !page.IsPartial(r):
		n.Act = store.ActSaw
	default:
		return n, false
	}
	return n, true
}

// findSubject returns what a request names first of these in its address.
func findSubject(r *http.Request) uuid.UUID {
	for _, name := range []string{"student", "set", "prescription", "class", "drill"} {
		for _, text := range []string{chi.URLParam(r, name), r.URL.Query().Get(name)} {
			if id, err := uuid.Parse(text); err == nil {
				return id
			}
		}
	}
	return uuid.Nil
}
