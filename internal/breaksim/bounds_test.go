package breaksim

import (
	"fmt"
	"math"
	"testing"

	"breakwright/internal/table"
)

// alone is a run of one ball on a table.
func alone(tb *Table, b ballState) *simulation {
	s := &simulation{t: tb, c: &tb.c, n: 1}
	s.balls[0] = b
	tb.c.startPhase(&s.balls[0], 0)
	s.pair[0][0] = math.Inf(1)
	s.notes.ball[0].end = Stopped
	s.notes.hit = &FirstHit{}
	s.predictEvents(0)
	return s
}

// toward is a ball at a place rolling towards another at a speed.
func toward(c *constants, from, to table.Place, speed float64) ballState {
	p := vecFromPlace(from)
	d := vecFromPlace(to).sub(p)
	v := d.scaledBy(speed / d.norm())
	return ballState{p: p, v: v, w: vec{x: -v.y / c.radius, y: v.x / c.radius}}
}

// WPA equipment specification s.9: facings at 142 degrees to the nose of a
// corner, 104 of a side pocket; so a corner's facings close by 7 degrees each
// towards the pocket's middle line, a side pocket's by 14 (geometry).
func TestMouth_FacingsAtThePublishedAngles(t *testing.T) {
	tb := nineFoot(t, nil)
	for _, m := range tb.bounds.pockets {
		want := 7.0
		if m.name.IsSide() {
			want = 14
		}
		for i, f := range m.facings {
			near(t, fmt.Sprintf("%s facing %d to the middle line", m.name, i), degrees(math.Acos(f.along.dot(m.out))), want, 1e-9)
			near(t, "facing square to its normal", f.along.dot(f.in), 0, 1e-12)
			other := m.points[1-i].sub(f.at)
			if !(other.dot(f.in) > 0) {
				t.Errorf("%s facing %d looks away from the pocket", m.name, i)
			}
		}
		for _, f := range m.facings {
			near(t, "restitution of a facing by the cushion's", f.share, tb.params.FacingShare, 0)
		}
		near(t, "mouth", m.points[0].sub(m.points[1]).norm(), mouthOf(tb.kind, m.name).Metres(), 1e-12)
	}
}

func mouthOf(k table.Kind, p table.Pocket) table.Inches {
	if p.IsSide() {
		return k.SideMouth
	}
	return k.CornerMouth
}

// The room at a pocket: a ball rolled softly from 36 in along the middle line
// drops when its centre passes well between the points, and does not when its
// line meets a point's side of the rail. Without jaws the room is
// ±atan((mouth-D)/2/distance): 1.790 degrees at 36 in for 4.5 in (geometry,
// worked independently); soft jaws let a little more in.
func TestPocket_RoomAtACorner(t *testing.T) {
	tb := nineFoot(t, nil)
	m := tb.bounds.pockets[5]
	mouth := m.points[0].add(m.points[1]).scaledBy(0.5)
	from := mouth.plusScaled(-36*0.0254, m.out)
	for _, c := range []struct {
		off  float64 // degrees
		drop bool
	}{{0, true}, {1.7, true}, {-1.7, true}, {5, false}, {-5, false}} {
		angle := math.Atan2(m.out.y, m.out.x) + radians(c.off)
		v := vec{x: 1.5 * math.Cos(angle), y: 1.5 * math.Sin(angle)}
		s := alone(tb, ballState{p: from, v: v, w: vec{x: -v.y / tb.c.radius, y: v.x / tb.c.radius}})
		for range 3 { // no second chance off the other rails
			if s.balls[0].isMoving() {
				s.runNextEvent()
			}
		}
		if dropped := s.balls[0].phase == gone; dropped != c.drop {
			t.Errorf("off by %g degrees: dropped %v, want %v", c.off, dropped, c.drop)
		}
	}
}

