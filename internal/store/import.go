package store

import (
	"context"
	"fmt"

	"github.com/google/uuid"

	"breakwright/internal/drill"
	"breakwright/internal/table"
)

// Imported says what an import did.
type Imported struct {
	Students []Person // made for it, with join codes
	Tables   []Table  // made for it
	Sets     int      // taken over
	Breaks   int      // in them
	Had      int      // there before, the very same
}

// UnnamedTable is the table of sets that name none.
const UnnamedTable = "Unnamed table"

// Import takes sets over from a break log, as closed sets without advice.
// Students and tables are found by the names that Export gives them, and made
// when they are missing; a table of the same name and another kind is another
// table. A set is known by its student and name: the very same set again is
// left alone, so repeating an import is harmless; another set of that name is
// an [ErrConflict]. Sets that cannot be are refused with [drill.Problems]. All
// sets are taken over, or none. Coaches only.
//
// Each student's sets must come oldest first. A set without times keeps its
// place in that order.
func (s *Store) Import(ctx context.Context, v Viewer, sets []drill.Set) (Imported, error) {
	return s.importSets(ctx, v, sets, func(int) {}, func(*tx, Imported) error { return nil })
}

// ImportAs is Import as a job at work: seen is told after each set how many
// breaks have been seen to, and what comes of it ends the job, in the same
// transaction, so that the job is done exactly when the sets are there. It is
// for the caller to end the job when this fails.
func (s *Store) ImportAs(ctx context.Context, v Viewer, run JobRun, sets []drill.Set, seen func(breaks int), end func(Imported) JobEnd) error {
	_, err := s.importSets(ctx, v, sets, seen, func(t *tx, done Imported) error { return t.endJob(ctx, run, end(done)) })
	return err
}

func (s *Store) importSets(ctx context.Context, v Viewer, sets []drill.Set, seen func(int), end func(*tx, Imported) error) (Imported, error) {
	var done Imported
	err := s.change(ctx, v, "import", func(t *tx) error {
		if err := checkImport(sets); err != nil {
			return err
		}
		if err := t.Lock(ctx, v.Club.String()); err != nil { // one import at a time
			return err
		}
		club, err := t.club(ctx)
		if err != nil {
			return err
		}
		i := importer{tx: t, setups: map[drill.Setup]uuid.UUID{}, zone: club.Location(), seen: seen}
		if err := i.prepare(ctx, sets); err != nil {
			return err
		}
		for _, group := range byStudent(sets) {
			if err := i.student(ctx, group); err != nil {
				return err
			}
		}
		done = i.done
		return end(t, done)
	})
	if err != nil {
		return Imported{}, err
	}
	return done, nil
}

func checkImport(sets []drill.Set) error {
	for _, set := range sets {
		if err := set.Check(); err != nil {
			return fmt.Errorf("set %s of %s: %w", set.Name, set.Student, err)
		}
		var p drill.Problems
		if says := drill.CheckName(set.Student); says != "" {
			p.Add("student", says)
		}
		if says := drill.CheckName(set.Name); says != "" {
			p.Add("set", says)
		}
		if says := drill.CheckName(tableLabel(set)); says != "" {
			p.Add("table", says)
		}
		if _, err := table.Make(set.Kind.Feet, set.Kind.CornerMouth, set.Kind.SideMouth); err != nil {
			p.Add("table_ft", err.Error())
		}
		if len(set.Breaks) == 0 {
			p.Add("break", "a set has one break or more")
		}
		if err := p.Err(); err != nil {
			return fmt.Errorf("set %s of %s: %w", set.Name, set.Student, err)
		}
	}
	return nil
}

// byStudent groups sets, students in the order in which they first appear.
func byStudent(sets []drill.Set) [][]drill.Set {
	var groups [][]drill.Set
	place := map[string]int{}
	for _, set := range sets {
		i, known := place[set.Student]
		if !known {
			i = len(groups)
			place[set.Student] = i
			groups = append(groups, nil)
		}
		groups[i] = append(groups[i], set)
	}
	return groups
}

func tableLabel(set drill.Set) string {
	if set.Table == "" {
		return UnnamedTable
	}
	return set.Table
}
