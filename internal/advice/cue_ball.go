package advice

import (
	"cmp"
	"slices"

	"breakwright/internal/evidence"
	"breakwright/internal/table"
)

// CueBallSummary sums up where the cue ball stopped in the stint, the right way round
// for the student. Rest places scatter by two feet, so the share in the window
// and the path say more than the mean.
type CueBallSummary struct {
	// Stopped breaks are those in which it neither scratched nor flew.
	Stopped int         `json:"stopped"`
	Mean    table.Place `json:"-"`
	// MeanX and MeanY are Mean again, in inches, for JSON.
	MeanX float64 `json:"mean_x"`
	MeanY float64 `json:"mean_y"`
	// Half the breaks stop within MedianRadius of the mean, in inches.
	MedianRadius float64 `json:"median_radius"`
	// Major and Minor are the half-axes, in inches, of the ellipse that holds
	// half of a cloud like this; AngleRadians turns x onto the major axis.
	Major        float64 `json:"major"`
	Minor        float64 `json:"minor"`
	AngleRadians float64 `json:"angle_radians"`
}

// summarizeCueBall sums up the rests; nil before there are three.
func (w adviceWriter) summarizeCueBall() *CueBallSummary {
	rests := w.currentTally().cue.rests
	if len(rests) < 3 {
		return nil
	}
	// Sums of fractions depend on their order; the order of breaks must not.
	rests = slices.Clone(rests)
	slices.SortFunc(rests, func(a, b evidence.Point) int {
		return cmp.Or(cmp.Compare(a.X, b.X), cmp.Compare(a.Y, b.Y))
	})
	scatter := evidence.ScatterOf(rests)
	e := scatter.EllipseHolding(0.5)
	c := &CueBallSummary{
		Stopped: scatter.N, MedianRadius: evidence.MedianRadius(rests, scatter.Mean),
		Major: e.Major, Minor: e.Minor, AngleRadians: e.AngleRadians,
		Mean: table.Place{X: table.Inches(scatter.Mean.X), Y: table.Inches(scatter.Mean.Y)},
	}
	if w.mirror {
		c.Mean = c.Mean.Mirror()
		c.AngleRadians = table.FlipSign(c.AngleRadians)
	}
	c.MeanX, c.MeanY = float64(c.Mean.X), float64(c.Mean.Y)
	return c
}
