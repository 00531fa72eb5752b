//go:build !race

package rehearsal

import (
	"reflect"
	"strings"
	"testing"

	"breakwright/internal/belief"
)

// A loose rack and a wrong speed show in twenty breaks, to an observer at least as well as to
// the adviser, who thinks them rare; side spin nobody asked for does not, even to an observer.
func TestTellCausesApart_WhatBreaksShow(t *testing.T) {
	const hands = 16
	recognition, err := RecognizeCauses(t.Context(), Options{Students: hands, Sets: 1, Seed: 3, Model: PhysicsModel})
	if err != nil {
		t.Fatal(err)
	}
	by, causes := map[belief.Cause]CauseRecognition{}, []belief.Cause{}
	for _, c := range recognition.Causes {
		by[c.Cause], causes = c, append(causes, c.Cause)
		for _, s := range []Share{c.ObserverAfter10, c.OursAfter10, c.ObserverAfter20, c.OursAfter20} {
			if s.Of != hands {
				t.Errorf("%s: %d of %d", c.Cause, s.Count, s.Of)
			}
		}
		if c.TakenFor == c.Cause || (c.TakenFor == "") != (c.ObserverAfter20.Count == hands) {
			t.Errorf("%s is taken for %q where %d of %d are told right", c.Cause, c.TakenFor, c.ObserverAfter20.Count, hands)
		}
	}
	if !reflect.DeepEqual(causes, belief.Causes()) {
		t.Errorf("the causes are %v", causes)
	}
	for _, c := range []belief.Cause{belief.LooseRack, belief.Speed, belief.Tip} {
		if one := by[c]; one.ObserverAfter20.Count < hands*3/4 || one.ObserverAfter20.Count < one.OursAfter20.Count {
			t.Errorf("of %s an observer tells %d after twenty, the adviser %d", c, one.ObserverAfter20.Count, one.OursAfter20.Count)
		}
	}
	if one := by[belief.Spin]; one.ObserverAfter20.Count > hands/2 {
		t.Errorf("side spin can be told of %d", one.ObserverAfter20.Count)
	}
	var page strings.Builder
	if err := recognition.WriteText(&page); err != nil || !strings.Contains(page.String(), "--students 16 --seed 3 --tell-apart") {
		t.Errorf("%v: %s", err, page.String())
	}
}
