package evidence

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"pgregory.net/rapid"
)

func inchCurve(t rapid.TB, low, high float64) *PlaceCurve {
	t.Helper()
	c, err := NewPlaceCurve(InchGrid(low, high))
	if err != nil {
		t.Fatalf("NewPlaceCurve: %v", err)
	}
	return c
}

// fourSets are 2, 4, 6 and 5 of ten at 6, 8, 10 and 12.
var fourSets = []PlaceSet{{6, 2, 10}, {8, 4, 10}, {10, 6, 10}, {12, 5, 10}}

// Computed independently by two programs on the same grid of 1968 curves.
func TestPlaceCurve_ReferencePosterior(t *testing.T) {
	c := inchCurve(t, 0, 20)
	if len(c.curves) != 1968 {
		t.Fatalf("%d curves, want 1968", len(c.curves))
	}
	b := c.LearnSets(fourSets)
	for i, want := range []float64{.478437, .523414, .544572, .541801, .518460} {
		near(t, fmt.Sprintf("mean at %d", 9+i), b.Mean[9+i], want, digits(6))
	}
	near(t, "sd at 11", b.SD[11], .082276, digits(6))
	near(t, "E[max p]", b.ExpectedBest, .597770, digits(6))
	if best := b.Places[b.BestPlace()]; best != 11 {
		t.Errorf("best mean at %g, want 11", best)
	}
	next := b.NextPlace(12, 1, 20)
	if b.Places[next] != 14 {
		t.Errorf("next at %g, want 14", b.Places[next])
	}
	near(t, "promise of 14", b.Mean[next]+b.SD[next], .666321, digits(6))
}

// A range of the rate at a place leaves as much of the belief below it as above, as
// ProbBelow has it, and a wider one holds a narrower one.
func TestPlaceBelief_CentralInterval(t *testing.T) {
	b := inchCurve(t, 0, 20).LearnSets(fourSets)
	for i, place := range b.Places {
		wide, narrow := b.CentralInterval(i, 0.95), b.CentralInterval(i, 0.5)
		if !(wide.Low <= narrow.Low && narrow.Low <= narrow.High && narrow.High <= wide.High) {
			t.Errorf("at %g half of the belief is in %v, 95 %% in %v", place, narrow, wide)
		}
		// A rate has a weight of its own: up to it there is at least the tail, below it less.
		const next = 1e-9
		if below, to := b.ProbBelow(place, wide.Low), b.ProbBelow(place, wide.Low+next); below > 0.025 || to < 0.025-next {
			t.Errorf("at %g there is %.4f below %g and %.4f up to it, want 0.025 between", place, below, wide.Low, to)
		}
		if below, to := b.ProbBelow(place, wide.High), b.ProbBelow(place, wide.High+next); below > 0.975 || to < 0.975-next {
			t.Errorf("at %g there is %.4f below %g and %.4f up to it, want 0.975 between", place, below, wide.High, to)
		}
	}
}

// The tables against the formula, written out once more for every curve.
func TestPlaceCurve_AgreesWithPlainSum(t *testing.T) {
	grid := InchGrid(-4, 9)
	grid.Centres = []WeightedValue{{-3, .2}, {1.25, 1}, {5, 2}, {30, .1}}
	c, err := NewPlaceCurve(grid)
	if err != nil {
		t.Fatal(err)
	}
	sets := []PlaceSet{{-4, 0, 10}, {1.5, 7, 12}, {8, 3, 10}}
	var total, at2, below float64
	for _, peak := range grid.Peaks {
		for _, width := range grid.Widths {
			for _, centre := range grid.Centres {
				rate := func(x float64) float64 {
					logit := math.Log(peak.Value/(1-peak.Value)) - .8*math.Pow((x-centre.Value)/width.Value, 2)
					return 1 / (1 + math.Exp(-math.Max(logit, -3.5)))
				}
				weight := peak.Weight * width.Weight * centre.Weight
				for _, s := range sets {
					weight *= math.Pow(rate(s.Place), float64(s.Made)) * math.Pow(1-rate(s.Place), float64(s.Tried-s.Made))
				}
				total += weight
				at2 += weight * rate(2)
				if rate(2) < .45 {
					below += weight
				}
			}
		}
	}
	b := c.LearnSets(sets)
	near(t, "mean at 2", b.Mean[6], at2/total, 1e-12)
	near(t, "P(below .45) at 2", b.ProbBelow(2, .45), below/total, 1e-12)
}

func TestPlaceCurve_Properties(t *testing.T) {
	c := inchCurve(t, 0, 20)
	rapid.Check(t, func(t *rapid.T) {
		var sets, mirrored, reversed []PlaceSet
		for range rapid.IntRange(0, 12).Draw(t, "sets") {
			made, tried := drawCount(t, 40, "set")
			place := float64(rapid.IntRange(0, 40).Draw(t, "place")) / 2
			sets = append(sets, PlaceSet{place, made, tried})
			mirrored = append(mirrored, PlaceSet{20 - place, made, tried})
			reversed = append([]PlaceSet{{place, made, tried}}, reversed...)
		}
		b, m, r := c.LearnSets(sets), c.LearnSets(mirrored), c.LearnSets(reversed)
		sum := 0.0
		for i := range b.Places {
			sum += b.BestHere[i]
			near(t, "mirrored mean", m.Mean[20-i], b.Mean[i], 1e-9)
			near(t, "order of sets", r.Mean[i], b.Mean[i], 1e-9)
			if !(b.Mean[i] > 0 && b.Mean[i] < 1 && b.SD[i] >= 0) {
				t.Fatalf("mean %g sd %g", b.Mean[i], b.SD[i])
			}
		}
		near(t, "best is somewhere", sum, 1, 1e-9)
		if b.ExpectedBest < b.Mean[b.BestPlace()]-1e-12 {
			t.Fatalf("E[max] %g below max E %g", b.ExpectedBest, b.Mean[b.BestPlace()])
		}
		from := rapid.Float64Range(0, 20).Draw(t, "from")
		if next := b.Places[b.NextPlace(from, 1, 4)]; math.Abs(next-from) > 4 {
			t.Fatalf("from %g to %g is more than four", from, next)
		}
	})
}

