package store_test

import (
	"errors"
	"testing"

	"breakwright/internal/drill"
	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	"breakwright/internal/table"
)

// What a break was is kept when it is changed, by whomever, with the reason; a
// save that says the same again, and what was undone at once, leave nothing.
func TestListStruckBreaks_WhatABreakWas(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx, odile := t.Context(), sc.StudentActor(0)
	set := sc.StartSet(t, odile).ID
	b := storetest.NewBreak(1)
	first := b.Cue.Place
	save := func(to table.Place) {
		t.Helper()
		b.Cue = drill.CueEnd{How: drill.Stopped, Place: to}
		must(sc.Store.SaveBreak(ctx, odile, set, b))(t)
		b.Revision++
	}
	save(first)
	save(table.Place{X: 1, Y: 40})
	save(table.Place{X: 1, Y: 40}) // the same again
	correction := store.BreakCorrection{Set: set, Break: b.ID, Revision: b.Revision - 1, As: &b.Break, Reason: "seen from the other end"}
	b.Cue.Place = table.Place{X: 2, Y: 41}
	if err := sc.Store.CorrectBreak(ctx, sc.Coach, correction, nil); err != nil {
		t.Fatal(err)
	}
	struck := must(sc.Store.ListStruckBreaks(ctx, odile, set))(t)
	if len(struck) != 2 {
		t.Fatalf("%d struck: %+v", len(struck), struck)
	}
	for i, want := range []struct {
		at     table.Place
		reason string
		by     store.PersonID
	}{{first, "", store.PersonID{}}, {table.Place{X: 1, Y: 40}, "seen from the other end", sc.Coach.Person}} {
		got := struck[i]
		if got.ID != b.ID || got.Cue.Place != want.at || got.Reason != want.reason || got.By != want.by || !got.Corrected || got.Number != 1 {
			t.Errorf("struck %d: %+v", i, got)
		}
	}
	now := must(sc.Store.GetSet(ctx, odile, set))(t).Breaks
	if len(now) != 1 || now[0].Cue.Place != (table.Place{X: 2, Y: 41}) || now[0].EditedBy != sc.Coach.Person || now[0].Revision != 4 {
		t.Errorf("what counts: %+v", now)
	}
	if err := sc.Store.CorrectBreak(ctx, sc.Coach, correction, nil); !errors.Is(err, store.ErrStale) {
		t.Errorf("a coach who looked at an older revision: %v", err)
	}

	undone := storetest.NewBreak(2)
	must(sc.Store.SaveBreak(ctx, odile, set, undone))(t)
	if err := sc.Store.DeleteBreak(ctx, odile, set, undone.ID, 2, "undone at once"); err != nil {
		t.Fatal(err)
	}
	undone.Revision, undone.Cue = 3, drill.CueEnd{How: drill.OffTable}
	must(sc.Store.SaveBreak(ctx, odile, set, undone))(t)
	if again := must(sc.Store.ListStruckBreaks(ctx, sc.Coach, set))(t); len(again) != 2 {
		t.Errorf("what was undone at once is listed: %+v", again[2:])
	}
	if struck, err := sc.Store.ListStruckBreaks(ctx, sc.StudentActor(1), set); len(struck) > 0 || err != nil {
		t.Errorf("another student sees %+v, %v", struck, err)
	}

	sc.RecordBreaks(t, sc.StudentActor(1), 2) // of which nothing was struck
	taken := must(sc.Store.ExportStruckBreaks(ctx, sc.Coach, store.ExportScope{}))(t)
	if len(taken) != 1 || len(taken[0].Struck) != 2 || taken[0].Set.Student != "Odile" || taken[0].Struck[1].Reason != "seen from the other end" || !taken[0].Struck[1].ByCoach || taken[0].Struck[0].ByCoach {
		t.Errorf("what was struck is taken away as %+v", taken)
	}
}

