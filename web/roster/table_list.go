package roster

import (
	"net/http"

	"breakwright/internal/say"
	"breakwright/internal/store"
	"breakwright/internal/table"
	"breakwright/web/component"
	"breakwright/web/page"
	"breakwright/web/picture"
	"breakwright/web/route"
	"breakwright/web/session"
)

// tablesView is the page of the club's tables.
type tablesView struct {
	Frame          page.Frame
	Live, Archived []tableListLine
	Form           *page.Form
}

type tableListLine struct {
	Path, Name, Venue, Kind string
	Picture                 picture.TableView
}

func (v tablesView) headline() string {
	if len(v.Live) == 0 {
		return "No table yet. Add the one you teach on; students choose it when they break."
	}
	return say.Capitalize(say.CountOrNo(len(v.Live), "table", "tables")) + " to break on."
}

func (ro *Pages) listTables(w http.ResponseWriter, r *http.Request) error {
	return ro.renderTables(w, r, http.StatusOK, fillTableForm(store.Table{Kind: table.NineFoot()}, say.UnitsOf(r.Context())))
}

func (ro *Pages) renderTables(w http.ResponseWriter, r *http.Request, status int, form *page.Form) error {
	tables, err := ro.Store.ListTables(r.Context(), session.MustUser(r).Actor, store.WithArchived)
	if err != nil {
		return err
	}
	v := tablesView{Frame: ro.Sessions.TakeFrame(w, r), Form: form}
	for _, t := range tables {
		line := tableListLine{
			Path: route.TablePath(t.ID), Name: t.Name, Venue: t.Venue, Kind: component.KindWithMouths(t.Kind, say.UnitsOf(r.Context())),
			Picture: picture.TableView{ID: "table-" + t.ID.String(), Kind: t.Kind},
		}
		if t.Archived {
			v.Archived = append(v.Archived, line)
		} else {
			v.Live = append(v.Live, line)
		}
	}
	return page.Render(w, r, status, tablesPage(v))
}

func (ro *Pages) addTable(w http.ResponseWriter, r *http.Request) error {
	form, err := page.ReadForm(w, r)
	if err != nil {
		return err
	}
	wanted := readTable(form, table.Kind{}) // filled with no numbers
	wanted.ID = store.TableID{UUID: idFromForm(form, wanted.Name, wanted.Venue, wanted.Kind.String())}
	if form.IsValid() {
		err = rejectTakenName(form, wanted, ro.saveNewTable(r, wanted))
	}
	if form.AddProblems(err); !form.IsValid() {
		return ro.renderTables(w, r, http.StatusUnprocessableEntity, form)
	}
	if err != nil {
		return err
	}
	ro.Sessions.SetFlash(w, r, wanted.Label()+" added.")
	return page.Redirect(w, r, "/tables")
}

// saveNewTable makes the table, unless this form made it before: it may have
// been changed since.
func (ro *Pages) saveNewTable(r *http.Request, wanted store.Table) error {
	actor := session.MustUser(r).Actor
	_, err := ro.Store.GetTable(r.Context(), actor, wanted.ID)
	if isNotFound(err) {
		_, err = ro.Store.SaveTable(r.Context(), actor, wanted)
	}
	return err
}
