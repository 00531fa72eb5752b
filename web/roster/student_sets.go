package roster

import (
	"strconv"
	"time"

	"breakwright/internal/drill"
	"breakwright/internal/store"
	"breakwright/internal/table"
	"breakwright/web/sheet"
)

// setRow is a set in a student's table of them.
type setRow struct {
	Path, When, Drill, Table, Breaks string
	// Wing and Window are "3 of 10", "" while the set is open.
	Wing, Window string
	Open         bool
}

// setRows puts the sets, newest first, in rows. The counts are made of the
// history, which holds the closed sets with their breaks.
func setRows(sets []store.ListedSet, history store.History, drills []store.Drill, zone *time.Location) []setRow {
	closed := make(map[store.SetID]drill.Set, len(history.IDs))
	for i, id := range history.IDs {
		closed[id] = history.Sets[i]
	}
	written := make(map[store.DrillID]store.Drill, len(drills))
	for _, d := range drills {
		written[d.ID] = d
	}
	rows := make([]setRow, len(sets))
	for i, set := range sets {
		rows[i] = setRow{
			Path: "/sets/" + set.ID.String(), When: minute(set.Started, zone), Drill: set.DrillName, Table: set.TableLabel,
			Breaks: strconv.Itoa(set.Breaks), Open: set.Closed.IsZero(),
		}
		if set.DrillName == "" {
			rows[i].Drill = "From a break log"
		}
		if rows[i].Open {
			rows[i].Breaks = sheet.CountWords(set.Breaks, set.Planned)
		}
		if seen, ok := closed[set.ID]; ok {
			d, known := written[set.Drill]
			c := sheet.Count(seen.Breaks, seen.Setup, windowOf(d, known, seen))
			rows[i].Wing, rows[i].Window = sheet.CountWords(c.Wing, c.Breaks), sheet.CountWords(c.Window, c.Breaks)
		}
	}
	return rows
}

// windowOf is where the cue ball should have stopped in the set: the drill's
// window carried to its table, the right way round; the standard one for a set
// without a drill. The set's own page has the same from the store.
func windowOf(d store.Drill, known bool, set drill.Set) table.Window {
	if !known {
		return set.Kind.StandardWindow()
	}
	window := store.Task{Drill: d}.On(set.Kind).Window
	if set.Setup.Side != d.Setup.Side {
		return window.Mirror()
	}
	return window
}
