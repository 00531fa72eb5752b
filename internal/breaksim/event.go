package breaksim

import "math"

// maxBalls is a rack of fifteen and the cue ball.
const maxBalls = 16

// cue is the cue ball's number within a run; the object balls follow in the
// order of the game's slots.
const cue = 0

// simulation is one break on its way: the balls, what each does next on its own, and
// when each pair of free balls meets.
type simulation struct {
	t     *Table
	c     *constants
	now   float64
	n     int
	balls [maxBalls]ballState
	next  [maxBalls]ownEvent
	pair  [maxBalls][maxBalls]float64 // [i][j] with i < j; +Inf when they do not meet
	press stiffPhase
	notes breakNotes

	events    int
	lost      int
	unsettled bool
	// watch, when set, is called after each event; tests look in through it.
	afterEvent func(*simulation)
}

// runToRest lets the balls run until all are at rest, or the limits are reached.
func (s *simulation) runToRest() {
	for i := range s.n {
		s.predictEvents(i)
	}
	for s.runNextEvent() {
		s.events++
		if s.afterEvent != nil {
			s.afterEvent(s)
		}
		if s.events >= s.c.maxEvents || s.now > s.c.maxSeconds {
			s.unsettled = s.hasMovingBall()
			return
		}
	}
}

func (s *simulation) hasMovingBall() bool {
	for i := range s.n {
		if s.balls[i].isMoving() {
			return true
		}
	}
	return false
}

// runNextEvent carries out the next event and reports whether there was one. While balls
// are pressed together, the stiff phase runs up to the next event of the others.
func (s *simulation) runNextEvent() bool {
	i, j, at := s.findNextEvent()
	if s.press.count > 0 {
		if s.runStiffPhase(at) {
			return true // the stiff phase changed who is free: look again
		}
	}
	if math.IsInf(at, 1) {
		return false
	}
	s.now = at
	if j < 0 {
		s.handleOwnEvent(i)
	} else {
		s.meetBalls(i, j)
	}
	return true
}

// findNextEvent returns the next event of free balls: of ball i alone when j is -1,
// else of the pair.
func (s *simulation) findNextEvent() (i, j int, at float64) {
	i, j, at = -1, -1, math.Inf(1)
	for a := range s.n {
		if s.next[a].at < at {
			i, j, at = a, -1, s.next[a].at
		}
		row := &s.pair[a]
		for b := a + 1; b < s.n; b++ {
			if row[b] < at {
				i, j, at = a, b, row[b]
			}
		}
	}
	return i, j, at
}

// predictEvents computes anew what ball i does next, alone and with every other.
func (s *simulation) predictEvents(i int) {
	s.next[i] = s.t.nextOwnEvent(&s.balls[i], s.now)
	for j := range s.n {
		if j != i {
			s.pair[min(i, j)][max(i, j)] = s.meetingTime(i, j)
		}
	}
}

// meetingTime is when two free balls touch next, if they do so before either
// ends its phase.
func (s *simulation) meetingTime(i, j int) float64 {
	a, b := &s.balls[i], &s.balls[j]
	if !a.isFree() || !b.isFree() || (a.phase == still && b.phase == still) {
		return math.Inf(1)
	}
	horizon := min(s.next[i].at, s.next[j].at, a.until, b.until) - s.now
	d := b.positionAt(s.now).sub(a.positionAt(s.now))
	v := b.velocityAt(s.now).sub(a.velocityAt(s.now))
	f := distancePolynomial(d, v, b.a.sub(a.a), s.c.touchDistance(d.norm(), s.c.diameter))
	if t, falls := f.firstZeroCrossing(horizon); falls {
		return s.now + t
	}
	return math.Inf(1)
}

