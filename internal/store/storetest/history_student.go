package storetest

import (
	"encoding/json"
	"fmt"
	"math"
	"time"

	"github.com/google/uuid"

	"breakwright/internal/drill"
	"breakwright/internal/store"
	"breakwright/internal/table"
)

// simulatedStudent is one student of a history: the nearer the cue ball is to their best
// place, the more often the wing ball drops.
type simulatedStudent struct {
	person store.Person
	side   table.Side
	best   table.Inches
	talent float64
	window table.Window

	sets         []drill.Set // the latest, for the adviser
	stint        openStint
	totalsBefore [2]int // sets and breaks before the stint
	stints       int
}

// openStint is a stint that is not written yet.
type openStint struct {
	id, last    uuid.UUID
	setup       drill.Setup
	first, then time.Time
	sets        int
	tally       store.Tally
	tallies     [][]any // of its sets, written after it
}

// writeStudent writes one student's sets.
func (w *historyWriter) writeStudent(person store.Person) {
	b := &simulatedStudent{person: person, side: person.Side, best: table.Inches(11 + 10*w.rng.Float64()), talent: 0.3 + 0.35*w.rng.Float64()}
	b.window = w.scene.Drill.Drill.ForSide(b.side).Window
	out, left := cuePlaces[w.rng.IntN(len(cuePlaces))], 0
	for n := range w.Sets {
		if left == 0 {
			if n > 0 {
				next := out
				for next == out {
					next = cuePlaces[w.rng.IntN(len(cuePlaces))]
				}
				w.endStint(b, false)
				w.beginNextStint(b, out, next)
				out = next
			}
			left = 1 + w.rng.IntN(6)
		}
		left--
		w.writeSet(b, n, out)
	}
	w.endStint(b, true)
	verdict, text := judgeSets(b.sets, b.window)
	w.writeAdvice(b, b.stint.last, b.stint.then, verdict, text)
}

// assignmentShare is how many of the latest sets are of the assignment that is open: an
// assignment is over in a few weeks.
const assignmentShare = 5

func (w *historyWriter) startTime(n int) time.Time {
	return w.Until.Add(-timeBetweenSets * time.Duration(w.Sets-n)).UTC().Truncate(time.Second)
}

func (w *historyWriter) writeSet(b *simulatedStudent, n int, out table.Inches) {
	id, started, setup := w.newRowID(), w.startTime(n), w.setupAt(b.side, out)
	student := b.person.ID.UUID
	var assignment *uuid.UUID
	if n >= w.Sets-assignmentShare {
		assignment = &w.scene.Assignment.UUID
	}
	w.addRow("break_set", id, student, assignment, w.scene.Drill.ID.UUID, w.scene.Table.ID.UUID, w.setupIDs[setup],
		fmt.Sprintf("%s (%d)", started.Format("2006-01-02 15:04"), n), drill.UsualBreaks, started, started.Add(24*time.Minute), drill.UsualBreaks)
	seen := drill.Set{Student: b.person.Name, Name: fmt.Sprint(n), Table: w.scene.Table.Label(), Kind: w.scene.Table.Kind, Setup: setup}
	var tally store.Tally
	for i := range drill.UsualBreaks {
		broken := w.makeBreak(b, i+1, setup, started)
		tally = tally.Plus(store.TallyOf(broken, setup, b.window))
		seen.Breaks = append(seen.Breaks, broken)
		w.writeBreak(id, student, broken)
	}
	if n >= w.Sets-12 {
		b.sets = append(b.sets, seen)
	}
	if b.stint.sets == 0 {
		b.stint.id, b.stint.first, b.stint.setup = id, started, setup
	} else {
		w.writeAdvice(b, b.stint.last, b.stint.then, "more", []byte(`{"verdict":"more","findings":[]}`))
	}
	b.stint.last, b.stint.then = id, started
	b.stint.sets++
	b.stint.tally = b.stint.tally.Plus(tally)
	b.stint.tallies = append(b.stint.tallies, append([]any{id, student, started, b.stint.id,
		float64(b.window.Left), float64(b.window.Right), float64(b.window.Head), float64(b.window.Foot)}, tallyValues(tally)...))
	if n%25 == 24 {
		read := started.Add(time.Hour)
		w.addRow("message", w.newRowID(), id, student, student, "Should I stand further out?", started.Add(30*time.Minute), &read)
	}
}

// endStint writes the stint and the counts of its sets.
func (w *historyWriter) endStint(b *simulatedStudent, latest bool) {
	x := b.stint
	w.addRow("stint", append([]any{x.id, b.person.ID.UUID, w.scene.Table.ID.UUID, w.setupIDs[x.setup], x.last, x.first, x.then, latest,
		b.totalsBefore[0], b.totalsBefore[1], x.sets}, tallyValues(x.tally)...)...)
	for _, row := range x.tallies {
		w.addRow("set_tally", row...)
	}
	b.stints++
}

