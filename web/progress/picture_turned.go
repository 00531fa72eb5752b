package progress

import (
	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/store"
	"breakwright/internal/table"
	"breakwright/web/picture"
)

// turnedStudent is a student's latest sets, turned to a break from the left.
type turnedStudent struct {
	kind     table.Kind
	sets     []mirroredSet
	tally    store.Tally
	mirrored int // 1 when they were
}

type mirroredSet struct {
	setup  drill.Setup
	window table.Window
	breaks []drill.Break
}

// turnStudent mirrors what was broken from the right.
func turnStudent(one store.PictureStudent) turnedStudent {
	s := turnedStudent{kind: one.Sets[0].Kind}
	for _, set := range one.Sets {
		t := mirroredSet{setup: set.Setup, window: set.Window, breaks: set.Breaks}
		if set.Setup.Side == table.Right {
			s.mirrored = 1
			t.setup, t.window = set.Setup.Mirror(), set.Window.Mirror()
			t.breaks = make([]drill.Break, len(set.Breaks))
			for i, b := range set.Breaks {
				t.breaks[i] = b.Mirror()
			}
		}
		for _, b := range t.breaks {
			s.tally = s.tally.Plus(store.TallyOf(b, t.setup, t.window))
		}
		s.sets = append(s.sets, t)
	}
	return s
}

func (s turnedStudent) countBreaks() int { return s.tally.Breaks }

// drawCloud draws the student's cue balls in the window of their latest set.
func (s turnedStudent) drawCloud(id, name string) *picture.CloudView {
	last := s.sets[len(s.sets)-1]
	c := &picture.CloudView{ID: id, Title: name, Kind: s.kind, Window: &last.window}
	for _, set := range s.sets {
		for _, b := range set.breaks {
			addBreakToCloud(c, b, set.window)
		}
	}
	return c
}

// slotCounter counts where the balls of the slots ended, in nine-ball racks or
// whichever game comes first.
type slotCounter struct {
	kind   table.Kind
	game   rack.Game
	breaks int
	ends   map[rack.Slot]*[slotEnds]int
}

// The ends of a ball, in the order of the table's columns.
const (
	endFootNear = iota
	endFootFar
	endSideNear
	endSideFar
	endHead
	endFootHalf
	endHeadHalf
	endOff
	slotEnds
)

var slotEndWords = [slotEnds]string{
	"near foot corner", "far foot corner", "near side pocket", "far side pocket", "a head corner",
	"stayed in the foot half", "came to the head half", "off the table",
}

func (c *slotCounter) addStudent(s turnedStudent) {
	for _, set := range s.sets {
		if c.game == "" {
			c.game, c.ends = set.setup.Game, map[rack.Slot]*[slotEnds]int{}
		}
		if set.setup.Game != c.game {
			continue
		}
		for _, b := range set.breaks {
			c.breaks++
			for _, p := range b.Pocketed {
				c.countEnd(set.setup, p.Ball, endOfPocket(p.Pocket))
			}
			for _, ball := range b.Off {
				c.countEnd(set.setup, ball, endOff)
			}
			for _, r := range b.Rest {
				end := endFootHalf
				if r.Place.Y < s.kind.CentreSpot().Y {
					end = endHeadHalf
				}
				c.countEnd(set.setup, r.Ball, end)
			}
		}
	}
}

func (c *slotCounter) countEnd(s drill.Setup, ball rack.Ball, end int) {
	slot, racked := s.Order.SlotOf(s.Game, ball)
	if !racked {
		return
	}
	if c.ends[slot] == nil {
		c.ends[slot] = new([slotEnds]int)
	}
	c.ends[slot][end]++
}

// endOfPocket: near is the break side, the left after turning.
func endOfPocket(p table.Pocket) int {
	switch p {
	case table.FootLeft:
		return endFootNear
	case table.FootRight:
		return endFootFar
	case table.SideLeft:
		return endSideNear
	case table.SideRight:
		return endSideFar
	}
	return endHead
}

// slotEndsTable is the table of slots and ends.
type slotEndsTable struct {
	Game   string
	Breaks int
	Rows   []slotEndsRow
}

type slotEndsRow struct {
	Slot string
	Ends [slotEnds]int
	// Known is how often the ball's end was noted, of Breaks.
	Known int
}

// buildTable is nil when no ball's end was noted.
func (c *slotCounter) buildTable() *slotEndsTable {
	t := slotEndsTable{Game: c.game.Words(), Breaks: c.breaks}
	for _, slot := range c.game.Slots() {
		row := slotEndsRow{Slot: string(slot)}
		if ends := c.ends[slot]; ends != nil {
			row.Ends = *ends
		}
		for _, n := range row.Ends {
			row.Known += n
		}
		t.Rows = append(t.Rows, row)
	}
	if len(c.ends) == 0 {
		return nil
	}
	return &t
}
