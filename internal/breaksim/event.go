package breaksim

import "math"

// maxBalls is a rack of fifteen and the cue ball.
const maxBalls = 16

// cue is the cue ball's number within a run; the object balls follow in the
// order of the game's slots.
const cue = 0

// run is one break on its way: the balls, what each does next on its own, and
// when each pair of free balls meets.
type run struct {
	t     *Table
	c     *constants
	now   float64
	n     int
	balls [maxBalls]ball
	next  [maxBalls]meeting
	pair  [maxBalls][maxBalls]float64 // [i][j] with i < j; +Inf when they do not meet
	press press
	notes notes

	events    int
	lost      int
	unsettled bool
	// watch, when set, is called after each event; tests look in through it.
	watch func(*run)
}

// play lets the balls run until all are at rest, or the limits are reached.
func (s *run) play() {
	for i := range s.n {
		s.foresee(i)
	}
	for s.step() {
		s.events++
		if s.watch != nil {
			s.watch(s)
		}
		if s.events >= s.c.maxEvents || s.now > s.c.maxSeconds {
			s.unsettled = s.moving()
			return
		}
	}
}

func (s *run) moving() bool {
	for i := range s.n {
		if s.balls[i].moving() {
			return true
		}
	}
	return false
}

// step carries out the next event and says whether there was one. While balls
// are pressed together, the stiff phase runs up to the next event of the others.
func (s *run) step() bool {
	i, j, at := s.soonest()
	if s.press.count > 0 {
		if s.squeeze(at) {
			return true // the stiff phase changed who is free: look again
		}
	}
	if math.IsInf(at, 1) {
		return false
	}
	s.now = at
	if j < 0 {
		s.alone(i)
	} else {
		s.meet(i, j)
	}
	return true
}

// soonest gives the next event of free balls: of ball i alone when j is -1,
// else of the pair.
func (s *run) soonest() (i, j int, at float64) {
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

// foresee computes anew what ball i does next, alone and with every other.
func (s *run) foresee(i int) {
	s.next[i] = s.t.nextMeeting(&s.balls[i], s.now)
	for j := range s.n {
		if j != i {
			s.pair[min(i, j)][max(i, j)] = s.meetingTime(i, j)
		}
	}
}

// meetingTime is when two free balls touch next, if they do so before either
// ends its phase.
func (s *run) meetingTime(i, j int) float64 {
	a, b := &s.balls[i], &s.balls[j]
	if !a.free() || !b.free() || (a.phase == still && b.phase == still) {
		return math.Inf(1)
	}
	horizon := min(s.next[i].at, s.next[j].at, a.until, b.until) - s.now
	d := b.place(s.now).sub(a.place(s.now))
	v := b.speed(s.now).sub(a.speed(s.now))
	f := distancePoly(d, v, b.a.sub(a.a), s.c.lowered(d.norm(), s.c.diameter))
	if t, falls := f.firstFall(horizon); falls {
		return s.now + t
	}
	return math.Inf(1)
}

// alone carries out what a ball does on its own.
func (s *run) alone(i int) {
	b, m := &s.balls[i], s.next[i]
	switch m.kind {
	case phaseEnd:
		s.notes.leg(i, b, m.at)
		s.c.endPhase(b)
		if s.t.bounds.outside(b.p) || !b.p.finite() || !b.v.finite() {
			s.lost++
			s.leave(i, m)
			return
		}
	case atEdge, atPoint:
		s.bounce(i, m)
	case atDrop, overEdge:
		s.notes.leg(i, b, m.at)
		s.c.advance(b, m.at)
		s.leave(i, m)
		return
	}
	s.foresee(i)
}

// bounce carries out a meeting with a nose, a facing or the point of a jaw.
func (s *run) bounce(i int, m meeting) {
	b := &s.balls[i]
	s.notes.leg(i, b, m.at)
	s.c.advance(b, m.at)
	in, apart, share := vec{}, 0.0, s.c.facingShare
	if m.kind == atEdge {
		in, share = m.edge.in, m.edge.share
		apart = b.p.sub(m.edge.at).dot(in)
	} else {
		d := b.p.sub(s.t.bounds.pockets[m.pocket].points[m.point])
		d.z = 0
		apart = d.norm()
		in = d.times(1 / apart)
	}
	if over := s.c.noseReach - apart; b.p.z <= 0 && over > 0 && over <= 4*s.c.overlap {
		b.p = b.p.plus(over, in)
	}
	if s.c.rebound(b, nose{in: in, share: share}) > 0 {
		s.notes.cushion(i, m, b)
	}
	s.c.set(b, m.at)
}

// leave takes a ball off the table: down a pocket, or over a rail.
func (s *run) leave(i int, m meeting) {
	b := &s.balls[i]
	if m.kind == atDrop && b.p.z < s.c.noseHeight {
		s.notes.pocketed(i, s.t.bounds.pockets[m.pocket].name, m.at)
	} else {
		s.notes.off(i, m.at)
	}
	s.now = m.at
	b.phase, b.until = gone, math.Inf(1)
	b.v, b.w, b.a, b.turn = vec{}, vec{}, vec{}, vec{}
	s.foresee(i)
}

// meet carries out the touch of two free balls: at once when no third ball can
// share it, else as the start of a stiff phase.
func (s *run) meet(i, j int) {
	a, b := &s.balls[i], &s.balls[j]
	for _, k := range [2]int{i, j} {
		s.notes.leg(k, &s.balls[k], s.now)
		s.c.advance(&s.balls[k], s.now)
	}
	s.c.part(a, b)
	s.notes.touch(s, i, j)
	if s.shared(i, j) {
		s.startPress(i, j)
		return
	}
	s.c.collide(a, b)
	s.c.set(a, s.now)
	s.c.set(b, s.now)
	s.notes.parted(i, a)
	s.notes.parted(j, b)
	s.foresee(i)
	s.foresee(j)
}

// shared says whether a third ball is so near to one of two that are about to
// touch that it can be reached before they have parted.
func (s *run) shared(i, j int) bool {
	a, b := &s.balls[i], &s.balls[j]
	closing := a.v.sub(b.v).norm()
	lasts := s.c.contactTime(closing)
	for k := range s.n {
		if k == i || k == j || s.balls[k].phase == gone {
			continue
		}
		p, v := s.balls[k].place(s.now), s.balls[k].speed(s.now)
		if s.balls[k].phase == pressed {
			p, v = s.balls[k].p, s.balls[k].v
		}
		for _, q := range [2]*ball{a, b} {
			if s.c.gap(p, q.p) < lasts*(closing+v.sub(q.v).norm()) {
				return true
			}
		}
	}
	return false
}
