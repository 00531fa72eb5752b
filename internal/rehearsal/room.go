package rehearsal

import (
	"math/rand/v2"
	"sync"

	"breakwright/internal/breaksim"
	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// Room holds the tables on which physical students break, and what is best on
// each: both are worked out once, when first asked for. It may be used by many
// at once. The zero Room is ready.
type Room struct {
	mu     sync.Mutex
	tables map[table.Kind]*breaksim.Table
	bests  map[int]func() drill.Setup
}

// tableOf gives the table of a kind.
func (r *Room) tableOf(k table.Kind) *breaksim.Table {
	r.mu.Lock()
	defer r.mu.Unlock()
	if t, known := r.tables[k]; known {
		return t
	}
	t, err := breaksim.NewTable(breaksim.Defaults(), k)
	if err != nil {
		panic("rehearsal: " + k.String() + ": " + err.Error())
	}
	if r.tables == nil {
		r.tables = map[table.Kind]*breaksim.Table{}
	}
	r.tables[k] = t
	return t
}

// bestSetup is the setup from the left under which a practised breaker without a
// fault makes the wing ball most often, with the tip height in the middle of all
// that hold the cue ball in the window nearly as often as any, on a table of that
// length at an ordinary speed. Pockets change how much is made, hardly from
// where, so that all tables of a length share it.
func (r *Room) bestSetup(k table.Kind) drill.Setup {
	r.mu.Lock()
	find, known := r.bests[k.Feet]
	if !known {
		find = sync.OnceValue(func() drill.Setup { return r.findBestSetup(k.Feet) })
		if r.bests == nil {
			r.bests = map[int]func() drill.Setup{}
		}
		r.bests[k.Feet] = find
	}
	r.mu.Unlock()
	return find()
}

// Where the best is looked for: places as shares of the table's width, the last
// being as far out as is taught; tip heights by the radius. searchBreaks at
// each, with the same chances.
var (
	placesTried = []float64{0.28, 0.32, 0.36, 0.40, 0.44}
	tipsTried   = []drill.RadiusFraction{-0.2, -0.15, -0.1, -0.05, 0, 0.05, 0.1, 0.15}
)

const searchBreaks = 400

// findBestSetup looks for the place by the wing ball and for the tip height by the
// cue ball: neither does much to the other's.
func (r *Room) findBestSetup(feet int) drill.Setup {
	k, err := table.NewKind(feet, 0, 0)
	if err != nil {
		panic("rehearsal: " + err.Error())
	}
	s := drill.StandardSetup(rack.NineBall, table.Left, k)
	t := newRateCounter(Student{Breaker: practisedStudent(r.tableOf(k)), Kind: k, Window: k.StandardWindow()}, uint64(feet))
	t.usualBreaks = searchBreaks
	var wings, windows []float64
	for _, share := range placesTried {
		s.Cue.X = table.FlipSign(k.Width() * table.Inches(share))
		wings = append(wings, t.usualRates(s).Wing)
	}
	s.Cue.X = table.FlipSign(k.Width() * table.Inches(placesTried[peakIndex(wings)]))
	for _, tip := range tipsTried {
		s.Tip = tip
		windows = append(windows, t.usualRates(s).Window)
	}
	first, last := findPlateau(smoothValues(windows))
	s.Tip = roundToHundredth((tipsTried[first] + tipsTried[last]) / 2)
	return s.Rounded()
}

// smoothValues takes each value together with its neighbours, so that one lucky count
// does not decide.
func smoothValues(values []float64) []float64 {
	out := make([]float64, len(values))
	last := len(values) - 1
	for i, v := range values {
		out[i] = (values[max(i-1, 0)] + 2*v + values[min(i+1, last)]) / 4
	}
	return out
}

// peakIndex gives where values are highest, the first of equals.
func peakIndex(values []float64) int {
	at := 0
	for i, v := range values {
		if v > values[at] {
			at = i
		}
	}
	return at
}

// findPlateau gives the stretch around the peak of values that are within a quarter
// of it.
func findPlateau(values []float64) (first, last int) {
	top := peakIndex(values)
	first, last = top, top
	for first > 0 && values[first-1] >= 0.75*values[top] {
		first--
	}
	for last < len(values)-1 && values[last+1] >= 0.75*values[top] {
		last++
	}
	return first, last
}

// practisedStudent is a steady student without a fault.
func practisedStudent(on *breaksim.Table) Physics {
	return Physics{
		Table: on, OwnSpeed: 18, ControlSpeed: 19, Widening: usualWidening, LiftSpeed: 24, Slope: 3,
		Scatter: breaksim.StrokeScatter{Aim: 0.15, Speed: 0.4, Tip: 0.045, Place: 0.2, Gap: 0.002},
	}
}

// DrawStudent makes a physical student with one fault.
func (r *Room) DrawStudent(f Fault, rng *rand.Rand) Student { return drawPhysics(r, f, rng) }
