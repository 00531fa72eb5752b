package rehearsal

import (
	"context"
	"fmt"
	"math/rand/v2"

	"breakwright/internal/belief"
	"breakwright/internal/breaksim"
	"breakwright/internal/drill"
	"breakwright/internal/response"
	"breakwright/internal/table"
)

// CauseRecognition is how often a cause is the likeliest, of hands that have it: to an
// observer who knows the model to be right, and to the adviser's own belief; after ten
// breaks with everything noted, and after twenty.
type CauseRecognition struct {
	Cause                        belief.Cause
	ObserverAfter10, OursAfter10 Share
	ObserverAfter20, OursAfter20 Share
	// TakenFor is what the observer most often takes it for after twenty, of those it
	// gets wrong; empty when it gets none wrong.
	TakenFor belief.Cause
}

// Recognition is what can be told apart by breaks at all.
type Recognition struct {
	Rack   string
	Hands  int // of each cause
	Seed   uint64
	Causes []CauseRecognition
}

// RecognizeCauses computes breaks of hands with every cause amiss, on the table from whose
// laws the adviser learned, and counts how often the cause is the likeliest.
func RecognizeCauses(ctx context.Context, p Options) (Recognition, error) {
	p, _, err := p.complete()
	if err != nil {
		return Recognition{}, err
	}
	on, err := breaksim.NewTable(breaksim.Defaults(), table.NineFoot())
	if err != nil {
		return Recognition{}, fmt.Errorf("rehearse: %w", err)
	}
	recognition := Recognition{Rack: p.Rack.String(), Hands: p.Students, Seed: p.Seed}
	for i, c := range belief.Causes() {
		if ctx.Err() != nil {
			return Recognition{}, fmt.Errorf("rehearse: %w", ctx.Err())
		}
		one, err := recognizeCause(c, on, p, rand.New(rand.NewPCG(p.Seed, uint64(i))))
		if err != nil {
			return Recognition{}, fmt.Errorf("rehearse: %w", err)
		}
		recognition.Causes = append(recognition.Causes, one)
	}
	return recognition, nil
}

// recognizeCause counts how often one cause is the likeliest.
func recognizeCause(c belief.Cause, on *breaksim.Table, p Options, rng *rand.Rand) (CauseRecognition, error) {
	setup := drill.StandardSetup(p.Rack.Game, table.Left, on.Kind())
	setup.Spot = p.Rack.Spot
	hands, takenFor := belief.HandsOf(c), map[belief.Cause]int{}
	var observerRight, oursRight [2]int // after each set
	for range p.Students {
		hand := hands[rng.IntN(len(hands))]
		observer, _ := belief.NewObserver(p.Rack)
		ours, _ := belief.NewStudent(p.Rack, drill.TablesPlay{})
		for set := range 2 {
			breaks, err := breaksOfHand(hand, setup, on, rng)
			if err != nil {
				return CauseRecognition{}, err
			}
			observer.Observe(on.Kind(), setup, breaks)
			ours.Observe(on.Kind(), setup, breaks)
			countIf(&observerRight[set], likeliestCause(observer) == c)
			countIf(&oursRight[set], likeliestCause(ours) == c)
		}
		takenFor[likeliestCause(observer)]++
	}
	delete(takenFor, c)
	share := func(n int) Share { return shareOfCount(n, p.Students) }
	return CauseRecognition{
		Cause:           c,
		ObserverAfter10: share(observerRight[0]), OursAfter10: share(oursRight[0]),
		ObserverAfter20: share(observerRight[1]), OursAfter20: share(oursRight[1]),
		TakenFor: mostOften(takenFor),
	}, nil
}

func likeliestCause(s *belief.Student) belief.Cause { return s.CauseShares()[0].Cause }

// mostOften returns the cause counted most often, the first of equals; empty of none.
func mostOften(count map[belief.Cause]int) belief.Cause {
	var most belief.Cause
	for _, c := range belief.Causes() {
		if count[c] > count[most] {
			most = c
		}
	}
	return most
}

// breaksOfHand returns ten breaks of a hand, everything noted but the speed.
func breaksOfHand(hand belief.Hand, s drill.Setup, on *breaksim.Table, rng *rand.Rand) ([]drill.Break, error) {
	habit := Habit{Misses: true, Paths: true, Rails: true, Rests: true}
	in := inputOfStroke(hand.Stroke(s, on.Kind()), s, on.Kind())
	breaks := make([]drill.Break, drill.UsualBreaks)
	for i := range breaks {
		r, err := on.ComputeBreak(in, rng)
		if err != nil {
			return nil, err
		}
		breaks[i] = habit.noteBreak(s, in.Speed, r, on.Kind(), rng)
		breaks[i].Number = i + 1
	}
	return breaks, nil
}

// inputOfStroke returns what is computed of a stroke: see response.Stroke for the scatter.
func inputOfStroke(stroke response.Stroke, s drill.Setup, k table.Kind) breaksim.BreakInput {
	return breaksim.BreakInput{
		Game: s.Game, Spot: s.Spot, Order: s.Order, Side: table.Left,
		Cue:     k.SettleBall(table.Place{X: table.FlipSign(stroke.Out), Y: k.HeadString() - stroke.Behind}),
		Contact: stroke.Contact, Tip: breaksim.RadiusFraction(stroke.Tip), Spin: breaksim.RadiusFraction(stroke.Spin),
		Speed: stroke.Speed, Elevation: 3, Scatter: breaksim.ScatterOf(stroke.Unsteady, stroke.Gap),
	}
}