// A coach corrects a closed set: the counts are right at once, and the latest set
// says anew what it says; one that was decided on keeps what was said.
func TestCorrectBreak_InAClosedSet(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx, odile := t.Context(), sc.StudentActor(0)
	set := sc.RecordBreaks(t, odile, 10)
	sc.CloseSet(t, odile, set, -16)
	get := func() store.Set { return must(sc.Store.GetSet(ctx, sc.Coach, set))(t) }
	before := get()
	correct := func(n int, as *drill.Break, reason string, x table.Inches) error {
		b := get().Breaks[n]
		return sc.Store.CorrectBreak(ctx, sc.Coach, store.BreakCorrection{Set: set, Break: b.ID, Revision: b.Revision, As: as, Reason: reason}, storetest.ProposeMove(x))
	}
	scratch := before.Breaks[3].Break
	scratch.Cue, scratch.CuePath, scratch.Shot = drill.CueEnd{How: drill.Scratched, Scratch: table.SideLeft}, "", ""
	if err := correct(3, &scratch, " ", -20); !errors.As(err, new(drill.Problems)) {
		t.Fatalf("without a reason: %v", err)
	}
	if err := correct(3, &scratch, "it went in", -20); err != nil {
		t.Fatal(err)
	}
	if err := correct(3, &scratch, "once more", -18); !errors.As(err, new(drill.Problems)) {
		t.Fatalf("as it is recorded already: %v", err)
	}
	now := get()
	if !now.Closed.Equal(before.Closed) || now.Breaks[3].Cue.How != drill.Scratched || now.Prescription == nil || now.Prescription.After.Cue.X != -20 {
		t.Fatalf("closed %v, break %+v, proposed %+v", now.Closed, now.Breaks[3], now.Prescription)
	}
	if err := sc.Store.DecidePrescription(ctx, sc.Coach, now.Prescription.ID, store.Decision{Answer: store.Approved}); err != nil {
		t.Fatal(err)
	}
	if err := correct(9, nil, "the rack had fallen", -19); err != nil {
		t.Fatal(err)
	}
	now = get()
	if len(now.Breaks) != 9 || now.Closed.IsZero() || now.Prescription == nil || now.Prescription.After.Cue.X != -20 || now.Prescription.State != store.Approved {
		t.Errorf("after the decision: %d breaks, closed %v, %+v", len(now.Breaks), now.Closed, now.Prescription)
	}
	struck := must(sc.Store.ListStruckBreaks(ctx, odile, set))(t)
	if len(struck) != 2 || struck[0].Reason != "it went in" || !struck[0].Corrected || struck[1].Reason != "the rack had fallen" || struck[1].Corrected || struck[1].By != sc.Coach.Person {
		t.Errorf("struck: %+v", struck)
	}
	if err := correct(0, nil, "mine", 0); err != nil {
		t.Fatal(err)
	}
	as := store.BreakCorrection{Set: set, Break: now.Breaks[1].ID, Revision: now.Breaks[1].Revision, Reason: "no"}
	if err := sc.Store.CorrectBreak(ctx, odile, as, nil); !errors.Is(err, store.ErrNotAllowed) && !errors.Is(err, store.ErrNotFound) {
		t.Errorf("a student corrects: %v", err)
	}
}

// A set that a later one followed is corrected where it stands: its stint counts what is
// left of it, and what it said stays.
func TestCorrectBreak_BeforeALaterSet(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx, odile := t.Context(), sc.StudentActor(0)
	earlier := sc.RecordBreaks(t, odile, 4)
	sc.CloseSet(t, odile, earlier, -16)
	sc.CloseSet(t, odile, sc.RecordBreaks(t, odile, 3), -18)
	before := must(sc.Store.GetSet(ctx, sc.Coach, earlier))(t)
	c := store.BreakCorrection{Set: earlier, Break: before.Breaks[0].ID, Revision: 1, Reason: "a practice stroke"}
	if err := sc.Store.CorrectBreak(ctx, sc.Coach, c, storetest.ProposeMove(-20)); err != nil {
		t.Fatal(err)
	}
	now := must(sc.Store.GetSet(ctx, sc.Coach, earlier))(t)
	if now.Prescription == nil || now.Prescription.ID != before.Prescription.ID || !now.Closed.Equal(before.Closed) {
		t.Errorf("closed %v, it said %+v and says %+v", now.Closed, before.Prescription, now.Prescription)
	}
	progress := must(sc.Store.GetStudentProgress(ctx, sc.Coach, odile.Person, store.ProgressFilter{}))(t)
	if len(progress.Stints) != 1 || progress.Stints[0].Sets != 2 || progress.Stints[0].Breaks != 6 {
		t.Errorf("its stint is counted as %+v", progress.Stints)
	}
}

// In a set that a coach has decided on breaks are struck one by one: it counts as long as
// one is left.
func TestCorrectBreak_UntilNoneIsLeft(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx, odile := t.Context(), sc.StudentActor(0)
	set := sc.RecordBreaks(t, odile, 2)
	sc.CloseSet(t, odile, set, -16)
	closed := must(sc.Store.GetSet(ctx, sc.Coach, set))(t)
	if err := sc.Store.DecidePrescription(ctx, sc.Coach, closed.Prescription.ID, store.Decision{Answer: store.Approved}); err != nil {
		t.Fatal(err)
	}
	for struck, b := range closed.Breaks {
		c := store.BreakCorrection{Set: set, Break: b.ID, Revision: b.Revision, Reason: "a practice stroke"}
		if err := sc.Store.CorrectBreak(ctx, sc.Coach, c, storetest.ProposeMove(-16)); err != nil {
			t.Fatal(err)
		}
		progress := must(sc.Store.GetStudentProgress(ctx, sc.Coach, odile.Person, store.ProgressFilter{}))(t)
		if left := len(closed.Breaks) - struck - 1; progress.Breaks != left || len(progress.Stints) != min(left, 1) {
			t.Errorf("with %d left %d breaks are counted in %d stints", left, progress.Breaks, len(progress.Stints))
		}
	}
}

