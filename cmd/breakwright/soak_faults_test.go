//go:build soak && linux

package main

import (
	"fmt"
	"os"
	"strconv"
	"strings"
	"testing"
	"time"
)

// soakFault is one kind of fault: once makes it happen and pass.
type soakFault struct {
	name string
	// share is how many of a thousand faults are of this kind.
	share int
	once  func(t *testing.T, f *soakField, turn int)
}

// soakRound is what a database is built for, and the faults it is built for.
type soakRound struct {
	name string
	// build gives the database, or why this machine cannot have it.
	build  func(t *testing.T) (d soakDatabase, missing string)
	faults []soakFault
}

var soakRounds = []soakRound{
	{"one PostgreSQL", buildOwnDatabase, []soakFault{
		{"a server is killed", 60, killServer},
		{"the database is killed", 60, killDatabase},
		{"the database stands still, 0.2 s", 150, freezeDatabase(200 * time.Millisecond)},
		{"the database stands still, 15 s", 3, freezeDatabase(pastDeadlines)},
		{"the line is silent, 0.2 s", 150, silenceLine(200 * time.Millisecond)},
		{"the line is silent, 15 s", 3, silenceLine(pastDeadlines)},
		{"the line is cut", 250, cutLine},
		{"five readers are slow", 100, readSlowly},
		{"the phones' clock steps", 100, stepPhoneClocks},
	}},
	{"a clock that steps", buildClockDatabase, []soakFault{{"the database's clock steps", 80, stepDatabaseClock}}},
	{"a small disk", buildSmallDisk, []soakFault{{"the disk is full", 38, fillDisk}}},
	{"three members", buildReplicas, []soakFault{{"the leader is killed", 6, killLeader}}},
}

// pastDeadlines is longer than the program waits for a statement and a silent line.
const pastDeadlines = 15 * time.Second

// soakTotal is how many faults there should be over all, of which each kind has its
// share: BREAKWRIGHT_SOAK_FAULTS, as verify gives it.
func soakTotal(t *testing.T) int {
	t.Helper()
	total, err := strconv.Atoi(os.Getenv("BREAKWRIGHT_SOAK_FAULTS"))
	if err != nil || total < 1 {
		t.Fatalf("BREAKWRIGHT_SOAK_FAULTS wants how many faults: %v", err)
	}
	return total
}

// Whatever fails, what was acknowledged is there, once.
func TestSoak_Faults(t *testing.T) {
	clearSettings(t)
	total, table := soakTotal(t), &soakTable{}
	for _, round := range soakRounds {
		t.Run(strings.ReplaceAll(round.name, " ", "_"), func(t *testing.T) {
			database, missing := round.build(t)
			if missing != "" {
				table.addMissing(round, missing)
				return
			}
			f := newSoakField(t, database)
			for _, fault := range round.faults {
				table.rows = append(table.rows, f.run(t, fault, max(1, fault.share*total/1000)))
			}
			f.end(t)
		})
	}
	t.Log(table)
}

// run makes one kind of fault so many times, and counts what became of the breaks
// that were acknowledged meanwhile.
func (f *soakField) run(t *testing.T, fault soakFault, times int) soakRow {
	t.Helper()
	f.load.takeRow()
	for turn := range times {
		fault.once(t, f, turn)
		f.awaitAcknowledged(t) // so that each comes upon work
	}
	row := soakRow{fault: fault.name, times: times}
	kept, longest := f.load.takeRow()
	row.acknowledged, row.silence = len(kept), longest
	row.lost, row.doubled = f.compare(t, kept)
	t.Log(row)
	if row.lost+row.doubled > 0 {
		t.Errorf("%s: %d lost, %d doubled", fault.name, row.lost, row.doubled)
	}
	return row
}

// soakRow is what was counted of one kind of fault.
type soakRow struct {
	fault                              string
	times, acknowledged, lost, doubled int
	silence                            time.Duration // the longest between two acknowledged breaks
}

func (r soakRow) String() string {
	return fmt.Sprintf("%-34s | %6d | %12d | %4d | %7d | %s", r.fault, r.times, r.acknowledged, r.lost, r.doubled, r.silence.Round(10*time.Millisecond))
}

// soakTable is what the test prints.
type soakTable struct {
	rows    []soakRow
	missing []string
}

func (s *soakTable) addMissing(round soakRound, why string) {
	for _, fault := range round.faults {
		s.missing = append(s.missing, fmt.Sprintf("%-34s | not run: %s", fault.name, why))
	}
}

func (s *soakTable) String() string {
	sum := soakRow{fault: "all"}
	text := fmt.Sprintf("\n%-34s | %6s | %12s | %4s | %7s | %s\n", "fault", "times", "acknowledged", "lost", "doubled", "longest silence")
	for _, row := range s.rows {
		text += row.String() + "\n"
		sum.times, sum.acknowledged = sum.times+row.times, sum.acknowledged+row.acknowledged
		sum.lost, sum.doubled, sum.silence = sum.lost+row.lost, sum.doubled+row.doubled, max(sum.silence, row.silence)
	}
	return text + strings.Join(append(s.missing, sum.String()), "\n")
}
