package rehearsal

import (
	"fmt"
	"math"
	"math/rand/v2"
	"sync"

	"breakwright/internal/breaksim"
	"breakwright/internal/drill"
	"breakwright/internal/response"
	"breakwright/internal/table"
)

// Tables is how many different tables computed students stand at.
const Tables = 10

// world is a table whose cloth, cushions and balls are not those of the model
// that the adviser learned from.
type world struct {
	table *breaksim.Table
	kind  table.Kind
	// best is the setup from the left of most worth for a practised breaker.
	best drill.Setup
}

// worldSet makes the worlds of a rehearsal, each once, when first asked for. It may
// be used by many at once. The zero worldSet is ready.
type worldSet struct {
	mu   sync.Mutex
	made map[worldKey]func() *world
}

type worldKey struct {
	rack  response.Rack
	index int
}

// sharedWorlds are those of all rehearsals: what is best in one takes seconds to
// find and is the same for ever.
var sharedWorlds worldSet

func (w *worldSet) find(r response.Rack, index int) *world {
	key := worldKey{r, index}
	w.mu.Lock()
	get, known := w.made[key]
	if !known {
		get = sync.OnceValue(func() *world { return newWorld(r, index) })
		if w.made == nil {
			w.made = map[worldKey]func() *world{}
		}
		w.made[key] = get
	}
	w.mu.Unlock()
	return get()
}

// movedConstants are the constants that differ from world to world, over the
// whole range that package breaksim holds plausible.
var movedConstants = map[string]bool{
	"restitution": true, "friction-floor": true, "friction-extra": true, "young": true,
	"slide": true, "roll": true, "cushion-restitution": true, "cushion-tiring": true,
	"cushion-friction": true, "facing-share": true, "corner-shelf": true,
}

func newWorld(r response.Rack, index int) *world {
	rng := rand.New(rand.NewPCG(uint64(index), 77))
	constants := breaksim.Defaults()
	for _, row := range breaksim.ListParams() {
		if movedConstants[row.Key] {
			row.SetValueIn(&constants, row.Low+(row.High-row.Low)*rng.Float64())
		}
	}
	feet := []int{9, 9, 8, 7}[rng.IntN(4)]
	mouth := table.Inches(math.Round(8*(4+rng.Float64()))) / 8
	k, err := table.NewKind(feet, mouth, mouth+table.StandardSideMouth-table.StandardCornerMouth)
	if err != nil {
		panic("rehearsal: " + err.Error())
	}
	t, err := breaksim.NewTable(constants, k)
	if err != nil {
		panic(fmt.Sprintf("rehearsal: world %d: %v", index, err))
	}
	w := &world{table: t, kind: k}
	w.best = w.findBestSetup(r)
	return w
}

// Where the best is looked for: places as shares of the table's width, the last
// being as far out as is taught, and tip heights by the radius; searchBreaks at
// each, with the same chances.
var (
	placesTried = []float64{0.24, 0.30, 0.36, 0.42, 0.45}
	tipsTried   = []drill.RadiusFraction{-0.15, -0.05, 0.05}
)

const searchBreaks = 400

// findBestSetup tries every place with every tip height. What is usual wins among
// near equals.
func (w *world) findBestSetup(r response.Rack) drill.Setup {
	usual := drill.StandardSetup(r.Game, table.Left, w.kind)
	usual.Spot = r.Spot
	rates := newRateCounter(Student{Breaker: practisedStudent(w.table), Kind: w.kind, Window: w.kind.StandardWindow()}, 5)
	rates.usualBreaks = searchBreaks
	best, most := usual, math.Inf(-1)
	for _, share := range placesTried {
		for _, tip := range tipsTried {
			s := usual
			out := math.Round(share * float64(w.kind.Width()))
			s.Cue.X = -min(table.Inches(out), table.Inches(math.Floor(float64(drill.OutermostCue(w.kind)))))
			s.Tip = tip
			if worth := rates.usualRates(s).Worth; worth > most {
				best, most = s, worth
			}
		}
	}
	return best.Rounded()
}

// usualWidening is how fast a stroke widens above the speed it is controlled at.
const usualWidening = 0.12

// practisedStudent is a steady student without a fault.
func practisedStudent(on *breaksim.Table) Physics {
	return Physics{
		Table: on, OwnSpeed: drill.UsualSpeed, ControlSpeed: drill.UsualSpeed + 1, Widening: usualWidening, LiftSpeed: 24, Slope: 3,
		Scatter: breaksim.StrokeScatter{Aim: 0.15, Speed: 0.4, Tip: 0.045, Place: 0.2, Gap: 0.002},
	}
}
