package exchange_test

import (
	"net/http"
	"strings"
	"testing"

	"breakwright/internal/breaklog"
	"breakwright/internal/store"
	"breakwright/web/webtest"
)

func TestExport_Scopes(t *testing.T) {
	t.Parallel()
	s := webtest.New(t)
	busy(t, s)
	coach := s.SignInCoach(t)
	s.ChangeStudents(t, store.RosterChange{Kind: store.RemoveFromClass, Class: s.Class}, s.Students[1].ID)
	for query, want := range map[string]map[string]int{
		"":                                      {"Odile": 2, "Bram": 1},
		"?class=" + s.Class.String():            {"Odile": 2},
		"?student=" + s.Students[1].ID.String(): {"Bram": 1},
		"?student=" + s.Students[2].ID.String(): {},
	} {
		sets, err := breaklog.Read(strings.NewReader(exported(t, coach, query)))
		if err != nil {
			t.Fatal(err)
		}
		got := map[string]int{}
		for _, set := range sets {
			got[set.Student]++
		}
		if len(got) != len(want) || got["Odile"] != want["Odile"] || got["Bram"] != want["Bram"] {
			t.Errorf("%q has %v, want %v", query, got, want)
		}
	}
}

// What was struck is in a file of its own, and not in the log.
func TestExport_Struck(t *testing.T) {
	t.Parallel()
	s := webtest.New(t)
	odile := s.StudentActor(0)
	set := s.RecordBreaks(t, odile, 3)
	recorded, err := s.Store.GetSet(t.Context(), odile, set)
	if err != nil {
		t.Fatal(err)
	}
	if err := s.Store.DeleteBreak(t.Context(), odile, set, recorded.Breaks[2].ID, 2, "The rack fell."); err != nil {
		t.Fatal(err)
	}
	changed := recorded.Breaks[0]
	changed.Revision, changed.Note = 2, "Seen on the video."
	if _, err := s.Store.SaveBreak(t.Context(), odile, set, changed); err != nil {
		t.Fatal(err)
	}
	coach := s.SignInCoach(t)
	struck := coach.Get(t, "/export/struck?class="+s.Class.String()).RequireStatus(t, http.StatusOK).Text
	if strings.Count(struck, "\n") != 3 || !strings.Contains(struck, "changed,student,,") || !strings.Contains(struck, "taken-out,student,The rack fell.,") || strings.Contains(struck, "Seen on the video.") {
		t.Errorf("struck:\n%s", struck)
	}
	if log := exported(t, coach, ""); strings.Count(log, "\n") != 3 || strings.Contains(log, "The rack fell.") {
		t.Errorf("the log:\n%s", log)
	}
}

func TestExport_TheTwoWalls(t *testing.T) {
	t.Parallel()
	s := webtest.New(t)
	busy(t, s)
	other := webtest.New(t)
	stranger, odile := other.SignInCoach(t), s.SignInStudent(t, s.Students[0])
	for _, query := range []string{"?class=" + s.Class.String(), "?student=" + s.Students[0].ID.String(), "?student=x", "?student=" + other.Coach.Person.String()} {
		stranger.Get(t, "/export"+query).RequireStatus(t, http.StatusNotFound)
	}
	odile.Get(t, "/export").RequireStatus(t, http.StatusForbidden)
	odile.Get(t, "/export/struck").RequireStatus(t, http.StatusForbidden)
	stranger.Get(t, "/export/struck?class="+s.Class.String()).RequireStatus(t, http.StatusNotFound)
	own := odile.Get(t, "/my/export").RequireStatus(t, http.StatusOK)
	sets, err := breaklog.Read(strings.NewReader(own.Text))
	if err != nil || len(sets) != 2 || sets[0].Student != "Odile" || sets[1].Student != "Odile" {
		t.Errorf("a student's own: %d sets, %v", len(sets), err)
	}
}

// Names that try to break out of a header or run in a spreadsheet.
func TestExport_HostileNames(t *testing.T) {
	t.Parallel()
	s := webtest.New(t)
	busy(t, s)
	name := `=cmd|'/c calc'!A1 "; filename=x.exe` + "🎱" + strings.Repeat("W", 60)
	if err := s.Store.RenamePerson(t.Context(), s.Coach, s.Students[0].ID, name); err != nil {
		t.Fatal(err)
	}
	coach := s.SignInCoach(t)
	p := coach.Get(t, "/export?student="+s.Students[0].ID.String()).RequireStatus(t, http.StatusOK)
	if got := p.Header.Get("Content-Disposition"); strings.ContainsAny(got, "\"\r\n") || strings.Contains(got, "; filename=x.exe") {
		t.Errorf("content disposition %q", got)
	}
	if !strings.Contains(p.Text, "'=cmd") {
		t.Errorf("a formula stands in the file: %.400s", p.Text)
	}
}

// A whole club in the background: the same file, kept until it is fetched.
func TestExport_InTheBackground(t *testing.T) {
	t.Parallel()
	s := webtest.New(t)
	busy(t, s)
	coach := s.SignInCoach(t)
	form := coach.Get(t, "/records").RequireStatus(t, http.StatusOK).FormValues(t, "form[action='/export']")
	begun := coach.Post(t, "/export", form).RequireStatus(t, http.StatusOK)
	if again := coach.Post(t, "/export", form); again.Path != begun.Path {
		t.Errorf("a second click led to %s, not %s", again.Path, begun.Path)
	}
	ready := settle(t, coach, begun.Path)
	ready.RequireText(t, ".answer", "Ready: 10 breaks")
	want := exported(t, coach, "")
	for _, encoding := range []string{"gzip", "identity"} {
		p := coach.SendWithHeaders(t, http.MethodGet, begun.Path+"/file", nil, map[string]string{"Accept-Encoding": encoding}).RequireStatus(t, http.StatusOK)
		if zipped := p.Header.Get("Content-Encoding") == "gzip"; zipped != (encoding == "gzip") {
			t.Errorf("%s: content encoding %q", encoding, p.Header.Get("Content-Encoding"))
		}
		if text := unzipped(t, p); text != want {
			t.Errorf("%s: another file than the one sent at once", encoding)
		}
	}
	coach.Get(t, "/records").RequireText(t, "#jobs + ul", "Harbour Lane", "ready")
	coach.Post(t, begun.Path+"/remove", nil).RequireText(t, ".notice", "Thrown away")
	coach.Get(t, begun.Path).RequireStatus(t, http.StatusNotFound)
}

func TestExport_AJobOfAStudent(t *testing.T) {
	t.Parallel()
	s := webtest.New(t)
	busy(t, s)
	coach := s.SignInCoach(t)
	form := coach.Get(t, "/records").FormValues(t, "form[action='/export']")
	form.Set("class", s.Class.String())
	settle(t, coach, coach.Post(t, "/export", form).Path).RequireText(t, "h1", "Thursday evening")
	form.Set("class", store.NewID[store.ClassID]().String())
	coach.Post(t, "/export", form).RequireStatus(t, http.StatusNotFound)
	form.Del("id")
	form.Del("class")
	coach.Post(t, "/export", form).RequireStatus(t, http.StatusBadRequest)
}
