package roster

import (
	"errors"
	"fmt"
	"net/http"

	"breakwright/internal/say"
	"breakwright/internal/store"
	"breakwright/web/component"
	"breakwright/web/page"
	"breakwright/web/picture"
	"breakwright/web/route"
	"breakwright/web/session"
)

// tableView is the page of one table.
type tableView struct {
	Frame    page.Frame
	Path     string
	Label    string
	Archived bool
	Kind     string
	// Small says what a small table is to the adviser; "" for a usual one.
	Small   string
	Picture picture.TableView
	Form    *page.Form
}

func (ro *Pages) showTable(w http.ResponseWriter, r *http.Request) error {
	t, err := ro.findTable(r)
	if err != nil {
		return err
	}
	return ro.renderTable(w, r, http.StatusOK, t, fillTableForm(t, say.UnitsOf(r.Context())))
}

func (ro *Pages) renderTable(w http.ResponseWriter, r *http.Request, status int, t store.Table, form *page.Form) error {
	return page.Render(w, r, status, tablePage(tableView{
		Frame: ro.Sessions.TakeFrame(w, r), Path: route.TablePath(t.ID), Label: t.Label(), Archived: t.Archived, Kind: component.KindWithMouths(t.Kind, say.UnitsOf(r.Context())),
		Small:   component.SmallTableWords(t.Kind, say.UnitsOf(r.Context())),
		Picture: picture.TableView{ID: "table", Kind: kindFromForm(form, t.Kind), Title: t.Label()}, Form: form,
	}))
}

func (ro *Pages) changeTable(w http.ResponseWriter, r *http.Request) error {
	t, form, err := page.ReadFormOf(w, r, ro.findTable)
	if err != nil {
		return err
	}
	if t.Archived {
		return fmt.Errorf("change an archived table: %w", store.ErrConflict)
	}
	wanted := readTable(form, t.Kind)
	wanted.ID = t.ID
	now := wanted
	if form.IsValid() {
		now, err = ro.Store.SaveTable(r.Context(), session.MustUser(r).Actor, wanted)
		err = rejectTakenName(form, wanted, err)
	}
	if form.AddProblems(err); !form.IsValid() {
		return ro.renderTable(w, r, http.StatusUnprocessableEntity, t, form)
	}
	if err != nil {
		return err
	}
	says := wanted.Label() + " changed."
	if now.ID != t.ID {
		says = "Saved. Breaks made before stay with the table as it was, now among the archived ones: records of different tables do not mix."
	}
	ro.Sessions.SetFlash(w, r, says)
	return page.Redirect(w, r, "/tables")
}

// rejectTakenName turns the store's refusal of a name that is taken into a
// sentence beside the name.
func rejectTakenName(form *page.Form, wanted store.Table, err error) error {
	if !errors.Is(err, store.ErrConflict) {
		return err
	}
	where := "without a place"
	if wanted.Venue != "" {
		where = "at " + wanted.Venue
	}
	form.Reject(fieldName, "there is a table "+wanted.Name+" "+where+" already; choose another name or another place")
	return nil
}

func (ro *Pages) confirmArchiveTable(w http.ResponseWriter, r *http.Request) error {
	t, err := ro.findTable(r)
	if err != nil {
		return err
	}
	return ro.renderConfirm(w, r, confirmView{
		Here: "/tables", Title: "Archive " + t.Label() + "?",
		Says: []string{
			"Students can no longer choose this table. Every set that was broken on it stays, and a set under way can be finished.",
			"You can restore it from the archived ones at any time, unless another table has its name by then.",
		},
		Do: "Archive the table", Back: route.TablePath(t.ID),
	})
}

func (ro *Pages) archiveTable(w http.ResponseWriter, r *http.Request) error {
	t, err := ro.findTable(r)
	if err != nil {
		return err
	}
	if err := ro.Store.ArchiveTable(r.Context(), session.MustUser(r).Actor, t.ID); err != nil {
		return err
	}
	ro.Sessions.SetFlashWithUndo(w, r, t.Label()+" is archived.", &page.UndoForm{Path: route.TablePath(t.ID) + "/restore", About: "the archiving of " + t.Label()})
	return page.Redirect(w, r, "/tables")
}

// restoreTable goes back to the table's page; where its name is taken, that is
// said there.
func (ro *Pages) restoreTable(w http.ResponseWriter, r *http.Request) error {
	t, err := ro.findTable(r)
	if err != nil {
		return err
	}
	says := t.Label() + " is back: students can choose it again."
	err = ro.Store.RestoreTable(r.Context(), session.MustUser(r).Actor, t.ID)
	if errors.Is(err, store.ErrConflict) {
		says, err = "There is another table "+t.Label()+" now, so this one stays in the archive. Give the other one a name of its own first.", nil
	}
	if err != nil {
		return err
	}
	ro.Sessions.SetFlash(w, r, says)
	return page.Redirect(w, r, route.TablePath(t.ID))
}
