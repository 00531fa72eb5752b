package progress_test

import (
	"context"
	"fmt"
	"net/http"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/jackc/pgx/v5"

	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	"breakwright/web/webtest"
)

// recorder keeps the queries of one page, to run them bare.
type recorder struct {
	sync.Mutex
	on      bool
	queries []pgx.TraceQueryStartData
}

func (r *recorder) TraceQueryStart(ctx context.Context, _ *pgx.Conn, q pgx.TraceQueryStartData) context.Context {
	r.Lock()
	defer r.Unlock()
	if r.on {
		r.queries = append(r.queries, q)
	}
	return ctx
}
func (r *recorder) TraceQueryEnd(context.Context, *pgx.Conn, pgx.TraceQueryEndData) {}

// during returns the queries that do is answered with.
func (r *recorder) during(do func()) []pgx.TraceQueryStartData {
	r.Lock()
	r.on, r.queries = true, nil
	r.Unlock()
	do()
	r.Lock()
	defer r.Unlock()
	r.on = false
	return r.queries
}

// bare reads the same rows in one transaction of the app role, and throws them
// away.
func bare(b *testing.B, conn *pgx.Conn, actor store.Actor, queries []pgx.TraceQueryStartData) {
	b.Helper()
	tx, err := conn.Begin(b.Context())
	if err != nil {
		b.Fatal(err)
	}
	defer tx.Rollback(context.Background())
	_, err = tx.Exec(b.Context(), "select set_config('app.club_id', $1, true), set_config('app.person_id', $2, true), set_config('app.role', $3, true)",
		actor.Club.String(), actor.Person.String(), string(actor.Role))
	if err != nil {
		b.Fatal(err)
	}
	for _, q := range queries {
		if !strings.Contains(q.SQL, "select") && !strings.Contains(q.SQL, "with") {
			continue // begin and commit
		}
		rows, err := tx.Query(b.Context(), q.SQL, q.Args...)
		if err != nil {
			b.Fatal(err)
		}
		for rows.Next() {
			_ = rows.RawValues()
		}
		if rows.Err() != nil {
			b.Fatal(rows.Err())
		}
	}
}

// BenchmarkPages measures each page as a browser gets it, for a class of 200
// with a tenth of two years behind it (200,000 breaks) and with all of it
// (2,000,000), and in turn with it the same rows read by the same queries and
// thrown away. Filling the database takes a minute or two.
func BenchmarkPages(b *testing.B) {
	for _, sets := range []int{100, 1000} {
		h := storetest.SimulatedHistory{Students: 200, Sets: sets, Seed: 11, Until: time.Now()}
		b.Run(fmt.Sprintf("%d breaks", h.Breaks()), func(b *testing.B) {
			owner := storetest.NewDatabase(b)
			var queries recorder
			scene := storetest.AddScene(b, storetest.Open(b, owner, store.WithTracer(&queries)))
			students := h.FillDatabase(b, owner, scene)
			site := webtest.NewOverScene(b, scene)
			dsn, err := store.AppDSN(owner, "")
			if err != nil {
				b.Fatal(err)
			}
			conn, err := pgx.Connect(b.Context(), dsn)
			if err != nil {
				b.Fatal(err)
			}
			defer conn.Close(context.Background())
			coach := site.SignInCoach(b)
			for _, page := range []struct{ name, path string }{
				{"desk", "/desk"}, {"class", classPath(site) + "/progress"}, {"picture", classPath(site) + "/picture"},
				{"student", "/students/" + students[0].ID.String()},
			} {
				sent := queries.during(func() { coach.Get(b, page.path).RequireStatus(b, 200) })
				b.Run(page.name, func(b *testing.B) {
					measure(b, func() { coach.Get(b, page.path) }, func() { bare(b, conn, site.Coach, sent) })
				})
			}
		})
	}
}

// measure takes turns between a page and its rows, so that what else the machine
// does burdens both, and reports the middle of each.
func measure(b *testing.B, page, rows func()) {
	var took [2][]time.Duration
	for b.Loop() {
		for i, do := range []func(){page, rows} {
			at := time.Now()
			do()
			took[i] = append(took[i], time.Since(at))
		}
	}
	var ms [2]float64
	for i, all := range took {
		slices.Sort(all)
		ms[i] = float64(all[len(all)/2]) / float64(time.Millisecond)
	}
	b.ReportMetric(ms[0], "page-ms")
	b.ReportMetric(ms[1], "bare-ms")
	b.ReportMetric(ms[0]/ms[1], "x-bare")
	b.ReportMetric(0, "ns/op")
}

// BenchmarkClassProgress measures the page of 200 students as one browser after
// another gets it: after something changed, as it was before, and by a browser that
// has it; where all of them note their leaves, and where none does.
func BenchmarkClassProgress(b *testing.B) {
	for name, noted := range map[string]bool{"leaves": true, "no leaves": false} {
		b.Run(name, func(b *testing.B) { benchmarkClassProgress(b, noted) })
	}
}

func benchmarkClassProgress(b *testing.B, notesLeaves bool) {
	h := storetest.SimulatedHistory{Students: 200, Sets: 12, Seed: 5, Until: time.Now(), NotesLeaves: notesLeaves}
	site, students := webtest.NewWithHistory(b, h)
	coach := site.SignInCoach(b)
	path := classPath(site) + "/progress"
	packed := map[string]string{"Accept-Encoding": "gzip"}
	request := func(headers map[string]string) *webtest.Page {
		return coach.SendWithHeaders(b, http.MethodGet, path, nil, headers)
	}
	b.Run("changed", func(b *testing.B) {
		for i := 0; b.Loop(); i++ {
			b.StopTimer()
			if err := site.Store.RenamePerson(b.Context(), site.Coach, students[0].ID, fmt.Sprintf("Renamed %d", i)); err != nil {
				b.Fatal(err)
			}
			b.StartTimer()
			request(packed)
		}
	})
	b.Run("unchanged", func(b *testing.B) {
		for b.Loop() {
			request(packed)
		}
	})
	had := map[string]string{"If-None-Match": request(nil).Header.Get("ETag")}
	b.Run("had already", func(b *testing.B) {
		for b.Loop() {
			request(had)
		}
	})
}
