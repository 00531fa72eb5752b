package rehearsal

import (
	"fmt"
	"math/rand/v2"
)

// Model is what virtual students are made of.
type Model string

// The models.
const (
	CurveModel   Model = "curve"   // response curves: see Curve
	PhysicsModel Model = "physics" // computed breaks: see Physics
)

// Models lists them.
func Models() []Model { return []Model{CurveModel, PhysicsModel} }

// sharedRoom is the room of all plans: what is best on a table takes seconds to find
// and is the same for ever.
var sharedRoom Room

// studentSource draws the students of a model and says how closely their true rates
// are counted.
type studentSource struct {
	draw                    func(Fault, *rand.Rand) Student
	usualBreaks, fineBreaks int
	// margin is the difference between two shares of good breaks that counting
	// finely can tell from none.
	margin float64
}

// CurveMargin is the difference between two true rates of a curve student that
// counting them can tell from none. Physical students are counted over fewer
// breaks, have fewer good ones, and less of their luck is the same under two
// setups: PhysicalMargin is two and a third standard errors of a difference.
const (
	CurveMargin    = 0.02
	PhysicalMargin = 0.03
)

func (m Model) findSource() (studentSource, error) {
	switch m {
	case "", CurveModel:
		return studentSource{DrawStudent, 1000, 1000, CurveMargin}, nil
	case PhysicsModel:
		return studentSource{sharedRoom.DrawStudent, 200, 800, PhysicalMargin}, nil
	}
	return studentSource{}, fmt.Errorf("there is no model %q: one of %v", m, Models())
}
