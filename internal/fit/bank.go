package fit

import (
	"context"
	"fmt"
	"math/rand/v2"

	"breakwright/internal/breaksim"
	"breakwright/internal/drill"
	"breakwright/internal/table"
)

// variedPart says what varies in a Bank beside the contact.
type variedPart bool

const (
	tip   variedPart = false
	place variedPart = true
)

// BreakBank is computed breaks of one setup under many strokes. It does not change:
// any number of students may be fitted with it.
type BreakBank struct {
	setup drill.Setup // from the left
	kind  table.Kind
	moves variedPart
	// Of each break: how far its contact was from the one asked for, how far its tip
	// (or the cue ball's place) was, and what became of it.
	contact, other []float64
	outcome        []uint16
	// rest is the share of each way of the cue ball in the whole bank.
	rest [rests]float64
}

// BankPair is the two banks of a setup: in one contact and tip vary, in the other
// contact and place.
type BankPair struct{ Tip, Place *BreakBank }

// UsualBreaks is how many breaks a bank needs for an answer that another bank
// would not change by much.
const UsualBreaks = 4000

// NewBankPair computes the banks of a setup on a kind of table, of so many breaks
// each. progress, which may be nil, is called with how many are done of both. When ctx
// ends, so does NewBankPair. The same arguments give the same banks; those of a
// mirrored setup are the same, too. A setup that drill.Setup.Check refuses is
// refused.
func NewBankPair(ctx context.Context, s drill.Setup, k table.Kind, breaks int, progress func(done int)) (BankPair, error) {
	if progress == nil {
		progress = func(int) {}
	}
	heights, err := newBreakBank(ctx, s, k, tip, breaks, progress)
	if err != nil {
		return BankPair{}, err
	}
	places, err := newBreakBank(ctx, s, k, place, breaks, func(done int) { progress(breaks + done) })
	return BankPair{heights, places}, err
}

func newBreakBank(ctx context.Context, s drill.Setup, k table.Kind, moves variedPart, breaks int, progress func(int)) (*BreakBank, error) {
	if err := s.Check(k); err != nil {
		return nil, fmt.Errorf("fit: %w", err)
	}
	b := &BreakBank{setup: s.ForSide(table.Left), kind: k, moves: moves}
	rng := rand.New(rand.NewPCG(0x66697400, uint64(breaks)))
	for len(b.outcome) < breaks {
		if err := context.Cause(ctx); err != nil {
			return nil, fmt.Errorf("fit: stopped after %d of %d breaks: %w", len(b.outcome), breaks, err)
		}
		progress(len(b.outcome))
		if err := b.addBreaks(min(breaksPerConditions, breaks-len(b.outcome)), rng); err != nil {
			return nil, err
		}
	}
	progress(breaks)
	for _, cell := range b.outcome {
		b.rest[int(cell)%rests] += 1 / float64(breaks)
	}
	return b, nil
}

// addBreaks computes breaks in one room.
func (b *BreakBank) addBreaks(breaks int, rng *rand.Rand) error {
	params, usual := drawConditions(b.setup, rng)
	t, err := b.newTable(params)
	if err != nil {
		return err
	}
	for range breaks {
		var in breaksim.BreakInput
		var contact, other float64
		for possible := false; !possible; {
			in = usual
			contact, other = drawContact.drawError(rng), b.otherSpread().drawError(rng)
			possible = b.varyStroke(&in, contact, other, rng)
		}
		r, err := t.ComputeBreak(in, rng)
		if err != nil {
			return fmt.Errorf("fit: %w", err)
		}
		b.contact, b.other = append(b.contact, contact), append(b.other, other)
		b.outcome = append(b.outcome, uint16(outcomeCell(r, b.setup.Wing, b.kind)))
	}
	return nil
}

// otherSpread is that of the part that varies beside the contact.
func (b *BreakBank) otherSpread() strokeSpread {
	if b.moves == place {
		return drawPlace
	}
	return drawTip
}
