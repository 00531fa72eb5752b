package picture

import "breakwright/internal/table"

// RateView is how often something happened, with its uncertainty. Rates and
// their limits are shares from 0 to 1.
type RateView struct {
	ID    string
	Label string // what is counted: "Wing ball in its corner"
	Made  int
	Of    int // 0 draws an empty bar: "not watched"
	// Low and High are the interval around the rate, made by the caller; equal
	// ones draw no band.
	Low, High float64
	Target    float64 // 0 draws no target
}

// PairView is a rate before and after a change, one above the other.
type PairView struct {
	ID            string
	Title         string
	Before, After RateView
}

// SparkView is a row of sets, oldest first.
type SparkView struct {
	ID     string
	Label  string
	Sets   []SetRate
	Target float64
}

// SetRate is the rate of one set. NewSetup says that the setup changed before it.
type SetRate struct {
	Made, Of int
	NewSetup bool
}

// CurveView is a rate over the places of the cue ball along the head string,
// with a band of uncertainty and the places tried. Mean, Low and High have the
// length of Places, which grow.
type CurveView struct {
	ID              string
	Label           string
	Kind            table.Kind
	Places          []table.Inches // x coordinates
	Mean, Low, High []float64
	// Level is how probable it is that the rate lies between Low and High; 0 where they
	// are a standard deviation from Mean.
	Level  float64
	Tried  []TriedPlace
	Target float64
	// Now and Next are the place in use and the place proposed; nil draws none.
	Now, Next *table.Inches
}

// TriedPlace is a place with the breaks made from it.
type TriedPlace struct {
	Place    table.Inches
	Made, Of int
}
