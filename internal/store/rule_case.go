package store

import (
	"context"
	"time"

	"github.com/google/uuid"

	"breakwright/internal/drill"
	"breakwright/internal/store/internal/query"
)

// PastCases are sets as a judge would have been given them when they were
// closed, for trying other rules on them.
type PastCases struct {
	// Cases are the latest first.
	Cases []PastCase
	// Left counts the sets that were too many.
	Left int
}

// PastCase is a set that was closed, with what was known then: the student's
// sets closed before it and what the coaches had decided by then. The rules are
// those of now; InTrial is not filled in.
type PastCase struct {
	Case
	Student PersonID
	Closed  time.Time
}

// ListPastCases returns the sets with breaks that students of the club closed
// since then, archived students left out: the latest ones, at most so many.
// Coaches only.
func (s *Store) ListPastCases(ctx context.Context, v Actor, since time.Time, most int) (PastCases, error) {
	return readInTransaction(ctx, s, v, "list the closed sets", func(t *tx) (PastCases, error) {
		if err := v.requireCoach(); err != nil {
			return PastCases{}, err
		}
		rows, err := t.ListSetsClosedSince(ctx, query.ListSetsClosedSinceParams{Since: since, Most: int32(min(max(most, 0), maxCases))})
		if err != nil || len(rows) == 0 {
			return PastCases{}, err
		}
		p, err := t.loadPastRecords(ctx, rows)
		if err != nil {
			return PastCases{}, err
		}
		past := PastCases{Left: int(rows[0].Total) - len(rows)}
		for _, r := range rows {
			past.Cases = append(past.Cases, p.buildCase(r))
		}
		return past, nil
	})
}

// maxCases keeps a slip of a caller from asking for a whole club's life.
const maxCases = 10000

// pastRecords is what cases are made of.
type pastRecords struct {
	sets          map[PersonID][]Set // oldest first
	prescriptions map[PersonID][]Prescription
	drills        map[uuid.UUID]Drill
	judged        map[SetID]judgedBy
	rules         drill.ClubRules
}

func (t *tx) loadPastRecords(ctx context.Context, rows []query.ListSetsClosedSinceRow) (pastRecords, error) {
	p := pastRecords{sets: map[PersonID][]Set{}, prescriptions: map[PersonID][]Prescription{}}
	var students []PersonID
	var drills []uuid.UUID
	for _, r := range rows {
		students = append(students, PersonID{r.StudentID})
		if r.DrillID != nil {
			drills = append(drills, *r.DrillID)
		}
	}
	recorded, err := t.loadRecordedSets(ctx, students)
	if err != nil {
		return pastRecords{}, err
	}
	for _, set := range recorded {
		if !set.Closed.IsZero() && len(set.Breaks) > 0 {
			p.sets[set.Student] = append(p.sets[set.Student], set)
		}
	}
	decided, err := t.loadPrescriptions(ctx, students)
	if err != nil {
		return pastRecords{}, err
	}
	for _, one := range decided {
		p.prescriptions[one.Student] = append(p.prescriptions[one.Student], one)
	}
	if p.drills, err = t.loadDrillsByID(ctx, drills); err != nil {
		return pastRecords{}, err
	}
	if p.judged, err = t.loadJudgedBy(ctx, students); err != nil {
		return pastRecords{}, err
	}
	p.rules, err = t.loadClubRules(ctx)
	return p, err
}

// buildCase puts together what was known when a set was closed.
func (p pastRecords) buildCase(r query.ListSetsClosedSinceRow) PastCase {
	c := PastCase{Student: PersonID{r.StudentID}, Closed: r.ClosedAt.UTC()}
	c.Set, c.Rules = SetID{r.ID}, p.rules
	c.TablesPlay = p.judged[c.Set].tablesPlay
	for _, set := range p.sets[c.Student] {
		if set.ID == c.Set {
			set.applyKeptDrill(p.drills[valueOrZero(r.DrillID)])
			c.Window, c.Targets, c.House = set.Window, set.Targets, set.House
		}
		if !set.Closed.After(c.Closed) {
			c.addSet(set)
		}
	}
	c.moveSetLast(c.Set)
	for _, one := range p.prescriptions[c.Student] {
		if one.isOverruled() && one.DecidedAt.Before(c.Closed) {
			c.addOverruled(one)
		}
	}
	return c
}
