// Package roster holds the coach's pages for people and tables: classes and
// who is in them, the sheet of join codes, one student, and the tables that are
// played on.
//
// It judges no breaks and changes no drill; from a student's records it only
// counts. Lengths are typed in the units that the club chose, days are those of its zone.
//
// A form that makes something carries an id made with the page, so that sending
// it twice makes it once; see idFromForm.
package roster

import (
	"net/http"
	"strings"
	"time"

	"github.com/go-chi/chi/v5"

	"breakwright/internal/store"
	"breakwright/web/page"
	"breakwright/web/route"
	"breakwright/web/session"
)

// Pages is what these pages need.
type Pages struct {
	Store    *store.Store
	Sessions *session.Manager
	// URL is the public address that join codes lead to; no slash at its end.
	URL string
	// PhoneURLs are where phones in the room's network would find this machine.
	PhoneURLs []string
	// Now is the clock that "silent for two weeks" goes by.
	Now func() time.Time
}

// New makes the roster; url is the public address of the whole site, phoneURLs where
// phones in the room's network would find the machine.
func New(s *store.Store, sessions *session.Manager, url string, phoneURLs []string) *Pages {
	return &Pages{Store: s, Sessions: sessions, URL: strings.TrimRight(url, "/"), PhoneURLs: phoneURLs, Now: time.Now}
}

// Routes are the roster's rows of the route table.
func (ro *Pages) Routes() []route.Route {
	return []route.Route{
		route.Get("/classes", route.Coach, ro.listClasses),
		route.Post("/classes", route.Coach, ro.addClass),
		route.Get("/classes/{class}", route.Coach, ro.showClass),
		route.Post("/classes/{class}/name", route.Coach, ro.renameClass),
		route.Post("/classes/{class}/students", route.Coach, ro.addStudents),
		route.Get("/classes/{class}/codes", route.Coach, ro.showJoinCodes),
		route.Get("/classes/{class}/archive", route.Coach, ro.confirmArchiveClass),
		route.Post("/classes/{class}/archive", route.Coach, ro.archiveClass),
		route.Post("/classes/{class}/restore", route.Coach, ro.restoreClass),

		route.Get("/students", route.Coach, ro.listStudents),
		route.Post("/students/change", route.Coach, ro.changeStudents),
		route.Post("/students/changes/{change}/undo", route.Coach, ro.undoChange),
		route.Post("/students/message", route.Coach, ro.messageStudents),
		route.Get("/students/codes", route.Coach, ro.showStudentCodes),
		route.Get("/students/assign", route.Coach, ro.chooseStudentsDrill),

		route.Get("/students/{student}", route.Coach, ro.showStudent),
		route.Post("/students/{student}/message", route.Coach, ro.messageStudent),
		route.Post("/students/{student}/note", route.Coach, ro.saveNote),
		route.Post("/students/{student}/name", route.Coach, ro.renameStudent),
		route.Post("/students/{student}/side", route.Coach, ro.setBreakSide),
		route.Post("/students/{student}/classes", route.Coach, ro.changeClasses),
		route.Get("/students/{student}/code", route.Coach, ro.confirmNewCode),
		route.Post("/students/{student}/code", route.Coach, ro.replaceCode),
		route.Get("/students/{student}/archive", route.Coach, ro.confirmArchiveStudent),
		route.Post("/students/{student}/archive", route.Coach, ro.archiveStudent),
		route.Post("/students/{student}/restore", route.Coach, ro.restoreStudent),

		route.Get("/tables", route.Coach, ro.listTables),
		route.Post("/tables", route.Coach, ro.addTable),
		route.Get("/tables/{table}", route.Coach, ro.showTable),
		route.Post("/tables/{table}", route.Coach, ro.changeTable),
		route.Get("/tables/{table}/archive", route.Coach, ro.confirmArchiveTable),
		route.Post("/tables/{table}/archive", route.Coach, ro.archiveTable),
		route.Post("/tables/{table}/restore", route.Coach, ro.restoreTable),
	}
}

// findStudent returns the student that the address names.
func (ro *Pages) findStudent(r *http.Request) (store.Person, error) {
	return session.FindStudent(r, ro.Store)
}

// readStudentForm returns the student that the address names and what was sent of them.
func (ro *Pages) readStudentForm(w http.ResponseWriter, r *http.Request) (store.Person, *page.Form, error) {
	return page.ReadFormOf(w, r, ro.findStudent)
}

// findClass returns the class that the address names, and its students.
func (ro *Pages) findClass(r *http.Request) (store.Class, []store.Person, error) {
	id, err := store.ParseID[store.ClassID](chi.URLParam(r, "class"))
	if err != nil {
		return store.Class{}, nil, err
	}
	return ro.Store.GetClass(r.Context(), session.MustUser(r).Actor, id)
}

// findTable returns the table that the address names.
func (ro *Pages) findTable(r *http.Request) (store.Table, error) {
	return session.FindNamed(r, "table", ro.Store.GetTable)
}

// The addresses of the things shown here.
