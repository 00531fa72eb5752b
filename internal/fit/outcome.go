package fit

import (
	"breakwright/internal/breaksim"
	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// What is looked at of a break, as three small numbers. Everything is as seen
// from a break from the left.
const (
	wings = 6  // made, side rail, foot rail, kissed, jaws, anything else
	cues  = 15 // nine areas of the table, five groups of pockets, off the table
	paths = 4  // back, off the head rail, forward or hit, not to be asked
	rests = cues * paths
	cells = wings * rests
)

// The numbers of a wing ball.
const (
	wingMade = iota
	wingSide
	wingFoot
	wingKissed
	wingJaws
	wingElse
)

// The numbers of a cue ball that did not stop on the table; those that stop are
// below firstScratch.
const (
	firstScratch = 9
	cueOff       = 14
)

// The numbers of a cue ball's way.
const (
	pathBack = iota
	pathHeadRail
	pathForward
	pathNone
)

// outcomeCell is a computed break, of which everything is known.
func outcomeCell(r breaksim.BreakResult, wing rack.Slot, k table.Kind) int {
	w, _ := r.BallInSlot(wing)
	c := r.CueBallEnd()
	cue, path := cueOff, pathNone
	switch c.End {
	case breaksim.Stopped:
		cue, path = areaNumber(c.Place, k), pathNumber(drill.CuePath(r.CuePath))
	case breaksim.Dropped:
		cue = scratchNumber(c.Pocket)
	}
	return wingNumber(w)*rests + cue*paths + path
}

func wingNumber(w breaksim.BallEnd) int {
	switch {
	case w.End == breaksim.Dropped && w.Pocket == table.FootLeft:
		return wingMade
	case w.End != breaksim.Stopped:
		return wingElse
	}
	switch w.Met {
	case breaksim.MetSideRail:
		return wingSide
	case breaksim.MetFootRail:
		return wingFoot
	case breaksim.MetBall:
		return wingKissed
	case breaksim.MetJaws:
		return wingJaws
	}
	return wingElse
}

// areaNumber numbers the nine areas: behind the head string, up to the centre, and
// beyond, each in thirds across.
func areaNumber(p table.Place, k table.Kind) int {
	along := 0
	if p.Y > k.HeadString() {
		along = 1
	}
	if p.Y > k.CentreSpot().Y {
		along = 2
	}
	across := 1
	switch sixth := k.Width() / 6; {
	case p.X < -sixth:
		across = 0
	case p.X > sixth:
		across = 2
	}
	return 3*along + across
}

// scratchNumber numbers the pockets: the head and side pockets apart, the foot
// corners together, since few cue balls go there.
func scratchNumber(p table.Pocket) int {
	switch p {
	case table.HeadLeft:
		return firstScratch
	case table.HeadRight:
		return firstScratch + 1
	case table.SideLeft:
		return firstScratch + 2
	case table.SideRight:
		return firstScratch + 3
	}
	return firstScratch + 4
}

func pathNumber(p drill.CuePath) int {
	switch p {
	case drill.PathBack:
		return pathBack
	case drill.PathHeadRail:
		return pathHeadRail
	case drill.PathForward, drill.PathHit:
		return pathForward
	}
	return pathNone
}

// observation is what a student wrote down of a break: the numbers that it may
// have been. What was not observed leaves several open.
type observation struct {
	wings [wings]bool
	cue   int
	paths [paths]bool
}

// readObservation reads a recorded break, of a setup from the left. A break that was
// mirrored reads the same.
func readObservation(b drill.Break, s drill.Setup, k table.Kind) observation {
	var seen observation
	seen.setWingBall(b, s)
	switch b.Cue.How {
	case drill.Stopped:
		seen.cue = areaNumber(b.Cue.Place, k)
		if p := pathNumber(b.CuePath); p == pathNone {
			seen.paths = [paths]bool{true, true, true, false}
		} else {
			seen.paths[p] = true
		}
	case drill.Scratched:
		seen.cue, seen.paths[pathNone] = scratchNumber(b.Cue.Scratch), true
	default:
		seen.cue, seen.paths[pathNone] = cueOff, true
	}
	return seen
}

func (seen *observation) setWingBall(b drill.Break, s drill.Setup) {
	_, dropped := b.PocketOf(s.WingBall())
	for _, off := range b.Off {
		dropped = dropped || off == s.WingBall()
	}
	switch {
	case !b.IsWatched(): // whatever it did
		for w := range seen.wings {
			seen.wings[w] = true
		}
	case b.WingMade(s):
		seen.wings[wingMade] = true
	case dropped:
		seen.wings[wingElse] = true
	case b.WingMiss == drill.MissSideRail:
		seen.wings[wingSide] = true
	case b.WingMiss == drill.MissFootRail:
		seen.wings[wingFoot] = true
	case b.WingMiss == drill.MissKissed:
		seen.wings[wingKissed] = true
	case b.WingMiss == drill.MissJaws:
		seen.wings[wingJaws] = true
	default: // it stayed up, nobody saw how
		for w := wingSide; w < wings; w++ {
			seen.wings[w] = true
		}
	}
}
