package storetest

import (
	"context"
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"testing"
	"time"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"

	"breakwright/internal/advice"
	"breakwright/internal/drill"
	"breakwright/internal/store"
	"breakwright/internal/table"
)

// SimulatedHistory is a class that has broken for a long time: so many students of the
// scene's class, each with so many closed sets up to Until, one every seventeen
// hours: a thousand sets are two years. The same seed gives the same breaks.
type SimulatedHistory struct {
	Students, Sets int
	Seed           uint64
	Until          time.Time
	// NotesLeaves says that every break has what it left noted.
	NotesLeaves bool
}

// Breaks is how many breaks the history has.
func (h SimulatedHistory) Breaks() int { return h.Students * h.Sets * drill.UsualBreaks }

// timeBetweenSets two sets: the same for a short and a long history, so that only its
// length differs.
const timeBetweenSets = 730 * 24 * time.Hour / 1000

// FillDatabase writes the history into the owner's database past the store, by COPY, so
// that millions of breaks take a minute. What is written is as the store would
// have it: counts, stints, advice and decided prescriptions too. It returns the
// students.
func (h SimulatedHistory) FillDatabase(t testing.TB, ownerDSN string, sc Scene) []store.Person {
	t.Helper()
	names := make([]store.NewStudent, h.Students)
	for i := range names {
		side := table.Left
		if i%3 == 2 {
			side = table.Right
		}
		names[i] = store.NewStudent{Name: fmt.Sprintf("Student %03d", i+1), Side: side}
	}
	students := must(sc.Store.AddStudents(t.Context(), sc.Coach, uuid.Nil, sc.Class, names))(t)
	ctx := context.Background()
	owner, err := pgx.Connect(ctx, ownerDSN)
	if err != nil {
		t.Fatal(err)
	}
	defer owner.Close(ctx)
	w := &historyWriter{SimulatedHistory: h, scene: sc, rng: rand.New(rand.NewPCG(h.Seed, 1)), rows: map[string][][]any{}}
	w.makeSetups()
	for i, student := range students {
		w.writeStudent(student)
		if i%10 == 9 || i+1 == len(students) {
			w.copyRows(ctx, t, owner)
		}
	}
	if _, err := owner.Exec(ctx, "analyze"); err != nil {
		t.Fatal(err)
	}
	return students
}

// historyWriter makes rows and keeps them until they are flushed.
type historyWriter struct {
	SimulatedHistory
	scene    Scene
	rng      *rand.Rand
	rows     map[string][][]any
	setupIDs map[drill.Setup]uuid.UUID
}

// tableColumns are what is copied, table by table, in an order that keeps the foreign
// keys.
var tableColumns = []struct {
	table string
	names []string
}{
	{"setup", []string{"club_id", "id", "game", "spot", "rack", "side", "wing", "cue_x", "cue_y", "contact", "tip", "spin", "speed"}},
	{"break_set", []string{"club_id", "id", "student_id", "assignment_id", "drill_id", "table_id", "setup_id", "name", "planned", "started_at", "closed_at", "revision"}},
	{"break", []string{"club_id", "id", "set_id", "student_id", "number", "at", "cue_how", "cue_x", "cue_y", "cue_pocket", "wing_miss", "rails", "shot", "ran_out", "balls", "revision"}},
	{"stint", append([]string{"club_id", "id", "student_id", "table_id", "setup_id", "last_set_id", "first_started_at", "last_started_at", "latest", "sets_before", "breaks_before", "sets"}, tallyNames...)},
	{"set_tally", append([]string{"club_id", "set_id", "student_id", "started_at", "stint_id", "window_left", "window_right", "window_head", "window_foot"}, tallyNames...)},
	{"advice", []string{"club_id", "set_id", "student_id", "verdict", "advice", "rules_version", "created_at"}},
	{"prescription", []string{"club_id", "id", "set_id", "student_id", "rule", "variable", "from_value", "to_value", "unit", "reason", "from_setup_id", "to_setup_id", "state", "decision", "decided_by", "decided_at", "created_at", "feet", "corner_in", "side_in"}},
	{"message", []string{"club_id", "id", "set_id", "student_id", "author_id", "body", "created_at", "read_by_coach_at"}},
}

var tallyNames = []string{"breaks", "watched", "wing_made", "miss_side", "miss_foot", "miss_kissed", "miss_jaws", "in_window",
	"scratch_head", "scratch_side", "scratch_foot", "cue_off", "dry", "balls_off", "weak", "weak_known"}

func tallyValues(n store.Tally) []any {
	return []any{n.Breaks, n.Watched, n.WingMade, n.MissSide, n.MissFoot, n.MissKissed, n.MissJaws, n.InWindow,
		n.ScratchHead, n.ScratchSide, n.ScratchFoot, n.CueOff, n.Dry, n.BallsOff, n.Weak, n.WeakKnown}
}

func (w *historyWriter) addRow(table string, values ...any) {
	w.rows[table] = append(w.rows[table], append([]any{w.scene.Coach.Club.UUID}, values...))
}

func (w *historyWriter) copyRows(ctx context.Context, t testing.TB, owner *pgx.Conn) {
	t.Helper()
	for _, c := range tableColumns {
		if _, err := owner.CopyFrom(ctx, pgx.Identifier{c.table}, c.names, pgx.CopyFromRows(w.rows[c.table])); err != nil {
			t.Fatalf("copy %s: %v", c.table, err)
		}
		w.rows[c.table] = nil
	}
}

func (w *historyWriter) newRowID() uuid.UUID {
	var id uuid.UUID
	for i := range id {
		id[i] = byte(w.rng.Uint32())
	}
	return id
}

// cuePlaces are how far out from the long string the students try.
var cuePlaces = []table.Inches{10, 12, 14, 15, 16, 17, 19, 20, 21, 22}

// makeSetups makes the setups they break under: the scene's with the cue ball at
// other places, from both sides. The speed tells them from those the store made.
func (w *historyWriter) makeSetups() {
	w.setupIDs = map[drill.Setup]uuid.UUID{}
	for _, side := range []table.Side{table.Left, table.Right} {
		for _, out := range cuePlaces {
			s := w.setupAt(side, out)
			id := w.newRowID()
			w.setupIDs[s] = id
			w.addRow("setup", id, string(s.Game), string(s.Spot), s.Order.String(), string(s.Side), string(s.Wing),
				float64(s.Cue.X), float64(s.Cue.Y), float64(s.Contact), float64(s.Tip), float64(s.Spin), float64(s.Speed))
		}
	}
}

func (w *historyWriter) setupAt(side table.Side, out table.Inches) drill.Setup {
	s := w.scene.Drill.Setup.ForSide(side)
	s.Cue.X, s.Speed = side.Sign()*out, 17
	return s.Rounded()
}

// judgeSets is the real adviser's word on a student's latest sets.
func judgeSets(sets []drill.Set, window table.Window) (verdict string, text []byte) {
	a := advice.Judge(sets, advice.Brief{Window: window})
	text, err := json.Marshal(a)
	if err != nil {
		panic("storetest: advice that does not marshal: " + err.Error())
	}
	return string(a.Verdict), text
}
