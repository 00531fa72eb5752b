package main

import (
	"fmt"
	"math"
	"math/rand/v2"

	"breakwright/internal/breaksim"
	"breakwright/internal/rack"
	"breakwright/internal/rackplan"
	"breakwright/internal/table"
)

// club is many computed students who break one rack from the left, each with a
// setup, hands and a table of their own.
type club struct {
	kind             table.Kind
	game             rack.Game
	spot             rack.Spot
	students, breaks int
	seed             uint64

	// ends counts, for each student and ball (the cue ball first, then the slots),
	// how often it ended in each cell, and last how often it was gone.
	ends  [][][rackplan.Cells + 1]float64
	worth *pairWorth
}

// unsettled constants differ from table to table.
var unsettled = []string{"restitution", "friction-floor", "slide", "roll", "cushion-restitution", "cushion-friction", "facing-share", "corner-shelf"}

func (c *club) play() error {
	c.worth = newPairWorth(c.game.BallCount())
	for i := range c.students {
		rng := rand.New(rand.NewPCG(c.seed, uint64(i)<<8|uint64(c.kind.Feet)))
		tb, err := breaksim.NewTable(someTable(rng), c.kind)
		if err != nil {
			return fmt.Errorf("a table to compute breaks on: %w", err)
		}
		in := c.someStudent(rng)
		var ends [][rackplan.Cells + 1]float64
		for n := range c.breaks {
			r, err := tb.ComputeBreak(in, rng)
			if err != nil {
				return fmt.Errorf("compute a break: %w", err)
			}
			if ends == nil {
				ends = make([][rackplan.Cells + 1]float64, len(r.Balls))
			}
			if n < lookedAt {
				c.worth.add(r, c.kind, c.game)
			}
			for j, b := range r.Balls {
				at := rackplan.Cells
				if b.End == breaksim.Stopped {
					at = rackplan.CellOf(c.kind, b.Place)
				}
				ends[j][at]++
			}
		}
		c.ends = append(c.ends, ends)
	}
	return nil
}

func someTable(rng *rand.Rand) breaksim.ModelParams {
	p := breaksim.Defaults()
	for _, row := range breaksim.ListParams() {
		for _, key := range unsettled {
			if row.Key == key {
				row.SetValueIn(&p, row.Low+(row.High-row.Low)*rng.Float64())
			}
		}
	}
	return p
}

// someStudent breaks from somewhere between 6 in from the long string and a ball
// off the rail, nearly full, at 15 to 21 mph, as steadily as a practised student
// or a good deal less (assumed).
func (c *club) someStudent(rng *rand.Rand) breaksim.BreakInput {
	half := float64(c.kind.Width()) / 2
	from := 0.25 + 0.6*rng.Float64()
	loose := 1 + 2*rng.Float64()
	return breaksim.BreakInput{
		Game: c.game, Spot: c.spot, Side: table.Left,
		Cue:     table.Place{X: table.Inches(-half * from), Y: c.kind.HeadString() - table.Inches(2*rng.Float64())},
		Contact: table.Inches(0.1 * rng.NormFloat64()),
		Tip:     breaksim.RadiusFraction(-0.05 + 0.08*rng.NormFloat64()),
		Speed:   table.Mph(15 + 6*rng.Float64()),
		Scatter: breaksim.StrokeScatter{
			Aim: breaksim.Degrees(0.2 * loose), Speed: table.Mph(0.5 * loose), Tip: breaksim.RadiusFraction(0.05 * loose),
			Place: table.Inches(0.2 * loose), Gap: table.Inches(0.003 * loose),
		},
	}
}

// rack sums the students up.
func (c *club) rack() rackplan.ComputedRack {
	balls := len(c.ends[0])
	r := rackplan.ComputedRack{Game: c.game, Spot: c.spot, Breaks: c.students * c.breaks, Strength: math.Round(c.strength()*10) / 10}
	for j := range balls {
		var b rackplan.ComputedBall
		share := func(o int) int {
			sum := 0.0
			for _, student := range c.ends {
				sum += student[j][o]
			}
			return int(math.Round(sum / float64(r.Breaks) * 10000))
		}
		b.Gone = share(rackplan.Cells)
		for o := range b.Cells {
			b.Cells[o] = share(o)
		}
		if j == 0 {
			r.Cue = b
			continue
		}
		r.Slots = append(r.Slots, b)
	}
	c.worth.writeTo(&r)
	return r
}

// strength is how many breaks of one's own tell as much as the mean of all
// students: that of the Dirichlet distribution from which students' shares would
// vary as these do, by moments: the variance of a share p over students with n
// breaks each is p(1-p)(1/n + (1-1/n)/(strength+1)), summed over balls and ends.
func (c *club) strength() float64 {
	n := float64(c.breaks)
	seen, full := 0.0, 0.0
	for j := 1; j < len(c.ends[0]); j++ {
		for o := range c.ends[0][j] {
			mean, squares := 0.0, 0.0
			for _, student := range c.ends {
				p := student[j][o] / n
				mean, squares = mean+p, squares+p*p
			}
			m := float64(c.students)
			mean /= m
			seen += (squares - m*mean*mean) / (m - 1)
			full += mean * (1 - mean)
		}
	}
	extra := (seen/full - 1/n) / (1 - 1/n)
	return 1/max(extra, 1e-3) - 1
}
