package advice

import (
	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// breakTally counts what was seen in a stint, in the frame of a break from the
// left. It is a sum over breaks, so neither their order nor how they were cut
// into sets matters.
type breakTally struct {
	breaks int
	// watched counts the breaks whose balls were watched: of the others only the
	// cue ball and balls off the table are known. The wing ball, its misses, dry,
	// clean and lost breaks are of them.
	watched  int
	wingMade int
	misses   missCounts
	cue      cueTally
	// off counts breaks in which any ball left the table.
	off int
	// weak of weakKnown breaks were short of the rules; dry pocketed nothing.
	weak, weakKnown, dry int
	// clean counts breaks with a ball down and the cue ball neither scratched nor
	// off, nor any ball off the table.
	clean int
	// lost counts breaks without the wing ball and without the cue ball in the
	// window.
	lost int
	// noShotRule of shotKnown breaks, among those with the wing ball made and the
	// cue ball in the window, left no shot at all; a hard one is still a shot.
	noShot, shotKnown int
	// openShot of shotSeen breaks left an open shot on the lowest ball; shotLost were
	// fouls, which leave none to the breaker.
	openShot, shotSeen, shotLost int
	// ranOut of runsSeen racks were run out.
	ranOut, runsSeen int
	head             headTally
	slots            map[rack.Slot]slotEnds
}

// missCounts counts what a wing ball that stayed up met first.
type missCounts struct {
	side, foot, kissed, jaws int
	unseen                   int // unknown, or not written down
}

// countSeen is how many misses somebody saw.
func (m missCounts) countSeen() int { return m.side + m.foot + m.kissed + m.jaws }

// slotEnds counts where the ball of a slot stopped: in the head half, of known.
type slotEnds struct{ headHalf, known int }

// headTally counts where the head ball went when it is known.
type headTally struct {
	known, farSide, long int
}

// frame is what is needed to read breaks: the table, the window, and whether
// everything must be mirrored first.
type frame struct {
	kind   table.Kind
	window table.Window // in the left frame
	mirror bool
}

func (e frame) turnPlace(p table.Place) table.Place {
	if e.mirror {
		return p.Mirror()
	}
	return p
}

func (e frame) turnPocket(p table.Pocket) table.Pocket {
	if e.mirror {
		return p.Mirror()
	}
	return p
}

// tallySets counts sets that were played under one setup, in the left frame.
func tallySets(sets []drill.Set, setup drill.Setup, e frame) breakTally {
	var t breakTally
	for _, set := range sets {
		t.addSet(set, setup, e)
	}
	return t
}

// addSet counts a set. setup is the set's own, in the left frame.
func (t *breakTally) addSet(set drill.Set, setup drill.Setup, e frame) {
	head := setup.HeadBall()
	for i := range set.Breaks {
		b := &set.Breaks[i]
		t.breaks++
		inWindow := t.cue.addBreak(b, e)
		if b.IsWatched() {
			t.addWing(b, setup, e, inWindow)
		}
		t.addLegality(b)
		t.addShot(b)
		t.head.addBreak(b, head, e)
		t.addSlotEnds(b, setup, e)
	}
}

// addWing counts the wing ball of a break that was watched.
func (t *breakTally) addWing(b *drill.Break, setup drill.Setup, e frame, inWindow bool) {
	made := e.ballWentTo(b, setup.WingBall(), setup.WingPocket())
	t.watched++
	if made {
		t.wingMade++
	} else {
		t.misses.addMiss(b, setup.WingBall())
	}
	if !made && !inWindow {
		t.lost++
	}
	if made && inWindow && b.Shot != "" {
		t.shotKnown++
		if b.Shot == drill.ShotNone {
			t.noShot++
		}
	}
}

// addShot counts whether there was a shot and what came of it, where it was written
// down.
func (t *breakTally) addShot(b *drill.Break) {
	switch {
	case b.Cue.How != drill.Stopped || len(b.Off) > 0:
		t.shotLost++
	case b.Shot == drill.ShotOpen:
		t.openShot++
		t.shotSeen++
	case b.Shot != "":
		t.shotSeen++
	}
	if b.RanOut != "" {
		t.runsSeen++
	}
	if b.RanOut == drill.RanOutYes {
		t.ranOut++
	}
}

// countOpenShots returns how many breaks left an open shot, of all that it is known of:
// fouls count where anybody noted shots.
func (t *breakTally) countOpenShots() (open, of int) {
	if t.shotSeen == 0 {
		return 0, 0
	}
	return t.openShot, t.shotSeen + t.shotLost
}

func (e frame) ballWentTo(b *drill.Break, ball rack.Ball, pocket table.Pocket) bool {
	for _, p := range b.Pocketed {
		if p.Ball == ball {
			return e.turnPocket(p.Pocket) == pocket
		}
	}
	return false
}

// addMiss counts a miss. A wing ball that dropped elsewhere says nothing of the
// side it missed on.
func (m *missCounts) addMiss(b *drill.Break, wing rack.Ball) {
	if _, elsewhere := b.PocketOf(wing); elsewhere {
		m.unseen++
		return
	}
	switch b.WingMiss {
	case drill.MissSideRail:
		m.side++
	case drill.MissFootRail:
		m.foot++
	case drill.MissKissed:
		m.kissed++
	case drill.MissJaws:
		m.jaws++
	default:
		m.unseen++
	}
}

func (t *breakTally) addLegality(b *drill.Break) {
	if b.HasBallsOff() {
		t.off++
	}
	if b.IsDry() {
		t.dry++
	} else if b.IsWatched() && b.Cue.How == drill.Stopped && len(b.Off) == 0 {
		t.clean++
	}
	if weak, known := b.IsWeak(); known {
		t.weakKnown++
		if weak {
			t.weak++
		}
	}
}

// addBreak counts where the head ball went: to the far side pocket, as it should,
// or past it on the foot side.
func (h *headTally) addBreak(b *drill.Break, head rack.Ball, e frame) {
	far := table.Right
	if pocket, dropped := b.PocketOf(head); dropped {
		h.known++
		switch e.turnPocket(pocket) {
		case table.SidePocket(far):
			h.farSide++
		case table.FootCorner(far):
			h.long++
		}
		return
	}
	for _, r := range b.Rest {
		if r.Ball != head {
			continue
		}
		h.known++
		if p := e.turnPlace(r.Place); p.X > 0 && p.Y > e.kind.Length()*5/8 {
			h.long++
		}
	}
}

func (t *breakTally) addSlotEnds(b *drill.Break, setup drill.Setup, e frame) {
	if len(b.Rest) == 0 {
		return
	}
	if t.slots == nil {
		t.slots = make(map[rack.Slot]slotEnds)
	}
	for _, r := range b.Rest {
		slot, racked := setup.Order.SlotOf(setup.Game, r.Ball)
		if !racked {
			continue
		}
		at := t.slots[slot]
		at.known++
		if r.Place.Y < e.kind.Length()/2 {
			at.headHalf++
		}
		t.slots[slot] = at
	}
}
