package advice

import (
	"breakwright/internal/belief"
	"breakwright/internal/drill"
	"breakwright/internal/response"
	"breakwright/internal/table"
)

// ShownByRack is what breaks showed beside what was computed for anybody, by rack. What many
// students' breaks show alike comes from the club's tables, cloth and balls and from
// nobody's stroke.
type ShownByRack map[response.Rack]belief.Shown

// Show counts one student's history. No student counts for more than a few sets.
func Show(history []drill.Set) ShownByRack {
	all := ShownByRack{}
	for _, set := range history {
		r := rackOf(set.Setup)
		if !response.Knows(r) || len(set.Breaks) == 0 {
			continue
		}
		mirror := set.Setup.Side == table.Right
		setup := set.Setup
		if mirror {
			setup = setup.Mirror()
		}
		sum := all[r]
		sum.Add(belief.Show(r, set.Kind, setup, leftFrameBreaks(set, mirror)))
		all[r] = sum
	}
	for r, sum := range all {
		sum.Limit()
		all[r] = sum
	}
	return all
}

// Add adds what another student's breaks showed.
func (s ShownByRack) Add(other ShownByRack) {
	for r, o := range other {
		sum := s[r]
		sum.Add(o)
		s[r] = sum
	}
}

// Without returns what is left when a student's breaks, which are in it, are taken out.
func (s ShownByRack) Without(student ShownByRack) ShownByRack {
	rest := ShownByRack{}
	rest.Add(s)
	for r, o := range student {
		sum := rest[r]
		sum.Subtract(o)
		rest[r] = sum
	}
	return rest
}

// TablesPlay returns how the tables play, as breaks of the rack of a setup showed it.
func (s ShownByRack) TablesPlay(of drill.Setup) drill.TablesPlay {
	shown := s[rackOf(of)]
	return shown.TablesPlay()
}