func TestPlaceBelief_Next(t *testing.T) {
	b := inchCurve(t, 0, 20).LearnSets([]PlaceSet{{3, 0, 10}})
	if got := b.Places[b.NextPlace(3, 1, 4)]; got != 7 {
		t.Errorf("after 0/10 at 3 the next is %g, want the far end of the reach, 7", got)
	}
	if got := b.Places[b.NextPlace(3.4, 1, .1)]; got != 3 {
		t.Errorf("nothing within reach of 3.4: got %g, want 3", got)
	}
	if gain := b.ExpectedBest - b.Mean[3]; gain < .3 {
		t.Errorf("gain over a place that never works is %g", gain)
	}
	if b.IsSettled(.06) {
		t.Error("one bad set settles nothing")
	}
	sure := inchCurve(t, 0, 20).LearnSets([]PlaceSet{{10, 650, 1000}, {7, 300, 1000}, {13, 300, 1000}})
	if !sure.IsSettled(.06) || sure.Places[sure.BestPlace()] != 10 {
		t.Errorf("three thousand breaks around 10: best %g, settled %v", sure.Places[sure.BestPlace()], sure.IsSettled(.06))
	}
}

func TestPlaceCurve_PassesOverNonsense(t *testing.T) {
	c := inchCurve(t, 0, 20)
	want := c.LearnSets(fourSets)
	got := c.LearnSets(append([]PlaceSet{{5, 11, 10}, {math.NaN(), 3, 10}, {5, -1, 10}, {5, 0, 0}}, fourSets...))
	near(t, "mean at 11", got.Mean[11], want.Mean[11], 1e-12)
}

func TestNewPlaceCurve_Refuses(t *testing.T) {
	good := InchGrid(0, 20)
	cases := map[string]PlaceGrid{
		"no places":   {Peaks: good.Peaks, Widths: good.Widths, Centres: good.Centres},
		"no curve":    {Places: good.Places},
		"peak of 1":   {Places: good.Places, Peaks: []WeightedValue{{1, 1}}, Widths: good.Widths, Centres: good.Centres},
		"width of 0":  {Places: good.Places, Peaks: good.Peaks, Widths: []WeightedValue{{0, 1}}, Centres: good.Centres},
		"no weight":   {Places: good.Places, Peaks: good.Peaks, Widths: good.Widths, Centres: []WeightedValue{{3, 0}}},
		"endless row": {Places: []float64{math.Inf(1)}, Peaks: good.Peaks, Widths: good.Widths, Centres: good.Centres},
	}
	for name, grid := range cases {
		if c, err := NewPlaceCurve(grid); err == nil || c != nil {
			t.Errorf("%s: got no error", name)
		}
	}
	if EvenlySpaced(0, 1, 0) != nil || EvenlySpaced(2, 1, .5) != nil || len(EvenlySpaced(0, .3, .1)) != 4 {
		t.Error("Evenly: want nothing for nonsense and four values for 0 to .3 by .1")
	}
}

// A simulation of 2000 problems run independently gave, for mean + 1 sd with steps
// of at most four inches, a mean rate of .442 over sets one to six and a regret of
// .044 afterwards. Ours draws other problems of the same kind.
func TestPlaceCurve_FindsThePlaceInSimulatedLessons(t *testing.T) {
	c := inchCurve(t, 0, 20)
	random := rand.New(rand.NewPCG(7, 11))
	const problems, sets = 400, 6
	var played, regret float64
	for range problems {
		best := random.Float64() * 20
		peak, width := .55+.2*random.Float64(), 2+4*random.Float64()
		rate := func(x float64) float64 {
			return .05 + (peak-.05)*math.Exp(-(x-best)*(x-best)/(2*width*width))
		}
		place := startOff(random, best)
		var history []PlaceSet
		for range sets {
			made := 0
			for range 10 {
				if random.Float64() < rate(place) {
					made++
				}
			}
			played += rate(place) / (problems * sets)
			history = append(history, PlaceSet{place, made, 10})
			b := c.LearnSets(history)
			place = b.Places[b.NextPlace(place, 1, 4)]
		}
		b := c.LearnSets(history)
		regret += (peak - rate(b.Places[b.BestPlace()])) / problems
	}
	near(t, "mean rate", played, .442, .03)
	near(t, "regret", regret, .044, .02)
}

// startOff draws a whole inch on the line that is 4 to 10 away from best.
func startOff(random *rand.Rand, best float64) float64 {
	for {
		start := float64(random.IntN(21))
		if off := math.Abs(start - best); off >= 4 && off <= 10 {
			return start
		}
	}
}

func BenchmarkPlaceCurve_Learn(b *testing.B) {
	c, err := NewPlaceCurve(InchGrid(0, 20))
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		c.LearnSets(fourSets)
	}
}

func BenchmarkNewPlaceCurve(b *testing.B) {
	for b.Loop() {
		if _, err := NewPlaceCurve(InchGrid(0, 20)); err != nil {
			b.Fatal(err)
		}
	}
}
