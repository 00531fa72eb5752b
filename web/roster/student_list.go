package roster

import (
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"strings"
	"time"

	"breakwright/internal/account"
	"breakwright/internal/say"
	"breakwright/internal/store"
	"breakwright/web/page"
	"breakwright/web/route"
	"breakwright/web/session"
)

// studentsView is the page of all students.
type studentsView struct {
	Frame   page.Frame
	Filter  studentFilter
	Form    *page.Form
	Lines   []rosterLine
	Total   int  // students who are not archived
	Empty   bool // the club has no student, archived or not
	Classes []page.Option
	Drills  []page.Option
	// Change is what was just done to many, nil for nothing.
	Change *changeNotice
}

// rosterLine is one student in the list of all.
type rosterLine struct {
	ID, Path, Name string
	Side           string
	Classes        []classListLine
	State          string
	Ticked         bool
}

// listStudents shows all students that the address asks for. It is the answer
// to every key typed into the search, too: then it is the list alone.
func (ro *Pages) listStudents(w http.ResponseWriter, r *http.Request) error {
	return ro.renderStudents(w, r, http.StatusOK, &page.Form{Values: r.URL.Query()})
}

func (ro *Pages) renderStudents(w http.ResponseWriter, r *http.Request, status int, form *page.Form) error {
	v, err := ro.loadStudents(r, form)
	if err != nil {
		return err
	}
	if page.IsPartial(r) {
		return page.Render(w, r, status, foundStudents(v))
	}
	if err := ro.loadStudentActions(r, &v); err != nil {
		return err
	}
	v.Frame = ro.Sessions.TakeFrame(w, r)
	return page.Render(w, r, status, studentsPage(v))
}

// loadStudents finds who is shown; form is the filter and the ticks, as sent.
func (ro *Pages) loadStudents(r *http.Request, form *page.Form) (studentsView, error) {
	coach := session.MustUser(r)
	v := studentsView{Form: form, Filter: readStudentFilter(form)}
	classes, err := ro.Store.ListClasses(r.Context(), coach.Actor, store.ActiveOnly)
	if err != nil {
		return v, err
	}
	all, err := ro.Store.ListRoster(r.Context(), coach.Actor)
	if err != nil {
		return v, err
	}
	v.Empty = len(all) == 0
	byID := map[store.ClassID]classListLine{}
	for _, c := range classes {
		byID[c.ID] = classListLine{Path: route.ClassPath(c.ID), Name: c.Name}
		v.Classes = append(v.Classes, page.Option{Value: c.ID.String(), Words: c.Name})
	}
	now := ro.Now()
	for _, s := range all {
		if !s.Archived {
			v.Total++
		}
		ticked := slices.Contains(form.Values[fieldStudents], s.ID.String())
		if ticked || v.Filter.includes(s, now) {
			line := newRosterLine(s, byID, now, coach.Zone)
			line.Ticked = ticked
			v.Lines = append(v.Lines, line)
		}
	}
	// Who is ticked stays in sight whatever is looked for next.
	slices.SortStableFunc(v.Lines, func(a, b rosterLine) int {
		if a.Ticked == b.Ticked {
			return 0
		} else if a.Ticked {
			return -1
		}
		return 1
	})
	return v, nil
}

// loadStudentActions adds what stands around the list.
func (ro *Pages) loadStudentActions(r *http.Request, v *studentsView) error {
	coach := session.MustUser(r).Actor
	drills, err := ro.Store.ListDrills(r.Context(), coach, store.ActiveOnly)
	if err != nil {
		return err
	}
	for _, d := range drills {
		v.Drills = append(v.Drills, page.Option{Value: d.ID.String(), Words: d.Name})
	}
	v.Change, err = ro.findChangeNotice(r, v.Form)
	return err
}

func newRosterLine(s store.RosterStudent, classes map[store.ClassID]classListLine, now time.Time, zone *time.Location) rosterLine {
	line := rosterLine{ID: s.ID.String(), Path: route.StudentPath(s.ID), Name: s.Name, Side: string(s.Side), State: rosterState(s, now, zone)}
	if s.Side == "" {
		line.Side = "side not known"
	}
	for _, id := range s.Classes {
		if c, known := classes[id]; known {
			line.Classes = append(line.Classes, c)
		}
	}
	return line
}

// rosterState says in a word or two where a student is.
func rosterState(s store.RosterStudent, now time.Time, zone *time.Location) string {
	switch {
	case s.Archived:
		return "archived"
	case !s.LastSet.IsZero() && isSilent(s, now):
		return "silent since " + say.DayOfYear(s.LastSet.In(zone))
	case !s.LastSet.IsZero():
		return "last set " + say.DayOfYear(s.LastSet.In(zone))
	case s.HasSecret:
		return "joined, no set yet"
	case s.Code == "":
		return "not joined, no code"
	}
	return "not joined, code " + account.FormatCode(s.Code)
}

// allShownWords name the box that ticks every student shown.
func (v studentsView) allShownWords() string {
	if len(v.Lines) == 1 {
		return "The one shown"
	}
	return "All " + strconv.Itoa(len(v.Lines)) + " shown"
}

func (v studentsView) headline() string {
	shown := len(v.Lines)
	switch {
	case v.Empty:
		return "No students yet. Make a class and paste their names."
	case v.Filter == studentFilter{}:
		return say.Capitalize(countStudents(v.Total)) + "."
	case shown == 0:
		return "Nobody is found so."
	case v.Filter.Show == showArchived:
		return say.Capitalize(say.Count(shown, "archived student", "archived students")) + "."
	}
	return strconv.Itoa(shown) + " of " + countStudents(v.Total) + "."
}

// archivedPath looks for the same among the archived; "" where that is done already, or
// nothing was typed.
func (v studentsView) archivedPath() string {
	if v.Filter.Show == showArchived || v.Filter.Search == "" {
		return ""
	}
	return studentsPath(v.Form, url.Values{fieldShow: {showArchived}})
}

// matches reports whether every word typed begins a word of the name.
func matchesName(name, typed string) bool {
	parts := strings.FieldsFunc(foldName(name), func(r rune) bool { return r == ' ' || r == '-' || r == ',' })
	for _, word := range strings.Fields(strings.ToLower(typed)) {
		if !slices.ContainsFunc(parts, func(part string) bool { return strings.HasPrefix(part, word) }) && !strings.HasPrefix(foldName(name), word) {
			return false
		}
	}
	return true
}

// studentsPath is the list as it was looked at, with something added.
func studentsPath(form *page.Form, add url.Values) string {
	q := url.Values{}
	for _, name := range []string{fieldSearch, fieldShow, fieldClass} {
		if form.Has(name) && form.Text(name) != "" {
			q.Set(name, form.Text(name))
		}
	}
	for name, values := range add {
		q[name] = values
	}
	if len(q) == 0 {
		return "/students"
	}
	return "/students?" + q.Encode()
}
