package breaksim

import (
	"math"

	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// notes are what an observer at the table would write down while a run is on.
type notes struct {
	keepPaths  bool
	headString float64
	radius     float64
	order      []rack.Ball // of the balls of the run, cue ball first (0)
	slots      []rack.Slot

	ball   [maxBalls]note
	drops  []Pocketed
	gone   []rack.Ball
	hit    *Hit
	hitAt  float64
	path   CuePath // decided so far; empty until then
	kicked bool    // another ball moved the cue ball after the break-up
	// past is a ball's width beyond the head ball's place.
	past float64
}

// note is what is noted of one ball.
type note struct {
	home       vec
	end        End
	pocket     table.Pocket
	met        Met
	rails      int
	pastString bool
	left       bool
	leftAt     vec
	legs       Path
}

// breakUp is how long after the first touch a ball that hits the cue ball still
// belongs to the break-up of the rack.
const breakUp = 0.02

// leg notes a stretch of closed-form motion that ends at a time, before the ball
// is advanced to it.
func (n *notes) leg(i int, b *ball, at float64) {
	t := at - b.from
	if !b.free() || b.phase == still || t <= 0 {
		return
	}
	to := b.place(at)
	n.reached(i, lowest(b.p.y, b.v.y, b.a.y, t), -lowest(-b.p.y, -b.v.y, -b.a.y, t))
	if n.keepPaths {
		n.ball[i].legs = append(n.ball[i].legs, Leg{
			From: place(b.p), Control: place(b.p.plus(t/2, b.v)), To: place(to),
			Start: b.from, End: at,
			FromHeight: table.InchesFromMetres(b.p.z), ToHeight: table.InchesFromMetres(to.z),
		})
	}
}

// pressedLeg notes the short way of a ball through the stiff phase.
func (n *notes) pressedLeg(i int, from vec, since float64, b *ball, at float64) {
	n.reached(i, min(from.y, b.p.y), max(from.y, b.p.y))
	if !n.keepPaths || at <= since || from == b.p {
		return
	}
	n.ball[i].legs = append(n.ball[i].legs, Leg{
		From: place(from), Control: place(from.add(b.p).times(0.5)), To: place(b.p),
		Start: since, End: at,
		FromHeight: table.InchesFromMetres(from.z), ToHeight: table.InchesFromMetres(b.p.z),
	})
}

// lowest is the least of p + v·u + a·u²/2 for u from 0 to t.
func lowest(p, v, a, t float64) float64 {
	least := min(p, p+t*(v+t*a/2))
	if a > 0 && v < 0 && -v < a*t {
		least = min(least, p-v*v/(2*a))
	}
	return least
}

func (n *notes) reached(i int, low, high float64) {
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

// touch notes that two balls touch, i before j.
func (n *notes) touch(s *run, i, j int) {
	i, j = min(i, j), max(i, j)
	a, b := &s.balls[i], &s.balls[j]
	for _, k := range [2]int{i, j} {
		n.meets(k, s.balls[k].p, MetBall)
	}
	if i != cue {
		return
	}
	if n.hit == nil {
		n.hitAt = s.now
		n.hit = s.firstHit(a, b, j)
		return
	}
	if s.now > n.hitAt+breakUp && b.v.norm() > a.v.norm() {
		n.kicked = true
	}
}

// firstHit describes the cue ball's first touch.
func (s *run) firstHit(a, b *ball, j int) *Hit {
	d, speed := b.p.sub(a.p), a.v.flat()
	h := &Hit{Ball: s.notes.order[j], Slot: s.notes.slots[j], Height: table.InchesFromMetres(a.p.z)}
	h.Speed = mph(speed)
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

// meets notes what an object ball met first after leaving its place.
func (n *notes) meets(i int, at vec, met Met) {
	b := &n.ball[i]
	if b.met == "" && at.sub(b.home).flat() > n.radius {
		b.met = met
	}
}

// cushion notes a meeting with a nose, facing or jaw.
func (n *notes) cushion(i int, m meeting, b *ball) {
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
	n.meets(i, b.p, met)
	if i == cue && met == MetHeadRail && n.hit != nil && n.path == "" {
		n.path = PathHeadRail
	}
}

func (n *notes) pocketed(i int, pocket table.Pocket, at float64) {
	b := &n.ball[i]
	b.end, b.pocket = Dropped, pocket
	if b.met == "" {
		b.met = MetPocket
	}
	if i != cue {
		n.drops = append(n.drops, Pocketed{n.order[i], pocket, at})
	}
}

func (n *notes) off(i int, _ float64) {
	n.ball[i].end = OffTable
	if i != cue {
		n.gone = append(n.gone, n.order[i])
	}
}

// parted notes a ball's velocity when it first comes free after a touch.
func (n *notes) parted(i int, b *ball) {
	if n.ball[i].left || b.v.flat() <= restSpeed {
		return
	}
	n.ball[i].left, n.ball[i].leftAt = true, b.v
}

func mph(metresPerSecond float64) table.Mph {
	return table.Mph(metresPerSecond / table.MetresPerSecondPerMph)
}
