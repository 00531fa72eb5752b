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
	students        map[string]PersonID // by label
	tables          map[tableKey]Table
	activeLabels    map[string]bool // labels of tables in use
	newest          map[string]tableKey
	setups          map[drill.Setup]uuid.UUID
	zone            *time.Location // the club's
	result          ImportResult
	reportProgress  func(breaks int)
	breaksProcessed int // breaks seen to
}

// importStudent takes over one student's sets.
func (i *importer) importStudent(ctx context.Context, sets []drill.Set) error {
	id, err := i.findOrAddStudent(ctx, sets)
	if err != nil {
		return err
	}
	if err := i.LockUntilCommit(ctx, id.String()); err != nil { // as closing a set does
		return err
	}
	named, err := i.findNamedSets(ctx, map[PersonID][]drill.Set{id: sets})
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
			row, err := i.importSet(ctx, id, set, starts[n])
			if err != nil {
				return err
			}
			if first == nil {
				first = &row
			}
			there[set.Name] = set
			i.result.Sets++
			i.result.Breaks += len(set.Breaks)
		case sameSet(had, set):
			i.result.Duplicates++
		default:
			return newRefusal(ErrConflict, "%s has another set named %s already", set.Student, set.Name)
		}
		i.breaksProcessed += len(set.Breaks)
		i.reportProgress(i.breaksProcessed)
	}
	if first == nil {
		return nil
	}
	return i.regroupStints(ctx, id, first.ID, first.StartedAt)
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

// importSet writes a set with its breaks and counts, and returns its row.
func (i *importer) importSet(ctx context.Context, student PersonID, set drill.Set, started time.Time) (query.InsertSetParams, error) {
	where, err := i.findOrAddTable(ctx, set)
	if err != nil {
		return query.InsertSetParams{}, err
	}
	setup, err := i.ensureSetupOnce(ctx, set.Setup)
	if err != nil {
		return query.InsertSetParams{}, err
	}
	closed := started
	if at := set.Breaks[len(set.Breaks)-1].At; at.After(started) {
		closed = at
	}
	id := newUUID()
	row := query.InsertSetParams{
		ClubID: i.actor.Club.UUID, ID: id, StudentID: student.UUID, TableID: where.UUID, SetupID: setup,
		Name: set.Name, Planned: len(set.Breaks), StartedAt: started, ClosedAt: &closed,
	}
	if _, err = i.InsertSet(ctx, row); err != nil {
		return query.InsertSetParams{}, err
	}
	if err := i.insertBreaks(ctx, id, student, set.Breaks); err != nil {
		return query.InsertSetParams{}, err
	}
	return row, i.insertCounts(ctx, row, set)
}

// insertCounts counts the set as it will be read back.
func (i *importer) insertCounts(ctx context.Context, row query.InsertSetParams, set drill.Set) error {
	window, setup := set.Kind.StandardWindow(), set.Setup.Rounded()
	var n Tally
	for _, b := range set.Breaks {
		kept, err := drillBreak(breakRow(b))
		if err != nil {
			return err
		}
		n = n.Plus(TallyOf(kept, setup, window))
	}
	if err := i.createTally(ctx, row, window); err != nil {
		return err
	}
	return i.saveTally(ctx, row.ID, n)
}

func (i *importer) insertBreaks(ctx context.Context, set uuid.UUID, student PersonID, breaks []drill.Break) error {
	rows := make([]query.InsertImportedBreakParams, len(breaks))
	for n, b := range breaks {
		r := breakRow(b)
		r.ClubID, r.ID, r.SetID, r.StudentID = i.actor.Club.UUID, newUUID(), set, student.UUID
		rows[n] = importedBreakRow(r)
	}
	var failed error
	i.InsertImportedBreak(ctx, rows).Exec(func(_ int, err error) {
		if failed == nil {
			failed = err
		}
	})
	return failed
}

func (i *importer) ensureSetupOnce(ctx context.Context, s drill.Setup) (uuid.UUID, error) {
	s = s.Rounded()
	if id, known := i.setups[s]; known {
		return id, nil
	}
	id, err := i.ensureSetup(ctx, s)
	i.setups[s] = id
	return id, err
}
