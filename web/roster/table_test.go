package roster_test

import (
	"net/http"
	"strings"
	"testing"

	"breakwright/internal/store"
	"breakwright/internal/table"
)

// tables are the club's tables that are in use.
func (s *site) tables(t *testing.T, which store.ArchiveFilter) []store.Table {
	t.Helper()
	all, err := s.Store.ListTables(t.Context(), s.Coach, which)
	if err != nil {
		t.Fatal(err)
	}
	return all
}

func TestTableIsAdded(t *testing.T) {
	s := newSite(t)
	form := s.get(t, "/tables").FormValues(t, "form[action='/tables']")
	if form.Get("pockets") != "standard" || form.Get("corner") != "" || form.Get("feet") != "9" {
		t.Errorf("the form begins with %v", form)
	}
	form.Set("name", "Table 3")
	form.Set("venue", "The Anchor")
	form.Set("feet", "7")
	form.Set("corner", "4,25")
	form.Set("side", "")
	for range 2 {
		got := s.post(t, "/tables", form).RequireStatus(t, http.StatusOK).RequireText(t, ".notice.good", "The Anchor, Table 3 added.")
		got.RequireText(t, ".tables", "7 ft, corners 4.25 in, sides 5 in").RequireCount(t, ".tables .thumb svg", 2)
	}
	all := s.tables(t, store.WithArchived)
	want := table.Kind{Feet: 7, CornerMouth: 4.25, SideMouth: table.StandardSideMouth}
	if len(all) != 2 || all[1].Kind != want || all[1].Venue != "The Anchor" {
		t.Errorf("%+v", all)
	}
	form.Set("name", "Table 4") // the form called back, and another name typed
	s.post(t, "/tables", form).RequireStatus(t, http.StatusOK).RequireText(t, ".tables", "Table 3", "Table 4")
}

// A kind of pockets is chosen by its name; a number that is typed goes before it, and
// one that the form was filled with does not.
func TestTableOfAKind(t *testing.T) {
	s := newSite(t)
	s.post(t, s.table(), made("name", "North 2", "feet", "9", "pockets", "tight")).RequireStatus(t, http.StatusOK)
	if got := s.tables(t, store.ActiveOnly)[0].Kind; got != (table.Kind{Feet: 9, CornerMouth: 4.25, SideMouth: 4.75}) {
		t.Errorf("tight pockets are %s", got)
	}
	s.get(t, s.table()).RequireCount(t, "input[name=pockets][value=tight][checked]", 1).RequireCount(t, "details[open]", 0)
	s.post(t, s.table(), made("name", "North 2", "feet", "9", "pockets", "tight", "side", "4.5")).RequireStatus(t, http.StatusOK)
	form := s.get(t, s.table()).RequireCount(t, "details[open]", 1).FormValues(t, "form[action='"+s.table()+"']")
	if form.Get("pockets") != "other" || form.Get("corner") != "4.25" || form.Get("side") != "4.5" {
		t.Errorf("other pockets come back as %v", form)
	}
	form.Set("pockets", "standard")
	s.post(t, s.table(), form).RequireStatus(t, http.StatusOK)
	if got := s.tables(t, store.ActiveOnly)[0].Kind; got != table.NineFoot() {
		t.Errorf("standard pockets are %s", got)
	}
}

// Where two playing surfaces go by the same feet, each is a kind of table of its own.
func TestTableOfASmallSize(t *testing.T) {
	s := newSite(t)
	for _, size := range []string{"small 8", "small 7", "8"} {
		s.post(t, "/tables", made("name", "A "+size, "feet", size)).RequireStatus(t, http.StatusOK)
	}
	for _, there := range s.tables(t, store.ActiveOnly) {
		size, isOurs := strings.CutPrefix(there.Name, "A ")
		if isOurs && there.Kind.Size() != size {
			t.Errorf("%s is of %s ft", there.Name, there.Kind.Size())
		}
		if isOurs {
			table := s.get(t, "/tables/"+there.ID.String()).RequireCount(t, "input[name=feet][value='"+size+"'][checked]", 1)
			if says := strings.Contains(table.TextOf(t, ".kind"), "they say less"); says != strings.HasPrefix(size, "small") {
				t.Errorf("%s: that the adviser knows less of it is said: %t", size, says)
			}
		}
	}
	s.get(t, "/tables").RequireText(t, ".tables", "small 8 ft, corners 4.5 in").RequireText(t, ".sizes", "44 × 88 in", "38 × 76 in")
}

