package store_test

import (
	"context"
	"encoding/json"
	"testing"
	"time"

	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
)

func TestEvents_AreToldAfterTheCommit(t *testing.T) {
	t.Parallel()
	owner := storetest.NewDatabase(t)
	sc := storetest.AddScene(t, storetest.Open(t, owner))
	listener := connect(t, owner)
	if _, err := listener.Exec(t.Context(), "listen "+store.Channel); err != nil {
		t.Fatal(err)
	}
	odile := sc.StudentActor(0)
	set := sc.RecordBreaks(t, odile, 1)
	_, err := sc.Store.SaveBreak(t.Context(), odile, set, storetest.NewBreak(11)) // refused, not published
	if err == nil {
		t.Fatal("the eleventh break was taken")
	}
	sc.CloseSet(t, odile, set, -16)
	if err := sc.Store.PostMessage(t.Context(), odile, store.MessageID{}, set, "Why?"); err != nil {
		t.Fatal(err)
	}
	for _, kind := range []store.EventKind{store.SetStarted, store.BreakSaved, store.SetClosed, store.MessagePosted} {
		ctx, stop := context.WithTimeout(t.Context(), 10*time.Second)
		told, err := listener.WaitForNotification(ctx)
		stop()
		if err != nil {
			t.Fatalf("waiting for %q: %v", kind, err)
		}
		var got store.Event
		if err := json.Unmarshal([]byte(told.Payload), &got); err != nil {
			t.Fatal(err)
		}
		if want := (store.Event{Club: odile.Club, Kind: kind, Student: odile.Person, Set: set}); got != want {
			t.Errorf("told %+v, want %+v", got, want)
		}
	}
}
