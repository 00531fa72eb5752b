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
