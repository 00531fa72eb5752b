package store

import (
	"context"
	"reflect"
	"time"

	"github.com/google/uuid"

	"breakwright/internal/drill"
	"breakwright/internal/store/internal/query"
)

// importer is one import at work.
type importer struct {
	*tx
	students map[string]PersonID // by label
	tables   map[labelled]Table
	live     map[string]bool // labels of tables in use
	newest   map[string]labelled
	setups   map[drill.Setup]uuid.UUID
	zone     *time.Location // the club's
	done     Imported
	seen     func(breaks int)
	worked   int // breaks seen to
}

// student takes over one student's sets.
func (i *importer) student(ctx context.Context, sets []drill.Set) error {
	id, err := i.studentID(ctx, sets)
	if err != nil {
		return err
	}
	if err := i.Lock(ctx, id.String()); err != nil { // as closing a set does
		return err
	}
	named, err := i.named(ctx, map[PersonID][]drill.Set{id: sets})
	if err != nil {
		return err
	}
	there := named[id]
	starts := startTimes(sets, i.zone, time.Now())
	var first *query.InsertSetParams // of those taken over: the oldest
	for n, set := range sets {
		had, known := there[set.Name]
		switch {
		case !known:
			row, err := i.set(ctx, id, set, starts[n])
			if err != nil {
				return err
			}
			if first == nil {
				first = &row
			}
			there[set.Name] = set
			i.done.Sets++
			i.done.Breaks += len(set.Breaks)
		case sameSet(had, set):
			i.done.Had++
		default:
			return refuse(ErrConflict, "%s has another set named %s already", set.Student, set.Name)
		}
		i.worked += len(set.Breaks)
		i.seen(i.worked)
	}
	if first == nil {
		return nil
	}
	return i.regroup(ctx, id, first.ID, first.StartedAt)
}

// sameSet compares what was recorded, at the grain in which it is kept. The
// speed that was asked for is left out: a break log has only those measured,
// and these are compared break by break.
func sameSet(a, b drill.Set) bool {
	a.Setup.Speed, b.Setup.Speed = 0, 0
	if tableLabel(a) != tableLabel(b) || a.Kind != b.Kind || a.Setup.Rounded() != b.Setup.Rounded() ||
		len(a.Breaks) != len(b.Breaks) {
		return false
	}
	for n := range a.Breaks {
		x, errX := drillBreak(breakRow(a.Breaks[n]))
		y, errY := drillBreak(breakRow(b.Breaks[n]))
		if errX != nil || errY != nil || !reflect.DeepEqual(x, y) {
			return false
		}
	}
	return true
}

// set writes a set with its breaks and counts, and gives its row.
func (i *importer) set(ctx context.Context, student PersonID, set drill.Set, started time.Time) (query.InsertSetParams, error) {
	where, err := i.tableID(ctx, set)
	if err != nil {
		return query.InsertSetParams{}, err
	}
	setup, err := i.setup(ctx, set.Setup)
	if err != nil {
		return query.InsertSetParams{}, err
	}
	closed := started
	if at := set.Breaks[len(set.Breaks)-1].At; at.After(started) {
		closed = at
	}
	id := newUUID()
	row := query.InsertSetParams{
		ClubID: i.viewer.Club.UUID, ID: id, StudentID: student.UUID, TableID: where.UUID, SetupID: setup,
		Name: set.Name, Planned: len(set.Breaks), StartedAt: started, ClosedAt: &closed,
	}
	if _, err = i.InsertSet(ctx, row); err != nil {
		return query.InsertSetParams{}, err
	}
	if err := i.breaks(ctx, id, student, set.Breaks); err != nil {
		return query.InsertSetParams{}, err
	}
	return row, i.count(ctx, row, set)
}

// count counts the set as it will be read back.
func (i *importer) count(ctx context.Context, row query.InsertSetParams, set drill.Set) error {
	window, setup := set.Kind.StandardWindow(), set.Setup.Rounded()
	var n Tally
	for _, b := range set.Breaks {
		kept, err := drillBreak(breakRow(b))
		if err != nil {
			return err
		}
		n = n.Plus(TallyOf(kept, setup, window))
	}
	if err := i.beginTally(ctx, row, window); err != nil {
		return err
	}
	return i.saveTally(ctx, row.ID, n)
}

func (i *importer) breaks(ctx context.Context, set uuid.UUID, student PersonID, breaks []drill.Break) error {
	rows := make([]query.ImportBreakParams, len(breaks))
	for n, b := range breaks {
		r := breakRow(b)
		rows[n] = query.ImportBreakParams{
			ClubID: i.viewer.Club.UUID, ID: newUUID(), SetID: set, StudentID: student.UUID,
			Number: r.Number, At: r.At, Speed: r.Speed, CueHow: r.CueHow, CueX: r.CueX, CueY: r.CueY,
			CuePocket: r.CuePocket, WingMiss: r.WingMiss, CuePath: r.CuePath, Rails: r.Rails, PastString: r.PastString,
			Shot: r.Shot, RanOut: r.RanOut, Note: r.Note, Balls: r.Balls,
		}
	}
	var failed error
	i.ImportBreak(ctx, rows).Exec(func(_ int, err error) {
		if failed == nil {
			failed = err
		}
	})
	return failed
}

func (i *importer) setup(ctx context.Context, s drill.Setup) (uuid.UUID, error) {
	s = s.Rounded()
	if id, known := i.setups[s]; known {
		return id, nil
	}
	id, err := i.ensureSetup(ctx, s)
	i.setups[s] = id
	return id, err
}
