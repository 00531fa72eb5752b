package store_test

import (
	"errors"
	"testing"
	"time"

	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
)

// A class report counts closed sets begun from its first moment on and before its
// last, and is for the club's coaches alone.
func TestClassReport_CountsATime(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx := t.Context()
	noon := time.Now().UTC().Truncate(time.Hour).AddDate(0, 0, -3)
	for _, at := range []time.Time{noon.Add(-time.Second), noon, noon.Add(time.Hour), noon.Add(2 * time.Hour)} {
		set := must(sc.Store.StartSet(ctx, sc.StudentActor(0), store.NewSet{Assignment: sc.Assignment, Table: sc.Table.ID, At: at}))(t)
		for n := range 4 {
			must(sc.Store.SaveBreak(ctx, sc.StudentActor(0), set.ID, storetest.NewBreak(n+1)))(t)
		}
		sc.CloseSet(t, sc.StudentActor(0), set.ID, set.Setup.Cue.X)
	}
	sc.RecordBreaks(t, sc.StudentActor(1), 5) // open
	report := must(sc.Store.GetClassReport(ctx, sc.Coach, sc.Class, store.TimeSpan{Since: noon, Until: noon.Add(2 * time.Hour)}))(t)
	counted := map[string][2]int{}
	for _, one := range report.Students {
		counted[one.Name] = [2]int{one.Sets, one.Breaks}
	}
	if counted["Odile"] != [2]int{2, 8} || counted["Bram"] != [2]int{} || len(counted) != 3 {
		t.Errorf("counted %v, want 2 sets with 8 breaks of Odile alone", counted)
	}
	for _, one := range report.Students {
		if one.Name == "Odile" && (len(one.Recent) != 4 || one.Stint.Breaks != 16) {
			t.Errorf("all of Odile's are %d sets and %d breaks", len(one.Recent), one.Stint.Breaks)
		}
	}
	if len(report.Drills) != 1 || report.Drills[0].ID != sc.Assignment || report.Drills[0].Done != 1 {
		t.Errorf("the class's drills are %+v", report.Drills)
	}
	if _, err := sc.Store.GetClassReport(ctx, sc.StudentActor(0), sc.Class, store.TimeSpan{}); !errors.Is(err, store.ErrNotAllowed) {
		t.Errorf("a student gets %v", err)
	}
	other := storetest.AddScene(t, sc.Store)
	if _, err := sc.Store.GetClassReport(ctx, other.Coach, sc.Class, store.TimeSpan{}); !errors.Is(err, store.ErrNotFound) {
		t.Errorf("another club's coach gets %v", err)
	}
}
