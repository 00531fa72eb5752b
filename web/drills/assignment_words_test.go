package drills

import (
	"testing"
	"time"

	"breakwright/internal/store"
)

// A set is named by when it was begun, on its own page and wherever else it is spoken of.
func TestLastSetWords_NamesTheSetByItsBeginning(t *testing.T) {
	began := time.Date(2026, 11, 21, 18, 44, 0, 0, time.UTC)
	for closed, want := range map[time.Time]string{{}: "at it since 21 Nov, 18:44", began.Add(24 * time.Minute): "21 Nov, 18:44"} {
		if says := lastSetWords(store.AssignmentProgress{LastStarted: began, LastClosed: closed}, time.UTC); says != want {
			t.Errorf("closed %s: %q, want %q", closed, says, want)
		}
	}
}
