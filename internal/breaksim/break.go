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
	params ModelParams
	c      constants
	bounds tableBounds
}

// NewTable makes a Table. It refuses constants that are not plausible, with
// ErrParams, and a kind of table that table.NewKind refuses.
func NewTable(p ModelParams, k table.Kind) (*Table, error) {
	if err := p.Check(); err != nil {
		return nil, err
	}
	k, err := k.Checked()
	if err != nil {
		return nil, fmt.Errorf("making a table to break on: %w", err)
	}
	return &Table{kind: k, params: p, c: newConstants(p), bounds: newBounds(k, p)}, nil
}

// Kind returns the kind of table.
func (t *Table) Kind() table.Kind { return t.kind }

// Params returns the constants it was made with.
func (t *Table) Params() ModelParams { return t.params }

// WithInstantContacts returns the table with balls so hard that of several which touch at
// once each pair has parted before the next meets: the far limit of how a rack hands on a
// blow, where real balls share it. It is for those who ask how far an answer depends on
// that.
func (t *Table) WithInstantContacts() *Table {
	hard := *t
	hard.c.instantContacts = true
	return &hard
}

// ComputeBreak computes one break. With a nil random source the setup is carried out
// exactly on a tight rack; with one, Input.Scatter is drawn from it, the same
// number of draws whatever the setup. An Input that cannot be broken is refused
// with ErrInput. Every break ends: see Result.Unsettled.
//
// A break from the right is computed as its mirror image from the left, so that
// mirrored inputs with equal random sources give mirrored results to the last
// bit. A break from the long string itself belongs to the side the Input says.
func (t *Table) ComputeBreak(in BreakInput, rng *rand.Rand) (BreakResult, error) {
	if err := in.checkPossible(t.kind); err != nil {
		return BreakResult{}, err
	}
	in = in.withDefaults()
	if in.Side == table.Right {
		return t.computeFromLeft(in.Mirror(), rng).Mirror(), nil
	}
	return t.computeFromLeft(in, rng), nil
}

func (t *Table) computeFromLeft(in BreakInput, rng *rand.Rand) BreakResult {
	s := t.setUpBreak(in, rng)
	s.runToRest()
	return s.buildResult(in)
}

// setUpBreak racks the balls and strikes the cue ball, ready to play.
func (t *Table) setUpBreak(in BreakInput, rng *rand.Rand) *simulation {
	s := &simulation{t: t, c: &t.c}
	turn := 0.0
	if rng != nil {
		in, turn = in.withScatter(t.kind, rng)
	}
	s.rackBalls(in, rng)
	head := vecFromPlace(in.Game.HeadBallPlace(in.Spot, t.kind))
	s.strikeCueBall(in, head, turn)
	s.startClock(breakNotes{
		keepPaths: in.Paths, headString: t.kind.HeadString().Metres(), radius: t.c.radius,
		order: append([]rack.Ball{0}, in.Order.Balls()...),
		slots: append([]rack.Slot{""}, in.Game.Slots()...),
		past:  head.y + t.c.diameter,
	})
	return s
}

// buildResult turns the notes into the result.
func (s *simulation) buildResult(in BreakInput) BreakResult {
	n := &s.notes
	r := BreakResult{
		Game: in.Game, Pocketed: n.drops, Off: n.gone, Hit: n.hit, CuePath: n.path,
		Seconds: s.now, Events: s.events, Unsettled: s.unsettled, Lost: s.lost,
		Balls: make([]BallEnd, s.n),
	}
	for i := range s.n {
		r.Balls[i] = s.describeBallEnd(i)
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

func (s *simulation) describeBallEnd(i int) BallEnd {
	n, b := &s.notes.ball[i], &s.balls[i]
	at := b.p
	if b.isFree() {
		at = b.positionAt(s.now)
	}
	e := BallEnd{
		Ball: s.notes.order[i], Slot: s.notes.slots[i],
		End: n.end, Place: placeFromVec(at), Pocket: n.pocket,
		Met: n.met, Rails: n.rails, PastString: n.pastString, Path: n.legs,
	}
	if n.left {
		e.LeftAt = milesPerHour(n.leftAt.flatNorm())
		e.Heading = Degrees(math.Atan2(n.leftAt.x, n.leftAt.y) * 180 / math.Pi)
	}
	return e
}
