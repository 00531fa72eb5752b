package store_test

import (
	"errors"
	"slices"
	"testing"
	"time"

	"breakwright/internal/drill"
	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	"breakwright/internal/table"
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
		if len(stint.List) != 1 || stint.List[0].Breaks != stint.Breaks || stint.List[0].ID != stint.LastSet {
			t.Errorf("the stint of %d breaks lists %+v", stint.Breaks, stint.List)
		}
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

// A story is told in pages of eight stints, the newest first, and a stint to draw is found
// wherever it is; not another student's.
func TestProgress_InPagesOfStints(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx, s, odile := t.Context(), sc.Store, sc.StudentActor(0)
	south := must(s.SaveTable(ctx, sc.Coach, store.Table{Name: "South", Kind: table.NineFoot()}))(t)
	tables := []store.TableID{sc.Table.ID, south.ID}
	for n := range 10 { // each on the other table, and so a stint of its own
		set := must(s.StartSet(ctx, odile, store.NewSet{Assignment: sc.Assignment, Table: tables[n%2], At: time.Date(2026, 3, 1+n, 18, 0, 0, 0, time.UTC)}))(t)
		must(s.SaveBreak(ctx, odile, set.ID, storetest.NewBreak(1)))(t)
		sc.CloseSet(t, odile, set.ID, sc.Drill.Setup.Cue.X)
		story := must(s.GetStudentProgress(ctx, odile, odile.Person, store.ProgressFilter{}))(t)
		if len(story.Stints) != min(n+1, 8) || story.Earlier.IsZero() != (n < 8) {
			t.Errorf("of %d stints a page has %d, and earlier ones before %v", n+1, len(story.Stints), story.Earlier)
		}
	}
	page := func(filter store.ProgressFilter) (days []int, story store.StudentProgress) {
		t.Helper()
		story = must(s.GetStudentProgress(ctx, odile, odile.Person, filter))(t)
		for _, stint := range story.Stints {
			days = append(days, stint.First.Day())
		}
		return days, story
	}
	newest, story := page(store.ProgressFilter{})
	if !slices.Equal(newest, []int{10, 9, 8, 7, 6, 5, 4, 3}) || story.Earlier.IsZero() || story.Shown.ID != story.Stints[0].ID {
		t.Errorf("the newest page has the stints of the days %v, and earlier ones before %v", newest, story.Earlier)
	}
	oldest, last := page(store.ProgressFilter{Before: story.Earlier, Show: story.Stints[3].ID})
	if !slices.Equal(oldest, []int{2, 1}) || !last.Earlier.IsZero() || last.Shown.ID != story.Stints[3].ID {
		t.Errorf("the next page has those of %v, and earlier ones before %v", oldest, last.Earlier)
	}
	if _, err := s.GetStudentProgress(ctx, sc.Coach, sc.Students[1].ID, store.ProgressFilter{Show: story.Stints[0].ID}); !errors.Is(err, store.ErrNotFound) {
		t.Errorf("another student's stint: %v", err)
	}
}

// A story has the student's open sets, messages and cards; the stint that is drawn has the
// breaks of its sets in the order in which they were broken, and the window of the latest.
func TestProgress_WhatBelongsToAStory(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx, s, odile := t.Context(), sc.Store, sc.StudentActor(0)
	d := storetest.StandardDrill()
	d.Name, d.Window.Right = "The same, closer", 0
	narrow := sc
	narrow.Assignment = must(s.AssignDrill(ctx, sc.Coach, store.Assignment{Drill: must(s.SaveDrill(ctx, sc.Coach, store.DrillID{}, d))(t).ID, Class: sc.Class}))(t)
	first, second := sc.RecordBreaks(t, odile, 3), narrow.RecordBreaks(t, odile, 2)
	for _, set := range []store.SetID{first, second} {
		sc.CloseSet(t, odile, set, sc.Drill.Setup.Cue.X)
	}
	open := sc.StartSet(t, odile)
	if err := s.PostMessage(ctx, odile, store.MessageID{}, first, "Where do I aim?"); err != nil {
		t.Fatal(err)
	}
	if err := s.IssueCard(ctx, sc.Coach, store.CardID{}, second); err != nil {
		t.Fatal(err)
	}
	story := must(s.GetStudentProgress(ctx, odile, odile.Person, store.ProgressFilter{}))(t)
	if len(story.Open) != 1 || story.Open[0].ID != open.ID || len(story.Messages) != 1 || story.Messages[0].Body != "Where do I aim?" || len(story.Cards) != 1 || story.Cards[0].Set != second {
		t.Errorf("open %+v, messages %+v, cards %+v", story.Open, story.Messages, story.Cards)
	}
	if story.Sets != 2 || story.Breaks != 5 || story.Advice == nil || len(story.Recent) != 2 || story.Recent[0].ID != first {
		t.Errorf("%d sets, %d breaks, advice %+v, recent %+v", story.Sets, story.Breaks, story.Advice, story.Recent)
	}
	var numbers []int
	for _, b := range story.Shown.Breaks {
		numbers = append(numbers, b.Number)
	}
	if !slices.Equal(numbers, []int{1, 2, 3, 1, 2}) || story.Shown.Window != d.Window {
		t.Errorf("the breaks %v are drawn in the window %+v", numbers, story.Shown.Window)
	}
	none := must(s.GetStudentProgress(ctx, sc.Coach, sc.Students[1].ID, store.ProgressFilter{}))(t)
	if none.Shown != nil || none.Advice != nil || len(none.Stints) != 0 || len(none.Open) != 0 {
		t.Errorf("before the first set: %+v", none)
	}
}
