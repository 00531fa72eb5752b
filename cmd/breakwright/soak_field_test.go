//go:build soak && linux

package main

import (
	"context"
	"fmt"
	"io"
	"net"
	"net/http"
	"net/url"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"

	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	"breakwright/internal/table"
)

// soakStudents is how many record at once.
const soakStudents = 8

// soakDatabase is a database that can fail.
type soakDatabase struct {
	// owner is its address for the test, servers the one that the servers have:
	// the same one through a line that can be cut.
	owner, servers string
	line           *soakLine
	private        *privateDatabase // nil for the replicated one
	replicas       *soakReplicas    // nil for all others
}

// soakField is two servers on one database under load.
type soakField struct {
	soakDatabase
	programs [2]*programProcess
	env      []string
	load     *soakLoad
}

func newSoakField(t *testing.T, d soakDatabase) *soakField {
	t.Helper()
	f := &soakField{soakDatabase: d}
	f.env = []string{"DATABASE_URL=" + d.servers, "BREAKWRIGHT_SECRET=" + strings.Repeat("chalk ", 6)}
	scene := storetest.AddScene(t, storetest.Open(t, d.owner))
	for i := range f.programs {
		f.programs[i] = startProcess(t, freeAddress(t), f.env...)
	}
	names := make([]store.NewStudent, soakStudents)
	for i := range names {
		names[i] = store.NewStudent{Name: fmt.Sprintf("Student %d", i+1), Side: table.Left}
	}
	students, err := scene.Store.AddStudents(t.Context(), scene.Coach, uuid.Nil, scene.Class, names)
	if err != nil {
		t.Fatal(err)
	}
	f.load = beginLoad(t, scene, students, f.programs[0].url, f.programs[1].url)
	t.Cleanup(func() { f.load.stop(); f.load.running.Wait() })
	return f
}

// end stops the load and looks at everything once more.
func (f *soakField) end(t *testing.T) {
	t.Helper()
	f.load.stop()
	f.load.running.Wait()
	if lost, doubled := f.compare(t, f.load.all); lost+doubled > 0 || len(f.load.all) == 0 {
		t.Errorf("in the end %d of %d acknowledged are lost, %d doubled", lost, len(f.load.all), doubled)
	}
	if len(f.load.refusals) > 0 {
		t.Errorf("good breaks were refused: %v", f.load.refusals)
	}
}

// awaitAcknowledged waits until breaks are acknowledged again.
func (f *soakField) awaitAcknowledged(t *testing.T) {
	t.Helper()
	before := f.load.acknowledged.Load()
	for given := time.Now().Add(2 * time.Minute); f.load.acknowledged.Load() == before; time.Sleep(10 * time.Millisecond) {
		if time.Now().After(given) {
			t.Fatal("two minutes after the last fault nothing is acknowledged")
		}
	}
}

// compare counts the acknowledged breaks that are not kept, and numbers of a set
// that are kept twice.
func (f *soakField) compare(t *testing.T, acknowledged []store.BreakID) (lost, doubled int) {
	t.Helper()
	ctx := context.Background()
	owner, err := pgx.Connect(ctx, f.owner)
	if err != nil {
		t.Fatal(err)
	}
	defer owner.Close(ctx)
	rows, err := owner.Query(ctx, "select id from break where deleted_at is null")
	if err != nil {
		t.Fatal(err)
	}
	ids, err := pgx.CollectRows(rows, pgx.RowTo[[16]byte])
	if err != nil {
		t.Fatal(err)
	}
	kept := make(map[store.BreakID]bool, len(ids))
	for _, id := range ids {
		kept[store.BreakID{UUID: id}] = true
	}
	for _, id := range acknowledged {
		if !kept[id] {
			lost++
		}
	}
	err = owner.QueryRow(ctx, "select count(*) - count(distinct (set_id, number)) from break where deleted_at is null").Scan(&doubled)
	if err != nil {
		t.Fatal(err)
	}
	return lost, doubled
}

func killServer(t *testing.T, f *soakField, turn int) {
	at := strings.TrimPrefix(f.programs[turn%2].url, "http://")
	f.programs[turn%2].kill()
	f.programs[turn%2] = startProcess(t, at, f.env...)
}

func cutLine(_ *testing.T, f *soakField, _ int) { f.line.cut() }

func silenceLine(long time.Duration) func(*testing.T, *soakField, int) {
	return func(_ *testing.T, f *soakField, _ int) { f.line.silence(long) }
}

// stepPhoneClocks sets all phones' clocks wrong, each time otherwise.
func stepPhoneClocks(_ *testing.T, f *soakField, turn int) {
	steps := []time.Duration{time.Hour, -time.Hour, 26 * time.Hour, 0, -400 * 24 * time.Hour, 90 * time.Second}
	f.load.clockLead.Store(int64(steps[turn%len(steps)]))
	if turn%len(steps) == 3 {
		time.Sleep(100 * time.Millisecond) // all is well for a moment
	}
}

// readSlowly lets five phones ask for all of their student's breaks and not take them.
func readSlowly(t *testing.T, f *soakField, turn int) {
	server, err := url.Parse(f.programs[turn%2].url)
	if err != nil {
		t.Fatal(err)
	}
	r, _ := http.NewRequest(http.MethodGet, server.String()+"/my/export", nil) // an address that parsed
	for _, cookie := range f.load.phones[turn%len(f.load.phones)].Jar.Cookies(server) {
		r.AddCookie(cookie)
	}
	var readers sync.WaitGroup
	for range 5 {
		readers.Go(func() {
			line, err := net.Dial("tcp", server.Host)
			if err != nil {
				return // the server has no place for a slow reader, and that is as well
			}
			defer line.Close()
			_ = line.(*net.TCPConn).SetReadBuffer(1024) // smaller is slower; a hint
			_ = r.Write(line)                           // as far as it goes
			_, _ = io.ReadFull(line, make([]byte, 10))
			time.Sleep(300 * time.Millisecond)
		})
	}
	readers.Wait()
}
