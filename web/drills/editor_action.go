package drills

import (
	cryptorand "crypto/rand"
	"math/rand/v2"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/web/page"
)

// fieldPicked is the slot picked first for a swap; fieldPick the one picked
// now, by its button on the picture; fieldAction any other button.
const (
	fieldPicked = "picked"
	fieldPick   = "pick"
	fieldAction = "action"
	fieldFrom   = "swap_from"
	fieldTo     = "swap_to"
)

// The editor's buttons.
const (
	actUpdate   = "update"
	actSwap     = "swap"
	actMirror   = "mirror"
	actPractice = "practice"
	actShuffle  = "shuffle"
	actWindow   = "window"
)

// feedback is what the editor answers to a button.
type feedback struct {
	Words   string
	Refused bool
}

// applyAction does what a button of the editor asks for, on the drill as it is drawn,
// and writes the result into the form. Only the fields that the button is about
// are touched.
func applyAction(f *page.Form, drawn drill.Drill, rng *rand.Rand) feedback {
	s := drawn.Setup
	if f.Has(fieldPick) {
		return pickSlot(f, s, rack.Slot(f.Text(fieldPick)))
	}
	switch f.Text(fieldAction) {
	case actSwap:
		return swapBalls(f, s, rack.Slot(f.Text(fieldFrom)), rack.Slot(f.Text(fieldTo)))
	case actMirror:
		return setRackOrder(f, s.Order.Mirror(s.Game), "The rack is mirrored.")
	case actPractice:
		return setRackOrder(f, s.Game.PracticeOrder(s.Side), "This is the practice order for a break from the "+string(s.Side)+".")
	case actShuffle:
		return setRackOrder(f, rack.ShuffleOrder(s.Game, rng), "Shuffled: every legal order was equally likely.")
	case actWindow:
		w := drawn.Kind.StandardWindow()
		f.Values.Set(fieldLeft, w.Left.String())
		f.Values.Set(fieldRight, w.Right.String())
		f.Values.Set(fieldHead, w.Head.String())
		f.Values.Set(fieldFoot, w.Foot.String())
	}
	return feedback{}
}

// pickSlot takes a ball up, puts it back, or swaps it with the one taken before.
func pickSlot(f *page.Form, s drill.Setup, slot rack.Slot) feedback {
	first := rack.Slot(f.Text(fieldPicked))
	f.Values.Del(fieldPicked)
	ball, known := s.Order.BallAt(s.Game, slot)
	if !known {
		return feedback{"There is no such slot in a rack of " + s.Game.Words() + ".", true}
	}
	if first == slot {
		return feedback{}
	}
	if _, held := s.Order.BallAt(s.Game, first); held {
		return swapBalls(f, s, first, slot)
	}
	if _, fixed := s.Game.FixedBall(slot); fixed {
		return refuseFixedBall(s, ball, slot)
	}
	f.Values.Set(fieldPicked, string(slot))
	return feedback{Words: "The " + ball.String() + " is in your hand. Choose the ball it changes places with."}
}

func refuseFixedBall(s drill.Setup, ball rack.Ball, slot rack.Slot) feedback {
	return feedback{"The " + ball.String() + " stays in slot " + string(slot) + ": so it is racked in " + s.Game.Words() + ".", true}
}

// swapBalls exchanges two balls, or says why not.
func swapBalls(f *page.Form, s drill.Setup, from, to rack.Slot) feedback {
	f.Values.Del(fieldPicked)
	if from == to {
		return feedback{"Choose two different slots.", true}
	}
	for _, slot := range []rack.Slot{from, to} {
		if ball, fixed := s.Game.FixedBall(slot); fixed {
			return refuseFixedBall(s, ball, slot)
		}
	}
	swapped, err := s.Order.SwapSlots(s.Game, from, to)
	if err != nil {
		return feedback{"Not swapped: " + rack.ExplainRefusal(err) + ".", true}
	}
	a, _ := s.Order.BallAt(s.Game, from)
	b, _ := s.Order.BallAt(s.Game, to)
	return setRackOrder(f, swapped, "The "+a.String()+" and the "+b.String()+" have changed places.")
}

func setRackOrder(f *page.Form, o rack.Order, words string) feedback {
	f.Values.Set(fieldOrder, o.String())
	f.Values.Del(fieldPicked)
	return feedback{Words: words}
}

// newUnpredictableRand is a random source that nobody can foresee.
func newUnpredictableRand() *rand.Rand {
	var seed [32]byte
	cryptorand.Read(seed[:]) // never fails: see its documentation
	return rand.New(rand.NewChaCha8(seed))
}
