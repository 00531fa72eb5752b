//go:build !quick

package breaksim

import (
	"math"
	"testing"

	"breakwright/internal/table"
)

// Before chaos has had time, the break comes out of both ways the same: 10 ms
// after the first touch velocities agree to half a percent of the break's speed
// (8 m/s), for a full hit and for hits to either side.
func TestBreak_AgreesWithThePlainWayAfterTheBreakUp(t *testing.T) {
	tb := nineFoot(t, nil)
	for i := range 5 {
		in := leftBreak()
		in.Contact = table.Inches(i-2) / 10
		s := rackAfter(tb, in, 0.01)
		p := newPlain(tb, tb.setUpBreak(in, nil), 160)
		p.runTo(s.notes.hitAt + 0.01)
		off := plainApart(p, s)
		t.Logf("contact %.1f in: velocities differ by %.4f m/s", float64(in.Contact), off)
		if off > 0.04 {
			t.Errorf("contact %.1f in: velocities differ by %.4f m/s", float64(in.Contact), off)
		}
	}
}

// Outcomes agree too, once chaos has made single breaks differ: over the same
// breaks, each with its own luck, a second after the first touch the mean
// energy left, the mean place of the balls along the table and the number
// pocketed are the same within three standard errors of their differences.
func TestBreak_OutcomesAgreeWithThePlainWay(t *testing.T) {
	tb := nineFoot(t, nil)
	const breaks = 16
	var energy, along, down [breaks]float64
	for i := range breaks {
		in := leftBreak()
		in.Scatter = human()
		s, p := tb.setUpBreak(in, seeded(i)), newPlain(tb, tb.setUpBreak(in, seeded(i)), 30)
		playTo(s, 1.2)
		p.runTo(1.2)
		for k := range p.balls {
			a, b := &s.balls[k], &p.balls[k]
			energy[i] += s.c.ballEnergy(a) - s.c.ballEnergy(b)
			along[i] += (a.p.y - b.p.y) / float64(s.n) * asNumber(a.phase != gone && b.phase != gone)
			down[i] += asNumber(a.phase == gone) - asNumber(b.phase == gone)
		}
	}
	for name, differences := range map[string][breaks]float64{"energy left": energy, "place along": along, "balls down": down} {
		mean, deviation := meanOf(differences[:])
		t.Logf("%s: differs by %.4f ± %.4f", name, mean, deviation/math.Sqrt(breaks))
		if math.Abs(mean) > 3*deviation/math.Sqrt(breaks)+1e-3 {
			t.Errorf("%s: differs by %.4f, standard error %.4f", name, mean, deviation/math.Sqrt(breaks))
		}
	}
}
