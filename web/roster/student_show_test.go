package roster_test

import (
	"net/http"
	"strings"
	"testing"

	"breakwright/internal/store"
	"breakwright/internal/table"
)

func TestStudentWithoutSets(t *testing.T) {
	s := newSite(t)
	got := s.get(t, s.student(2)).RequireText(t, "h1", "Wen").RequireText(t, ".answer", "Breaks from the right. Not joined yet.")
	got.RequireText(t, ".student", "What Wen records stands here").RequireCount(t, "ol.story", 0).RequireCount(t, `a[href$="/card"]`, 0)
	got.RequireText(t, "section[aria-labelledby=classes]", "Thursday evening")
}

// What the student recorded is told on the page, an open set too.
func TestStudentsStoryIsTold(t *testing.T) {
	s := newSite(t)
	wen := s.Scene.StudentActor(2)
	s.recordAndClose(t, wen)
	open := s.StartSet(t, wen)
	got := s.get(t, s.student(2)).RequireText(t, ".answer", "Breaks from the right. 4 breaks in 1 set, the last on ")
	got.RequireCount(t, "ol.story > li", 1).RequireText(t, "ol.story", "Cue ball in the window 4 of 4").RequireCount(t, "ol.story .rows > li", 1)
	got.RequireCount(t, ".open-sets a[href='/sets/"+open.ID.String()+"']", 1).RequireText(t, ".open-sets", "0 of 10 breaks recorded")
}

// recordAndClose has the cue ball stop once left of the long string and three
// times right of it, the last time further down than a window carried to a small
// table reaches: a wrong side and a wrong size count differently.
func (s *site) recordAndClose(t *testing.T, student store.Actor) {
	t.Helper()
	set := s.StartSet(t, student)
	for i := range 4 {
		b := store.Break{ID: store.NewID[store.BreakID](), Revision: 1}
		b.Number = i + 1
		b.Cue.How, b.Cue.Place = "stopped", []table.Place{{X: -2, Y: 30}, {X: 2, Y: 30}, {X: 2, Y: 31}, {X: 2, Y: 42}}[i]
		b.WingMiss = "side-rail"
		if _, err := s.Store.SaveBreak(t.Context(), student, set.ID, b); err != nil {
			t.Fatal(err)
		}
	}
	s.CloseSet(t, student, set.ID, set.Setup.Cue.X)
}

func TestStudentsPrescriptionsAreListed(t *testing.T) {
	s := newSite(t)
	odile := s.Scene.StudentActor(0)
	set := s.RecordBreaks(t, odile, 4)
	s.CloseSet(t, odile, set, s.Drill.Setup.Cue.X+2)
	got := s.get(t, s.student(0)).RequireText(t, "ol.story .change", "Proposed: cue ball 18 → 16 in", "proposed, not decided")
	got.RequireCount(t, "ol.story .change a[href='/sets/"+set.String()+"']", 1)
	given, err := s.Store.ListPrescriptions(t.Context(), s.Coach, odile.Person)
	if err != nil {
		t.Fatal(err)
	}
	if err := s.Store.DecidePrescription(t.Context(), s.Coach, given[0].ID, store.Decision{Answer: store.Declined, Note: "Not yet."}); err != nil {
		t.Fatal(err)
	}
	s.get(t, s.student(0)).RequireText(t, "ol.story .change .tag", "declined")
}

func TestStudentIsRenamed(t *testing.T) {
	s := newSite(t)
	for _, name := range []string{"Q", "🎱", "<script>alert(1)</script>", strings.Repeat("ü", 120)} {
		s.post(t, s.student(0)+"/name", fields("name", name)).RequireStatus(t, http.StatusOK).RequireText(t, "h1", name).RequireCount(t, "main script", 0)
	}
	bad := s.post(t, s.student(0)+"/name", fields("name", strings.Repeat("x", 200))).RequireStatus(t, http.StatusUnprocessableEntity)
	bad.RequireText(t, "details[open] #name-error", "120 is the most").RequireText(t, "h1", "ü")
}

func TestStudentIsArchivedAndTakenBack(t *testing.T) {
	s := newSite(t)
	s.get(t, s.student(0)+"/archive").RequireText(t, "h1", "Archive Odile?").RequireText(t, "main", "What they recorded stays")
	for range 2 {
		s.post(t, s.student(0)+"/archive", nil).RequireStatus(t, http.StatusOK).RequireText(t, ".notice.care", "Odile is archived").
			RequireCount(t, "form[action$='/restore']", 1).RequireCount(t, "a[href$='/code']", 0)
	}
	s.get(t, s.class()).RequireCount(t, ".roster > li", 2)
	for range 2 {
		s.post(t, s.student(0)+"/restore", nil).RequireStatus(t, http.StatusOK).RequireText(t, ".notice.good", "Odile is back").RequireCount(t, ".notice.care", 0)
	}
	s.get(t, s.class()).RequireCount(t, ".roster > li", 3)
}

