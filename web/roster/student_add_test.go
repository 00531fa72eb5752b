package roster_test

import (
	"net/http"
	"net/url"
	"slices"
	"strings"
	"sync"
	"testing"

	"breakwright/internal/table"
	"breakwright/web/webtest"
)

func (s *site) addForm(t *testing.T, names string) url.Values {
	t.Helper()
	form := s.get(t, s.class()).FormValues(t, "form[action$='/students']")
	form.Set("names", names)
	return form
}

// add sends names, looks at how they were read, and adds them.
func (s *site) add(t *testing.T, form url.Values) *webtest.Page {
	t.Helper()
	look := s.post(t, s.class()+"/students", form).RequireStatus(t, http.StatusOK).RequireCount(t, "#look", 1)
	return s.post(t, s.class()+"/students", look.FormValues(t, "form[action$='/students']"))
}

// Nothing is saved before the coach has seen how the list was read, and what is
// saved is what was seen.
func TestNamesAreLookedAtFirst(t *testing.T) {
	s := newSite(t)
	look := s.post(t, s.class()+"/students", s.addForm(t, "1. Pip Marsh\n2) Noor, lefty\n3. Quin, links")).RequireStatus(t, http.StatusOK)
	look.RequireText(t, "#look", "Read as 3 students", "Pip Marsh break side not known yet", "Noor breaks from the left", "Quin, links break side not known yet; what stands after the comma")
	if now := s.names(t); len(now) != 3 {
		t.Fatalf("added unseen: %v", now)
	}
	form := look.FormValues(t, "form[action$='/students']")
	form.Set("names", "Cleo") // changed after the look
	s.post(t, s.class()+"/students", form).RequireStatus(t, http.StatusOK).RequireText(t, "#look", "Read as 1 student", "Cleo")
	if now := s.names(t); len(now) != 3 {
		t.Errorf("added unseen: %v", now)
	}
}

func TestStudentsAreAdded(t *testing.T) {
	s := newSite(t)
	names := "  Pip, left\r\n\r\nNoor;R\r\n🎱\r\n<script>alert(1)</script>\r\n" + strings.Repeat("ø", 120)
	got := s.add(t, s.addForm(t, names)).RequireStatus(t, http.StatusOK)
	got.RequireText(t, ".notice.good", "5 students added").RequireCount(t, ".roster > li", 8).RequireCount(t, "main script", 0)
	sides := map[string]table.Side{}
	for _, m := range s.members(t) {
		sides[m.Name] = m.Side
		if len(m.Code) != 8 {
			t.Errorf("%s has the code %q", m.Name, m.Code)
		}
	}
	if sides["Pip"] != table.Left || sides["Noor"] != table.Right || sides["🎱"] != "" || len(sides) != 8 {
		t.Error(sides)
	}
}

func TestRefusedNamesAreKept(t *testing.T) {
	s := newSite(t)
	names := "Pip\n" + strings.Repeat("x", 200) + "\nNoor; up\n"
	got := s.post(t, s.class()+"/students", s.addForm(t, names)).RequireStatus(t, http.StatusUnprocessableEntity)
	got.RequireText(t, "[role=alert]", "Line 2: that name has 200 letters; 120 is the most.", "Line 3: “up” is no break side")
	got.RequireText(t, "#names-error", "Line 2")
	if kept := got.FormValues(t, "form[action$='/students']").Get("names"); kept != names {
		t.Errorf("%q came back as %q", names, kept)
	}
	if now := s.names(t); len(now) != 3 {
		t.Errorf("some were added: %v", now)
	}
}

func TestNamesThatAreThereAreAskedAbout(t *testing.T) {
	s := newSite(t)
	form := s.addForm(t, "odile\nPip\nPip")
	got := s.post(t, s.class()+"/students", form).RequireStatus(t, http.StatusUnprocessableEntity)
	got.RequireText(t, "#same-error", "In this class already: odile.", "Written more than once: Pip.").RequireCount(t, "input#same[type=checkbox]", 1)
	if now := s.names(t); len(now) != 3 {
		t.Errorf("some were added before the box was ticked: %v", now)
	}
	again := got.FormValues(t, "form[action$='/students']")
	again.Set("same", "yes")
	for range 2 { // a double click on the ticked form, too
		s.post(t, s.class()+"/students", again).RequireStatus(t, http.StatusOK).RequireText(t, ".notice.good", "3 students added")
	}
	if now := s.names(t); !slices.Equal(now, []string{"Bram", "odile", "Odile", "Pip", "Pip", "Wen"}) && !slices.Equal(now, []string{"Bram", "Odile", "odile", "Pip", "Pip", "Wen"}) {
		t.Error(now)
	}
}

// A repeat must be known as one before its names are looked for in the class,
// where they are by then: this holds roster and store to the same ids.
func TestAFormAddsItsStudentsOnce(t *testing.T) {
	s := newSite(t)
	look := s.post(t, s.class()+"/students", s.addForm(t, "Pip\nNoor, left")).RequireStatus(t, http.StatusOK)
	form := look.FormValues(t, "form[action$='/students']")
	var clicks sync.WaitGroup
	for range 2 {
		clicks.Go(func() { s.post(t, s.class()+"/students", form) })
	}
	clicks.Wait()
	s.post(t, s.class()+"/students", form).RequireStatus(t, http.StatusOK).RequireText(t, ".notice.good", "2 students added")
	if now := s.names(t); len(now) != 5 {
		t.Errorf("added more than once: %v", now)
	}
	form.Set("names", "Cleo") // the form called back, and another name typed
	s.add(t, form).RequireStatus(t, http.StatusOK).RequireText(t, ".roster", "Cleo", "Pip", "Noor")
	other := s.addForm(t, "Cleo")
	s.post(t, s.class()+"/students", other).RequireStatus(t, http.StatusUnprocessableEntity).RequireText(t, "#same-error", "Cleo")
}
