package advice

import (
	"cmp"
	"slices"

	"breakwright/internal/drill"
	"breakwright/internal/evidence"
	"breakwright/internal/table"
)

// cueTally counts where the cue ball went, in the left frame.
type cueTally struct {
	inWindow int
	// Scratches by pocket: far is the side pocket across from the break side.
	scratchFar, scratchNear, scratchHead, scratchFoot int
	offTable                                          int
	// Of the breaks where it stopped outside the window:
	// forward went on into the rack end, or did not come back as far as the
	// window: both want more draw.
	forward int
	// back came off the head rail, wherever it stopped then, or stopped behind
	// the head string on the way back.
	back int
	// lostFoot is past the window's foot end with nobody having seen how.
	lostFoot int
	// wide is beside the window, at the right length; wideFar on the far side.
	wide, wideFar int
	// Of the breaks where it stopped and was not moved by another ball:
	// across is how many, and farSide and nearSide how many of them stopped
	// well across the long string, or well out on the break side.
	across, farSide, nearSide int
	// rests are where it stopped.
	rests []evidence.Point
}

// addBreak counts one break and reports whether the cue ball stopped in the window.
func (c *cueTally) addBreak(b *drill.Break, e frame) (inWindow bool) {
	switch b.Cue.How {
	case drill.OffTable:
		c.offTable++
	case drill.Scratched:
		c.addScratch(b, e)
	case drill.Stopped:
		return c.addRest(b, e)
	}
	return false
}

func (c *cueTally) addScratch(b *drill.Break, e frame) {
	switch p := e.turnPocket(b.Cue.Scratch); {
	case p.IsSide() && p.Side().Sign() > 0:
		c.scratchFar++
	case p.IsSide():
		c.scratchNear++
	case p.IsHead():
		c.scratchHead++
	default:
		c.scratchFoot++
	}
}

func (c *cueTally) addRest(b *drill.Break, e frame) bool {
	p := e.turnPlace(b.Cue.Place)
	c.rests = append(c.rests, evidence.Point{X: float64(p.X), Y: float64(p.Y)})
	if b.CuePath != drill.PathHit {
		c.across++
		switch width := e.kind.Width(); {
		case p.X > width/8:
			c.farSide++
		case p.X < -width/4:
			c.nearSide++
		}
	}
	w := e.window
	pastFoot, pastHead := p.Y > w.Foot, p.Y < w.Head
	switch {
	case w.Contains(p):
		c.inWindow++
		return true
	case b.CuePath == drill.PathHit:
		// another ball's doing
	case pastHead && b.CuePath != drill.PathForward:
		c.back++
	case b.CuePath == drill.PathHeadRail:
		c.back++
	case pastFoot && (b.CuePath == drill.PathForward || b.CuePath == drill.PathBack):
		c.forward++
	case pastFoot:
		c.lostFoot++
	case !pastHead:
		c.wide++
		if p.X > w.Right {
			c.wideFar++
		}
	}
	return false
}

// countScratches is how often the cue ball was pocketed.
func (c *cueTally) countScratches() int {
	return c.scratchFar + c.scratchNear + c.scratchHead + c.scratchFoot
}

// countMiddle is how often it stopped between the head string and the centre.
func (c *cueTally) countMiddle(k table.Kind) (count int) {
	for _, rest := range c.rests {
		if k.IsInMiddle(table.Place{X: table.Inches(rest.X), Y: table.Inches(rest.Y)}) {
			count++
		}
	}
	return count
}

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
