package breaksim

import (
	"fmt"
	"math"
	"slices"

	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// Layout is a table in the middle of a game: the cue ball and up to fifteen
// object balls at rest, and a stroke.
type Layout struct {
	Cue   table.Place
	Balls []PlacedBall
	// Aim turns the line of the cue ball from straight down the table, positive
	// to the right: the heading that sends it from its place to (x, y) is
	// atan2(x - cue x, y - cue y).
	Aim Degrees
	// Tip and Spin are as in Input.
	Tip, Spin RadiusFraction
	Speed     table.Mph
}

// PlacedBall is an object ball at rest on the cloth.
type PlacedBall struct {
	Ball  rack.Ball
	Place table.Place
}

// LayoutResult says what became of the balls of a Layout.
type LayoutResult struct {
	Pocketed []Pocketed
	// Cue says how the cue ball ended; its Slot and Ball are empty.
	Cue BallEnd
	// Hit is the cue ball's first touch, nil when it touched nothing; its Slot
	// is empty.
	Hit *FirstHit
	// Unsettled: see Result.
	Unsettled bool
}

// PlayLayout computes one stroke on a layout, exactly as it is told: there is no
// scatter, whoever wants some turns the aim. A layout whose balls overlap, lie
// off the cloth or repeat a number is refused with ErrInput.
func (t *Table) PlayLayout(l Layout) (LayoutResult, error) {
	if err := l.checkPossible(t.kind); err != nil {
		return LayoutResult{}, err
	}
	s := t.setUpLayout(l)
	s.runToRest()
	r := LayoutResult{Pocketed: s.notes.drops, Cue: s.describeBallEnd(cue), Hit: s.notes.hit, Unsettled: s.unsettled}
	return r, nil
}

func (l Layout) checkPossible(k table.Kind) error {
	if len(l.Balls) >= maxBalls {
		return fmt.Errorf("%w: at most fifteen object balls", ErrInput)
	}
	places, numbers := []table.Place{l.Cue}, []rack.Ball{}
	for _, b := range l.Balls {
		if slices.Contains(numbers, b.Ball) {
			return fmt.Errorf("%w: the %s is there twice", ErrInput, b.Ball)
		}
		places, numbers = append(places, b.Place), append(numbers, b.Ball)
	}
	for i, p := range places {
		if !k.OnCloth(p) {
			return fmt.Errorf("%w: a ball at %s is off the cloth", ErrInput, p)
		}
		for _, q := range places[:i] {
			if p.Distance(q) < table.BallDiameter-1e-9 {
				return fmt.Errorf("%w: balls at %s and %s overlap", ErrInput, q, p)
			}
		}
	}
	switch {
	case !(l.Speed > 0 && l.Speed <= Fastest):
		return fmt.Errorf("%w: the speed is more than 0 and at most %s mph", ErrInput, Fastest)
	case !(math.Hypot(float64(l.Tip), float64(l.Spin)) <= float64(MiscueTip)) || !(math.Abs(float64(l.Aim)) <= 360):
		return fmt.Errorf("%w: the stroke is a miscue", ErrInput)
	}
	return nil
}

// setUpLayout puts the balls down and strikes the cue ball.
func (t *Table) setUpLayout(l Layout) *simulation {
	s := &simulation{t: t, c: &t.c, n: 1 + len(l.Balls)}
	order := []rack.Ball{0}
	s.balls[cue].p = vecFromPlace(l.Cue)
	for i, b := range l.Balls {
		s.balls[1+i].p = vecFromPlace(b.Place)
		order = append(order, b.Ball)
	}
	sin, cos := math.Sincos(float64(l.Aim) * math.Pi / 180)
	s.c.applyStroke(&s.balls[cue], vec{x: sin, y: cos}, float64(l.Tip), float64(l.Spin), l.Speed.MetresPerSecond(), 0)
	s.startClock(breakNotes{
		headString: t.kind.HeadString().Metres(), radius: t.c.radius,
		order: order, slots: make([]rack.Slot, s.n), past: math.Inf(1),
	})
	return s
}

// startClock starts the clock of balls that are in place and struck.
func (s *simulation) startClock(n breakNotes) {
	for i := range s.n {
		for j := range s.n {
			s.pair[i][j] = math.Inf(1)
		}
		s.c.startPhase(&s.balls[i], 0)
		s.next[i].at = math.Inf(1)
	}
	s.notes = n
	for i := range s.n {
		s.notes.ball[i].home = s.balls[i].p
		s.notes.ball[i].end = Stopped
	}
}
