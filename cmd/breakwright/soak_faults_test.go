//go:build soak

package main

import (
	"context"
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"

	"breakwright/internal/localpg/localpgtest"
	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
)

// soakStudents is how many record at once.
const soakStudents = 8

// soakField is two servers on one database under load.
type soakField struct {
	owner   string
	servers [2]*programProcess
	env     []string
	load    *soakLoad
}

func newSoakField(t *testing.T) *soakField {
	t.Helper()
	clearSettings(t)
	f := &soakField{owner: storetest.MigrateOn(t, localpgtest.NewServer(t))}
	f.env = []string{"DATABASE_URL=" + f.owner, "BREAKWRIGHT_SECRET=" + strings.Repeat("chalk ", 6)}
	for i := range f.servers {
		f.servers[i] = startProcess(t, freeAddress(t), f.env...)
	}
	scene := storetest.AddScene(t, storetest.Open(t, f.owner))
	names := make([]store.NewStudent, soakStudents)
	for i := range names {
		names[i] = store.NewStudent{Name: fmt.Sprintf("Student %d", i+1), Side: "left"}
	}
	students, err := scene.Store.AddStudents(t.Context(), scene.Coach, uuid.Nil, scene.Class, names)
	if err != nil {
		t.Fatal(err)
	}
	f.load = beginLoad(t, scene, students, f.servers[0].url, f.servers[1].url)
	t.Cleanup(func() { f.load.stop(); f.load.running.Wait() })
	return f
}

// soakFault is one kind of fault: once makes it happen and pass.
type soakFault struct {
	name  string
	times int
	once  func(t *testing.T, f *soakField, turn int)
}

var soakFaults = []soakFault{
	{"a server is killed", 60, func(t *testing.T, f *soakField, turn int) {
		at := strings.TrimPrefix(f.servers[turn%2].url, "http://")
		f.servers[turn%2].kill()
		f.servers[turn%2] = startProcess(t, at, f.env...)
	}},
}

// Whatever fails, what was acknowledged is there once.
func TestSoak_Faults(t *testing.T) {
	f := newSoakField(t)
	table := "\nfault | times | acknowledged meanwhile | longest silence\n"
	total := 0
	for _, fault := range soakFaults {
		before := f.load.acknowledged.Load()
		f.load.takeLongest()
		for turn := range fault.times {
			fault.once(t, f, turn)
			time.Sleep(50 * time.Millisecond) // some breaks between two faults
		}
		total += fault.times
		table += fmt.Sprintf("%s | %d | %d | %s\n", fault.name, fault.times, f.load.acknowledged.Load()-before, f.load.takeLongest().Round(time.Millisecond))
	}
	f.load.stop()
	f.load.running.Wait()
	lost, doubled := f.compare(t)
	t.Logf("%s%d faults; %d tries, %d breaks acknowledged, %d lost, %d doubled", table, total, f.load.tries.Load(), len(f.load.kept), lost, doubled)
	if lost+doubled > 0 || len(f.load.kept) < total {
		t.Error("something acknowledged was lost or doubled, or hardly anything was acknowledged")
	}
}

// compare counts the acknowledged breaks that are not kept, and numbers of a set
// that are kept twice.
func (f *soakField) compare(t *testing.T) (lost, doubled int) {
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
	kept := map[store.BreakID]int{}
	for _, id := range ids {
		kept[store.BreakID{UUID: id}]++
	}
	for id := range f.load.kept {
		if kept[id] == 0 {
			lost++
		}
	}
	err = owner.QueryRow(ctx, "select count(*) - count(distinct (set_id, number)) from break where deleted_at is null").Scan(&doubled)
	if err != nil {
		t.Fatal(err)
	}
	return lost, doubled
}
