//go:build soak && linux

package main

import (
	"context"
	"fmt"
	"math/rand/v2"
	"strings"
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
	line           *soakLine        // nil for the replicated one
	private        *privateDatabase // nil for the replicated one
	replicas       *soakReplicas    // nil for all others
	clocks         *serverClocks    // nil for servers whose clock is the machine's
}

// soakField is two servers on one database under load.
type soakField struct {
	soakDatabase
	random   *rand.Rand
	programs [2]*programProcess
	env      []string
	phones   [2]*soakLine // between phones and servers
	load     *soakLoad
}

func newSoakField(t *testing.T, d soakDatabase, seed uint64) *soakField {
	t.Helper()
	f := &soakField{soakDatabase: d, random: rand.New(rand.NewPCG(seed, 0))}
	f.env = []string{"DATABASE_URL=" + d.servers, "BREAKWRIGHT_SECRET=" + strings.Repeat("chalk ", 6)}
	scene := storetest.AddScene(t, storetest.Open(t, d.owner))
	for i := range f.programs {
		f.programs[i] = f.startServer(t, i, freeAddress(t))
		f.phones[i] = layLine(t, "tcp", strings.TrimPrefix(f.programs[i].url, "http://"))
	}
	names := make([]store.NewStudent, soakStudents)
	for i := range names {
		names[i] = store.NewStudent{Name: fmt.Sprintf("Student %d", i+1), Side: table.Left}
	}
	students, err := scene.Store.AddStudents(t.Context(), scene.Coach, uuid.Nil, scene.Class, names)
	if err != nil {
		t.Fatal(err)
	}
	f.load = beginLoad(t, scene, students, seed, "http://"+f.phones[0].listener.Addr().String(), "http://"+f.phones[1].listener.Addr().String())
	t.Cleanup(func() { f.load.stop(); f.load.running.Wait() })
	return f
}

// startServer starts one of the two, where its clock can be turned if it is to be.
func (f *soakField) startServer(t *testing.T, i int, listen string) *programProcess {
	t.Helper()
	if f.clocks == nil {
		return startProcess(t, listen, f.env...)
	}
	return startProgramFile(t, f.clocks.program, listen, append(f.env, serverClockVariable+"="+f.clocks.file(i))...)
}

// letDayPass makes all sets a day older, since a student has so many a day.
func (f *soakField) letDayPass(t *testing.T) {
	t.Helper()
	ctx, cancel := context.WithTimeout(context.Background(), time.Minute)
	defer cancel()
	owner, err := pgx.Connect(ctx, f.owner)
	if err != nil {
		t.Fatal(err)
	}
	defer owner.Close(ctx)
	if _, err := owner.Exec(ctx, "update break_set set created_at = created_at - interval '1 day' where created_at > now() - interval '1 day'"); err != nil {
		t.Fatal(err)
	}
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
	for given := time.Now().Add(2 * time.Minute); f.load.acknowledged.Load() == before; time.Sleep(2 * time.Millisecond) {
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
