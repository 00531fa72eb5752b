//go:build !quick

package demo

import (
	"context"
	"errors"
	"reflect"
	"slices"
	"sync"
	"testing"
	"time"

	"breakwright/internal/drill"
	"breakwright/internal/store"
)

// mostSearchBreaks is how many breaks the search may take at every first start: some
// five seconds of one slow core. When other rules of advice make it longer, a
// part has become hard to play: give it a fault that shows more, or more sets.
const mostSearchBreaks = 8000

// foundOnce is who plays the parts when two look, which several tests start from: they play
// copies.
var foundOnce = sync.OnceValues(func() (foundStudents, error) {
	h, err := newSimulatedTables()
	if err != nil {
		return foundStudents{}, err
	}
	return findStudents(context.Background(), h, 2)
})

func luckOfEach(bill foundStudents) []uint64 {
	var list []uint64
	for _, l := range bill.simulations {
		list = append(list, l.luck)
	}
	return list
}

func TestAuditions_EveryPartIsPlayed(t *testing.T) {
	t.Parallel()
	bill := must(foundOnce())(t)
	for _, found := range bill.simulations {
		l := *found
		room := newMemoryRecorder(cutBreak().drill.ForSide(l.side), clubTables()[l.table])
		if err := l.playSets(t.Context(), room, noTime); err != nil || !l.isFinished() {
			t.Errorf("%s does not play the part to its end (%v): after %d sets the changes are %+v", l.name, err, l.sets, l.changes)
		}
	}
	t.Logf("%d students and %d imagined breaks", bill.tried, bill.breaks)
	if bill.breaks > mostSearchBreaks {
		t.Errorf("%d imagined breaks, at most %d; the parts were played by draws %v", bill.breaks, mostSearchBreaks, luckOfEach(bill))
	}
}

func TestAuditions_TheSameWithAnyNumberAtWork(t *testing.T) {
	t.Parallel()
	one, two := must(findStudents(t.Context(), must(newSimulatedTables())(t), 1))(t), must(foundOnce())(t)
	if !slices.Equal(luckOfEach(one), luckOfEach(two)) || one.breaks != two.breaks {
		t.Errorf("alone %v, with two %v", luckOfEach(one), luckOfEach(two))
	}
}

func TestAuditions_EndWithTheirContext(t *testing.T) {
	t.Parallel()
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	if _, err := findStudents(ctx, must(newSimulatedTables())(t), 2); !errors.Is(err, context.Canceled) {
		t.Errorf("stopped, it says %v", err)
	}
}

// What is imagined is what the store then keeps: the same breaks under the same
// setups, the coach's word counts as much, and the same comes of the changes.
func checkMemoryIsLikeStore(t *testing.T, s *store.Store) {
	ids := map[string]store.PersonID{}
	for _, p := range must(s.ListStudents(t.Context(), demoCoach, store.ActiveOnly))(t) {
		ids[p.Name] = p.ID
	}
	overruled := 0
	for _, found := range must(foundOnce())(t).simulations {
		l := *found
		m := newMemoryRecorder(cutBreak().drill.ForSide(l.side), clubTables()[l.table])
		if err := l.playSets(t.Context(), m, noTime); err != nil {
			t.Fatal(err)
		}
		kept := must(s.GetHistory(t.Context(), demoCoach, ids[l.name]))(t)
		if !slices.Equal(kept.Overruled, m.history.Overruled) {
			t.Errorf("%s: overruled %+v, imagined %+v", l.name, kept.Overruled, m.history.Overruled)
		}
		overruled += len(kept.Overruled)
		there := map[store.SetID]bool{} // of the first drill, without the quiet evening
		var sets []drill.Set
		for i, set := range kept.Sets {
			if set.Table == m.table.Label() {
				there[kept.IDs[i]], sets = true, append(sets, set)
			}
		}
		checkSameSets(t, l.name, sets, m.history.Sets)
		changes := must(s.ListPrescriptions(t.Context(), demoCoach, ids[l.name]))(t)
		checkSameOutcomes(t, l.name, slices.DeleteFunc(changes, func(p store.Prescription) bool { return !there[p.Set] }), l.changes)
	}
	if overruled < 3 {
		t.Errorf("the coach overruled %d proposals: too few to compare", overruled)
	}
}

// checkSameSets compares what was broken and seen, without the times.
func checkSameSets(t *testing.T, name string, kept, imagined []drill.Set) {
	t.Helper()
	if len(kept) != len(imagined) {
		t.Fatalf("%s has %d sets, %d were imagined", name, len(kept), len(imagined))
	}
	for i, set := range kept {
		if set.Setup != imagined[i].Setup {
			t.Fatalf("%s, set %d: broken under %+v, imagined %+v", name, i, set.Setup, imagined[i].Setup)
		}
		for n, b := range set.Breaks {
			was := imagined[i].Breaks[n]
			b.At, was.At = time.Time{}, time.Time{}
			if !reflect.DeepEqual(b, was) {
				t.Fatalf("%s, set %d: kept %+v, imagined %+v", name, i, b, was)
			}
		}
	}
}

// checkSameOutcomes compares what became of the changes; the store has the newest first.
func checkSameOutcomes(t *testing.T, name string, kept []store.Prescription, imagined []proposedChange) {
	t.Helper()
	if len(kept) != len(imagined) {
		t.Fatalf("%s has %d changes, %d were imagined", name, len(kept), len(imagined))
	}
	slices.Reverse(kept)
	for i, p := range kept {
		if was := imagined[i].state; p.State != was && (isSettled(p.State) || isSettled(was)) {
			t.Errorf("%s, change %d is %q, imagined %q", name, i, p.State, was)
		}
	}
}
