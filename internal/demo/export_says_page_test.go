//go:build !quick

package demo

import (
	"bytes"
	"reflect"
	"testing"
	"time"

	"breakwright/internal/advice"
	"breakwright/internal/breaklog"
	"breakwright/internal/drill"
	"breakwright/internal/say"
	"breakwright/internal/setreview"
	"breakwright/internal/store"
	"breakwright/internal/table"
)

// checkExportsSayThePage judges every student's export as it was known when each set was
// closed: it says what the page of that set says, in the same words and from the same
// findings. What the coach decided since on the latest set is said of the whole export.
func checkExportsSayThePage(t *testing.T, s *store.Store) {
	compared, chosen := map[table.Kind]int{}, 0
	for _, who := range must(s.ListStudents(t.Context(), demoCoach, store.ActiveOnly))(t) {
		log := readExport(t, s, who.ID)
		changes := must(s.ListPrescriptions(t.Context(), demoCoach, who.ID))(t)
		for _, listed := range must(s.ListSets(t.Context(), demoCoach, who.ID))(t) {
			set := must(s.GetSet(t.Context(), demoCoach, listed.ID))(t)
			if set.Advice == nil {
				continue
			}
			page := must(setreview.ReadAdvice(set.Advice))(t)
			requireSame(t, who.Name+" on "+set.Table.Label(), setreview.JudgeLog(knownAt(log, set.Closed, changes), nil), page)
			compared[set.Table.Kind]++
		}
		if whole := setreview.JudgeLog(log, nil); whole.Statement.Kind == say.CoachChose {
			chosen++
		} else if last := findLastClosed(t, s, who.ID); !store.IsZero(last) {
			latest := must(s.GetSet(t.Context(), demoCoach, last))(t)
			requireSame(t, who.Name+" now", whole, must(setreview.ReadAdvice(latest.Advice))(t))
		}
	}
	if len(compared) < 3 || chosen == 0 {
		t.Errorf("sets were compared on %d kinds of table, and of %d students the coach chose the setup", len(compared), chosen)
	}
}

// readExport is a student's break log as it is taken away and read again.
func readExport(t *testing.T, s *store.Store, who store.PersonID) []drill.Set {
	t.Helper()
	var file bytes.Buffer
	log := breaklog.NewWriter(&file)
	err := s.ExportSets(t.Context(), demoCoach, store.ExportScope{Student: who}, func(_ store.Person, sets []drill.Set) error { return log.Write(sets) })
	if err == nil {
		err = log.Close()
	}
	if err != nil {
		t.Fatal(err)
	}
	return must(breaklog.Read(&file))(t)
}

// knownAt is a log without the sets that were closed later, and without what was
// decided later.
func knownAt(log []drill.Set, at time.Time, changes []store.Prescription) (known []drill.Set) {
	for _, set := range log {
		if set.Plan.Closed.IsZero() || set.Plan.Closed.After(at) {
			continue
		}
		var decided []drill.PlanDecision
		for _, d := range set.Plan.Decisions {
			for _, p := range changes {
				if p.Rule == d.Rule && string(p.Decision) == d.Answer && p.Created.Equal(set.Plan.Closed) && !p.DecidedAt.After(at) {
					decided = append(decided, d)
				}
			}
		}
		set.Plan.Decisions = decided
		known = append(known, set)
	}
	return known
}

// requireSame compares what an export says with what a page says.
func requireSame(t *testing.T, whose string, exported, page advice.Advice) {
	t.Helper()
	if page.Says != exported.Says || !reflect.DeepEqual(page.Statement, exported.Statement) || !reflect.DeepEqual(page.Findings, exported.Findings) ||
		!reflect.DeepEqual(page.Prescription, exported.Prescription) || !reflect.DeepEqual(page.FollowUp, exported.FollowUp) {
		t.Errorf("%s: the export says %q, the page %q", whose, exported.Says, page.Says)
	}
}

// findLastClosed is a student's set that was closed last.
func findLastClosed(t *testing.T, s *store.Store, student store.PersonID) (last store.SetID) {
	var at time.Time
	for _, set := range must(s.ListSets(t.Context(), demoCoach, student))(t) {
		if set.Closed.After(at) {
			last, at = set.ID, set.Closed
		}
	}
	return last
}
