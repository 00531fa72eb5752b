package breaksim

import (
	"math"

	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// breakNotes are what an observer at the table would write down while a run is on.
type breakNotes struct {
	keepPaths  bool
	headString float64
	radius     float64
	order      []rack.Ball // of the balls of the run, cue ball first (0)
	slots      []rack.Slot

	ball   [maxBalls]ballNotes
	drops  []Pocketed
	gone   []rack.Ball
	hit    *FirstHit
	hitAt  float64
	path   CuePath // decided so far; empty until then
	kicked bool    // another ball moved the cue ball after the break-up
	// past is a ball's width beyond the head ball's place.
	past float64
}

// ballNotes is what is noted of one ball.
type ballNotes struct {
	home       vec
	end        EndKind
	pocket     table.Pocket
	met        FirstMet
	rails      int
	pastString bool
	left       bool
	leftAt     vec
	legs       BallPath
}

// breakUp is how long after the first touch a ball that hits the cue ball still
// belongs to the break-up of the rack.
const breakUp = 0.02

// noteLeg notes a stretch of closed-form motion that ends at a time, before the ball
// is advanced to it.
func (n *breakNotes) noteLeg(i int, b *ballState, at float64) {
	t := at - b.from
	if !b.isFree() || b.phase == still || t <= 0 {
		return
	}
	to := b.positionAt(at)
	n.noteReach(i, lowestBetween(b.p.y, b.v.y, b.a.y, t), -lowestBetween(-b.p.y, -b.v.y, -b.a.y, t))
	if n.keepPaths {
		n.ball[i].legs = append(n.ball[i].legs, PathLeg{
			From: placeFromVec(b.p), Control: placeFromVec(b.p.plusScaled(t/2, b.v)), To: placeFromVec(to),
			Start: b.from, End: at,
			FromHeight: table.InchesFromMetres(b.p.z), ToHeight: table.InchesFromMetres(to.z),
		})
	}
}

// notePressedLeg notes the short way of a ball through the stiff phase.
func (n *breakNotes) notePressedLeg(i int, from vec, since float64, b *ballState, at float64) {
	n.noteReach(i, min(from.y, b.p.y), max(from.y, b.p.y))
	if !n.keepPaths || at <= since || from == b.p {
		return
	}
	n.ball[i].legs = append(n.ball[i].legs, PathLeg{
		From: placeFromVec(from), Control: placeFromVec(from.add(b.p).scaledBy(0.5)), To: placeFromVec(b.p),
		Start: since, End: at,
		FromHeight: table.InchesFromMetres(from.z), ToHeight: table.InchesFromMetres(b.p.z),
	})
}

// lowestBetween is the least of p + v·u + a·u²/2 for u from 0 to t.
func lowestBetween(p, v, a, t float64) float64 {
	least := min(p, p+t*(v+t*a/2))
	if a > 0 && v < 0 && -v < a*t {
		least = min(least, p-v*v/(2*a))
	}
	return least
}

func (n *breakNotes) noteReach(i int, low, high float64) {
	if i == cue {
		if n.hit != nil && n.path == "" && high > n.past {
			n.path = PathForward
		}
		return
	}
	if low < n.headString {
		n.ball[i].pastString = true
	}
}

// noteTouch notes that two balls touch, i before j.
func (n *breakNotes) noteTouch(s *simulation, i, j int) {
	i, j = min(i, j), max(i, j)
	a, b := &s.balls[i], &s.balls[j]
	for _, k := range [2]int{i, j} {
		n.noteFirstMet(k, s.balls[k].p, MetBall)
	}
	if i != cue {
		return
	}
	if n.hit == nil {
		n.hitAt = s.now
		n.hit = s.describeFirstHit(a, b, j)
		return
	}
	if s.now > n.hitAt+breakUp && b.v.norm() > a.v.norm() {
		n.kicked = true
	}
}

// describeFirstHit describes the cue ball's first touch.
func (s *simulation) describeFirstHit(a, b *ballState, j int) *FirstHit {
	d, speed := b.p.sub(a.p), a.v.flatNorm()
	h := &FirstHit{Ball: s.notes.order[j], Slot: s.notes.slots[j], Height: table.InchesFromMetres(a.p.z)}
	h.Speed = milesPerHour(speed)
	if speed > 0 {
		// The line of the cue ball passes the other's centre on the right when
		// the centre lies to the left of the line.
		right := (a.v.x*d.y - a.v.y*d.x) / speed
		h.Offset = table.InchesFromMetres(right)
		h.Fullness = max(1-math.Abs(right)/s.c.diameter, 0)
		h.Roll = s.c.radius * (a.w.y*a.v.x - a.w.x*a.v.y) / (speed * speed)
	}
	return h
}

// noteFirstMet notes what an object ball met first after leaving its place.
func (n *breakNotes) noteFirstMet(i int, at vec, met FirstMet) {
	b := &n.ball[i]
	if b.met == "" && at.sub(b.home).flatNorm() > n.radius {
		b.met = met
	}
}

// noteCushion notes a meeting with a nose, facing or jaw.
func (n *breakNotes) noteCushion(i int, m ownEvent, b *ballState) {
	met := MetJaws
	if m.kind == atEdge && m.edge.rail != noRail {
		n.ball[i].rails++
		switch m.edge.rail {
		case headRail:
			met = MetHeadRail
		case footRail:
			met = MetFootRail
		default:
			met = MetSideRail
		}
	}
	n.noteFirstMet(i, b.p, met)
	if i == cue && met == MetHeadRail && n.hit != nil && n.path == "" {
		n.path = PathHeadRail
	}
}

func (n *breakNotes) notePocketed(i int, pocket table.Pocket, at float64) {
	b := &n.ball[i]
	b.end, b.pocket = Dropped, pocket
	if b.met == "" {
		b.met = MetPocket
	}
	if i != cue {
		n.drops = append(n.drops, Pocketed{n.order[i], pocket, at})
	}
}

func (n *breakNotes) noteOffTable(i int, _ float64) {
	n.ball[i].end = OffTable
	if i != cue {
		n.gone = append(n.gone, n.order[i])
	}
}

// noteParting notes a ball's velocity when it first comes free after a touch.
func (n *breakNotes) noteParting(i int, b *ballState) {
	if n.ball[i].left || b.v.flatNorm() <= restSpeed {
		return
	}
	n.ball[i].left, n.ball[i].leftAt = true, b.v
}

func milesPerHour(metresPerSecond float64) table.Mph {
	return table.Mph(metresPerSecond / table.MetresPerSecondPerMph)
}
