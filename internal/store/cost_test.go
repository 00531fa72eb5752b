package store_test

import (
	"fmt"
	"testing"
	"time"

	"github.com/google/uuid"

	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
)

// A page costs the same number of queries however much there is on it.
func TestPages_CostAFixedNumberOfQueries(t *testing.T) {
	t.Parallel()
	var queries storetest.Counter
	sc := storetest.NewScene(t, store.WithTracer(&queries))
	ctx, s, odile := t.Context(), sc.Store, sc.StudentActor(0)
	set := sc.RecordBreaks(t, odile, 10)
	sc.CloseSet(t, odile, set, -16)
	everyone := func() (ids []store.PersonID) {
		for _, p := range must(s.ListStudents(ctx, sc.Coach, store.WithArchived))(t) {
			ids = append(ids, p.ID)
		}
		return ids
	}
	pages := map[string]func() error{
		"today":       func() error { _, err := s.GetToday(ctx, odile); return err },
		"a set":       func() error { _, err := s.GetSet(ctx, odile, set); return err },
		"sets":        func() error { _, err := s.ListSets(ctx, odile, odile.Person); return err },
		"history":     func() error { _, err := s.GetHistory(ctx, odile, odile.Person); return err },
		"progress":    func() error { _, err := s.GetAssignmentProgress(ctx, sc.Coach, sc.Assignment); return err },
		"pending":     func() error { _, err := s.ListPendingPrescriptions(ctx, sc.Coach); return err },
		"changes":     func() error { _, err := s.ListPrescriptions(ctx, sc.Coach, odile.Person); return err },
		"questions":   func() error { _, err := s.ListUnreadQuestions(ctx, sc.Coach); return err },
		"drills":      func() error { _, err := s.ListDrills(ctx, sc.Coach, store.WithArchived); return err },
		"classes":     func() error { _, err := s.ListClasses(ctx, sc.Coach, store.WithArchived); return err },
		"a class":     func() error { _, _, err := s.GetClass(ctx, sc.Coach, sc.Class); return err },
		"assignments": func() error { _, err := s.ListAssignments(ctx, sc.Coach, store.WithArchived); return err },
		"rules":       func() error { _, err := s.GetRules(ctx, sc.Coach); return err },
		"past cases":  func() error { _, err := s.ListPastCases(ctx, sc.Coach, time.Time{}, 100); return err },
		"desk":        func() error { _, err := s.GetDesk(ctx, sc.Coach, time.Now(), time.Now().UTC()); return err },
		"class":       func() error { _, _, err := s.GetClassProgress(ctx, sc.Coach, sc.Class); return err },
		"picture":     func() error { _, err := s.GetClassPicture(ctx, sc.Coach, sc.Class); return err },
		"story": func() error {
			_, err := s.GetStudentProgress(ctx, odile, odile.Person, store.ProgressFilter{})
			return err
		},
		"cards":  func() error { _, err := s.ListCards(ctx, odile, odile.Person); return err },
		"tables": func() error { _, err := s.ListTables(ctx, sc.Coach, store.WithArchived); return err },
	}
	const most = 14
	cost := func(page func() error) int64 {
		return queries.CountDuring(func() {
			if err := page(); err != nil {
				t.Fatal(err)
			}
		})
	}
	histories := map[int]int64{}
	measure := func() map[string]int64 {
		costs := map[string]int64{}
		for name, page := range pages {
			costs[name] = cost(page)
		}
		ids := everyone()
		histories[len(ids)] = cost(func() error { _, err := s.GetHistories(ctx, sc.Coach, ids); return err })
		return costs
	}
	few := measure()
	grow(t, sc)
	many := measure()
	for name, n := range few {
		if many[name] != n || n == 0 || n > most {
			t.Errorf("%s costs %d queries with little in it and %d with more; %d is the most", name, n, many[name], most)
		}
	}
	if len(histories) != 2 || histories[3] != histories[11] {
		t.Errorf("histories of 3 and of 11 students cost %v", histories)
	}
}

// grow adds eight students, and more of everything.
func grow(t *testing.T, sc storetest.Scene) {
	t.Helper()
	ctx := t.Context()
	var more []store.NewStudent
	for i := range 8 {
		more = append(more, store.NewStudent{Name: fmt.Sprintf("Student %d", i)})
	}
	sc.Students = append(sc.Students, must(sc.Store.AddStudents(ctx, sc.Coach, uuid.Nil, sc.Class, more))(t)...)
	for i := range sc.Students {
		set := sc.RecordBreaks(t, sc.StudentActor(i), 3)
		if err := sc.Store.PostMessage(ctx, sc.StudentActor(i), store.MessageID{}, set, "Why?"); err != nil {
			t.Fatal(err)
		}
		sc.CloseSet(t, sc.StudentActor(i), set, 10)
	}
	d := must(sc.Store.CopyDrill(ctx, sc.Coach, sc.Drill.ID, store.DrillID{}, "Another"))(t)
	must(sc.Store.AssignDrill(ctx, sc.Coach, store.Assignment{Drill: d.ID, Class: sc.Class}))(t)
	must(sc.Store.SaveClass(ctx, sc.Coach, store.Class{Name: "Friday"}))(t)
}
