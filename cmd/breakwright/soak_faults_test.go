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
	// share is how many of ten thousand faults are of this kind: the slow ones few.
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
		{"a server is killed", 200, killServer},
		{"the database is killed", 200, killDatabase},
		{"the database stands still, 0.2 s", 500, freezeDatabase(shortFault)},
		{"the database stands still, 15 s", 5, freezeDatabase(pastDeadlines)},
		{"all its lines are silent, 0.2 s", 500, silenceLine(shortFault)},
		{"all its lines are silent, 15 s", 5, silenceLine(pastDeadlines)},
		{"all its lines are cut", 700, cutLine},
		{"a question to it is lost", 1680, strikeQuestion(lose)},
		{"an answer of it is cut in half", 1500, strikeAnswer(halve)},
		{"an answer of it comes 0.2 s late", 700, strikeAnswer(hold)},
		{"a phone's request is lost", 1000, strikeRequest(lose)},
		{"a phone's answer is lost", 1500, strikeReceipt(lose)},
		{"five readers are slow", 300, readSlowly},
		{"the phones' clocks step", 500, stepPhoneClocks},
	}},
	{"a database's clock that steps", buildClockDatabase, []soakFault{{"the database's clock steps", 300, stepDatabaseClock}}},
	{"servers' clocks that step", buildClockServers, []soakFault{{"the servers' clocks step", 300, stepServerClocks}}},
	{"a small disk", buildSmallDisk, []soakFault{{"the disk is full", 100, fillDisk}}},
	{"three members", buildReplicas, []soakFault{{"the leader is killed", 6, killLeader}}},
	{"three members behind HAProxy", buildReplicasBehindProxy, []soakFault{{"the leader behind HAProxy is killed", 4, killLeader}}},
}

const (
	// shortFault is within every deadline of the program.
	shortFault = 200 * time.Millisecond
	// pastDeadlines is longer than it waits for a statement and a silent line.
	pastDeadlines = 15 * time.Second
)

// soakNumber reads what verify gives: BREAKWRIGHT_SOAK_FAULTS, how many faults there
// should be over all, of which each kind has its share, and BREAKWRIGHT_SOAK_SEED.
func soakNumber(t *testing.T, name string) int {
	t.Helper()
	number, err := strconv.Atoi(os.Getenv(name))
	if err != nil || number < 1 {
		t.Fatalf("%s wants a number: %v", name, err)
	}
	return number
}

// Whatever fails, what was acknowledged is there, once.
func TestSoak_Faults(t *testing.T) {
	clearSettings(t)
	total, seed, table := soakNumber(t, "BREAKWRIGHT_SOAK_FAULTS"), soakNumber(t, "BREAKWRIGHT_SOAK_SEED"), &soakTable{}
	t.Logf("%d faults, seed %d: which server, line and moment, and when phones ask again; how programs take turns is the machine's", total, seed)
	for _, round := range soakRounds {
		t.Run(strings.ReplaceAll(round.name, " ", "_"), func(t *testing.T) {
			database, missing := round.build(t)
			if missing != "" {
				table.addMissing(round, missing)
				return
			}
			f := newSoakField(t, database, uint64(seed))
			for _, fault := range round.faults {
				table.rows = append(table.rows, f.run(t, fault, max(1, fault.share*total/10_000)))
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
	began := time.Now()
	for turn := range times {
		if turn%50 == 0 {
			f.letDayPass(t)
		}
		fault.once(t, f, turn)
		f.awaitAcknowledged(t) // so that each comes upon work
	}
	row := soakRow{fault: fault.name, times: times, took: time.Since(began)}
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
	took                               time.Duration
}

func (r soakRow) String() string {
	return fmt.Sprintf("%-36s | %6d | %12d | %4d | %7d | %15.1f s | %5.0f s", r.fault, r.times, r.acknowledged, r.lost, r.doubled, r.silence.Seconds(), r.took.Seconds())
}

// soakTable is what the test prints.
type soakTable struct {
	rows    []soakRow
	missing []string
}

func (s *soakTable) addMissing(round soakRound, why string) {
	for _, fault := range round.faults {
		s.missing = append(s.missing, fmt.Sprintf("%-36s | not run: %s", fault.name, why))
	}
}

func (s *soakTable) String() string {
	sum := soakRow{fault: "all"}
	text := fmt.Sprintf("\n%-36s | %6s | %12s | %4s | %7s | %17s | %s\n", "fault", "times", "acknowledged", "lost", "doubled", "longest silence", "took")
	for _, row := range s.rows {
		text += row.String() + "\n"
		sum.times, sum.acknowledged = sum.times+row.times, sum.acknowledged+row.acknowledged
		sum.lost, sum.doubled, sum.silence = sum.lost+row.lost, sum.doubled+row.doubled, max(sum.silence, row.silence)
		sum.took += row.took
	}
	return text + strings.Join(append(s.missing, sum.String()), "\n")
}
