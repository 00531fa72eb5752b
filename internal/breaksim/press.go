package breaksim

import "math"

const (
	// sortEvery is how many steps of the stiff phase pass between two looks at
	// who is pressed: a tenth of a contact at the default step.
	sortEvery = 8
	// longestPress breaks off a stiff phase that does not end by itself.
	longestPress = 0.05
)

// startStiffPhase begins the stiff phase with two balls that touch and all that are
// within reach of them, or adds them to one under way.
func (s *simulation) startStiffPhase(i, j int) {
	p := &s.press
	a, b := &s.balls[i], &s.balls[j]
	approach := a.v.sub(b.v).norm()
	if p.count == 0 {
		lasts := s.c.contactTime(a.v.sub(b.v).dot(b.p.sub(a.p)) / s.c.diameter)
		p.step, p.ahead, p.taken = lasts/s.c.stepsPerContact, 1.5*lasts, 0
		p.until = s.now + longestPress
	}
	s.addPressedBall(i)
	s.addPressedBall(j)
	for grown := true; grown; {
		grown = false
		for k := range s.n {
			if !p.in[k] && s.balls[k].isFree() && s.isNearPressed(k, approach*p.ahead) {
				s.addPressedBall(k)
				grown = true
			}
		}
	}
	s.listPressedPairs()
	s.computeForces()
}

// isNearPressed reports whether a free ball is within that distance of a pressed one.
func (s *simulation) isNearPressed(k int, distance float64) bool {
	at := s.balls[k].positionAt(s.now)
	for m := range s.n {
		if s.press.in[m] && s.c.gapBetween(at, s.balls[m].p) <= distance {
			return true
		}
	}
	return false
}

// addPressedBall takes a ball into the stiff phase.
func (s *simulation) addPressedBall(i int) {
	p, b := &s.press, &s.balls[i]
	if p.in[i] {
		return
	}
	if b.from != s.now {
		s.notes.noteLeg(i, b, s.now)
		s.c.advanceBall(b, s.now)
	}
	b.phase, b.until = pressed, math.Inf(1)
	b.a, b.turn = vec{}, vec{}
	for m := range s.n {
		if p.in[m] {
			apart := s.c.gapBetween(b.p, s.balls[m].p) + s.c.diameter
			lo, hi := min(i, m), max(i, m)
			p.touch[lo][hi] = min(apart, s.c.diameter)
			p.grip[lo][hi], p.slid[lo][hi] = 0, 0
			s.shortenStep(i, m)
		}
	}
	p.in[i], p.entered[i], p.start[i] = true, s.now, b.p
	p.count++
	s.predictEvents(i)
}

// shortenStep makes the step small enough for the speed at which two balls meet.
func (s *simulation) shortenStep(i, j int) {
	a, b := &s.balls[i], &s.balls[j]
	if meeting := a.v.sub(b.v).dot(b.p.sub(a.p)) / s.c.diameter; meeting > 0 {
		s.press.step = min(s.press.step, s.c.contactTime(meeting)/s.c.stepsPerContact)
	}
}

// runStiffPhase runs the stiff phase up to a time at most. It reports whether a ball came
// in or went out, which changes the events to come.
func (s *simulation) runStiffPhase(until float64) bool {
	p := &s.press
	for s.now < until {
		if p.taken >= sortEvery {
			p.taken = 0
			if s.updatePressedBalls() {
				return true
			}
		}
		dt := min(p.step, until-s.now)
		s.stepForward(dt)
		s.now = min(s.now+dt, until)
		p.taken++
	}
	return false
}

