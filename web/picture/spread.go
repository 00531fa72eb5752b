package picture

import "breakwright/internal/table"

// How numbered marks make room for each other.
const (
	// markGap is the distance between two marks from which both numbers can be
	// read: they may overlap a little.
	markGap table.Inches = 2.5
	// minLedDistance is how far a mark must have moved to be led back to its place.
	minLedDistance  table.Inches = 0.25
	maxSpreadRounds int          = 80
)

// spreadMarks moves marks that hide each other apart, as little as it needs, and
// keeps them on the cloth. Marks with room stay exactly where they are. The
// mirror image of the places gives the mirror image of the marks.
func spreadMarks(places []table.Place, k table.Kind) []table.Place {
	marks := append([]table.Place(nil), places...)
	for range maxSpreadRounds {
		moved := false
		for i := range marks {
			for j := range i {
				if pushApart(&marks[j], &marks[i]) {
					moved = true
				}
			}
		}
		if !moved {
			return marks
		}
		for i, m := range marks {
			if m != places[i] {
				marks[i] = k.SettleBall(m)
			}
		}
	}
	return marks
}

// pushApart moves two marks that are too close by equal parts along the line
// between them; along the table when they are on the same spot.
func pushApart(a, b *table.Place) bool {
	apart := a.Distance(*b)
	lack := (markGap - apart) / 2
	if lack <= 0.01 {
		return false
	}
	way := directionTo(*a, *b)
	*a, *b = way.pointFrom(*a, -lack), way.pointFrom(*b, lack)
	return true
}

// numberedStop is a break's dot: where it is drawn and where the ball stopped.
type numberedStop struct {
	Stop
	at  table.Place
	led bool // drawn away from its place, so led back to it
}

func (t TableView) stopMarks() []numberedStop {
	places := make([]table.Place, len(t.Stops))
	for i, s := range t.Stops {
		places[i] = s.Place
	}
	all := make([]numberedStop, len(places))
	for i, at := range spreadMarks(places, t.Kind) {
		all[i] = numberedStop{t.Stops[i], at, at.Distance(places[i]) > minLedDistance}
	}
	return all
}
