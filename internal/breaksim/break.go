package breaksim

import (
	"fmt"
	"math"
	"math/rand/v2"

	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// Table is one kind of table with its balls, cloth and cushions, ready to break
// on. It does not change: any number of breaks may run on it at once.
type Table struct {
	kind   table.Kind
	params Params
	c      constants
	bounds bounds
}

// New makes a Table. It refuses constants that are not plausible, with
// ErrParams, and a kind of table that table.Make refuses.
func New(p Params, k table.Kind) (*Table, error) {
	if err := p.Check(); err != nil {
		return nil, err
	}
	k, err := table.Make(k.Feet, k.CornerMouth, k.SideMouth)
	if err != nil {
		return nil, fmt.Errorf("making a table to break on: %w", err)
	}
	return &Table{kind: k, params: p, c: newConstants(p), bounds: newBounds(k, p)}, nil
}

// Kind gives the kind of table.
func (t *Table) Kind() table.Kind { return t.kind }

// Params gives the constants it was made with.
func (t *Table) Params() Params { return t.params }

// Break computes one break. With a nil random source the setup is carried out
// exactly on a tight rack; with one, Input.Scatter is drawn from it, the same
// number of draws whatever the setup. An Input that cannot be broken is refused
// with ErrInput. Every break ends: see Result.Unsettled.
//
// A break from the right is computed as its mirror image from the left, so that
// mirrored inputs with equal random sources give mirrored results to the last
// bit. A break from the long string itself belongs to the side the Input says.
func (t *Table) Break(in Input, rng *rand.Rand) (Result, error) {
	if err := in.check(t.kind); err != nil {
		return Result{}, err
	}
	in = in.completed()
	if in.Side == table.Right {
		return t.fromLeft(in.Mirror(), rng).Mirror(), nil
	}
	return t.fromLeft(in, rng), nil
}

func (t *Table) fromLeft(in Input, rng *rand.Rand) Result {
	s := t.setUp(in, rng)
	s.play()
	return s.result(in)
}

// setUp racks the balls and strikes the cue ball, ready to play.
func (t *Table) setUp(in Input, rng *rand.Rand) *run {
	s := &run{t: t, c: &t.c}
	turn := 0.0
	if rng != nil {
		in, turn = in.scattered(t.kind, rng)
	}
	s.rackUp(in, rng)
	head := metres(in.Game.HeadBall(in.Spot, t.kind))
	s.strike(in, head, turn)
	for i := range s.n {
		for j := range s.n {
			s.pair[i][j] = math.Inf(1)
		}
		s.c.set(&s.balls[i], 0)
		s.next[i].at = math.Inf(1)
	}
	s.notes = notes{
		keepPaths: in.Paths, headString: t.kind.HeadString().Metres(), radius: t.c.radius,
		order: append([]rack.Ball{0}, in.Order.Balls()...),
		slots: append([]rack.Slot{""}, in.Game.Slots()...),
		past:  head.y + t.c.diameter,
	}
	for i := range s.n {
		s.notes.ball[i].home = s.balls[i].p
		s.notes.ball[i].end = Stopped
	}
	return s
}

// result turns the notes into what is told.
func (s *run) result(in Input) Result {
	n := &s.notes
	r := Result{
		Game: in.Game, Pocketed: n.drops, Off: n.gone, Hit: n.hit, CuePath: n.path,
		Seconds: s.now, Events: s.events, Unsettled: s.unsettled, Lost: s.lost,
		Balls: make([]BallEnd, s.n),
	}
	for i := range s.n {
		r.Balls[i] = s.ballEnd(i)
		if i != cue && r.Balls[i].Rails > 0 {
			r.Rails++
		}
		if r.Balls[i].PastString {
			r.PastString++
		}
	}
	if n.kicked {
		r.CuePath = PathHit
	} else if r.CuePath == "" {
		r.CuePath = PathBack
	}
	return r
}

func (s *run) ballEnd(i int) BallEnd {
	n, b := &s.notes.ball[i], &s.balls[i]
	at := b.p
	if b.free() {
		at = b.place(s.now)
	}
	e := BallEnd{
		Ball: s.notes.order[i], Slot: s.notes.slots[i],
		End: n.end, Place: place(at), Pocket: n.pocket,
		Met: n.met, Rails: n.rails, PastString: n.pastString, Path: n.legs,
	}
	if n.left {
		e.LeftAt = mph(n.leftAt.flat())
		e.Heading = Degrees(math.Atan2(n.leftAt.x, n.leftAt.y) * 180 / math.Pi)
	}
	return e
}
