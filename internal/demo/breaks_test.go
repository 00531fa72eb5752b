//go:build !quick

package demo

import (
	"slices"
	"testing"

	"breakwright/internal/drill"
	"breakwright/internal/store"
	"breakwright/internal/table"
)

// Every break that is written down could have happened: it is legal under its
// setup on its table, and what the model of the table cannot do is not there.
func checkBreaksPossible(t *testing.T, s *store.Store) {
	rests := 0
	for name, sets := range exportSets(t, s) {
		for _, set := range sets {
			for _, b := range set.Breaks {
				if err := b.Check(set.Setup, set.Kind); err != nil {
					t.Errorf("%s, %s: %v", name, set.Name, err)
				}
				rests += len(b.Rest)
				if !hasItsFacts(b, set) {
					t.Errorf("%s, %s: what is written down of break %d is not what its drill asks for: %+v", name, set.Name, b.Number, b)
				}
				if where, apart := findTooClose(b); !apart {
					t.Errorf("%s, %s, break %d: two balls lie in one another at %s", name, set.Name, b.Number, where)
				}
			}
		}
	}
	if rests < 50 {
		t.Errorf("%d balls' rests are written down: too few to look at", rests)
	}
}

// hasItsFacts reports whether of a break is written down what its drill asks for: on the
// bar box, where the club breaks the quiet drill, nothing of the wing ball and no
// ball that a phone was not asked about; elsewhere the rails that were counted, and
// of a wing ball that stayed up why.
func hasItsFacts(b drill.Break, set drill.Set) bool {
	if set.Kind == table.SevenFoot() {
		aboveTheShot := slices.ContainsFunc(b.Pocketed, func(p drill.Pocketed) bool {
			return slices.ContainsFunc(b.Rest, func(r drill.RestingBall) bool { return r.Ball < p.Ball })
		})
		return b.WingMiss == drill.NotWatched && b.Rails == nil && b.PastString == nil && !aboveTheShot
	}
	counted := b.Rails != nil && b.PastString != nil && *b.Rails <= 9 && *b.PastString <= 9
	noted := b.WingMade(set.Setup) != (b.WingMiss != "") || len(b.Off) > 0 || isWingDropped(b, set.Setup)
	return b.IsWatched() && counted && noted
}

// isWingDropped reports whether the wing ball fell, wherever.
func isWingDropped(b drill.Break, s drill.Setup) bool {
	_, fell := b.PocketOf(s.WingBall())
	return fell
}

// findTooClose finds two balls nearer than a ball's width, places being written to
// the tenth of an inch.
func findTooClose(b drill.Break) (where table.Place, apart bool) {
	var places []table.Place
	if b.Cue.How == drill.Stopped {
		places = append(places, b.Cue.Place)
	}
	for _, r := range b.Rest {
		places = append(places, r.Place)
	}
	for i, p := range places {
		for _, q := range places[:i] {
			if p.Distance(q) < table.BallDiameter-0.15 {
				return p, false
			}
		}
	}
	return table.Place{}, true
}

// Taken together the breaks that were watched look as package breaksim's MODEL.md says that breaks
// do, on tables from tight to small and with the class's faults: shares are in
// wide ranges around it.
func checkBreaksLikeModel(t *testing.T, s *store.Store) {
	n := breakCounts{}
	for _, sets := range exportSets(t, s) {
		for _, set := range sets {
			for _, b := range set.Breaks {
				if !b.IsWatched() {
					continue
				}
				if set.Setup.Side == table.Right {
					b = b.Mirror()
				}
				n.addBreak(b, set.Setup.ForSide(table.Left), set.Kind)
			}
		}
	}
	t.Logf("%+v", n)
	for _, c := range []struct {
		what          string
		share, of     int
		least, atMost float64
	}{
		{"wing ball made in its corner", n.wing, n.breaks, 0.2, 0.55},
		{"misses that met the side rail", n.side, n.misses, 0.35, 0.85},
		{"balls made, of nine a break", n.made, 9 * n.breaks, 0.06, 0.2},
		{"dry breaks", n.dry, n.breaks, 0.15, 0.55},
		{"scratches", n.scratched, n.breaks, 0.03, 0.2},
		{"breaks with a ball off the table", n.off, n.breaks, 0.001, 0.06},
		{"cue balls that stopped on the head half", n.headHalf, n.stopped, 0.45, 0.85},
		{"head balls made that fell in the far side pocket", n.headFar, n.head, 0.5, 1},
		{"far balls of row 2 made that banked into the near side pocket", n.rowNear, n.row, 0.6, 1},
	} {
		if c.of < 20 {
			t.Errorf("%s: of %d, too few to look at", c.what, c.of)
		}
		if share := float64(c.share) / float64(c.of); !(share >= c.least && share <= c.atMost) {
			t.Errorf("%s: %d of %d, want a share from %v to %v", c.what, c.share, c.of, c.least, c.atMost)
		}
	}
}

// breakCounts are of all breaks of the club, as from the left.
type breakCounts struct {
	breaks, wing, misses, side, made, dry, scratched, off int
	stopped, headHalf, head, headFar, row, rowNear        int
}

func (n *breakCounts) addBreak(b drill.Break, s drill.Setup, k table.Kind) {
	tick := func(count *int, is bool) {
		if is {
			*count++
		}
	}
	stopped := b.Cue.How == drill.Stopped
	n.breaks++
	n.made += len(b.Pocketed)
	tick(&n.wing, b.WingMade(s))
	tick(&n.misses, b.WingMiss != "" && b.WingMiss != drill.MissUnknown)
	tick(&n.side, b.WingMiss == drill.MissSideRail)
	tick(&n.dry, b.IsDry())
	tick(&n.scratched, b.Cue.How == drill.Scratched)
	tick(&n.off, b.HasBallsOff())
	tick(&n.stopped, stopped)
	tick(&n.headHalf, stopped && b.Cue.Place.Y < k.CentreSpot().Y)
	where, fell := b.PocketOf(s.HeadBall())
	tick(&n.head, fell)
	tick(&n.headFar, where == table.SideRight)
	far, _ := s.Order.BallAt(s.Game, "2R")
	where, fell = b.PocketOf(far)
	tick(&n.row, fell)
	tick(&n.rowNear, where == table.SideLeft)
}
