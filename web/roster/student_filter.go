package roster

import (
	"strings"
	"time"

	"breakwright/internal/store"
	"breakwright/web/page"
)

// Fields of the form around the list of all students.
const (
	fieldSearch   = "q"
	fieldShow     = "show"
	fieldClass    = "class"
	fieldStudents = "students"
	fieldStudent  = "student"
	fieldAll      = "all"
	fieldInto     = "into"
	fieldDrill    = "drill"
	fieldDo       = "do"
	fieldChanged  = "changed"
)

// silentAfter is how long a student who has broken before may be without a set.
const silentAfter = 14 * 24 * time.Hour

// studentFilter is what a list of students is narrowed to; the zero filter shows
// all who are not archived.
type studentFilter struct {
	Search string
	Show   string // one of showOptions
	Class  string // an id, "none" or ""
}

// The values of the field "show".
const (
	showArchived  = "archived"
	showNotJoined = "not joined"
	showSilent    = "silent"
	showNoSide    = "no side"
	noClass       = "none"
)

func showOptions() []page.Option {
	return []page.Option{
		{Value: "", Words: "All"}, {Value: showNotJoined, Words: "Not joined yet"}, {Value: showSilent, Words: "Silent for two weeks"},
		{Value: showNoSide, Words: "Break side not known"}, {Value: showArchived, Words: "Archived"},
	}
}

func classFilterOptions(classes []page.Option) []page.Option {
	return append([]page.Option{{Value: "", Words: "Every class"}, {Value: noClass, Words: "In no class"}}, classes...)
}

func readStudentFilter(form *page.Form) studentFilter {
	return studentFilter{Search: form.Text(fieldSearch), Show: form.Text(fieldShow), Class: form.Text(fieldClass)}
}

// includes reports whether a student is among those asked for.
func (f studentFilter) includes(s store.RosterStudent, now time.Time) bool {
	return f.showsState(s, now) && f.showsClass(s) && (matchesName(s.Name, f.Search) || matchesCode(s.Code, f.Search))
}

func (f studentFilter) showsState(s store.RosterStudent, now time.Time) bool {
	if s.Archived {
		return f.Show == showArchived
	}
	switch f.Show {
	case showArchived:
		return false
	case showNotJoined:
		return !s.HasSecret
	case showSilent:
		return isSilent(s, now)
	case showNoSide:
		return s.Side == ""
	}
	return true
}

func (f studentFilter) showsClass(s store.RosterStudent) bool {
	if f.Class == "" || f.Class == noClass {
		return f.Class == "" || len(s.Classes) == 0
	}
	id, err := store.ParseID[store.ClassID](f.Class)
	return err == nil && s.IsIn(id)
}

// isSilent reports whether a student who broke, or could have, has not for two
// weeks: since the last set, or since they were added.
func isSilent(s store.RosterStudent, now time.Time) bool {
	last := s.LastSet
	if last.IsZero() {
		last = s.Joined
	}
	return now.Sub(last) > silentAfter
}

// matchesCode finds a student by the code on a lost sheet, written with or
// without its gap.
func matchesCode(code, typed string) bool {
	typed = strings.ToUpper(strings.NewReplacer(" ", "", "-", "").Replace(typed))
	return len(typed) >= 4 && strings.HasPrefix(code, typed)
}