// A break that was taken out, by a coach or by the student, is put back as it was, once:
// it counts again, what the set says is said anew, and that it was out, by whom and why,
// stays in the history. Not where another break has its number.
func TestPutBreakBack(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx, odile := t.Context(), sc.StudentActor(0)
	set := sc.RecordBreaks(t, odile, 9)
	get := func() store.Set { return must(sc.Store.GetSet(ctx, sc.Coach, set))(t) }
	recorded := get().Breaks
	if err := sc.Store.DeleteBreak(ctx, odile, set, recorded[3].ID, 2, "the rack fell apart"); err != nil {
		t.Fatal(err)
	}
	sc.CloseSet(t, odile, set, -16)
	closed := get()
	strike := store.BreakCorrection{Set: set, Break: recorded[5].ID, Revision: 1, Reason: "a practice stroke"}
	if err := sc.Store.CorrectBreak(ctx, sc.Coach, strike, storetest.ProposeMove(-16)); err != nil {
		t.Fatal(err)
	}
	putBack := func(who store.Actor, b store.Break, x table.Inches) error {
		return sc.Store.PutBreakBack(ctx, who, set, b.ID, storetest.ProposeMove(x))
	}
	for range 2 { // the second click finds it back
		if err := putBack(sc.Coach, recorded[3], -20); err != nil {
			t.Fatal(err)
		}
	}
	if err := putBack(sc.Coach, recorded[5], -14); err != nil {
		t.Fatal(err)
	}
	now := get()
	if len(now.Breaks) != 9 || now.Breaks[3].Break.Number != 4 || now.Breaks[3].Revision != 3 || now.Breaks[3].EditedBy != sc.Coach.Person || !now.Closed.Equal(closed.Closed) || now.Prescription.After.Cue.X != -14 {
		t.Errorf("%d breaks, the fourth %+v, closed %v, proposed %+v", len(now.Breaks), now.Breaks[3], now.Closed, now.Prescription)
	}
	if struck := now.Breaks[5].Revision; struck != 3 {
		t.Errorf("recorded, struck and put back, a break is at revision %d", struck)
	}
	if b, was := now.Breaks[5].Break, recorded[5].Break; b.Cue != was.Cue || b.WingMade(now.Setup) != was.WingMade(now.Setup) {
		t.Errorf("put back as %+v, taken out as %+v", b, was)
	}
	progress := must(sc.Store.GetStudentProgress(ctx, sc.Coach, odile.Person, store.ProgressFilter{}))(t)
	if progress.Breaks != 9 || progress.Stints[0].WingMade != 4 {
		t.Errorf("%d breaks are counted, the wing ball in %d", progress.Breaks, progress.Stints[0].WingMade)
	}
	struck := must(sc.Store.ListStruckBreaks(ctx, odile, set))(t)
	if len(struck) != 2 {
		t.Fatalf("the history has %+v", struck)
	}
	for i, want := range []struct {
		reason string
		by     store.PersonID
	}{{"the rack fell apart", store.PersonID{}}, {"a practice stroke", sc.Coach.Person}} {
		if b := struck[i]; b.Reason != want.reason || b.By != want.by || !b.IsBack || b.BackBy != sc.Coach.Person || b.Corrected || b.IsOut() {
			t.Errorf("struck %d: %+v", i, b)
		}
	}

	open := sc.RecordBreaks(t, odile, 2)
	twice := must(sc.Store.GetSet(ctx, odile, open))(t).Breaks[1]
	if err := sc.Store.DeleteBreak(ctx, odile, open, twice.ID, 2, "not ready"); err != nil {
		t.Fatal(err)
	}
	must(sc.Store.SaveBreak(ctx, odile, open, storetest.NewBreak(2)))(t)
	if err := sc.Store.PutBreakBack(ctx, sc.Coach, open, twice.ID, nil); !errors.Is(err, store.ErrConflict) {
		t.Errorf("beside another break of its number: %v", err)
	}
	if struck := must(sc.Store.ListStruckBreaks(ctx, odile, open))(t); len(struck) != 1 || !struck[0].IsOut() {
		t.Errorf("what could not be put back: %+v", struck)
	}
	if err := sc.Store.PutBreakBack(ctx, sc.Coach, set, twice.ID, nil); !errors.Is(err, store.ErrNotFound) {
		t.Errorf("a break of another set: %v", err)
	}
	if err := sc.Store.PutBreakBack(ctx, odile, open, twice.ID, nil); !errors.Is(err, store.ErrNotAllowed) && !errors.Is(err, store.ErrNotFound) {
		t.Errorf("a student puts back: %v", err)
	}
}