// handleOwnEvent carries out what a ball does on its own.
func (s *simulation) handleOwnEvent(i int) {
	b, m := &s.balls[i], s.next[i]
	switch m.kind {
	case phaseEnd:
		s.notes.noteLeg(i, b, m.at)
		s.c.endPhase(b)
		if s.t.bounds.isOutside(b.p) || !b.p.isFinite() || !b.v.isFinite() {
			s.lost++
			s.removeBall(i, m)
			return
		}
	case atEdge, atPoint:
		s.bounceOffCushion(i, m)
	case atDrop, overEdge:
		s.notes.noteLeg(i, b, m.at)
		s.c.advanceBall(b, m.at)
		s.removeBall(i, m)
		return
	}
	s.predictEvents(i)
}

// bounceOffCushion carries out a meeting with a nose, a facing or the point of a jaw.
func (s *simulation) bounceOffCushion(i int, m ownEvent) {
	b := &s.balls[i]
	s.notes.noteLeg(i, b, m.at)
	s.c.advanceBall(b, m.at)
	in, apart, share := vec{}, 0.0, s.c.facingShare
	if m.kind == atEdge {
		in, share = m.edge.in, m.edge.share
		apart = b.p.sub(m.edge.at).dot(in)
	} else {
		d := b.p.sub(s.t.bounds.pockets[m.pocket].points[m.point])
		d.z = 0
		apart = d.norm()
		in = d.scaledBy(1 / apart)
	}
	if over := s.c.noseReach - apart; b.p.z <= 0 && over > 0 && over <= 4*s.c.overlap {
		b.p = b.p.plusScaled(over, in)
	}
	if s.c.reboundFromNose(b, noseContact{in: in, share: share}) > 0 {
		s.notes.noteCushion(i, m, b)
	}
	s.c.startPhase(b, m.at)
}

// removeBall takes a ball off the table: down a pocket, or over a rail.
func (s *simulation) removeBall(i int, m ownEvent) {
	b := &s.balls[i]
	if m.kind == atDrop && b.p.z < s.c.noseHeight {
		s.notes.notePocketed(i, s.t.bounds.pockets[m.pocket].name, m.at)
	} else {
		s.notes.noteOffTable(i, m.at)
	}
	s.now = m.at
	b.phase, b.until = gone, math.Inf(1)
	b.v, b.w, b.a, b.turn = vec{}, vec{}, vec{}, vec{}
	s.predictEvents(i)
}

// meetBalls carries out the touch of two free balls: at once when no third ball can
// share it, else as the start of a stiff phase.
func (s *simulation) meetBalls(i, j int) {
	a, b := &s.balls[i], &s.balls[j]
	for _, k := range [2]int{i, j} {
		s.notes.noteLeg(k, &s.balls[k], s.now)
		s.c.advanceBall(&s.balls[k], s.now)
	}
	s.c.separateBalls(a, b)
	s.notes.noteTouch(s, i, j)
	if s.isSharedContact(i, j) {
		s.startStiffPhase(i, j)
		return
	}
	s.c.collideBalls(a, b)
	s.c.startPhase(a, s.now)
	s.c.startPhase(b, s.now)
	s.notes.noteParting(i, a)
	s.notes.noteParting(j, b)
	s.predictEvents(i)
	s.predictEvents(j)
}

// isSharedContact reports whether a third ball is so near to one of two that are about to
// touch that it can be reached before they have parted.
func (s *simulation) isSharedContact(i, j int) bool {
	if s.c.instantContacts {
		return false
	}
	a, b := &s.balls[i], &s.balls[j]
	approach := a.v.sub(b.v).norm()
	lasts := s.c.contactTime(approach)
	for k := range s.n {
		if k == i || k == j || s.balls[k].phase == gone {
			continue
		}
		p, v := s.balls[k].positionAt(s.now), s.balls[k].velocityAt(s.now)
		if s.balls[k].phase == pressed {
			p, v = s.balls[k].p, s.balls[k].v
		}
		for _, q := range [2]*ballState{a, b} {
			if s.c.gapBetween(p, q.p) < lasts*(approach+v.sub(q.v).norm()) {
				return true
			}
		}
	}
	return false
}
