package rehearsal

import (
	"math/rand/v2"

	"breakwright/internal/drill"
)

// Rates are a student's true shares under one setup.
type Rates struct {
	// Wing is the share of breaks that make the wing ball in its corner, Window
	// the share whose cue ball stops in the window, Good the share that do both
	// and keep every ball on the table.
	Wing, Window, Good float64
}

// trueBreaks is how many breaks a true rate is counted over: its standard error
// is at most 0.016. The same chances serve every setup, so two setups of one
// student are told apart more finely than that.
const trueBreaks = 1000

// truth counts and remembers a student's true rates.
type truth struct {
	student Student
	seed    uint64
	known   map[drill.Setup]Rates
}

func newTruth(s Student, seed uint64) *truth {
	return &truth{student: s, seed: seed, known: map[drill.Setup]Rates{}}
}

func (t *truth) of(s drill.Setup) Rates {
	s = s.Rounded()
	if known, ok := t.known[s]; ok {
		return known
	}
	var wing, window, good int
	source := rand.NewPCG(0, 0)
	rng := rand.New(source)
	for i := range trueBreaks {
		source.Seed(t.seed, uint64(i))
		b := t.student.Break(s, rng)
		made, in := b.WingMade(s), b.InWindow(t.student.Window)
		if made {
			wing++
		}
		if in {
			window++
		}
		if made && in && !b.BallsOff() {
			good++
		}
	}
	r := Rates{float64(wing) / trueBreaks, float64(window) / trueBreaks, float64(good) / trueBreaks}
	t.known[s] = r
	return r
}
