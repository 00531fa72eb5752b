package leave

import (
	"math"

	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// enough is the chance from which on no better place of the cue ball is looked
// for.
const enough = 0.9

// findShotsInHand lists the best direct shot into each pocket from the places tried
// for a cue ball in hand. From behind the head string a ball that lies there too may
// not be played straight at (WPA rules of play 2016, 6.11, from memory).
func (l Leave) findShotsInHand(ball rack.Ball, on table.Place, a Accuracy) []Shot {
	if l.Hand == Kitchen && on.Y < l.Kind.HeadString() {
		return nil
	}
	s := newSearch(l, ball, on, a)
	var found []Shot
	for i, mouth := range s.mouths {
		best, any := Shot{}, false
		for _, cue := range l.handPlaces(on, mouth) {
			lane := s.directLane(i, newCueToBall(cue, on))
			got := lane.aim()
			if got.possible && (!any || got.chance > best.Chance) {
				best, any = s.shot(&lane, got, cue), true
			}
			if best.Chance >= enough {
				break
			}
		}
		if any {
			found = append(found, best)
		}
	}
	sortShots(found)
	return found
}

// handPlaces returns the places tried for one pocket: anywhere, three distances
// behind the ball on its line to the pocket and to both sides of it; behind the
// head string, three rows of nine.
func (l Leave) handPlaces(on table.Place, m table.Mouth) []table.Place {
	var places []table.Place
	try := func(p table.Place) {
		if l.Kind.SettleBall(p) == p && l.clear(p) {
			places = append(places, p)
		}
	}
	if l.Hand == Kitchen {
		for row := range 3 {
			y := l.Kind.HeadString()*(1-table.Inches(row)/3) - 0.01
			for i := range 9 {
				try(table.Place{X: (l.Kind.Width()/2 - table.BallRadius) * (table.Inches(i) - 4) / 4, Y: y})
			}
		}
		return places
	}
	back := on.VectorTo(m.Middle).UnitVector().ScaledBy(-1)
	for _, turn := range [5]float64{0, 25, -25, 50, -50} {
		for _, away := range [3]float64{9, 6, 14} {
			try(on.MovedBy(back.TurnedBy(turn * math.Pi / 180).ScaledBy(away)))
		}
	}
	return places
}

func (l Leave) clear(p table.Place) bool {
	for _, r := range l.Placed {
		if r.Place.Distance(p) < table.BallDiameter {
			return false
		}
	}
	return true
}
