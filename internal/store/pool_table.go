package store

import (
	"context"
	"errors"
	"time"
	"unicode/utf8"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"

	"breakwright/internal/drill"
	"breakwright/internal/store/internal/query"
	"breakwright/internal/table"
)

// Table is a table that is played on.
//
// Everybody of the club reads it, a coach makes, changes and archives it
// ([ErrNotAllowed] for a student). What was broken on it is kept as it was: one that
// was broken on keeps its size and pockets for good, see [Store.SaveTable].
type Table struct {
	ID   TableID
	Name string
	// Venue is where it stands; may be empty.
	Venue    string
	Kind     table.Kind
	Archived bool
}

// Label is the table's name with its venue: how a break log names it.
func (t Table) Label() string {
	if t.Venue == "" {
		return t.Name
	}
	return t.Venue + ", " + t.Name
}

func (t Table) validate() error {
	var p drill.Problems
	if says := drill.CheckName(t.Name); says != "" {
		p.Add("name", says)
	}
	if t.Venue != "" && drill.CheckName(t.Venue) != "" || utf8.RuneCountInString(t.Label()) > drill.MaxName {
		p.Add("venue", "a shorter name of the place, on one line")
	}
	if _, err := t.Kind.Checked(); err != nil {
		p.Add("kind", err.Error())
	}
	return p.Err()
}

// SaveTable makes a table or changes one, and returns it as it now is. Records of
// different kinds of table do not mix: when a table that was broken on gets
// another size or other pockets, the old one is archived and a new one of its
// name takes its place, with another id. [ErrConflict] when another table at
// that venue has the name. Coaches only.
func (s *Store) SaveTable(ctx context.Context, v Actor, wanted Table) (Table, error) {
	wanted.ID = idOrNew(wanted.ID)
	wanted.Archived = false
	err := s.changeAsCoach(ctx, v, "save the table", func(t *tx) error {
		if err := wanted.validate(); err != nil {
			return err
		}
		id, err := t.saveTable(ctx, wanted)
		if violatesUnique(err, "pool_table_name") {
			return wanted.nameTakenError()
		}
		wanted.ID = id
		return err
	})
	return wanted, err
}

func (t *tx) saveTable(ctx context.Context, wanted Table) (TableID, error) {
	row, err := t.LockTable(ctx, wanted.ID.UUID)
	if errors.Is(err, pgx.ErrNoRows) {
		return wanted.ID, t.insertTable(ctx, wanted)
	}
	if err != nil {
		return TableID{}, err
	}
	if row.ArchivedAt != nil {
		return t.sameTable(ctx, wanted)
	}
	if kindFromRow(row) != wanted.Kind {
		used, err := t.IsTableUsed(ctx, row.ID)
		if err != nil {
			return TableID{}, err
		}
		if used {
			return t.replaceTable(ctx, wanted)
		}
	}
	return wanted.ID, requireChangedRow(t.UpdateTable(ctx, query.UpdateTableParams{
		Name: wanted.Name, Venue: wanted.Venue, ID: wanted.ID.UUID,
		Feet: wanted.Kind.Feet, Small: wanted.Kind.Small, CornerIn: float64(wanted.Kind.CornerMouth), SideIn: float64(wanted.Kind.SideMouth),
	}))
}

// sameTable finds what an earlier click of the same change has made.
func (t *tx) sameTable(ctx context.Context, wanted Table) (TableID, error) {
	rows, err := t.Queries.ListTables(ctx, bool(ActiveOnly))
	for _, there := range mapRows(rows, tableFromRow) {
		if there.Name == wanted.Name && there.Venue == wanted.Venue && there.Kind == wanted.Kind {
			return there.ID, nil
		}
	}
	if err == nil {
		err = newRefusal(ErrConflict, "this table was archived or replaced meanwhile")
	}
	return TableID{}, err
}

func (t *tx) replaceTable(ctx context.Context, wanted Table) (TableID, error) {
	if err := requireChangedRow(t.Queries.ArchiveTable(ctx, wanted.ID.UUID)); err != nil {
		return TableID{}, err
	}
	wanted.ID = NewID[TableID]()
	return wanted.ID, t.insertTable(ctx, wanted)
}

func (t *tx) insertTable(ctx context.Context, n Table) error {
	var archived *time.Time
	if n.Archived {
		now := time.Now()
		archived = &now
	}
	rows, err := t.InsertTable(ctx, query.InsertTableParams{
		ClubID: t.actor.Club.UUID, ID: n.ID.UUID, Name: n.Name, Venue: n.Venue, ArchivedAt: archived,
		Feet: n.Kind.Feet, Small: n.Kind.Small, CornerIn: float64(n.Kind.CornerMouth), SideIn: float64(n.Kind.SideMouth),
	})
	if err != nil {
		return err
	}
	if rows == 1 {
		return t.requireRoom(ctx, RoomForTables, uuid.Nil)
	}
	if _, err := t.Queries.GetTable(ctx, n.ID.UUID); err == nil {
		return nil // a second click
	}
	return n.nameTakenError()
}

// nameTakenError says that another table at the venue has the name.
func (t Table) nameTakenError() error {
	return newRefusal(ErrConflict, "there is a table %s already", t.Label())
}

// ArchiveTable puts a table away; what was broken on it stays. Coaches only.
func (s *Store) ArchiveTable(ctx context.Context, v Actor, id TableID) error {
	return s.changeAsCoach(ctx, v, "archive the table", func(t *tx) error {
		return requireChangedRow(t.Queries.ArchiveTable(ctx, id.UUID))
	})
}

// RestoreTable takes a table back from the archived ones. [ErrConflict] when
// another one of its name stands at that venue meanwhile. Coaches only.
func (s *Store) RestoreTable(ctx context.Context, v Actor, id TableID) error {
	return s.changeAsCoach(ctx, v, "restore the table", func(t *tx) error {
		row, err := t.LockTable(ctx, id.UUID)
		if err != nil {
			return err
		}
		err = requireChangedRow(t.Queries.RestoreTable(ctx, id.UUID))
		if violatesUnique(err, "pool_table_name") {
			return tableFromRow(row).nameTakenError()
		}
		return err
	})
}

// ListTables returns the club's tables by venue and name.
func (s *Store) ListTables(ctx context.Context, v Actor, which ArchiveFilter) ([]Table, error) {
	return readInTransaction(ctx, s, v, "list the tables", func(t *tx) ([]Table, error) {
		rows, err := t.Queries.ListTables(ctx, bool(which))
		return mapRows(rows, tableFromRow), err
	})
}

// GetTable returns a table of the club, archived or not.
func (s *Store) GetTable(ctx context.Context, v Actor, id TableID) (Table, error) {
	return readInTransaction(ctx, s, v, "get the table", func(t *tx) (Table, error) {
		row, err := t.Queries.GetTable(ctx, id.UUID)
		return tableFromRow(row), err
	})
}

func tableFromRow(row query.PoolTable) Table {
	return Table{ID: TableID{row.ID}, Name: row.Name, Venue: row.Venue, Kind: kindFromRow(row), Archived: row.ArchivedAt != nil}
}
