package store

import (
	"context"
	"fmt"

	"github.com/google/uuid"

	"breakwright/internal/drill"
)

// ImportResult says what an import did.
type ImportResult struct {
	Students   []Person // made for it, with join codes
	Tables     []Table  // made for it
	Sets       int      // taken over
	Breaks     int      // in them
	Duplicates int      // there before, the very same
}

// UnnamedTable is the table of sets that name none.
const UnnamedTable = "Unnamed table"

// ImportSets takes sets over from a break log, as closed sets without advice; their
// plans stay out, since a drill and a decision are more than a log has of them.
// Students and tables are found by the names that Export gives them, and made
// when they are missing; a table of the same name and another kind is another
// table. A set is known by its student and name: the very same set again is
// left alone, so repeating an import is harmless; another set of that name is
// an [ErrConflict]. Sets that cannot be are refused with [drill.Problems]. All
// sets are taken over, or none. Coaches only.
//
// Each student's sets must come oldest first. A set without times keeps its
// place in that order.
func (s *Store) ImportSets(ctx context.Context, v Actor, sets []drill.Set) (ImportResult, error) {
	return s.runImport(ctx, v, sets, func(int) {}, func(*tx, ImportResult) error { return nil })
}

// ImportInJob is Import as a job at work: seen is called after each set with how many
// breaks have been seen to, and what comes of it ends the job, in the same
// transaction, so that the job is done exactly when the sets are there. It is
// for the caller to end the job when this fails.
func (s *Store) ImportInJob(ctx context.Context, v Actor, run JobRun, sets []drill.Set, seen func(breaks int), end func(ImportResult) JobEnd) error {
	_, err := s.runImport(ctx, v, sets, seen, func(t *tx, done ImportResult) error { return t.endJob(ctx, run, end(done)) })
	return err
}

func (s *Store) runImport(ctx context.Context, v Actor, sets []drill.Set, seen func(int), end func(*tx, ImportResult) error) (ImportResult, error) {
	var done ImportResult
	err := s.changeAsCoach(ctx, v, "import", func(t *tx) error {
		if err := checkImport(sets); err != nil {
			return err
		}
		if err := t.LockUntilCommit(ctx, v.Club.String()); err != nil { // one import at a time
			return err
		}
		club, err := t.loadClub(ctx)
		if err != nil {
			return err
		}
		i := importer{tx: t, setups: map[drill.Setup]uuid.UUID{}, zone: club.Location(), reportProgress: seen}
		if err := i.loadKnownNames(ctx, sets); err != nil {
			return err
		}
		for _, group := range groupByStudent(sets) {
			if err := i.importStudent(ctx, group); err != nil {
				return err
			}
			if err := i.forgetPlans(ctx); err != nil {
				return err
			}
		}
		done = i.result
		return end(t, done)
	})
	if err != nil {
		return ImportResult{}, err
	}
	return done, nil
}

// forgetPlans lets the database plan its statements, and those of its foreign keys, anew:
// plans made while the tables were nearly empty read all of a club's rows where the tables
// have grown meanwhile.
func (i *importer) forgetPlans(ctx context.Context) error {
	_, err := i.conn.Exec(ctx, "DISCARD PLANS")
	return err
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
		if _, err := set.Kind.Checked(); err != nil {
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

// groupByStudent groups sets, students in the order in which they first appear.
func groupByStudent(sets []drill.Set) [][]drill.Set {
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
