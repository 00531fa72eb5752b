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
	// did is what was done with it where something was changed; "" for no word but that.
	did string
}

// places lists them; the longest beginning that fits is meant.
var places = []auditedPart{
	{"/", "the program", false, ""},
	{"/account", "their own account", false, ""},
	{"/account/secret", "their own passphrase", false, ""},
	{"/account/sessions", "their own sign-ins", false, "ended"},
	{"/account/step", "their own second step", false, "began"},
	{"/account/step/codes", "their own recovery codes", false, "made anew"},
	{"/account/step/confirm", "their own second step", false, "turned on"},
	{"/account/step/drop", "their own second step", false, "turned off"},
	{"/account/theme", "how their own pages look", false, ""},
	{"/account/units", "the units of their own pages", false, ""},
	{"/assignments", "an assignment", true, ""},
	{"/assignments/{assignment}/end", "an assignment", true, "ended"},
	{"/assignments/{assignment}/resume", "an assignment", true, "resumed"},
	{"/audit", "this log", false, ""},
	{"/calendar.ics", "due days, as a calendar", false, ""},
	{"/classes", "the classes", true, ""},
	{"/classes/{class}", "a class", true, ""},
	{"/classes/{class}/archive", "a class", true, "archived"},
	{"/classes/{class}/codes", "join codes", true, ""},
	{"/classes/{class}/name", "a class", true, "renamed"},
	{"/classes/{class}/restore", "a class", true, "restored"},
	{"/classes/{class}/students", "students of a class", true, "added"},
	{"/club", "the club's page", false, ""},
	{"/club/coaches", "the club's coaches", false, ""},
	{"/club/coaches/{coach}/erase", "a former coach", false, ""},
	{"/club/coaches/{coach}/free", "the sign-in of a coach", false, "freed"},
	{"/club/coaches/{coach}/remove", "a coach", false, "removed"},
	{"/club/coaches/{coach}/restore", "a coach", false, "restored"},
	{"/club/erase", "the club", false, ""},
	{"/club/file", "the page of the club's file", false, ""},
	{"/club/file.zip", "all that the club recorded", true, ""},
	{"/club/invites", "an invitation of a coach", false, "made"},
	{"/club/invites/withdraw", "an invitation of a coach", false, "withdrew"},
	{"/decided", "decided changes", true, ""},
	{"/desk", "the desk", true, ""},
	{"/desk/approve", "several changes of setup", true, "approved"},
	{"/desk/reopen", "several changes of setup", true, "took back"},
	{"/desk/seen", "a line of the desk", true, "noted"},
	{"/drills", "the drills", false, ""},
	{"/drills/{drill}", "a drill", false, ""},
	{"/drills/{drill}/archive", "a drill", false, "archived"},
	{"/drills/{drill}/assign", "a drill", false, "assigned"},
	{"/drills/{drill}/restore", "a drill", false, "restored"},
	{"/export", "break logs", true, ""},
	{"/export/struck", "breaks that were struck", true, ""},
	{"/import", "a break log that came in", true, ""},
	{"/invite", "an invitation of a coach", false, "accepted"},
	{"/jobs", "an export or import", true, ""},
	{"/my", "their own sets", false, ""},
	{"/my/everything", "all that is kept of them", false, ""},
	{"/my/export", "their own break log", false, ""},
	{"/prescriptions", "a change of setup", true, "decided on"},
	{"/prescriptions/{prescription}/reopen", "a decision on a change of setup", true, "took back"},
	{"/records", "exports and imports", true, ""},
	{"/rules", "the adviser's rules", false, ""},
	{"/sets", "a set", true, ""},
	{"/sets/{set}/change", "a change of setup", true, "prescribed"},
	{"/sets/{set}/correct", "a break", true, "put right"},
	{"/sets/{set}/messages", "a message about a set", true, "wrote"},
	{"/sets/{set}/move", "a set", true, "moved"},
	{"/sets/{set}/put-back", "a break", true, "put back"},
	{"/students", "the list of students", true, ""},
	{"/students/change", "several students", true, ""},
	{"/students/changes", "several students", true, ""},
	{"/students/codes", "join codes", true, ""},
	{"/students/message", "a message to several students", true, "wrote"},
	{"/students/{student}", "a student's page", true, ""},
	{"/students/{student}/archive", "a student", true, "archived"},
	{"/students/{student}/cards", "a break card", true, "issued"},
	{"/students/{student}/classes", "a student's classes", true, ""},
	{"/students/{student}/code", "a join code", true, "made"},
	{"/students/{student}/erase", "a student", true, ""},
	{"/students/{student}/everything", "all that is kept of a student", true, ""},
	{"/students/{student}/free", "a student's sign-in", true, "freed"},
	{"/students/{student}/message", "a message to a student", true, "wrote"},
	{"/students/{student}/name", "a student", true, "renamed"},
	{"/students/{student}/note", "a private note", true, ""},
	{"/students/{student}/restore", "a student", true, "restored"},
	{"/students/{student}/side", "a student's break side", true, ""},
	{"/students/{student}/type", "a set from paper", true, "typed"},
	{"/table", "their own phone", false, ""},
	{"/tables", "the tables", false, ""},
	{"/tables/{table}/archive", "a table", false, "archived"},
	{"/tables/{table}/restore", "a table", false, "restored"},
	{"/today", "their own drills", false, ""},
	{"/what-if", "a computed break", false, ""},
	{PlaceOfNewPassphrase, "a coach’s passphrase, by the keeper at the server’s shell", false, "made anew"},
	{PlaceOfNewCoach, "a coach, by the keeper at the server’s shell", false, "added"},
}

// What the keeper does at the server's shell, in the name of a coach.
const (
	PlaceOfNewPassphrase = "breakwright coach"
	PlaceOfNewCoach      = "breakwright coach --beside"
)

// PlaceWords returns what the audit log calls the place of a route.
func PlaceWords(pattern string) string { return findPlace(pattern).words }

// actWords returns what the audit log calls what was done at the place of a route.
func actWords(act store.Act, pattern string) string {
	if did := findPlace(pattern).did; act == store.ActChanged && did != "" {
		return did
	}
	return string(act)
}

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
func FindNote(row route.Route, r *http.Request, user session.User) (store.Note, bool) {
	n := store.Note{Place: row.Pattern, About: findSubject(r)}
	switch {
	case exports[row.Method+" "+row.Pattern]:
		n.Act = store.ActExported
		if user.Role == store.Student {
			n.About = user.Person.UUID
		}
	case user.Role != store.Coach:
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
	for _, name := range []string{"student", "set", "prescription", "class", "drill", "coach"} {
		for _, text := range []string{chi.URLParam(r, name), r.URL.Query().Get(name)} {
			if id, err := uuid.Parse(text); err == nil {
				return id
			}
		}
	}
	return uuid.Nil
}
