package belief_test

import (
	"testing"

	"breakwright/internal/belief"
	"breakwright/internal/breaksim"
	"breakwright/internal/drill"
)

// How the rack was seen to stand moves the belief in a loose one, and the less the
// better the breaks say it themselves.
func TestStudent_HearsHowTheRackStood(t *testing.T) {
	loose := func(in *breaksim.BreakInput) { in.Scatter.Gap = 0.008 }
	share := func(seen drill.Racked) float64 {
		breaks := breaksOf(t, 10, loose, 31)
		for i := range breaks {
			breaks[i].Racked = seen
		}
		return observed(t, breaks).ShareOf(belief.LooseRack)
	}
	unseen, tight, gaps := share(""), share(drill.RackedTight), share(drill.RackedLoose)
	if tight > unseen/2 {
		t.Errorf("seen tight ten times, a loose rack has %.3f; %.3f where nobody looked", tight, unseen)
	}
	if gaps < 0.4 || gaps < 2*unseen {
		t.Errorf("seen loose ten times, a loose rack has %.3f; %.3f where nobody looked", gaps, unseen)
	}
}
