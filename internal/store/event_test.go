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
	empty := sc.StartSet(t, odile).ID
	if err := sc.Store.DiscardSet(t.Context(), odile, empty); err != nil {
		t.Fatal(err)
	}
	for _, want := range []struct {
		kind store.EventKind
		set  store.SetID
	}{{store.SetStarted, set}, {store.BreakSaved, set}, {store.SetClosed, set}, {store.MessagePosted, set}, {store.SetStarted, empty}, {store.BreakSaved, empty}} {
		ctx, stop := context.WithTimeout(t.Context(), 10*time.Second)
		notification, err := listener.WaitForNotification(ctx)
		stop()
		if err != nil {
			t.Fatalf("waiting for %q: %v", want.kind, err)
		}
		var got store.Event
		if err := json.Unmarshal([]byte(notification.Payload), &got); err != nil {
			t.Fatal(err)
		}
		if want := (store.Event{Club: odile.Club, Kind: want.kind, Student: odile.Person, Set: want.set}); got != want {
			t.Errorf("told %+v, want %+v", got, want)
		}
	}
}
