package store_test

import (
	"context"
	"errors"
	"maps"
	"testing"
	"time"

	"breakwright/internal/drill"
	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	"breakwright/internal/table"
)

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

// The desk's totals are those of the last seven days.
func TestDesk_TotalsOfAWeek(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	odile := sc.StudentActor(0)
	begun := must(sc.Store.GetSet(t.Context(), odile, sc.RecordBreaks(t, odile, 3)))(t).Started
	for age, want := range map[time.Duration]store.WeekTotals{7*24*time.Hour - time.Minute: {Students: 1, Sets: 1, Breaks: 3}, 7*24*time.Hour + time.Minute: {}} {
		now := begun.Add(age)
		if got := must(sc.Store.GetDesk(t.Context(), sc.Coach, now, now))(t).Week; got != want {
			t.Errorf("%s later the week has %+v, want %+v", age, got, want)
		}
	}
}

// A line that a coach has looked at leaves the desk, and comes back when they say so.
func TestDesk_LineLookedAtAndBack(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx, s, odile := t.Context(), sc.Store, sc.StudentActor(0)
	set := sc.StartSet(t, odile)
	b := storetest.NewBreak(1)
	b.Cue, b.CuePath = drill.CueEnd{How: drill.OffTable}, ""
	must(s.SaveBreak(ctx, odile, set.ID, b))(t)
	line := store.DismissedLine{Student: odile.Person, Reason: store.DismissOffTable, About: set.ID.String()}
	for want, do := range []func(context.Context, store.Actor, store.DismissedLine) error{s.DismissDeskLine, s.RestoreDeskLine} {
		for range 2 { // a double click
			if err := do(ctx, sc.Coach, line); err != nil {
				t.Fatal(err)
			}
		}
		now := time.Now()
		if off := must(s.GetDesk(ctx, sc.Coach, now, now))(t).Off; len(off) != want {
			t.Errorf("the desk has %d lines of balls off the table, want %d", len(off), want)
		}
		for name, bad := range map[string]store.DismissedLine{
			"no reason": {odile.Person, "bored", line.About}, "no id": {odile.Person, line.Reason, "the first"}, "no student": {sc.Coach.Person, line.Reason, line.About},
		} {
			if err := do(ctx, sc.Coach, bad); !errors.Is(err, store.ErrNotFound) {
				t.Errorf("%s: %v", name, err)
			}
		}
	}
}

// Of each student the desk has the last change that was tried to the end, and the one
// before it.
func TestDesk_LastTwoTriedChanges(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx, s := t.Context(), sc.Store
	try := func(i int, x table.Inches) store.PrescriptionID {
		t.Helper()
		student := sc.StudentActor(i)
		p := proposed(t, sc, student, x)
		if err := s.DecidePrescription(ctx, sc.Coach, p.ID, store.Decision{Answer: store.Approved}); err != nil {
			t.Fatal(err)
		}
		err := s.CloseSet(ctx, student, sc.RecordBreaks(t, student, 10), func(store.Case) (store.Judgement, error) {
			return store.Judgement{Verdict: "keep", JSON: []byte("{}"), RulesVersion: "1", Outcome: store.NoDifference}, nil
		})
		if err != nil {
			t.Fatal(err)
		}
		return p.ID
	}
	type pair struct{ last, before store.PrescriptionID }
	want := map[string]pair{}
	try(0, -16)
	second, third := try(0, -14), try(0, -12)
	want["Odile"], want["Bram"] = pair{third, second}, pair{last: try(1, -16)}
	got := map[string]pair{}
	now := time.Now()
	for _, tried := range must(s.GetDesk(ctx, sc.Coach, now, now))(t).Tried {
		p := pair{last: tried.Last.ID}
		if tried.Before != nil {
			p.before = tried.Before.ID
		}
		got[tried.Name] = p
	}
	if !maps.Equal(got, want) {
		t.Errorf("tried %v, want %v", got, want)
	}
}

// A break card that the adviser found waits on the desk with all that was broken under its
// setup, until a coach issues it; sent again, it is issued once.
func TestDesk_CardUntilItIsIssued(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx, s, odile := t.Context(), sc.Store, sc.StudentActor(0)
	first, set := sc.RecordBreaks(t, odile, 10), sc.RecordBreaks(t, odile, 7)
	sc.CloseSet(t, odile, first, sc.Drill.Setup.Cue.X)
	err := s.CloseSet(ctx, odile, set, func(store.Case) (store.Judgement, error) {
		return store.Judgement{Verdict: "keep", JSON: []byte(`{"card":{}}`), RulesVersion: "1"}, nil
	})
	if err != nil {
		t.Fatal(err)
	}
	cards := func() []store.FoundCard {
		now := time.Now()
		return must(s.GetDesk(ctx, sc.Coach, now, now))(t).Cards
	}
	if found := cards(); len(found) != 1 || found[0].Name != "Odile" || found[0].Breaks != 17 || found[0].WingMade != 8 {
		t.Errorf("found: %+v", found)
	}
	issue := func(set store.SetID) store.BreakCard {
		t.Helper()
		if err := s.IssueCard(ctx, sc.Coach, store.CardID{}, set); err != nil {
			t.Fatal(err)
		}
		return must(s.ListCards(ctx, odile, odile.Person))(t)[0]
	}
	card := issue(set)
	if again := issue(set); card.Breaks != 17 || again != card || len(cards()) != 0 {
		t.Errorf("issued %+v and %+v, and waiting are %+v", card, again, cards())
	}
	mirrored := must(s.StartSet(ctx, odile, store.NewSet{Table: sc.Table.ID, Training: "From the right", Setup: sc.Drill.Setup.ForSide(table.Right)}))(t)
	must(s.SaveBreak(ctx, odile, mirrored.ID, storetest.NewBreak(1)))(t)
	sc.CloseSet(t, odile, mirrored.ID, mirrored.Setup.Cue.X)
	if other := issue(mirrored.ID); other.ID == card.ID || other.Setup != mirrored.Setup {
		t.Errorf("of another setup %+v is issued", other)
	}
}
