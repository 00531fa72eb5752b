package exchange_test

import (
	"bytes"
	"fmt"
	"net/http"
	"testing"
	"time"

	"github.com/jackc/pgx/v5"

	"breakwright/internal/breaklog"
	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/store/storetest"
	"breakwright/internal/table"
	"breakwright/web/webtest"
)

// years are sets of so many students, each of so many sets of ten breaks.
func years(t testing.TB, students, sets int) []byte {
	t.Helper()
	k := table.NineFoot()
	setup := drill.StandardSetup(rack.NineBall, table.Left, k)
	var all []drill.Set
	for s := range students {
		for n := range sets {
			set := drill.Set{Student: fmt.Sprintf("Student %03d", s), Name: fmt.Sprintf("set %04d", n), Table: "North 2", Kind: k, Setup: setup}
			set.Setup.Speed = 0
			for b := 1; b <= 10; b++ {
				seen := storetest.NewBreak(b).Break
				seen.At = time.Date(2024, 1, 1, 0, n, b, 0, time.UTC)
				set.Breaks = append(set.Breaks, seen)
			}
			all = append(all, set)
		}
	}
	var text bytes.Buffer
	if err := breaklog.Write(&text, all); err != nil {
		t.Fatal(err)
	}
	return text.Bytes()
}

// A server that went away in the middle: the page says that it stopped and what
// was kept, and it can be begun again.
func TestJob_StoppedIsBegunAgain(t *testing.T) {
	t.Parallel()
	owner := storetest.NewDatabase(t)
	sc := storetest.Scene{Store: storetest.Open(t, owner)}
	sc.Coach, sc.Login = storetest.NewClub(t, sc.Store)
	s := webtest.NewOverScene(t, sc)
	coach := s.SignInCoach(t)
	preview := send(t, coach, header("O. Smit,a1,1,-18,25,,\"1,40\",")).RequireStatus(t, http.StatusOK)
	jobs, err := sc.Store.ListJobs(t.Context(), sc.Coach)
	if err != nil {
		t.Fatal(err)
	}
	// Begun by a process that is no more.
	if _, _, err := sc.Store.BeginJob(t.Context(), sc.Coach, jobs[0].ID, []byte(`{"names": {"O. Smit": "Odile Smit"}}`)); err != nil {
		t.Fatal(err)
	}
	gone, err := pgx.Connect(t.Context(), owner)
	if err != nil {
		t.Fatal(err)
	}
	defer gone.Close(t.Context())
	if _, err := gone.Exec(t.Context(), "update job set beat_at = now() - interval '1 hour', done = 7"); err != nil {
		t.Fatal(err)
	}
	stopped := coach.Get(t, preview.Path).RequireStatus(t, http.StatusOK)
	stopped.RequireText(t, "main", "This stopped at", "Nothing was saved of it, and the file is still here").RequireCount(t, "[hx-trigger]", 0)
	coach.Get(t, "/records").RequireText(t, "#jobs + ul", "stopped")
	again := coach.Post(t, preview.Path, nil).RequireStatus(t, http.StatusOK)
	settle(t, coach, again.Path).RequireText(t, "main", "Taken over: one break in one set", "Odile Smit")
}

// What changed between looking and taking over is said, and nothing is kept.
func TestImport_ThingsChangedMeanwhile(t *testing.T) {
	t.Parallel()
	s := bareSite(t)
	coach := s.SignInCoach(t)
	first := send(t, coach, header("Odile,a1,1,-18,25,,\"1,40\","))
	second := send(t, coach, header("Odile,a1,1,-18,25,,\"2,40\","))
	confirm(t, coach, first)
	coach.Post(t, second.Path, second.FormValues(t, "form:has(.plan)")).RequireStatus(t, http.StatusUnprocessableEntity).RequireText(t, ".notice.wrong", "Odile: a1")
}

// fifty thousand breaks, to be timed.
func BenchmarkImport50000(b *testing.B) {
	sets, err := breaklog.Read(bytes.NewReader(years(b, 100, 50)))
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		s := storetest.New(b)
		coach, _ := storetest.NewClub(b, s)
		if _, err := s.ImportSets(b.Context(), coach, sets); err != nil {
			b.Fatal(err)
		}
	}
}
