package store_test

import (
	"errors"
	"testing"

	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
)

// An answer that was not read is taken back by its author alone, and what it answered
// waits again; one that was read stays, and so does a student's own question.
func TestTakeBackMessage_UntilItIsRead(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx, s, odile := t.Context(), sc.Store, sc.StudentActor(0)
	set := sc.RecordBreaks(t, odile, 1)
	question, answer := store.NewID[store.MessageID](), store.NewID[store.MessageID]()
	post := func(who store.Actor, id store.MessageID) {
		t.Helper()
		if err := s.PostMessage(ctx, who, id, set, "About the tip."); err != nil {
			t.Fatal(err)
		}
	}
	takeBack := func(who store.Actor, id store.MessageID, wantTaken, wantKept int) {
		t.Helper()
		taken, kept, err := s.TakeBackMessage(ctx, who, id)
		if err != nil || taken != wantTaken || kept != wantKept {
			t.Errorf("%d taken and %d kept (%v), want %d and %d", taken, kept, err, wantTaken, wantKept)
		}
	}
	post(odile, question)
	post(sc.Coach, answer)
	takeBack(sc.Coach, question, 0, 1)
	if _, _, err := s.TakeBackMessage(ctx, odile, question); !errors.Is(err, store.ErrNotAllowed) {
		t.Errorf("a student takes a message back: %v", err)
	}
	other := storetest.AddScene(t, s)
	takeBack(other.Coach, answer, 0, 0)
	takeBack(sc.Coach, answer, 1, 0)
	takeBack(sc.Coach, answer, 0, 0)
	if waiting := must(s.ListUnreadQuestions(ctx, sc.Coach))(t); len(waiting) != 1 {
		t.Errorf("%d questions wait again, want one", len(waiting))
	}
	post(sc.Coach, answer)
	if err := s.MarkRead(ctx, odile, set); err != nil {
		t.Fatal(err)
	}
	takeBack(sc.Coach, answer, 0, 1)
}

// A card that was issued by mistake is gone, and the one before it is in force again.
func TestWithdrawCard(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx, s, odile := t.Context(), sc.Store, sc.StudentActor(0)
	set := sc.RecordBreaks(t, odile, 10)
	sc.CloseSet(t, odile, set, -16)
	card := store.NewID[store.CardID]()
	if err := s.IssueCard(ctx, sc.Coach, card, set); err != nil {
		t.Fatal(err)
	}
	if err := s.WithdrawCard(ctx, odile, card, odile.Person); !errors.Is(err, store.ErrNotAllowed) {
		t.Errorf("a student withdraws a card: %v", err)
	}
	if err := s.WithdrawCard(ctx, storetest.AddScene(t, s).Coach, card, odile.Person); err != nil {
		t.Fatal(err)
	}
	if cards := must(s.ListCards(ctx, sc.Coach, odile.Person))(t); len(cards) != 1 {
		t.Errorf("%d cards after another club's coach withdrew one, want one", len(cards))
	}
	for range 2 {
		if err := s.WithdrawCard(ctx, sc.Coach, card, odile.Person); err != nil {
			t.Fatal(err)
		}
	}
	if cards := must(s.ListCards(ctx, sc.Coach, odile.Person))(t); len(cards) != 0 {
		t.Errorf("%d cards, want none", len(cards))
	}
}
