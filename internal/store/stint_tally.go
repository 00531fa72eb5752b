package store

import (
	"context"

	"github.com/google/uuid"

	"breakwright/internal/drill"
	"breakwright/internal/store/internal/query"
	"breakwright/internal/table"
)

// Tally counts what was seen in breaks of one student: of a set, or of a stint.
// Every number is at most Breaks. Tallies of other breaks can be added.
type Tally struct {
	Breaks int
	// WingMade and Dry count of the Watched: a drill may ask for the cue ball alone.
	Watched, WingMade int
	// What a wing ball that stayed up met first, where it was seen; one that
	// dropped elsewhere is in none of them.
	MissSide, MissFoot, MissKissed, MissJaws int
	// InWindow counts cue balls that stopped in the window of their set.
	InWindow                              int
	ScratchHead, ScratchSide, ScratchFoot int
	// CueOff counts cue balls that left the table, BallsOff breaks in which any
	// ball did.
	CueOff, BallsOff int
	Dry              int
	// Weak of WeakKnown breaks were short of the rules (drill.Break.IsWeak).
	Weak, WeakKnown int
}

// Scratches counts them in all pockets.
func (t Tally) Scratches() int { return t.ScratchHead + t.ScratchSide + t.ScratchFoot }

// MissUnseen counts wing balls that stayed up in a way nobody saw, or dropped
// elsewhere.
func (t Tally) MissUnseen() int {
	return t.Watched - t.WingMade - t.MissSide - t.MissFoot - t.MissKissed - t.MissJaws
}

// Plus adds the counts of other breaks.
func (t Tally) Plus(o Tally) Tally { return t.addSigned(o, 1) }

// addSigned adds or, with a sign of -1, takes away.
func (t Tally) addSigned(o Tally, sign int) Tally {
	into, from := t.countPointers(), o.countPointers()
	for i := range into {
		*into[i] += sign * *from[i]
	}
	return t
}

// countPointers are the places of all numbers, so that none is forgotten in a sum.
func (t *Tally) countPointers() [16]*int {
	return [...]*int{
		&t.Breaks, &t.Watched, &t.WingMade, &t.MissSide, &t.MissFoot, &t.MissKissed, &t.MissJaws, &t.InWindow,
		&t.ScratchHead, &t.ScratchSide, &t.ScratchFoot, &t.CueOff, &t.BallsOff, &t.Dry, &t.Weak, &t.WeakKnown,
	}
}

// TallyOf counts one break under a setup, the window being where its cue ball
// should have stopped.
func TallyOf(b drill.Break, s drill.Setup, w table.Window) Tally {
	weak, known := b.IsWeak()
	made := b.WingMade(s)
	_, dropped := b.PocketOf(s.WingBall())
	t := Tally{
		Breaks: 1, Watched: oneIfTrue(b.IsWatched()), WingMade: oneIfTrue(made), InWindow: oneIfTrue(b.InWindow(w)), Dry: oneIfTrue(b.IsDry()),
		CueOff: oneIfTrue(b.Cue.How == drill.OffTable), BallsOff: oneIfTrue(b.HasBallsOff()), Weak: oneIfTrue(weak), WeakKnown: oneIfTrue(known),
	}
	if !dropped {
		t.MissSide, t.MissFoot = oneIfTrue(b.WingMiss == drill.MissSideRail), oneIfTrue(b.WingMiss == drill.MissFootRail)
		t.MissKissed, t.MissJaws = oneIfTrue(b.WingMiss == drill.MissKissed), oneIfTrue(b.WingMiss == drill.MissJaws)
	}
	if b.Cue.How == drill.Scratched {
		p := b.Cue.Scratch
		t.ScratchHead, t.ScratchSide, t.ScratchFoot = oneIfTrue(p.IsHead()), oneIfTrue(p.IsSide()), oneIfTrue(p.IsFoot())
	}
	return t
}

func oneIfTrue(yes bool) int {
	if yes {
		return 1
	}
	return 0
}

// createTally makes the row of a set that has just been made.
func (t *tx) createTally(ctx context.Context, set query.InsertSetParams, w table.Window) error {
	return t.InsertTally(ctx, query.InsertTallyParams{
		ClubID: set.ClubID, SetID: set.ID, StudentID: set.StudentID, StartedAt: set.StartedAt,
		WindowLeft: float64(w.Left), WindowRight: float64(w.Right), WindowHead: float64(w.Head), WindowFoot: float64(w.Foot),
	})
}

// saveTally writes what is counted in a set, which must be locked.
func (t *tx) saveTally(ctx context.Context, set uuid.UUID, n Tally) error {
	return t.UpdateTally(ctx, query.UpdateTallyParams{
		SetID: set, Breaks: n.Breaks, Watched: n.Watched, WingMade: n.WingMade, MissSide: n.MissSide, MissFoot: n.MissFoot,
		MissKissed: n.MissKissed, MissJaws: n.MissJaws, InWindow: n.InWindow,
		ScratchHead: n.ScratchHead, ScratchSide: n.ScratchSide, ScratchFoot: n.ScratchFoot,
		CueOff: n.CueOff, BallsOff: n.BallsOff, Dry: n.Dry, Weak: n.Weak, WeakKnown: n.WeakKnown,
	})
}

// adjustTally changes a locked set's tally by a break that was written: was is nil
// for a new one, and is nil for one that was deleted. One that was deleted before does
// not count.
func (t *tx) adjustTally(ctx context.Context, set lockedSet, was *keptBreak, is *drill.Break) error {
	n := set.tally
	if was != nil && !was.isDeleted {
		n = n.addSigned(TallyOf(was.Break.Break, set.setup, set.window), -1)
	}
	if is != nil {
		n = n.Plus(TallyOf(*is, set.setup, set.window))
	}
	return t.saveTally(ctx, set.ID, n)
}
