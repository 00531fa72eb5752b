package fit

import (
	"context"
	"fmt"
	"math/rand/v2"

	"breakwright/internal/breaksim"
	"breakwright/internal/drill"
	"breakwright/internal/table"
)

// moved says what varies in a Bank beside the contact.
type moved bool

const (
	tip   moved = false
	place moved = true
)

// Bank is computed breaks of one setup under many strokes. It does not change:
// any number of students may be fitted with it.
type Bank struct {
	setup drill.Setup // from the left
	kind  table.Kind
	moves moved
	// Of each break: how far its contact was from the one told, how far its tip
	// (or the cue ball's place) was, and what became of it.
	contact, other []float64
	outcome        []uint16
	// rest is the share of each way of the cue ball in the whole bank.
	rest [rests]float64
}

// Pair is the two banks of a setup: in one contact and tip vary, in the other
// contact and place.
type Pair struct{ Tip, Place *Bank }

// UsualBreaks is how many breaks a bank needs for an answer that another bank
// would not change by much.
const UsualBreaks = 4000

// NewPair computes the banks of a setup on a kind of table, of so many breaks
// each. progress, which may be nil, is told how many are done of both. When ctx
// ends, so does NewPair. The same arguments give the same banks; those of a
// mirrored setup are the same, too. A setup that drill.Setup.Check refuses is
// refused.
func NewPair(ctx context.Context, s drill.Setup, k table.Kind, breaks int, progress func(done int)) (Pair, error) {
	if progress == nil {
		progress = func(int) {}
	}
	heights, err := newBank(ctx, s, k, tip, breaks, progress)
	if err != nil {
		return Pair{}, err
	}
	places, err := newBank(ctx, s, k, place, breaks, func(done int) { progress(breaks + done) })
	return Pair{heights, places}, err
}

func newBank(ctx context.Context, s drill.Setup, k table.Kind, moves moved, breaks int, progress func(int)) (*Bank, error) {
	if err := s.Check(k); err != nil {
		return nil, fmt.Errorf("fit: %w", err)
	}
	b := &Bank{setup: s.For(table.Left), kind: k, moves: moves}
	rng := rand.New(rand.NewPCG(0x66697400, uint64(breaks)))
	for len(b.outcome) < breaks {
		if err := context.Cause(ctx); err != nil {
			return nil, fmt.Errorf("fit: stopped after %d of %d breaks: %w", len(b.outcome), breaks, err)
		}
		progress(len(b.outcome))
		if err := b.add(min(roomEvery, breaks-len(b.outcome)), rng); err != nil {
			return nil, err
		}
	}
	progress(breaks)
	for _, cell := range b.outcome {
		b.rest[int(cell)%rests] += 1 / float64(breaks)
	}
	return b, nil
}

// add computes breaks in one room.
func (b *Bank) add(breaks int, rng *rand.Rand) error {
	params, usual := room(b.setup, rng)
	t, err := b.onTable(params)
	if err != nil {
		return err
	}
	for range breaks {
		var in breaksim.Input
		var contact, other float64
		for possible := false; !possible; {
			in = usual
			contact, other = drawContact.draw(rng), b.spread().draw(rng)
			possible = b.stroke(&in, contact, other, rng)
		}
		r, err := t.Break(in, rng)
		if err != nil {
			return fmt.Errorf("fit: %w", err)
		}
		b.contact, b.other = append(b.contact, contact), append(b.other, other)
		b.outcome = append(b.outcome, uint16(outcome(r, b.setup.Wing, b.kind)))
	}
	return nil
}

// spread is that of the part that varies beside the contact.
func (b *Bank) spread() spread {
	if b.moves == place {
		return drawPlace
	}
	return drawTip
}