// updatePressedBalls looks at every pressed ball: which touch or are about to, which free
// balls come near, which are done and go free.
func (s *simulation) updatePressedBalls() (changed bool) {
	var hold [maxBalls]bool
	for i := range s.n {
		if !s.press.in[i] {
			continue
		}
		s.bouncePressedBall(i)
		if s.balls[i].p.z < -1e-9 {
			hold[i] = true
		}
		for j := range s.n {
			if j == i || s.balls[j].phase == gone || (s.press.in[j] && j < i) {
				continue
			}
			if s.touchOrWillTouch(i, j) {
				hold[i], hold[j] = true, true
			}
		}
	}
	if s.now > s.press.until {
		hold = [maxBalls]bool{}
	}
	for i := range s.n {
		if hold[i] && !s.press.in[i] {
			s.addPressedBall(i)
			changed = true
		}
	}
	for i := range s.n {
		if !hold[i] && s.press.in[i] {
			s.releaseBall(i)
			changed = true
		}
	}
	s.listPressedPairs()
	s.computeForces()
	return changed
}

// touchOrWillTouch reports whether a pressed ball i and another touch, or will within the
// time looked ahead.
func (s *simulation) touchOrWillTouch(i, j int) bool {
	a, b := &s.balls[i], &s.balls[j]
	p, v, touch := b.p, b.v, s.c.diameter
	if s.press.in[j] {
		touch = s.slackDistance(i, j)
	} else {
		p, v = b.positionAt(s.now), b.velocityAt(s.now)
	}
	d := p.sub(a.p)
	apart := d.norm()
	if apart < touch {
		s.notes.noteTouch(s, i, j)
		return true
	}
	approach := a.v.sub(v).dot(d) / apart
	return approach > 0 && apart-touch <= approach*s.press.ahead
}

// slackDistance returns the distance at which two pressed balls' spring is slack, and
// makes it a diameter once they have been that far apart.
func (s *simulation) slackDistance(i, j int) float64 {
	i, j = min(i, j), max(i, j)
	if s.balls[i].p.sub(s.balls[j].p).norm() >= s.c.diameter {
		s.press.touch[i][j] = s.c.diameter
	}
	return s.press.touch[i][j]
}

// releaseBall lets a ball go free. The cloth's friction on its base while it was
// pressed, small beside the blows, is made up for here.
func (s *simulation) releaseBall(i int) {
	p, b := &s.press, &s.balls[i]
	p.in[i] = false
	p.count--
	if b.v.z < s.c.liftOff && b.p.z < s.c.liftOff*s.c.liftOff/(2*s.c.gravity) {
		b.p.z = min(b.p.z, 0)
		s.c.settleOnBed(b)
		b.p.z, b.v.z = 0, max(b.v.z, 0)
		s.c.rubOnCloth(b, s.c.slideDecel*(s.now-p.entered[i]))
	}
	s.notes.notePressedLeg(i, p.start[i], p.entered[i], b, s.now)
	s.c.startPhase(b, s.now)
	s.notes.noteParting(i, b)
	s.predictEvents(i)
}

// listPressedPairs lists the pairs that can touch before the next sorting: no ball can come
// to move faster than if it had all the energy of motion.
func (s *simulation) listPressedPairs() {
	p := &s.press
	sum := 0.0
	for i := range s.n {
		if p.in[i] {
			sum += s.balls[i].v.dot(s.balls[i].v)
		}
	}
	reach := s.c.diameter + 2*math.Sqrt(sum)*p.step*sortEvery
	p.links = p.links[:0]
	for i := range s.n {
		for j := i + 1; j < s.n && p.in[i]; j++ {
			if d := s.balls[j].p.sub(s.balls[i].p); p.in[j] && d.dot(d) < reach*reach {
				p.links = append(p.links, pressedPair{i, j})
			}
		}
	}
}

// bouncePressedBall lets a pressed ball that has reached a nose bounce off it at once.
func (s *simulation) bouncePressedBall(i int) {
	b := &s.balls[i]
	m, in, found := s.t.findSunkRubber(b)
	if !found || b.v.dot(in) >= 0 {
		return
	}
	if b.p.z < 1e-4 {
		b.p.z = 0
	}
	share := s.c.facingShare
	if m.kind == atEdge {
		share = m.edge.share
	}
	m.at = s.now
	if s.c.reboundFromNose(b, noseContact{in: in, share: share}) > 0 {
		s.notes.noteCushion(i, m, b)
	}
}
