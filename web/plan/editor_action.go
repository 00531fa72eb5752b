package plan

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

// said is what the editor answers to a button.
type said struct {
	Words   string
	Refused bool
}

// act does what a button of the editor asks for, on the drill as it is drawn,
// and writes the result into the form. Only the fields that the button is about
// are touched.
func act(f *page.Form, drawn drill.Drill, rng *rand.Rand) said {
	s := drawn.Setup
	if f.Has(fieldPick) {
		return pick(f, s, rack.Slot(f.Text(fieldPick)))
	}
	switch f.Text(fieldAction) {
	case actSwap:
		return swap(f, s, rack.Slot(f.Text(fieldFrom)), rack.Slot(f.Text(fieldTo)))
	case actMirror:
		return rerack(f, s.Order.Mirror(s.Game), "The rack is mirrored.")
	case actPractice:
		return rerack(f, s.Game.Practice(s.Side), "This is the practice order for a break from the "+string(s.Side)+".")
	case actShuffle:
		return rerack(f, rack.Shuffle(s.Game, rng), "Shuffled: every legal order was equally likely.")
	case actWindow:
		w := drawn.Kind.StandardWindow()
		f.Values.Set(fieldLeft, w.Left.String())
		f.Values.Set(fieldRight, w.Right.String())
		f.Values.Set(fieldHead, w.Head.String())
		f.Values.Set(fieldFoot, w.Foot.String())
	}
	return said{}
}

// pick takes a ball up, puts it back, or swaps it with the one taken before.
func pick(f *page.Form, s drill.Setup, slot rack.Slot) said {
	first := rack.Slot(f.Text(fieldPicked))
	f.Values.Del(fieldPicked)
	ball, known := s.Order.At(s.Game, slot)
	if !known {
		return said{"There is no such slot in a rack of " + s.Game.Words() + ".", true}
	}
	if first == slot {
		return said{}
	}
	if _, held := s.Order.At(s.Game, first); held {
		return swap(f, s, first, slot)
	}
	if _, fixed := s.Game.Fixed(slot); fixed {
		return stays(s, ball, slot)
	}
	f.Values.Set(fieldPicked, string(slot))
	return said{Words: "The " + ball.String() + " is in your hand. Choose the ball it changes places with."}
}

func stays(s drill.Setup, ball rack.Ball, slot rack.Slot) said {
	return said{"The " + ball.String() + " stays in slot " + string(slot) + ": so it is racked in " + s.Game.Words() + ".", true}
}

// swap exchanges two balls, or says why not.
func swap(f *page.Form, s drill.Setup, from, to rack.Slot) said {
	f.Values.Del(fieldPicked)
	if from == to {
		return said{"Choose two different slots.", true}
	}
	for _, slot := range []rack.Slot{from, to} {
		if ball, fixed := s.Game.Fixed(slot); fixed {
			return stays(s, ball, slot)
		}
	}
	swapped, err := s.Order.Swap(s.Game, from, to)
	if err != nil {
		return said{"Not swapped: " + ruleWords(err) + ".", true}
	}
	a, _ := s.Order.At(s.Game, from)
	b, _ := s.Order.At(s.Game, to)
	return rerack(f, swapped, "The "+a.String()+" and the "+b.String()+" have changed places.")
}

func rerack(f *page.Form, o rack.Order, words string) said {
	f.Values.Set(fieldOrder, o.String())
	f.Values.Del(fieldPicked)
	return said{Words: words}
}

// fairRand is a random source that nobody can foresee.
func fairRand() *rand.Rand {
	var seed [32]byte
	cryptorand.Read(seed[:]) // never fails: see its documentation
	return rand.New(rand.NewChaCha8(seed))
}
