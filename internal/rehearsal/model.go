package rehearsal

import (
	"fmt"
	"math/rand/v2"
)

// Model is what virtual students are made of.
type Model string

// The models.
const (
	OfCurves  Model = "curve"   // response curves: see Curve
	OfPhysics Model = "physics" // computed breaks: see Physics
)

// Models lists them.
func Models() []Model { return []Model{OfCurves, OfPhysics} }

// hall is the room of all plans: what is best on a table takes seconds to find
// and is the same for ever.
var hall Room

// school draws the students of a model and says how closely their true rates
// are counted.
type school struct {
	draw          func(Fault, *rand.Rand) Student
	usual, finely int
	// margin is the difference between two shares of good breaks that counting
	// finely can tell from none.
	margin float64
}

// Margin is the difference between two true rates of a curve student that
// counting them can tell from none. Physical students are counted over fewer
// breaks, have fewer good ones, and less of their luck is the same under two
// setups: PhysicalMargin is two and a third standard errors of a difference.
const (
	Margin         = 0.02
	PhysicalMargin = 0.03
)

func (m Model) school() (school, error) {
	switch m {
	case "", OfCurves:
		return school{Draw, 1000, 1000, Margin}, nil
	case OfPhysics:
		return school{hall.Draw, 200, 800, PhysicalMargin}, nil
	}
	return school{}, fmt.Errorf("there is no model %q: one of %v", m, Models())
}