func TestTableIsRefused(t *testing.T) {
	s := newSite(t)
	for _, c := range []struct{ field, value, says string }{
		{"name", "", "Give it a name"},
		{"name", strings.Repeat("x", 200), "120 is the most"},
		{"name", "North 2", "There is a table North 2 without a place already"},
		{"venue", strings.Repeat("y", 119), "A shorter name of the place"},
		{"feet", "10", "Choose one of the sizes"},
		{"feet", "", "Choose one of the sizes"},
		{"corner", "12", "from 3.5 to 6.5"},
		{"corner", "wide", "from 3.5 to 6.5"},
		{"corner", "NaN", "from 3.5 to 6.5"},
		{"side", "-5", "from 3.5 to 6.5"},
		{"side", "1e400", "from 3.5 to 6.5"},
	} {
		form := made("name", "New one", "venue", "", "feet", "9", "corner", "4.5", "side", "5")
		form.Set(c.field, c.value)
		got := s.post(t, "/tables", form).RequireStatus(t, http.StatusUnprocessableEntity).RequireText(t, "#"+c.field+"-error", c.says)
		if kept := got.FormValues(t, "form[action='/tables']").Get(c.field); kept != c.value && c.field != "feet" {
			t.Errorf("%s: %q came back as %q", c.field, c.value, kept)
		}
	}
	if n := len(s.tables(t, store.WithArchived)); n != 1 {
		t.Errorf("%d tables", n)
	}
	s.post(t, "/tables", made("name", "North 2", "venue", "Elsewhere", "feet", "9")).RequireStatus(t, http.StatusOK)
	s.post(t, "/tables", made("name", "<script>alert(1)</script> 🎱", "feet", "8")).RequireStatus(t, http.StatusOK).
		RequireText(t, ".tables", "<script>alert(1)</script> 🎱").RequireCount(t, "main script", 0)
}

func TestTableIsChanged(t *testing.T) {
	s := newSite(t)
	page := s.get(t, s.table()).RequireText(t, "h1", "North 2").RequireCount(t, "svg#table", 1).RequireText(t, "svg#table title", "North 2")
	form := page.FormValues(t, "form[action='"+s.table()+"']")
	form.Set("corner", "4,25")
	s.post(t, s.table(), form).RequireStatus(t, http.StatusOK).RequireText(t, ".notice.good", "North 2 changed.")
	if all := s.tables(t, store.WithArchived); len(all) != 1 || all[0].Kind.CornerMouth != 4.25 || all[0].ID != s.Table.ID {
		t.Errorf("%+v", all)
	}
	form.Set("name", "")
	form.Set("feet", "8")
	s.post(t, s.table(), form).RequireStatus(t, http.StatusUnprocessableEntity).RequireText(t, "#name-error", "Give it a name").
		RequireCount(t, "input[name=feet][value='8'][checked]", 1)
}

func TestTableTakesATakenName(t *testing.T) {
	s := newSite(t)
	s.post(t, "/tables", made("name", "Table 3", "feet", "9")).RequireStatus(t, http.StatusOK)
	form := s.get(t, s.table()).FormValues(t, "form[action='"+s.table()+"']")
	form.Set("name", "Table 3")
	s.post(t, s.table(), form).RequireStatus(t, http.StatusUnprocessableEntity).RequireText(t, "#name-error", "There is a table Table 3")
}

func TestTableThatWasBrokenOnIsReplaced(t *testing.T) {
	s := newSite(t)
	s.RecordBreaks(t, s.Scene.StudentActor(0), 2)
	form := s.get(t, s.table()).FormValues(t, "form[action='"+s.table()+"']")
	form.Set("corner", "4")
	s.post(t, s.table(), form).RequireStatus(t, http.StatusOK).RequireText(t, ".notice.good", "Breaks made before stay with the table as it was").
		RequireText(t, "details", "North 2")
	if live := s.tables(t, store.ActiveOnly); len(live) != 1 || live[0].ID == s.Table.ID || live[0].Kind.CornerMouth != 4 {
		t.Errorf("%+v", live)
	}
	s.post(t, s.table(), form).RequireStatus(t, http.StatusConflict)
	s.get(t, s.table()).RequireText(t, ".notice.care", "archived").RequireCount(t, "main form", 1).RequireCount(t, "main input", 0)
	s.post(t, s.table()+"/restore", nil).RequireStatus(t, http.StatusOK).RequireText(t, ".notice", "There is another table North 2 now").RequireText(t, ".notice.care", "archived")
}

func TestTableIsArchived(t *testing.T) {
	s := newSite(t)
	s.get(t, s.table()+"/archive").RequireText(t, "h1", "Archive North 2?").RequireText(t, "main", "restore it")
	for range 2 {
		s.post(t, s.table()+"/archive", nil).RequireStatus(t, http.StatusOK).RequireText(t, "details", "North 2").RequireText(t, ".answer", "No table yet")
	}
	for range 2 {
		s.post(t, s.table()+"/restore", nil).RequireStatus(t, http.StatusOK).RequireText(t, ".notice.good", "North 2 is back").RequireCount(t, "input[name=name]", 1)
	}
}
