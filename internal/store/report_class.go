package store

import (
	"context"
	"time"

	"breakwright/internal/store/internal/query"
)

// ClassReport is a class as it is reported: what was done in a time, and where
// everybody stands now.
type ClassReport struct {
	Class Class
	// Students are by name, without archived ones.
	Students []ReportedStudent
	// Drills are the open assignments of the class, by due day.
	Drills []ListedAssignment
}

// ReportedStudent is one student of a class report. Recent has as many sets as
// a chart needs, MaxProgressSets at most.
type ReportedStudent struct {
	Standing
	// Sets and Breaks count what they closed of sets begun in the time asked
	// for, under whatever setup.
	Sets, Breaks int
}

// TimeSpan is a time from a moment to before another.
type TimeSpan struct{ Since, Until time.Time }

// GetClassReport returns what a class did in a time and where it stands now: as
// many queries whatever the class and however long its history. Coaches only.
func (s *Store) GetClassReport(ctx context.Context, v Actor, id ClassID, in TimeSpan) (ClassReport, error) {
	return readInTransaction(ctx, s, v, "get the class's report", func(t *tx) (ClassReport, error) {
		if err := v.requireCoach(); err != nil {
			return ClassReport{}, err
		}
		c, all, ids, err := t.loadMembers(ctx, id)
		if err != nil {
			return ClassReport{}, err
		}
		report := ClassReport{Class: c}
		place := make(map[PersonID]*Standing, len(all))
		for i := range all {
			place[all[i].ID] = &all[i]
		}
		if err := t.fillStandings(ctx, ids, place); err != nil {
			return ClassReport{}, err
		}
		if report.Students, err = t.addReportCounts(ctx, all, ids, in); err != nil {
			return ClassReport{}, err
		}
		report.Drills, err = t.listClassDrills(ctx, id)
		return report, err
	})
}

// addReportCounts adds to standings what was done in a time, and the sets of charts.
func (t *tx) addReportCounts(ctx context.Context, all []Standing, ids []PersonID, in TimeSpan) ([]ReportedStudent, error) {
	rows, err := t.SumSetsInSpan(ctx, query.SumSetsInSpanParams{Students: plainUUIDs(ids), Since: in.Since, Until: in.Until})
	if err != nil {
		return nil, err
	}
	done := make(map[PersonID]query.SumSetsInSpanRow, len(rows))
	for _, r := range rows {
		done[PersonID{r.StudentID}] = r
	}
	recent, err := t.loadRecentSets(ctx, ids, MaxProgressSets)
	return mapRows(all, func(one Standing) ReportedStudent {
		one.Recent = recent[one.ID]
		return ReportedStudent{Standing: one, Sets: done[one.ID].Sets, Breaks: done[one.ID].Breaks}
	}), err
}

func (t *tx) listClassDrills(ctx context.Context, id ClassID) ([]ListedAssignment, error) {
	page, err := t.loadAssignmentPage(ctx, AssignmentFilter{Class: id})
	return page.List, err
}