func TestStudentChangesClasses(t *testing.T) {
	s := newSite(t)
	other, err := s.Store.SaveClass(t.Context(), s.Coach, store.Class{Name: "Sunday"})
	if err != nil {
		t.Fatal(err)
	}
	in := "section[aria-labelledby=classes] .rows"
	s.post(t, s.student(0)+"/classes", fields("enter", other.String())).RequireText(t, ".notice.good", "Odile is in Sunday.").RequireText(t, in, "Sunday", "Thursday evening")
	got := s.post(t, s.student(0)+"/classes", fields("leave", s.Class.String())).RequireText(t, ".notice.good", "no longer in Thursday evening").RequireText(t, in, "Sunday")
	got.RequireText(t, "select[name=enter]", "Thursday evening")
	s.post(t, got.AttributeOf(t, ".notice.good form", "action"), got.FormValues(t, ".notice.good form")).RequireText(t, in, "Sunday", "Thursday evening")
	s.post(t, s.student(0)+"/classes", fields("enter", "anywhere")).RequireStatus(t, http.StatusNotFound)
	far, _, err := s.Store.GetClass(t.Context(), s.Coach, other)
	if err != nil || far.Name != "Sunday" {
		t.Fatal(far, err)
	}
}

// What comes next stands first: the setup to break is drawn, with the decision
// that waits and what is assigned.
func TestStudentsNextStepStandsFirst(t *testing.T) {
	s := newSite(t)
	s.get(t, s.student(2)).RequireText(t, ".next-step", s.Drill.Name, "not done yet").RequireCount(t, ".now-setup svg.pic-table", 1).
		RequireCount(t, ".next-step a[href$='/change']", 0).RequireCount(t, "#tried", 0)
	odile := s.Scene.StudentActor(0)
	set := s.RecordBreaks(t, odile, 4)
	s.CloseSet(t, odile, set, s.Drill.Setup.Cue.X+2)
	given, err := s.Store.ListPrescriptions(t.Context(), s.Coach, odile.Person)
	if err != nil {
		t.Fatal(err)
	}
	s.get(t, s.student(0)).RequireText(t, ".next-step", "Proposed: cue ball 16 in out (about 1¼ diamonds) instead of 18", "done today").
		RequireCount(t, ".next-step a[href='/prescriptions/"+given[0].ID.String()+"']", 1)
	if err := s.Store.DecidePrescription(t.Context(), s.Coach, given[0].ID, store.Decision{Answer: store.Approved}); err != nil {
		t.Fatal(err)
	}
	again := s.RecordBreaks(t, odile, 4)
	s.CloseSet(t, odile, again, s.Drill.Setup.Cue.X)
	s.get(t, s.student(0)).RequireText(t, "#tries", "Cue ball 18 → 16 in out", "First setup").RequireCount(t, "#tries .pic-bar[role=img]", 2).
		RequireCount(t, ".next-step a[href$='/change'], .next-step a[href^='/prescriptions/']", 1)
}

// A set with breaks in it is what the student breaks now: it stands first and is drawn,
// before what comes after it. One without a break, or begun before another, is only named.
func TestStudent_OpenSetStandsFirst(t *testing.T) {
	s := newSite(t)
	odile := s.Scene.StudentActor(0)
	started := s.Scene.StartSet(t, odile)
	s.get(t, s.student(0)).RequireText(t, "h1 ~ .open-sets", s.Drill.Name, "0 of 10 breaks recorded").RequireText(t, "#now", "To break next: "+s.Drill.Name)
	if err := s.Store.DiscardSet(t.Context(), odile, started.ID); err != nil {
		t.Fatal(err)
	}
	s.RecordBreaks(t, odile, 4)
	s.get(t, s.student(0)).RequireText(t, "h1 ~ .open-sets", s.Drill.Name, "4 of 10 breaks recorded").
		RequireText(t, "#now", "Open now: "+s.Drill.Name+", on North 2, 4 of 10 breaks recorded")
	later := s.RecordBreaks(t, odile, 5)
	s.get(t, s.student(0)).RequireCount(t, ".open-sets > li", 2).RequireText(t, "#now", "Open now", "5 of 10")
	s.CloseSet(t, odile, later, s.Drill.Setup.Cue.X)
	s.get(t, s.student(0)).RequireText(t, "h1 ~ .open-sets", "4 of 10 breaks recorded").RequireText(t, "#now", "To break now: "+s.Drill.Name)
}
