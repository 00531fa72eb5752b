package rehearsal

import (
	"math"
	"math/rand/v2"

	"breakwright/internal/drill"
	"breakwright/internal/table"
)

// playCueBall says how the cue ball ended. Draw sends it back, off the head rail
// when there is too much of it; follow sends it on into the rack's end; a hit on
// the far side of the head ball sends it towards the far side pocket.
func (c Curve) playCueBall(st deliveredStroke, b *drill.Break, r *ballAccount, rng *rand.Rand) {
	flies := rng.Float64()
	off := c.chanceOfFlying(st)
	scratch, pocket := c.drawScratch(st, rng)
	place, path := c.rollCueBall(st, rng)
	switch {
	case flies < 0.6*off:
		b.Cue = drill.CueEnd{How: drill.OffTable}
		return
	case flies < off:
		r.dropOffTable(b, rng)
	}
	if scratch {
		b.Cue = drill.CueEnd{How: drill.Scratched, Scratch: pocket}
		return
	}
	b.Cue = drill.CueEnd{How: drill.Stopped, Place: place}
	c.Habit.notePath(b, path, rng)
}

// chanceOfFlying is the chance that a ball leaves the table.
func (c Curve) chanceOfFlying(st deliveredStroke) float64 {
	followed := 0.02 * normalCDF(-st.draw, 2, 0.5)
	return 0.004 + followed + 0.3*normalCDF(st.speed, c.FlySpeed, 1.2)
}

// drawScratch draws one pocket for the cue ball, or none. From the left the far
// side is the right.
func (c Curve) drawScratch(st deliveredStroke, rng *rand.Rand) (bool, table.Pocket) {
	at := rng.Float64()
	for _, way := range []struct {
		p      float64
		pocket table.Pocket
	}{
		{0.01 + 0.3*normalCDF(st.contact, 0.2, 0.06), table.SideRight},
		{0.005 + 0.05*normalCDF(-st.contact, 0.35, 0.08), table.SideLeft},
		{0.006 + 0.12*normalCDF(st.draw, 2.2, 0.6), table.HeadRight},
		{0.004 + 0.06*normalCDF(st.draw, 2.2, 0.6), table.HeadLeft},
		{0.005 + 0.08*normalCDF(-st.draw, 2.2, 0.6) + 0.08*normalCDF(-st.contact, 0.4, 0.1), table.FootRight},
		{0.005 + 0.08*normalCDF(-st.draw, 2.2, 0.6), table.FootLeft},
	} {
		if at -= way.p; at < 0 {
			return true, way.pocket
		}
	}
	return false, ""
}

// rollCueBall returns where the cue ball stops, in tenths of an inch, and how it got
// there.
func (c Curve) rollCueBall(st deliveredStroke, rng *rand.Rand) (table.Place, drill.CuePath) {
	k, w := c.Kind, c.Kind.StandardWindow()
	strength := float64(st.speed / c.OwnSpeed)
	wide := table.Inches(st.wide)
	y := (w.Head+w.Foot)/2 - c.PerTip*table.Inches(st.draw*strength) + c.SpreadY*wide*table.Inches(rng.NormFloat64())
	x := c.CueX + 40*c.tableScale()*st.contact + c.SpreadX*wide*table.Inches(rng.NormFloat64())
	path := drill.PathBack
	const kept = 0.6 // of its way after a rail; a guess
	switch {
	case y < table.BallRadius:
		path = drill.PathHeadRail
		y = table.BallRadius + kept*(table.BallRadius-y)
	case y > k.Length()*0.62:
		path = drill.PathForward
	}
	moved := drawChance(c.MovedByAnother, rng)
	dx, dy := rng.NormFloat64(), rng.NormFloat64()
	if moved {
		path = drill.PathHit
		x, y = x+8*c.tableScale()*table.Inches(dx), y+10*c.tableScale()*table.Inches(dy)
	}
	at := k.SettleBall(table.Place{X: x, Y: y})
	return table.Place{X: roundToTenth(at.X), Y: roundToTenth(at.Y)}, path
}

func roundToTenth(v table.Inches) table.Inches { return table.Inches(math.Round(float64(v)*10)/10) + 0 }
