package store

import (
	"context"
	"slices"

	"github.com/google/uuid"

	"breakwright/internal/coaching"
	"breakwright/internal/drill"
	"breakwright/internal/store/internal/query"
)

// ExportScope says whose sets are meant. The zero scope is the whole club, archived
// students too.
type ExportScope struct {
	Class   ClassID  // zero for any
	Student PersonID // zero for any; goes before Class
}

// ExportSets hands over everything that was recorded, open sets too and deleted
// breaks not, student by student by name, each student's sets oldest first.
// Students of one name are told apart as "Ada", "Ada (2)", in the order in
// which they joined, and tables are named with their venue. A student who
// recorded nothing is left out. An error of hand ends the export and comes
// back. A student can export only their own.
func (s *Store) ExportSets(ctx context.Context, v Actor, scope ExportScope, hand func(Person, []drill.Set) error) error {
	return s.inTransaction(ctx, v, "export", func(t *tx) error {
		students, err := t.listScopeStudents(ctx, scope)
		if err != nil {
			return err
		}
		labels, err := t.labelStudents(ctx)
		if err != nil {
			return err
		}
		var rules ruleHistory
		if err := t.asAdviser(ctx, t.actor.Person, func() (err error) {
			rules, err = t.ListRuleHistory(ctx)
			return err
		}); err != nil {
			return err
		}
		for _, student := range students {
			sets, err := t.loadPlannedSets(ctx, student.ID, labels[student.ID], rules)
			if err != nil {
				return err
			}
			if len(sets) == 0 {
				continue
			}
			if err := hand(student, sets); err != nil {
				return err
			}
		}
		return nil
	})
}

// loadPlannedSets returns a student's sets with breaks, and with what they were broken
// for and what was decided on them.
func (t *tx) loadPlannedSets(ctx context.Context, student PersonID, label string, rules ruleHistory) ([]drill.Set, error) {
	recorded, err := t.loadRecordedSets(ctx, []PersonID{student})
	if err != nil {
		return nil, err
	}
	drills, err := t.loadDrillsOf(ctx, recorded)
	if err != nil {
		return nil, err
	}
	changes, err := t.loadChangeRecords(ctx, []PersonID{student})
	if err != nil {
		return nil, err
	}
	book := changes[student].Book
	judged, err := t.loadJudgedBy(ctx, []PersonID{student})
	if err != nil {
		return nil, err
	}
	var sets []drill.Set
	for _, r := range recorded {
		if len(r.Breaks) == 0 {
			continue
		}
		r.applyKeptDrill(drills[r.Drill.ID.UUID])
		set := r.DrillSet()
		set.Student = label
		set.Plan = drill.SetPlan{
			Window: r.Window, Targets: r.Targets, House: r.House, Closed: r.Closed,
			Decisions: planDecisions(book, r), Rules: rules.judging(judged[r.ID].rulesVersion), TablesPlay: judged[r.ID].tablesPlay,
		}
		sets = append(sets, set)
	}
	return sets, nil
}

// planDecisions are what was decided on a set, newest first, and last the decision before
// that comes first.
func planDecisions(book coaching.Book, set Set) (list []drill.PlanDecision) {
	for _, c := range slices.Backward(book.Changes) {
		if c.Set == coaching.ID(set.ID.UUID) && c.Decision != "" && c.State != Withdrawn {
			list = append(list, planDecision(c))
		}
	}
	if first := book.ComesFirst(closedSet(set)); first != nil {
		list = append(list, drill.PlanDecision{Answer: drill.EarlierDecision, Setup: first.After().ForSide(set.Setup.Side)})
	}
	return list
}

func planDecision(c coaching.Change) drill.PlanDecision {
	d := drill.PlanDecision{Answer: string(c.Decision), Rule: c.Rule, Setup: c.After()}
	if c.Decision == Declined {
		d.Setup = c.Before
	}
	return d
}

// closedSet is a set that was closed as package coaching knows it, without what it proposed.
func closedSet(set Set) coaching.ClosedSet {
	return coaching.ClosedSet{
		Set: coaching.ID(set.ID.UUID), Lineage: coaching.ID(set.Drill.Lineage.UUID), Kind: set.Table.Kind, Setup: set.Setup, At: set.Closed,
	}
}

// loadDrillsOf returns the drills of sets.
func (t *tx) loadDrillsOf(ctx context.Context, sets []Set) (map[uuid.UUID]Drill, error) {
	var ids []uuid.UUID
	for _, set := range sets {
		if !IsZero(set.Drill.ID) {
			ids = append(ids, set.Drill.ID.UUID)
		}
	}
	return t.loadDrillsByID(ctx, ids)
}

// loadDrillsByID returns drills by their ids.
func (t *tx) loadDrillsByID(ctx context.Context, ids []uuid.UUID) (map[uuid.UUID]Drill, error) {
	rows, err := t.ListDrillsByID(ctx, ids)
	if err != nil {
		return nil, err
	}
	drills := make(map[uuid.UUID]Drill, len(rows))
	for _, r := range rows {
		if drills[r.Drill.ID], err = drillFromRow(r.Drill, r.Setup, true); err != nil {
			return nil, err
		}
	}
	return drills, nil
}

func (t *tx) listScopeStudents(ctx context.Context, scope ExportScope) ([]Person, error) {
	switch {
	case !IsZero(scope.Student):
		student, err := t.loadStudent(ctx, scope.Student)
		return []Person{student}, err
	case !IsZero(scope.Class):
		if _, err := t.Queries.GetClass(ctx, scope.Class.UUID); err != nil {
			return nil, err
		}
		rows, err := t.ListClassMembers(ctx, scope.Class.UUID)
		return mapRows(rows, func(r query.ListClassMembersRow) Person { return personFromRow(query.GetPersonRow(r)) }), err
	}
	rows, err := t.Queries.ListStudents(ctx, bool(WithArchived))
	return mapRows(rows, func(r query.ListStudentsRow) Person { return personFromRow(query.GetPersonRow(r)) }), err
}

// labelStudents names every student of the club apart.
func (t *tx) labelStudents(ctx context.Context) (map[PersonID]string, error) {
	rows, err := t.ListStudentsAsJoined(ctx)
	if err != nil {
		return nil, err
	}
	names := map[string]bool{}
	for _, r := range rows {
		names[r.Name] = true
	}
	labels := map[PersonID]string{}
	taken := map[string]bool{}
	for _, r := range rows {
		label := r.Name
		if taken[label] { // the first of a name keeps it
			label = freeName(r.Name, func(n string) bool { return taken[n] || names[n] })
		}
		taken[label] = true
		labels[PersonID{r.ID}] = label
	}
	return labels, nil
}
