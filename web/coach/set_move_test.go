package coach_test

import (
	"net/http"
	"net/url"
	"strings"
	"testing"

	"breakwright/internal/store"
	"breakwright/internal/table"
	"breakwright/web/webtest"
)

// A closed set that was begun on the wrong table is put on the right one by the
// coach: the places go with it, and what it says is said anew. A table that was put
// away is refused beside the field.
func TestSetMove_ToTheTableItWasBrokenOn(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	coach, ctx := site.SignInCoach(t), t.Context()
	set := site.RecordBreaks(t, site.StudentActor(0), 10)
	site.CloseSet(t, site.StudentActor(0), set, -20)
	tables := map[string]store.Table{}
	for _, name := range []string{"South", "Put away"} {
		made, err := site.Store.SaveTable(ctx, site.Coach, store.Table{Name: name, Kind: table.SevenFoot()})
		if err != nil {
			t.Fatal(err)
		}
		tables[name] = made
	}
	page := coach.Get(t, "/sets/"+set.String())
	move := page.AttributeOf(t, `a[href$="/move"]`, "href")
	form := coach.Get(t, move).FormValues(t, "main form")
	if form.Get("table") != site.Table.ID.String() {
		t.Errorf("the form begins with %v, not with the set's own table", form)
	}
	if err := site.Store.ArchiveTable(ctx, site.Coach, tables["Put away"].ID); err != nil {
		t.Fatal(err)
	}
	form.Set("table", tables["Put away"].ID.String())
	coach.Post(t, move, form).RequireStatus(t, http.StatusConflict).RequireText(t, "main form", "put away")
	form.Set("table", tables["South"].ID.String())
	coach.Post(t, move, form).RequireStatus(t, http.StatusOK).RequireText(t, ".trail", "South").RequireText(t, "main", "worked out anew").
		RequireText(t, ".breaks li:nth-child(1)", "or carried to another table")
	got, err := site.Store.GetSet(ctx, site.Coach, set)
	if err != nil || got.Table.ID != tables["South"].ID || got.Closed.IsZero() || got.Advice == nil {
		t.Errorf("moved to %s, closed %v, advice %v: %v", got.Table.Name, got.Closed, got.Advice != nil, err)
	}
	for _, b := range got.Breaks {
		if !table.SevenFoot().OnCloth(b.Cue.Place) {
			t.Errorf("break %d is at %s, off the small table", b.Number, b.Cue.Place)
		}
	}
	site.SignInStudent(t, site.Students[0]).Get(t, "/my/sets/"+set.String()).RequireText(t, ".trail", "South")
	coach.Post(t, strings.Replace(move, set.String(), store.NewID[store.SetID]().String(), 1), url.Values{"table": {site.Table.ID.String()}}).RequireStatus(t, http.StatusNotFound)
}
