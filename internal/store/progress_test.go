package store_test

import (
	"testing"
	"time"

	"breakwright/internal/drill"
	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
)

// What the pages of progress are drawn from: a change stands at the stint that it was
// proposed in, with the breaks of the stints before and after it; a class's leaves and
// its picture are of the breaks of the latest stints alone.
func TestProgress_OfTwoStintsAndTheChangeBetween(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx, s, odile := t.Context(), sc.Store, sc.StudentActor(0)
	first := sc.RecordBreaks(t, odile, 10)
	sc.CloseSet(t, odile, first, -16)
	change := must(s.GetSet(ctx, sc.Coach, first))(t).Prescription.ID
	if err := s.DecidePrescription(ctx, sc.Coach, change, store.Decision{Answer: store.Approved}); err != nil {
		t.Fatal(err)
	}
	second := sc.RecordBreaks(t, odile, 9)
	noted := must(s.GetSet(ctx, odile, second))(t).Breaks[0]
	noted.Revision, noted.Shot = 2, drill.ShotOpen
	must(s.SaveBreak(ctx, odile, second, noted))(t)
	sc.CloseSet(t, odile, second, -16)

	tried := must(s.GetTriedChange(ctx, sc.Coach, change))(t)
	if tried.StudentName != "Odile" || tried.Before == nil || len(tried.Before.Breaks) != 10 || tried.After == nil || len(tried.After.Breaks) != 9 {
		t.Errorf("the change was tried so: %+v", tried)
	}
	story := must(s.GetStudentProgress(ctx, sc.Coach, odile.Person, store.ProgressFilter{}))(t)
	changes := map[int]int{} // by the breaks of the stint
	for _, stint := range story.Stints {
		changes[stint.Breaks] += len(stint.Changes)
	}
	if len(story.Stints) != 2 || changes[10] != 1 || changes[9] != 0 {
		t.Errorf("%d stints, with changes %v", len(story.Stints), changes)
	}
	_, class, err := s.GetClassProgress(ctx, sc.Coach, sc.Class)
	if err != nil {
		t.Fatal(err)
	}
	for _, student := range class {
		if want := map[store.PersonID]int{odile.Person: 9}[student.ID]; len(student.LeaveBreaks) != want {
			t.Errorf("of %s the leaves of %d breaks are counted, want %d", student.Name, len(student.LeaveBreaks), want)
		}
	}
	picture := must(s.GetClassPicture(ctx, sc.Coach, sc.Class))(t)
	for _, student := range picture.Students {
		breaks := 0
		for _, set := range student.Sets {
			breaks += len(set.Breaks)
		}
		if want := map[store.PersonID]int{odile.Person: 9}[student.ID]; breaks != want {
			t.Errorf("of %s %d breaks are drawn, want %d", student.Name, breaks, want)
		}
	}
}

// The desk looks back two weeks for balls off the table.
func TestDesk_BallsOffTheTableOfTwoWeeks(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx, s, odile := t.Context(), sc.Store, sc.StudentActor(0)
	set := sc.StartSet(t, odile)
	b := storetest.NewBreak(1)
	b.Cue, b.CuePath, b.Shot = drill.CueEnd{How: drill.OffTable}, "", ""
	must(s.SaveBreak(ctx, odile, set.ID, b))(t)
	for days, want := range map[int]int{0: 1, 13: 1, 15: 0} {
		now := set.Started.AddDate(0, 0, days).Add(time.Hour)
		if off := must(s.GetDesk(ctx, sc.Coach, now, now))(t).Off; len(off) != want {
			t.Errorf("%d days later the desk has %+v", days, off)
		}
	}
}
