package student_test

import (
	"errors"
	"net/http"
	"strings"
	"testing"

	"breakwright/internal/store"
	"breakwright/internal/table"
)

// Without a script too a set begun by mistake is put away while it is empty, one on the
// wrong table is moved, and one that is not full is closed only from where its missing
// breaks are counted.
func TestOpenSet_AsAWholeWithoutScript(t *testing.T) {
	t.Parallel()
	l := startRecording(t, 0)
	south, err := l.site.Store.SaveTable(t.Context(), l.site.Coach, store.Table{Name: "South", Kind: table.SevenFoot()})
	if err != nil {
		t.Fatal(err)
	}
	whole := func() string { return l.student.Get(t, l.set).AttributeOf(t, `a[href$="?review"]`, "href") }
	l.student.Get(t, whole()).RequireText(t, "h1", "0 of 10").RequireCount(t, "form[action$=close]", 0)

	l.student.Post(t, l.set+"/discard", nil).RequireStatus(t, http.StatusOK).RequireText(t, "main", "put away", "Your drills")
	id, err := store.ParseID[store.SetID](strings.TrimPrefix(l.set, "/my/sets/"))
	if err != nil {
		t.Fatal(err)
	}
	if _, err := l.site.Store.GetSet(t.Context(), l.site.Coach, id); !errors.Is(err, store.ErrNotFound) {
		t.Errorf("the set that was put away: %v", err)
	}

	l.start(t)
	l.record(t, nil, 1)
	page := l.student.Get(t, whole()).RequireCount(t, "#discard", 0).RequireText(t, "main", "9 breaks are missing", "Close it early")
	l.student.Post(t, l.set+"/discard", nil).RequireStatus(t, http.StatusOK).RequireText(t, "main", "has breaks: close it instead")
	move := page.AttributeOf(t, `a[href$="/move"]`, "href")
	form := l.student.Get(t, move).FormValues(t, "main form")
	form.Set("table", south.ID.String())
	l.student.Post(t, move, form).RequireStatus(t, http.StatusOK).RequireText(t, ".trail", "South").RequireText(t, "h1", "1 of 10")
	if set := l.stored(t); set.Table.ID != south.ID || len(set.Breaks) != 1 || !table.SevenFoot().OnCloth(set.Breaks[0].Cue.Place) {
		t.Errorf("moved to %s with %+v", set.Table.Name, set.Breaks)
	}
	l.student.Post(t, l.set+"/close", nil).RequireText(t, "main", "not full yet")
	if set := l.stored(t); !set.Closed.IsZero() {
		t.Error("closed without being asked")
	}
	l.student.Post(t, l.set+"/close", page.FormValues(t, "form[action$=close]")).RequireText(t, "h1", "What your one break says")
	l.student.Post(t, move, form).RequireStatus(t, http.StatusConflict).RequireText(t, "main form", "ask your coach")
}