// Every pocket takes a ball rolled at its middle, and says its own name.
func TestPocket_EachTakesABall(t *testing.T) {
	tb := nineFoot(t, nil)
	for _, p := range table.Pockets() {
		s := alone(tb, toward(&tb.c, table.Place{X: 3, Y: 50}, tb.kind.CornerPoint(p), 3))
		s.runToRest()
		if n := s.notes.ball[0]; n.end != Dropped || n.pocket != p {
			t.Errorf("rolled into %s: %s %s", p, n.end, n.pocket)
		}
	}
}

// A ball rolled square at each rail touches it where ball and nose touch, and
// the rail is noted.
func TestRails_AreWhereTheNosesAre(t *testing.T) {
	tb := nineFoot(t, nil)
	touch := table.InchesFromMetres(tb.c.noseReach)
	for _, c := range []struct {
		to   table.Place
		want table.Place
		met  FirstMet
	}{
		{table.Place{X: 3, Y: 100}, table.Place{X: 3, Y: 100 - touch}, MetFootRail},
		{table.Place{X: 3, Y: 0}, table.Place{X: 3, Y: touch}, MetHeadRail},
		{table.Place{X: 25, Y: 30}, table.Place{X: 25 - touch, Y: 30}, MetSideRail},
		{table.Place{X: -25, Y: 30}, table.Place{X: touch - 25, Y: 30}, MetSideRail},
	} {
		s := alone(tb, toward(&tb.c, table.Place{X: 3, Y: 30}, c.to, 2))
		s.runNextEvent()
		got := placeFromVec(s.balls[0].p)
		if d := got.Distance(c.want); d > 1e-4 || s.notes.ball[0].met != c.met {
			t.Errorf("towards %v: at %v having met %q, want %v, %q", c.to, got, s.notes.ball[0].met, c.want, c.met)
		}
	}
}

// A ball in the air clears a nose when it is higher than it, leaves the table,
// and hits it when it is not.
func TestRails_ABallCanFlyOver(t *testing.T) {
	tb := nineFoot(t, nil)
	for _, c := range []struct {
		height, rise float64
		end          EndKind
	}{{0.08, 0.3, OffTable}, {0.001, 0.1, Stopped}, {0.045, 0, OffTable}} {
		s := alone(tb, ballState{p: vec{x: 0.3, y: 0.5, z: c.height}, v: vec{x: 8, z: c.rise}})
		s.runToRest()
		if got := s.notes.ball[0].end; got != c.end {
			t.Errorf("from %g m rising %g m/s: %s, want %s", c.height, c.rise, got, c.end)
		}
	}
}

// Balls thrown about at random, in the air and on the cloth, never end beyond
// the rails, and never get lost.
func TestBounds_NothingLeaks(t *testing.T) {
	tb := nineFoot(t, nil)
	for i := range 3000 {
		rng := seeded(i)
		b := ballState{p: vec{x: (rng.Float64() - 0.5) * 1.2, y: 0.05 + 2.4*rng.Float64()}}
		b.v = vec{x: 5 * rng.NormFloat64(), y: 5 * rng.NormFloat64()}
		b.w = vec{rng.NormFloat64(), rng.NormFloat64(), rng.NormFloat64()}.scaledBy(100)
		if i%3 == 0 {
			b.v.z = rng.Float64()
		}
		s := alone(tb, b)
		s.runToRest()
		at := s.balls[0].p
		onCloth := math.Abs(at.x) < tb.bounds.halfWidth && at.y > 0 && at.y < tb.bounds.length
		if s.lost > 0 || s.unsettled || (s.balls[0].phase == still && !onCloth && !inThroat(tb, at)) {
			t.Fatalf("ball %d: ends at %v, lost %d, unsettled %v", i, at, s.lost, s.unsettled)
		}
	}
}

func inThroat(tb *Table, p vec) bool {
	for i := range tb.bounds.pockets {
		m := &tb.bounds.pockets[i]
		if m.facings[0].spansPlace(p) && m.facings[1].spansPlace(p) {
			return true
		}
	}
	return false
}
