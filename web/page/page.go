// Package page holds what every page is made of: the layout, form fields,
// notices and the form that remembers what was typed. It knows nothing of any
// one page.
package page

import (
	"net/http"
	"slices"
	"strings"

	"github.com/a-h/templ"
)

// Head is what the layout needs of a page.
type Head struct {
	Title string
	// NavPath is the path of the navigation entry this page belongs to.
	NavPath string
	// Narrow keeps the page to one short column.
	Narrow bool
	// Scripts and Styles are the page's own, by their name under static/.
	Scripts, Styles []string
}

// forFrame returns the head with what the frame needs.
func (h Head) forFrame(f Frame) Head {
	if f.Erased && !slices.Contains(h.Scripts, "js/phone.js") {
		h.Scripts = append([]string{"js/phone.js"}, h.Scripts...)
	}
	return h
}

// Frame is what stands around a page: who is signed in and what was just done.
type Frame struct {
	Person Person
	Flash  string
	// Undo takes back what Flash says was done; nil where that cannot be.
	Undo *UndoForm
	// Erased says that whoever was signed in on this device was erased: it forgets them.
	Erased bool
	// ErasedPerson is their id; "" when the sign-in was too old to say.
	ErasedPerson string
}

// UndoForm is a form of one button that takes back what was just done.
type UndoForm struct {
	Path string
	// Fields are sent along.
	Fields []HiddenField
	// About says to those who do not see the page what is taken back.
	About string
	// Words are on the button; "" is Undo.
	Words string
}

// HiddenField is a field of a form that nobody sees.
type HiddenField struct{ Name, Value string }

// Person is who is signed in, as the layout shows it. The zero Person is
// nobody.
type Person struct {
	Name, Club string
	Coach      bool
	// Theme is "light" or "dark" by choice, "" for whatever the device has.
	Theme string
}

func (p Person) isStudent() bool { return p.Name != "" && !p.Coach }

// NavLink is an entry of the navigation.
type NavLink struct{ Path, Words string }

// navigationLinks returns the navigation of a person.
func (p Person) navigationLinks() []NavLink {
	switch {
	case p.Name == "":
		return nil
	case p.Coach:
		return []NavLink{{"/desk", "Desk"}, {"/students", "Students"}, {"/classes", "Classes"}, {"/drills", "Drills"}, {"/what-if", "What if"}, {"/tables", "Tables"}, {"/rules", "Rules"}}
	}
	return []NavLink{{"/today", "Today"}, {"/my/sets", "My breaks"}, {"/my/progress", "My progress"}}
}

// Render writes a page with a status. Pages depend on who asks, so no shared
// cache may keep them; htmx gets parts of pages at the same addresses.
func Render(w http.ResponseWriter, r *http.Request, status int, content templ.Component) error {
	h := w.Header()
	h.Set("Content-Type", "text/html; charset=utf-8")
	h.Set("Cache-Control", "no-store")
	h.Add("Vary", "HX-Request")
	w.WriteHeader(status)
	return content.Render(r.Context(), w)
}

// IsPartial reports whether htmx asks for a part of a page rather than all of it.
func IsPartial(r *http.Request) bool {
	return r.Header.Get("HX-Request") == "true" && r.Header.Get("HX-History-Restore-Request") != "true"
}

// WantsJSON reports whether a script asks that reads no pages.
func WantsJSON(r *http.Request) bool {
	return strings.HasPrefix(r.Header.Get("Content-Type"), "application/json") || strings.HasPrefix(r.Header.Get("Accept"), "application/json")
}

// Redirect sends the browser on after a write, so that reloading repeats nothing.
func Redirect(w http.ResponseWriter, r *http.Request, path string) error {
	if IsPartial(r) {
		w.Header().Set("HX-Location", path)
		w.WriteHeader(http.StatusNoContent)
		return nil
	}
	http.Redirect(w, r, path, http.StatusSeeOther)
	return nil
}
