package component

import (
	"strings"
	"testing"

	"breakwright/internal/drill"
	"breakwright/internal/store"
)

// A set that was only begun has no scratches in none of nothing, and kept no house rules.
func TestSetCounts_OfNoBreak(t *testing.T) {
	set := store.Set{House: drill.HouseRules{ThreePoints: true}}
	stopped := drill.Break{Number: 1, Cue: drill.CueEnd{How: drill.Stopped}, Speed: 18, WingMiss: drill.NotWatched}
	for _, c := range []struct {
		breaks []drill.Break
		want   []string
	}{
		{nil, nil},
		{[]drill.Break{stopped}, []string{"Scratches 0 of 1, dry breaks not watched.", "Speed: measured in 1 of 1", "House rules kept in 0 of 0. Not known of 1 of 1"}},
	} {
		var page strings.Builder
		if err := SetCounts(set, c.breaks).Render(t.Context(), &page); err != nil {
			t.Fatal(err)
		}
		says := page.String()
		if (says == "") != (c.want == nil) {
			t.Errorf("of %d breaks: %q", len(c.breaks), says)
		}
		for _, words := range c.want {
			if !strings.Contains(says, words) {
				t.Errorf("of %d breaks it does not say %q: %q", len(c.breaks), words, says)
			}
		}
	}
}

// What became of a break names who did it, each in the reader's words for them.
func TestStruckWords(t *testing.T) {
	coach := store.NewID[store.PersonID]()
	for _, c := range []struct {
		b    store.StruckBreak
		want string
	}{
		{store.StruckBreak{}, "Taken out by you."},
		{store.StruckBreak{By: coach, Reason: "no stroke"}, "Taken out by your coach: no stroke"},
		{store.StruckBreak{By: coach, Corrected: true, Reason: "it fell"}, "Changed by your coach: it fell"},
		{store.StruckBreak{IsBack: true, BackBy: coach, Reason: "no stroke"}, "Taken out by you and put back by your coach: no stroke"},
		{store.StruckBreak{By: coach, IsBack: true, BackBy: coach, Reason: "no stroke"}, "Taken out and put back by your coach: no stroke"},
	} {
		if says := StruckWords(c.b, "you", "your coach"); says != c.want {
			t.Errorf("%q, want %q", says, c.want)
		}
	}
}