// beginNextStint writes what led from one stint to the next, and begins that.
func (w *historyWriter) beginNextStint(b *simulatedStudent, from, to table.Inches) {
	x := b.stint
	w.writeAdvice(b, x.last, x.then, "change", []byte(`{"verdict":"change","findings":[{"rule":"wing-miss-balance","count":6,"of":8,"fired":true,"says":"Six of eight misses met the side rail first."}]}`))
	states, k := []string{"helped", "no difference", "hurt"}, w.scene.Table.Kind
	decided := x.then.Add(2 * time.Hour)
	w.addRow("prescription", w.newRowID(), x.last, b.person.ID.UUID, "wing-miss-balance", "place", (b.side.Sign() * from).String(), (b.side.Sign() * to).String(),
		"in", "Six of eight misses met the side rail first.", w.setupIDs[w.setupAt(b.side, from)], w.setupIDs[w.setupAt(b.side, to)],
		states[w.rng.IntN(3)], "approved", w.scene.Coach.Person.UUID, decided, x.then.Add(time.Hour),
		k.Feet, float64(k.CornerMouth), float64(k.SideMouth))
	b.totalsBefore[0], b.totalsBefore[1] = b.totalsBefore[0]+x.sets, b.totalsBefore[1]+x.tally.Breaks
	b.stint = openStint{}
}

func (w *historyWriter) writeAdvice(b *simulatedStudent, set uuid.UUID, at time.Time, verdict string, text []byte) {
	w.addRow("advice", set, b.person.ID.UUID, verdict, text, "1", at.Add(25*time.Minute))
}

// makeBreak makes a break.
func (w *historyWriter) makeBreak(b *simulatedStudent, number int, s drill.Setup, started time.Time) drill.Break {
	d := float64(s.Cue.X*b.side.Sign() - b.best)
	chance := b.talent * math.Exp(-d*d/18)
	broken := drill.Break{
		Number: number, At: started.Add(time.Duration(number) * 2 * time.Minute), Rails: drill.ObservedCount(3 + w.rng.IntN(5)),
		Cue: drill.CueEnd{How: drill.Stopped, Place: table.Place{
			X: table.Inches(math.Round((w.rng.NormFloat64()*6-float64(b.side.Sign())*2)*10) / 10),
			Y: table.Inches(math.Round(min(max(38+w.rng.NormFloat64()*9, 3), 90)*10) / 10),
		}},
	}
	if w.NotesLeaves {
		broken.Shot, broken.RanOut = drill.Shots()[number%3], [...]drill.RanOut{drill.RanOutYes, drill.RanOutNo}[min(number%5, 1)]
	}
	broken.Cue.Place.X = min(max(broken.Cue.Place.X, -22), 22)
	switch w.rng.IntN(60) {
	case 0, 1, 2:
		broken.Cue = drill.CueEnd{How: drill.Scratched, Scratch: table.Pockets()[w.rng.IntN(6)]}
	case 3:
		if w.rng.IntN(10) == 0 {
			broken.Cue = drill.CueEnd{How: drill.OffTable}
		}
	}
	switch {
	case w.rng.Float64() < chance:
		broken.Pocketed = append(broken.Pocketed, drill.Pocketed{Ball: s.WingBall(), Pocket: s.WingPocket()})
	case d < 0:
		broken.WingMiss = drill.MissSideRail
	default:
		broken.WingMiss = drill.MissFootRail
	}
	if w.rng.IntN(4) == 0 {
		broken.Pocketed = append(broken.Pocketed, drill.Pocketed{Ball: s.HeadBall(), Pocket: table.SidePocket(b.side.Mirror())})
	}
	return broken
}

// writeBreak writes a break as the store does.
func (w *historyWriter) writeBreak(set, student uuid.UUID, b drill.Break) {
	balls := []map[string]any{}
	for _, p := range b.Pocketed {
		balls = append(balls, map[string]any{"ball": p.Ball, "fate": "pocketed", "pocket": p.Pocket})
	}
	text, err := json.Marshal(balls)
	if err != nil {
		panic("storetest: balls that do not marshal: " + err.Error())
	}
	var x, y *float64
	if b.Cue.How == drill.Stopped {
		x, y = new(float64(b.Cue.Place.X)), new(float64(b.Cue.Place.Y))
	}
	w.addRow("break", w.newRowID(), set, student, b.Number, b.At, string(b.Cue.How), x, y, string(b.Cue.Scratch), string(b.WingMiss), b.Rails, string(b.Shot), string(b.RanOut), text, 1)
}
