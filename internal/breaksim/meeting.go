package breaksim

import "math"

// ownEvent is the next thing a ball does on its own: it comes to the end of its
// phase, or meets something that stands around the cloth.
type ownEvent struct {
	kind   ownEventKind
	at     float64
	edge   *cushionEdge
	pocket int
	point  int
}

type ownEventKind uint8

const (
	noEvent  ownEventKind = iota
	phaseEnd              // sliding to rolling, rolling to rest, landing
	atEdge                // a nose, or a facing when edge.rail is noRail
	atPoint               // the point of a jaw
	atDrop                // the centre passes a drop line
	overEdge              // the centre passes over a nose: the ball leaves the table
)

// trajectory is a ball's motion from `now` for the next `horizon` seconds.
type trajectory struct {
	p, v, a  vec
	horizon  float64
	low, hi  vec // flat box around the path
	airborne bool
}

func newTrajectory(b *ballState, now float64) trajectory {
	r := trajectory{p: b.positionAt(now), v: b.velocityAt(now), a: b.a, horizon: b.until - now, airborne: b.phase == airborne}
	r.computeBox()
	return r
}

// computeBox uses that a parabola lies within the triangle of its ends and the
// crossing of its tangents.
func (r *trajectory) computeBox() {
	t := r.horizon
	bend := r.p.plusScaled(t/2, r.v)
	end := bend.plusScaled(t/2, r.v).plusScaled(t*t/2, r.a)
	r.low = vec{x: min(r.p.x, bend.x, end.x), y: min(r.p.y, bend.y, end.y)}
	r.hi = vec{x: max(r.p.x, bend.x, end.x), y: max(r.p.y, bend.y, end.y)}
}

func (r *trajectory) positionAt(t float64) vec { return r.p.plusScaled(t, r.v).plusScaled(t*t/2, r.a) }

// nextOwnEvent finds what the ball does next on its own from `now` on.
func (t *Table) nextOwnEvent(b *ballState, now float64) ownEvent {
	if !b.isFree() || b.phase == still {
		return ownEvent{at: math.Inf(1)}
	}
	r := newTrajectory(b, now)
	m := ownEvent{kind: phaseEnd, at: max(r.horizon, 0)}
	t.findRailMeeting(&r, &m)
	for i := range t.bounds.pockets {
		k := &t.bounds.pockets[i]
		if r.hi.x < k.low.x || r.low.x > k.high.x || r.hi.y < k.low.y || r.low.y > k.high.y {
			continue
		}
		t.findPocketMeeting(&r, &m, i)
	}
	m.at += now
	return m
}

func (t *Table) findRailMeeting(r *trajectory, m *ownEvent) {
	w, l, reach := t.bounds.halfWidth, t.bounds.length, t.c.radius
	if r.low.x > reach-w && r.hi.x < w-reach && r.low.y > reach && r.hi.y < l-reach {
		return
	}
	for i := range t.bounds.edges {
		t.findEdgeMeeting(r, m, &t.bounds.edges[i])
	}
}

func (t *Table) findPocketMeeting(r *trajectory, m *ownEvent, pocket int) {
	k := &t.bounds.pockets[pocket]
	for i := range k.facings {
		t.findEdgeMeeting(r, m, &k.facings[i])
		t.findPointMeeting(r, m, pocket, i)
	}
	left := k.drop.sub(r.p).dot(k.out)
	at, falls := 0.0, true
	if left > 0 {
		at, falls = quadraticZeroCrossing(left, -r.v.dot(k.out), -r.a.dot(k.out)/2)
	}
	if falls && at <= m.at {
		*m = ownEvent{kind: atDrop, at: at, pocket: pocket}
	}
}

// touchDistance returns the distance that counts as touching for two bodies now `apart`
// that touch at `reach`: when they touch already, a little deeper, so that the
// next touch is always ahead and never at once.
func (c *constants) touchDistance(apart, reach float64) float64 {
	if apart >= reach+c.overlap/2 {
		return reach
	}
	return min(apart, reach) - c.overlap
}

