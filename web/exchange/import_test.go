package exchange_test

import (
	"bytes"
	"compress/gzip"
	"io"
	"net/http"
	"net/url"
	"strings"
	"sync"
	"testing"

	"github.com/google/uuid"

	"breakwright/internal/breaklog"
	"breakwright/internal/drill"
	"breakwright/internal/store"
	"breakwright/web/webtest"
)

// unzipped returns the text of an answer that may be compressed.
func unzipped(t *testing.T, p *webtest.Page) string {
	t.Helper()
	if p.Header.Get("Content-Encoding") != "gzip" {
		return p.Text
	}
	plain, err := gzip.NewReader(strings.NewReader(p.Text))
	if err != nil {
		t.Fatal(err)
	}
	text, err := io.ReadAll(plain)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// withoutPlans returns a log without what its sets were broken for: drills and decisions
// do not come in by a log.
func withoutPlans(t *testing.T, log string) string {
	t.Helper()
	sets, err := breaklog.Read(strings.NewReader(log))
	if err != nil {
		t.Fatal(err)
	}
	for i := range sets {
		sets[i].Plan = drill.SetPlan{}
	}
	var to strings.Builder
	if err := breaklog.Write(&to, sets); err != nil {
		t.Fatal(err)
	}
	return to.String()
}

// Out of one club, into a fresh one, and out again: the same file, byte by byte, but
// for the plans.
func TestImport_ThereAndBack(t *testing.T) {
	t.Parallel()
	s := webtest.New(t)
	busy(t, s)
	first := exported(t, s.SignInCoach(t), "")
	fresh := bareSite(t)
	coach := fresh.SignInCoach(t)
	preview := send(t, coach, first).RequireStatus(t, http.StatusOK)
	preview.RequireText(t, ".answer", "10 breaks in 3 sets will be taken over").RequireText(t, "form", "2 students are new", "Odile").RequireCount(t, ".tag.ask", 3)
	if people, _ := fresh.Store.ListStudents(t.Context(), fresh.Coach, store.WithArchived); len(people) != 0 {
		t.Fatalf("looking at the file added %d students", len(people))
	}
	confirm(t, coach, preview).RequireText(t, "main", "Taken over: 10 breaks in 3 sets", "Odile", "North 2")
	if again, want := withoutPlans(t, exported(t, coach, "")), withoutPlans(t, first); again != want {
		t.Errorf("came back as\n%s\nwas\n%s", again, want)
	}
	people, err := fresh.Store.ListStudents(t.Context(), fresh.Coach, store.WithArchived)
	if err != nil || len(people) != 2 || people[0].Code == "" {
		t.Errorf("students: %+v, %v", people, err)
	}
	// The same file once more does nothing, and so does the club's own.
	send(t, coach, first).RequireStatus(t, http.StatusOK).RequireText(t, ".answer", "Nothing to do").RequireCount(t, "button:not(.quiet):not(.bare)", 0)
	send(t, s.SignInCoach(t), first).RequireText(t, ".answer", "Nothing to do: all 3 sets")
}

func TestImport_NamesAreLookedAtFirst(t *testing.T) {
	t.Parallel()
	s := webtest.New(t)
	coach := s.SignInCoach(t)
	preview := send(t, coach, header("O. Smit,a1,1,-18,25,,\"1,40\",", "Bram,a1,1,-18,25,,\"1,40\",")).RequireStatus(t, http.StatusOK)
	preview.RequireText(t, "form", "One student is new", "O. Smit").RequireCount(t, ".tag.ask", 2) // and the table
	form := preview.FormValues(t, "form:has(button:not(.quiet):not(.bare))")

	form.Set("name_1", "Odile")
	// Not what the page showed: it asks once more.
	looked := coach.Post(t, preview.Path, form).RequireStatus(t, http.StatusUnprocessableEntity)
	looked.RequireText(t, "form", "All students of the file are known here")
	confirm(t, coach, looked).RequireText(t, ".answer", "Taken over: 2 breaks in 2 sets")
	people, err := s.Store.ListStudents(t.Context(), s.Coach, store.WithArchived)
	if err != nil || len(people) != 3 {
		t.Errorf("%d students, %v", len(people), err)
	}
	if got := exported(t, coach, "?student="+s.Students[0].ID.String()); !strings.Contains(got, "Odile,a1,1") {
		t.Errorf("Odile has\n%s", got)
	}
}

func TestImport_NamesThatCannotBe(t *testing.T) {
	t.Parallel()
	s := webtest.New(t)
	coach := s.SignInCoach(t)
	preview := send(t, coach, header("A,a1,1,-18,25,,\"1,40\",", "B,a1,1,-18,25,,\"1,40\","))
	form := preview.FormValues(t, "form:has(button:not(.quiet):not(.bare))")
	for names, says := range map[[2]string]string{
		{"", "B"}:                             "give it a name",
		{"A", "A"}:                            "would both be A",
		{strings.Repeat("W", 200), "B"}:       "120 is the most",
		{"<script>alert(1)</script>", "A\tB"}: "one line of letters",
	} {
		form.Set("name_1", names[0])
		form.Set("name_2", names[1])
		p := coach.Post(t, preview.Path, form).RequireStatus(t, http.StatusUnprocessableEntity)
		p.RequireText(t, ".error", says).RequireCount(t, "#main script", 0)
	}
	if people, _ := s.Store.ListStudents(t.Context(), s.Coach, store.WithArchived); len(people) != 3 {
		t.Errorf("%d students", len(people))
	}
}

// Another set under a name that the student has already.
func TestImport_Clashes(t *testing.T) {
	t.Parallel()
	s := webtest.New(t)
	coach := s.SignInCoach(t)
	confirm(t, coach, send(t, coach, header("Odile,a1,1,-18,25,,\"1,40\",")))
	preview := send(t, coach, header("Odile,a1,1,-18,25,,\"2,40\",", "Odile,a2,1,-18,25,,\"1,40\","))
	preview.RequireStatus(t, http.StatusOK).RequireText(t, ".answer", "one set of the file has the name of another").RequireText(t, ".notice.wrong", "Odile: a1")
	preview.RequireCount(t, "button:not(.quiet):not(.bare):not(header button)", 0)
	form := preview.FormValues(t, "form:has(.plan)")
	coach.Post(t, preview.Path, form).RequireStatus(t, http.StatusUnprocessableEntity)
	form.Set("name_1", "Odile the younger")
	form.Set("do", "look")
	looked := coach.Post(t, preview.Path, form).RequireStatus(t, http.StatusOK)
	confirm(t, coach, looked).RequireText(t, ".answer", "Taken over: 2 breaks in 2 sets")
}

// Whatever is sent: words beside it, and nothing kept.
func TestImport_HostileFiles(t *testing.T) {
	t.Parallel()
	s := webtest.New(t)
	coach := s.SignInCoach(t)
	row := "Odile,a1,1,-18,25,,\"1,40\",\n"
	for name, c := range map[string]struct{ file, says string }{
		"nothing":               {"", "choose a file"},
		"a header alone":        {header()[:len(header())-1], "no breaks"},
		"no log":                {"dear coach,\nthis is a letter\n", "no such column"},
		"wrong columns":         {"student,set,brake\nOdile,a1,1\n", "brake"},
		"missing columns":       {"student,set,break\nOdile,a1,1\n", "the column cue_x is missing"},
		"semicolons":            {strings.ReplaceAll(header(row), ",", ";"), "comma"},
		"binary":                {"\x7fELF\x02\x01\x00\x00\x00" + strings.Repeat("\x00\xff", 9000), "no text"},
		"a spreadsheet":         {"PK\x03\x04" + strings.Repeat("\x00", 9000), "save it as “CSV UTF-8”"},
		"UTF-16":                {"\xff\xfes\x00t\x00", "UTF-8"},
		"Latin letters":         {header("\xc5sa,a1,1,-18,25,,\"1,40\","), "UTF-8"},
		"21 MB":                 {header(row) + strings.Repeat("x", 21<<20), "larger than 20 MB"},
		"70 MB":                 {strings.Repeat("x", 70<<20), "larger than 20 MB"},
		"a million empty lines": {header(row) + strings.Repeat("\n", 1_000_000), "more than 200000 lines"},
		"one endless cell":      {header("\"" + strings.Repeat("x", 8<<20)), "longer than 64 KB"},
		"a million columns":     {strings.Repeat(",", 1_000_000) + "\n", "longer than 64 KB"},
		"impossible":            {header("Odile,a1,1,-18,25,8@foot-left;8@foot-right,\"1,40\","), "line 2, column pocketed"},
		"a formula as a number": {header("Odile,a1,1,=1+1,25,,\"1,40\","), "line 2, column cue_x"},
		"no number":             {header("Odile,a1,1,NaN,25,,\"1,1e999\","), "line 2"},
		"the same break twice":  {header("Odile,a1,1,-18,25,,\"1,40\",", "Odile,a1,1,-18,25,,\"1,40\","), "already"},
	} {
		p := send(t, coach, c.file).RequireStatus(t, http.StatusUnprocessableEntity)
		if text := p.TextOf(t, ".notice.wrong"); !strings.Contains(strings.ToLower(text), strings.ToLower(c.says)) {
			t.Errorf("%s: %q, want something of %q", name, text, c.says)
		}
	}
	if jobs, err := s.Store.ListJobs(t.Context(), s.Coach); err != nil || len(jobs) != 0 {
		t.Errorf("something was kept: %+v, %v", jobs, err)
	}
}

// Formula cells in texts stay texts, there and back.
func TestImport_FormulasAreText(t *testing.T) {
	t.Parallel()
	s := bareSite(t)
	coach := s.SignInCoach(t)
	preview := send(t, coach, header(`'=HYPERLINK("http://x";1),'+a1,1,-18,25,,"1,40",'@note`, `<script>alert(1)</script>,a1,1,-18,25,,"1,40",🎱`))
	preview.RequireStatus(t, http.StatusUnprocessableEntity)
	preview = send(t, coach, header(`"'=HYPERLINK(""http://x"";1)",'+a1,1,-18,25,,"1,40",'@note`, `<script>alert(1)</script>,a1,1,-18,25,,"1,40",🎱`))
	preview.RequireStatus(t, http.StatusOK).RequireText(t, ".plan", `=HYPERLINK("http://x";1)`, "<script>alert(1)</script>").RequireCount(t, "#main script", 0)
	confirm(t, coach, preview).RequireCount(t, "#main script", 0)
	text := exported(t, coach, "")
	for _, want := range []string{`"'=HYPERLINK(""http://x"";1)"`, "'+a1", "'@note", "🎱"} {
		if !strings.Contains(text, want) {
			t.Errorf("%s is not in\n%s", want, text)
		}
	}
}

func TestImport_AFormThatIsNone(t *testing.T) {
	t.Parallel()
	s := webtest.New(t)
	coach := s.SignInCoach(t)
	coach.Post(t, "/import", url.Values{"file": {"x"}}).RequireStatus(t, http.StatusBadRequest)
	coach.PostBody(t, "/import", "multipart/form-data; boundary=x", strings.NewReader("--x\r\nnothing")).RequireStatus(t, http.StatusBadRequest)
	upload(t, coach, "no-id", "x.csv", []byte(header("Odile,a1,1,-18,25,,\"1,40\","))).RequireStatus(t, http.StatusBadRequest)
	coach.PostBody(t, "/import", "multipart/form-data; boundary=x", bytes.NewReader(nil)).RequireStatus(t, http.StatusBadRequest)
}

// Two clicks, two tabs, two coaches: one import.
func TestImport_PressedAtOnce(t *testing.T) {
	t.Parallel()
	s := bareSite(t)
	coach := s.SignInCoach(t)
	id, file := uuid.NewString(), []byte(header("Odile,a1,1,-18,25,,\"1,40\","))
	preview := upload(t, coach, id, "x.csv", file)
	if again := upload(t, coach, id, "x.csv", file); again.Path != preview.Path {
		t.Errorf("the same form again led to %s, not %s", again.Path, preview.Path)
	}
	if other := upload(t, coach, id, "y.csv", []byte(header("Bram,a1,1,-18,25,,\"1,40\","))); other.Path == preview.Path {
		t.Error("another file under the same form shows the first one")
	}
	form := preview.FormValues(t, "form:has(.plan)")
	var all sync.WaitGroup
	for range 4 {
		all.Go(func() {
			if p := coach.CopyCookies(t).Post(t, preview.Path, form); p.Code != http.StatusOK {
				t.Errorf("answered %d", p.Code)
			}
		})
	}
	all.Wait()
	settle(t, coach, preview.Path).RequireText(t, ".answer", "Taken over: one break in one set")
	if people, _ := s.Store.ListStudents(t.Context(), s.Coach, store.WithArchived); len(people) != 1 {
		t.Errorf("%d students were added", len(people))
	}
}

func TestJobs_TheTwoWalls(t *testing.T) {
	t.Parallel()
	s := webtest.New(t)
	coach := s.SignInCoach(t)
	preview := send(t, coach, header("Odile,a1,1,-18,25,,\"1,40\","))
	stranger, odile := webtest.New(t).SignInCoach(t), s.SignInStudent(t, s.Students[0])
	for _, path := range []string{preview.Path, preview.Path + "/file"} {
		stranger.Get(t, path).RequireStatus(t, http.StatusNotFound)
		odile.Get(t, path).RequireStatus(t, http.StatusForbidden)
	}
	stranger.Post(t, preview.Path, nil).RequireStatus(t, http.StatusNotFound)
	stranger.Post(t, preview.Path+"/remove", nil).RequireStatus(t, http.StatusNotFound)
	odile.Post(t, "/import", nil).RequireStatus(t, http.StatusForbidden)
	coach.Get(t, preview.Path+"/file").RequireStatus(t, http.StatusNotFound) // what came in does not go out
	coach.Get(t, preview.Path).RequireStatus(t, http.StatusOK)
}
