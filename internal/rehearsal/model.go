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

// studentSource draws the students of a model and says how closely their true rates
// are counted.
type studentSource struct {
	draw                    func(Fault, *rand.Rand) Student
	faults                  []Fault
	usualBreaks, fineBreaks int
	// margin is the difference between two values of a break that counting finely
	// can tell from none; worthwhile is the gain from which a student counts as
	// one who can be helped.
	margin, worthwhile float64
	// findBest finds what somebody who knew everything would tell.
	findBest func(Student, *rateCounter) bestChange
}

// CurveMargin is the difference between two true shares of good breaks of a curve
// student that counting them can tell from none. ComputedMargin is that of two
// values of a computed break: two standard errors of a difference, of whose luck
// some is the same under two setups.
const (
	CurveMargin    = 0.02
	ComputedMargin = 0.08
)

func (p Options) findSource() (studentSource, error) {
	switch p.Model {
	case CurveModel:
		return studentSource{
			draw: DrawStudent, faults: Faults(), usualBreaks: 1000, fineBreaks: 1000, margin: CurveMargin, worthwhile: 0.05,
			findBest: func(s Student, t *rateCounter) bestChange {
				return bestChange{s.Best, s.valueOf(t.fineRates(s.Best))}
			},
		}, nil
	case PhysicsModel:
		draw := func(f Fault, rng *rand.Rand) Student { return DrawComputedStudent(p.Rack, f, rng) }
		if p.Table != 0 {
			draw = func(f Fault, rng *rand.Rand) Student { return drawStudentAt(p.Rack, f, rng, p.Table-1) }
		}
		return studentSource{
			draw: draw, faults: ComputedFaults(), usualBreaks: 300, fineBreaks: 600, margin: ComputedMargin, worthwhile: 0.12,
			findBest: findBestChange,
		}, nil
	}
	return studentSource{}, fmt.Errorf("there is no model %q: one of %v", p.Model, Models())
}