func (t *Table) findEdgeMeeting(r *trajectory, m *ownEvent, e *cushionEdge) {
	s, vs, as := r.p.sub(e.at).dot(e.in), r.v.dot(e.in), r.a.dot(e.in)
	if r.airborne {
		t.findEdgeMeetingInAir(r, m, e, s, vs)
		return
	}
	reach := t.c.noseReach
	if s > 0 {
		reach = t.c.touchDistance(s, reach)
	}
	at, falls := quadraticZeroCrossing(s-reach, vs, as/2)
	if falls && at < m.at && e.spansPlace(r.positionAt(at)) {
		*m = ownEvent{kind: atEdge, at: at, edge: e, pocket: e.pocket}
	}
}

func (e *cushionEdge) spansPlace(p vec) bool {
	u := p.sub(e.at).dot(e.along)
	return u >= e.from && u <= e.to
}

// meetEdgeInAir: the nose is a line at its height, the ball a sphere; in the
// air the flat part of the motion is straight.
func (t *Table) findEdgeMeetingInAir(r *trajectory, m *ownEvent, e *cushionEdge, s, vs float64) {
	if s <= 0 {
		return
	}
	h := r.p.z + t.c.radius - t.c.noseHeight
	f := distancePolynomial(vec{x: s, z: h}, vec{x: vs, z: r.v.z}, vec{z: r.a.z}, t.c.touchDistance(math.Hypot(s, h), t.c.radius))
	if at, falls := f.firstZeroCrossing(min(r.horizon, m.at)); falls && at < m.at && e.spansPlace(r.positionAt(at)) {
		*m = ownEvent{kind: atEdge, at: at, edge: e, pocket: e.pocket}
	}
	if at, falls := quadraticZeroCrossing(s, vs, 0); falls && at < m.at && e.spansPlace(r.positionAt(at)) {
		*m = ownEvent{kind: overEdge, at: at, edge: e}
	}
}

func (t *Table) findPointMeeting(r *trajectory, m *ownEvent, pocket, point int) {
	d, reach := r.p.sub(t.bounds.pockets[pocket].points[point]), t.c.noseReach
	if r.airborne {
		d.z, reach = r.p.z+t.c.radius-t.c.noseHeight, t.c.radius
	}
	f := distancePolynomial(d, r.v, r.a, t.c.touchDistance(d.norm(), reach))
	if at, falls := f.firstZeroCrossing(min(r.horizon, m.at)); falls && at < m.at {
		*m = ownEvent{kind: atPoint, at: at, pocket: pocket, point: point}
	}
}

// distancePolynomial is the squared distance between two bodies less that of touching
// at reach, as a polynomial of time: d, v and a are their relative place,
// velocity and acceleration.
func distancePolynomial(d, v, a vec, reach float64) polynomial {
	apart := d.norm()
	return polynomial{(apart - reach) * (apart + reach), 2 * d.dot(v), v.dot(v) + d.dot(a), v.dot(a), a.dot(a) / 4}
}

// findSunkRubber says which nose, facing or point a ball has sunk into, if any, and
// the flat direction out of it.
func (t *Table) findSunkRubber(b *ballState) (m ownEvent, in vec, found bool) {
	w, l, reach := t.bounds.halfWidth, t.bounds.length, t.c.radius
	if math.Abs(b.p.x) < w-reach && b.p.y > reach && b.p.y < l-reach {
		return m, in, false
	}
	h := b.p.z + reach - t.c.noseHeight
	for i := range t.bounds.edges {
		if e := &t.bounds.edges[i]; e.isSunkInto(b.p, h, reach) {
			return ownEvent{kind: atEdge, edge: e, pocket: e.pocket}, e.in, true
		}
	}
	for i := range t.bounds.pockets {
		k := &t.bounds.pockets[i]
		for j := range k.points {
			if e := &k.facings[j]; e.isSunkInto(b.p, h, reach) {
				return ownEvent{kind: atEdge, edge: e, pocket: i}, e.in, true
			}
			d := b.p.sub(k.points[j])
			d.z = 0
			if flat := d.norm(); flat > 0 && math.Hypot(flat, h) < reach {
				return ownEvent{kind: atPoint, pocket: i, point: j}, d.scaledBy(1 / flat), true
			}
		}
	}
	return m, in, false
}

func (e *cushionEdge) isSunkInto(p vec, h, reach float64) bool {
	s := p.sub(e.at).dot(e.in)
	return s > 0 && math.Hypot(s, h) < reach && e.spansPlace(p)
}
