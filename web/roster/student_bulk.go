package roster

import (
	"net/http"
	"net/url"
	"slices"

	"github.com/go-chi/chi/v5"
	"github.com/google/uuid"

	"breakwright/internal/store"
	"breakwright/internal/table"
	"breakwright/web/component"
	"breakwright/web/page"
	"breakwright/web/route"
	"breakwright/web/session"
)

// changeNotice says what was done to many students, and takes it back.
type changeNotice struct {
	Says string
	Undo string // the address that takes it back; "" when that was done
	Back string // the list as it was looked at
}

// bulkChanges are what the buttons do.
var bulkChanges = map[string]store.RosterChange{
	"left":    {Kind: store.SetSides, Side: table.Left},
	"right":   {Kind: store.SetSides, Side: table.Right},
	"no side": {Kind: store.SetSides},
	"add":     {Kind: store.AddToClass},
	"remove":  {Kind: store.RemoveFromClass},
	"archive": {Kind: store.ArchiveMany},
	"restore": {Kind: store.RestoreMany},
}

// changeStudents does one thing to all who are ticked, or to all who are shown.
func (ro *Pages) changeStudents(w http.ResponseWriter, r *http.Request) error {
	form, err := page.ReadForm(w, r)
	if err != nil {
		return err
	}
	change, known := bulkChanges[form.Text(fieldDo)]
	if !known {
		return store.ErrNotFound
	}
	students, err := ro.chosenStudents(r, form)
	if err != nil {
		return err
	}
	rejectUnchosen(form, len(students))
	if change.Kind == store.AddToClass || change.Kind == store.RemoveFromClass {
		if change.Class, err = readChosenClass(form); err != nil {
			return err
		}
	}
	if !form.IsValid() {
		return ro.renderStudents(w, r, http.StatusUnprocessableEntity, form)
	}
	words := []string{form.Text(fieldDo), change.Class.String()}
	for _, id := range students {
		words = append(words, id.String())
	}
	change.ID = store.RosterChangeID{UUID: idFromForm(form, words...)}
	if change, err = ro.Store.ChangeStudents(r.Context(), session.MustUser(r).Actor, change, students); err != nil {
		return err
	}
	return page.Redirect(w, r, studentsPath(form, url.Values{fieldChanged: {change.ID.String()}}))
}

func rejectUnchosen(form *page.Form, chosen int) {
	if chosen == 0 {
		form.Reject(fieldStudents, "tick the students first, or all who are shown")
	}
}

func readChosenClass(form *page.Form) (store.ClassID, error) {
	if form.Text(fieldInto) == "" {
		form.Reject(fieldInto, "choose the class")
		return store.ClassID{}, nil
	}
	return store.ParseID[store.ClassID](form.Text(fieldInto))
}

// chosenStudents are those who are ticked, and all who are shown when that was
// asked for.
func (ro *Pages) chosenStudents(r *http.Request, form *page.Form) ([]store.PersonID, error) {
	var chosen []store.PersonID
	for _, ticked := range form.Values[fieldStudents] {
		id, err := store.ParseID[store.PersonID](ticked)
		if err != nil {
			return nil, err
		}
		if !slices.Contains(chosen, id) {
			chosen = append(chosen, id)
		}
	}
	if !form.Has(fieldAll) {
		return chosen, nil
	}
	all, err := ro.Store.ListRoster(r.Context(), session.MustUser(r).Actor)
	filter := readStudentFilter(form)
	for _, s := range all {
		if filter.includes(s, ro.Now()) && !slices.Contains(chosen, s.ID) {
			chosen = append(chosen, s.ID)
		}
	}
	return chosen, err
}

func undoChangePath(id store.RosterChangeID) string {
	return "/students/changes/" + id.String() + "/undo"
}

// undoChange takes a change back and returns to the page of the student or class that it
// was made from, or to the list as it was looked at.
func (ro *Pages) undoChange(w http.ResponseWriter, r *http.Request) error {
	id, err := store.ParseID[store.RosterChangeID](chi.URLParam(r, "change"))
	if err != nil {
		return err
	}
	form, err := page.ReadForm(w, r)
	if err != nil {
		return err
	}
	change, err := ro.Store.UndoRosterChange(r.Context(), session.MustUser(r).Actor, id)
	if err != nil {
		return err
	}
	if path := changedFrom(form); path != "" {
		ro.Sessions.SetFlash(w, r, component.RosterChangeWords(change))
		return page.Redirect(w, r, path)
	}
	back, err := url.ParseQuery(form.Text("back"))
	if err != nil {
		back = nil
	}
	return page.Redirect(w, r, studentsPath(&page.Form{Values: back}, url.Values{fieldChanged: {id.String()}}))
}

// changedFrom is the page of the student or class from which the change of one was made;
// "" for one made in the list.
func changedFrom(form *page.Form) string {
	if student, err := store.ParseID[store.PersonID](form.Text(fieldStudent)); err == nil {
		return route.StudentPath(student)
	}
	if class, err := store.ParseID[store.ClassID](form.Text(fieldClass)); err == nil {
		return route.ClassPath(class)
	}
	return ""
}

// findChangeNotice says what the change in the address was; nil when there is none.
func (ro *Pages) findChangeNotice(r *http.Request, form *page.Form) (*changeNotice, error) {
	id, err := uuid.Parse(form.Text(fieldChanged))
	if err != nil {
		return nil, nil
	}
	change, err := ro.Store.GetRosterChange(r.Context(), session.MustUser(r).Actor, store.RosterChangeID{UUID: id})
	if isNotFound(err) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	notice := changeNotice{Says: component.RosterChangeWords(change)}
	if !change.Undone && change.Students > 0 {
		notice.Undo = undoChangePath(change.ID)
		if at, err := url.Parse(studentsPath(form, nil)); err == nil {
			notice.Back = at.RawQuery
		}
	}
	return &notice, nil
}

// chooseStudentsDrill leads on to the chosen drill's page of assigning, with the
// students ticked there.
func (ro *Pages) chooseStudentsDrill(w http.ResponseWriter, r *http.Request) error {
	form := &page.Form{Values: r.URL.Query()}
	students, err := ro.chosenStudents(r, form)
	if err != nil {
		return err
	}
	rejectUnchosen(form, len(students))
	if form.Text(fieldDrill) == "" {
		form.Reject(fieldDrill, "choose the drill")
	}
	if !form.IsValid() {
		return ro.renderStudents(w, r, http.StatusUnprocessableEntity, form)
	}
	id, err := store.ParseID[store.DrillID](form.Text(fieldDrill))
	if err != nil {
		return err
	}
	ticked := url.Values{}
	for _, student := range students {
		ticked.Add(fieldStudents, student.String())
	}
	return page.Redirect(w, r, route.DrillPath(id)+"/assign?"+ticked.Encode())
}
