package roster

import (
	"net/http"

	"breakwright/internal/drill"
	"breakwright/internal/say"
	"breakwright/internal/store"
	"breakwright/web/page"
	"breakwright/web/route"
	"breakwright/web/session"
)

// classesView is the page of all classes.
type classesView struct {
	Frame          page.Frame
	Live, Archived []classListLine
	Form           *page.Form
}

type classListLine struct{ Path, ID, Name, Students string }

func (v classesView) headline() string {
	switch n := len(v.Live); n {
	case 0:
		return "No class yet. Make the first one, then paste the names of its students."
	default:
		return say.CountOrNo(n, "class", "classes") + " to teach."
	}
}

func (ro *Pages) listClasses(w http.ResponseWriter, r *http.Request) error {
	return ro.renderClasses(w, r, http.StatusOK, newFormWithID())
}

func (ro *Pages) renderClasses(w http.ResponseWriter, r *http.Request, status int, form *page.Form) error {
	classes, err := ro.Store.ListClasses(r.Context(), session.MustUser(r).Actor, store.WithArchived)
	if err != nil {
		return err
	}
	v := classesView{Frame: ro.Sessions.TakeFrame(w, r), Form: form}
	for _, c := range classes {
		line := classListLine{Path: route.ClassPath(c.ID), Name: c.Name, Students: countStudents(c.Students)}
		if c.Archived {
			v.Archived = append(v.Archived, line)
		} else {
			v.Live = append(v.Live, line)
		}
	}
	return page.Render(w, r, status, classesPage(v))
}

func (ro *Pages) addClass(w http.ResponseWriter, r *http.Request) error {
	form, err := page.ReadForm(w, r)
	if err != nil {
		return err
	}
	name := form.Text("name")
	if says := drill.CheckName(name); says != "" {
		form.Reject("name", says)
		return ro.renderClasses(w, r, http.StatusUnprocessableEntity, form)
	}
	class := store.Class{ID: store.ClassID{UUID: idFromForm(form, name)}, Name: name}
	if err := ro.saveNewClass(r, class); err != nil {
		return err
	}
	ro.Sessions.SetFlash(w, r, "Class made. Now add its students.")
	return page.Redirect(w, r, route.ClassPath(class.ID))
}

// saveNewClass makes the class, unless this form made it before: its name may
// have been changed since.
func (ro *Pages) saveNewClass(r *http.Request, class store.Class) error {
	actor := session.MustUser(r).Actor
	_, _, err := ro.Store.GetClass(r.Context(), actor, class.ID)
	if isNotFound(err) {
		_, err = ro.Store.SaveClass(r.Context(), actor, class)
	}
	return err
}
