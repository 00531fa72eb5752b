package response_test

import (
	"math"
	"testing"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/response"
	"breakwright/internal/table"
)

var nineBall = response.Rack{Game: rack.NineBall, Spot: rack.HeadOnSpot}

// ordinaryStroke is a steady break from near the side rail.
func ordinaryStroke() response.Stroke {
	return response.Stroke{Out: 18, Tip: -0.1, Speed: 18, Unsteady: 1, Gap: 0.003}
}

func TestPredict_EveryFactAddsUpToOne(t *testing.T) {
	for _, r := range response.Racks() {
		p := response.Predict(ordinaryStroke(), r, table.NineFoot())
		if len(p) != response.Width {
			t.Fatalf("%v: %d outcomes, want %d", r, len(p), response.Width)
		}
		for f := range response.FactCount {
			sum := 0.0
			for i := response.Index(response.Fact(f), 0); i < response.Index(response.Fact(f+1), 0); i++ {
				sum += float64(p[i])
			}
			if math.Abs(sum-1) > 1e-4 {
				t.Errorf("%v, %s: the chances add up to %v", r, response.Fact(f), sum)
			}
		}
	}
}

// pairs are strokes of which the second is to show an outcome oftener than the
// first.
var pairs = []struct {
	name       string
	less, more response.Stroke
	fact       response.Fact
	outcome    int
}{
	// What package breaksim's own trials say in its MODEL.md, "agrees with the
	// trade": common practice, no source, and computed.
	{"too central meets the side rail", with(func(s *response.Stroke) { s.Out = 20 }), with(func(s *response.Stroke) { s.Out = 8 }), response.Wing, response.WingSideRail},
	{"a loose rack costs wing balls", with(func(s *response.Stroke) { s.Gap = 0.02 }), ordinaryStroke(), response.Wing, response.WingMade},
	{"contact to the break side kisses", ordinaryStroke(), with(func(s *response.Stroke) { s.Contact = -0.4 }), response.Wing, response.WingKissed},
	{"a soft break is weak", ordinaryStroke(), with(func(s *response.Stroke) { s.Speed = 8 }), response.Weak, 1},
	{"draw scratches", ordinaryStroke(), with(func(s *response.Stroke) { s.Tip = -0.4 }), response.Scratch, 1},
}

func with(change func(*response.Stroke)) response.Stroke {
	s := ordinaryStroke()
	change(&s)
	return s
}

func TestPredict_KnowsTheTrade(t *testing.T) {
	for _, p := range pairs {
		less := chanceOf(response.Predict(p.less, nineBall, table.NineFoot()), p.fact, p.outcome)
		more := chanceOf(response.Predict(p.more, nineBall, table.NineFoot()), p.fact, p.outcome)
		if more < less+0.02 {
			t.Errorf("%s: %.3f, then %.3f", p.name, less, more)
		}
	}
}

// Every number of a table's character shows in what a break shows, each in another way.
func TestPredict_TablesDiffer(t *testing.T) {
	const least = 0.1 // of all chances together, for a standard deviation
	for _, r := range response.Racks() {
		var plays [response.CharacterSize]response.Response
		unknown := response.Predict(ordinaryStroke(), r, table.NineFoot())
		for i := range plays {
			plays[i] = response.Predict(with(func(s *response.Stroke) { s.Table[i] = 1 }), r, table.NineFoot())
			if by := apart(plays[i], unknown); by < least {
				t.Errorf("%v: number %d of a table's character moves the chances by %.3f", r, i, by)
			}
			for j := range i {
				if by := apart(plays[i], plays[j]); by < least {
					t.Errorf("%v: numbers %d and %d of a table's character do the same", r, i, j)
				}
			}
		}
	}
}

// apart is how far two responses' chances lie apart, all added up.
func apart(a, b response.Response) float64 {
	sum := 0.0
	for i := range response.OutputCount() {
		sum += math.Abs(float64(a[i] - b[i]))
	}
	return sum
}

func TestObserve_WhatWasNotWrittenDownIsNotSeen(t *testing.T) {
	k := table.NineFoot()
	s := drill.StandardSetup(rack.NineBall, table.Left, k)
	b := drill.Break{Number: 1, Cue: drill.CueEnd{How: drill.Stopped, Place: table.Place{X: 0, Y: 37}}}
	for _, seen := range response.Observe(&b, s, k, nil) {
		if seen.Fact != response.Wing && seen.Fact != response.Cue && seen.Fact != response.OthersDown {
			t.Errorf("%s was seen of a break of which it was not written down", seen.Fact)
		}
	}
}

// A place has a blur: at a zone's border it counts for both sides, and its
// weights always add up to one.
func TestObserve_APlaceCountsOnce(t *testing.T) {
	k := table.NineFoot()
	s := drill.StandardSetup(rack.NineBall, table.Left, k)
	for _, at := range []table.Place{{X: 0, Y: 37}, {X: 0, Y: 49.9}, {X: 8.3, Y: 25.1}, {X: -24, Y: 98}} {
		b := drill.Break{Number: 1, Cue: drill.CueEnd{How: drill.Stopped, Place: at}, CuePath: drill.PathBack}
		sum := 0.0
		for _, seen := range response.Observe(&b, s, k, nil) {
			if seen.Fact == response.Cue {
				sum += float64(seen.Weight)
			}
		}
		if math.Abs(sum-1) > 0.02 {
			t.Errorf("a cue ball at %s counts %v times", at, sum)
		}
	}
}

func BenchmarkPredict(b *testing.B) {
	s := ordinaryStroke()
	for b.Loop() {
		response.Predict(s, nineBall, table.NineFoot())
	}
}

// chanceOf returns the chance of an outcome.
func chanceOf(r response.Response, f response.Fact, outcome int) float64 {
	return float64(r[response.Index(f, outcome)])
}
