package advice

import (
	"testing"

	"breakwright/internal/drill"
	"breakwright/internal/evidence"
	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// onNineFoot is a 9-foot table's frame, 50 inches by 100, with a window from the head
// string to the centre, 25 inches wide.
var onNineFoot = frame{kind: table.NineFoot(), window: table.NineFoot().StandardWindow()}

func stopped(x, y table.Inches, path drill.CuePath) *drill.Break {
	return &drill.Break{Cue: drill.CueEnd{How: drill.Stopped, Place: table.Place{X: x, Y: y}}, CuePath: path}
}

// Where the cue ball stopped, with what was seen of its way, is what it is counted as.
func TestCueTally_WhereItStopped(t *testing.T) {
	for _, c := range []struct {
		name string
		b    *drill.Break
		want cueTally
	}{
		{"in the window", stopped(0, 40, drill.PathBack), cueTally{inWindow: 1, across: 1}},
		{"on its corner, out on the break side", stopped(-12.5, 50, drill.PathBack), cueTally{inWindow: 1, across: 1}},
		{"well across", stopped(6.3, 40, drill.PathBack), cueTally{inWindow: 1, across: 1, farSide: 1}},
		{"an eighth of the width across", stopped(6.25, 40, drill.PathBack), cueTally{inWindow: 1, across: 1}},
		{"wide on the break side", stopped(-12.6, 40, drill.PathBack), cueTally{across: 1, nearSide: 1, wide: 1}},
		{"wide on the far side", stopped(12.6, 40, drill.PathBack), cueTally{across: 1, farSide: 1, wide: 1, wideFar: 1}},
		{"wide, as far down as the window's foot", stopped(20, 50, drill.PathBack), cueTally{across: 1, farSide: 1, wide: 1, wideFar: 1}},
		{"wide, on the head string", stopped(20, 25, drill.PathBack), cueTally{across: 1, farSide: 1, wide: 1, wideFar: 1}},
		{"moved by another ball", stopped(20, 40, drill.PathHit), cueTally{}},
		{"behind the head string", stopped(0, 24.9, drill.PathBack), cueTally{across: 1, back: 1}},
		{"behind it, gone forward first", stopped(0, 24.9, drill.PathForward), cueTally{across: 1}},
		{"off the head rail to the foot end", stopped(0, 50.1, drill.PathHeadRail), cueTally{across: 1, back: 1}},
		{"not back as far as the window", stopped(0, 50.1, drill.PathBack), cueTally{across: 1, forward: 1}},
		{"forward", stopped(0, 80, drill.PathForward), cueTally{across: 1, forward: 1}},
		{"at the foot end, nobody saw how", stopped(0, 80, ""), cueTally{across: 1, lostFoot: 1}},
		{"scratched in the far side pocket", &drill.Break{Cue: drill.CueEnd{How: drill.Scratched, Scratch: table.SideRight}}, cueTally{scratchFar: 1}},
		{"in the near one", &drill.Break{Cue: drill.CueEnd{How: drill.Scratched, Scratch: table.SideLeft}}, cueTally{scratchNear: 1}},
		{"in a head corner", &drill.Break{Cue: drill.CueEnd{How: drill.Scratched, Scratch: table.HeadLeft}}, cueTally{scratchHead: 1}},
		{"in a foot corner", &drill.Break{Cue: drill.CueEnd{How: drill.Scratched, Scratch: table.FootRight}}, cueTally{scratchFoot: 1}},
		{"off the table", &drill.Break{Cue: drill.CueEnd{How: drill.OffTable}}, cueTally{offTable: 1}},
	} {
		var got cueTally
		in := got.addBreak(c.b, onNineFoot)
		got.rests = nil
		if in != (c.want.inWindow == 1) || !sameCounts(got, c.want) {
			t.Errorf("%s: %+v, want %+v", c.name, got, c.want)
		}
	}
}

func sameCounts(a, b cueTally) bool {
	a.rests, b.rests = nil, nil
	return a.inWindow == b.inWindow && a.countScratches() == b.countScratches() && a.scratchFar == b.scratchFar && a.scratchHead == b.scratchHead &&
		a.scratchFoot == b.scratchFoot && a.offTable == b.offTable && a.forward == b.forward && a.back == b.back && a.lostFoot == b.lostFoot &&
		a.wide == b.wide && a.wideFar == b.wideFar && a.across == b.across && a.farSide == b.farSide && a.nearSide == b.nearSide
}

// Where the cue ball stops is summed up from three stops on, and half of such a cloud lies
// in the ellipse.
func TestCueBallSummary_FromThreeStopsOn(t *testing.T) {
	for n, want := range map[string]bool{"mm": false, "mmm": true} {
		l := analysisOf(scripted(t, standardSetup(), n, "wfb"[:len(n)]))
		got := newAdviceWriter(l, decision{}, false).summarizeCueBall()
		if (got != nil) != want {
			t.Errorf("of %d stops: %+v", len(n), got)
		}
		if got != nil {
			half := evidence.ScatterOf(l.currentTally().cue.rests).EllipseHolding(0.5)
			if got.Stopped != 3 || got.Major != half.Major || got.Minor != half.Minor {
				t.Errorf("%+v, want half of them in %+v", got, half)
			}
		}
	}
}

// A good break has a ball down, the cue ball at rest on the table, and nothing on the
// floor, seen by somebody.
func TestTally_WhatIsAGoodBreak(t *testing.T) {
	s := standardSetup()
	down := []drill.Pocketed{{Ball: s.WingBall(), Pocket: s.WingPocket()}}
	for _, c := range []struct {
		name string
		b    drill.Break
		good bool
	}{
		{"a ball down", drill.Break{Pocketed: down, Cue: stopped(0, 40, "").Cue}, true},
		{"nothing down", drill.Break{Cue: stopped(0, 40, "").Cue}, false},
		{"a scratch", drill.Break{Pocketed: down, Cue: drill.CueEnd{How: drill.Scratched, Scratch: table.FootLeft}}, false},
		{"the cue ball on the floor", drill.Break{Pocketed: down, Cue: drill.CueEnd{How: drill.OffTable}}, false},
		{"a ball on the floor", drill.Break{Pocketed: down, Off: []rack.Ball{5}, Cue: stopped(0, 40, "").Cue}, false},
		{"nobody watched", drill.Break{Pocketed: down, WingMiss: drill.NotWatched, Cue: stopped(0, 40, "").Cue}, false},
	} {
		var n breakTally
		n.addLegality(&c.b)
		if (n.clean == 1) != c.good {
			t.Errorf("%s: good is %v", c.name, n.clean == 1)
		}
	}
}

// A shot left, and a rack run out, count where they were written down. No shot is held
// against a break that was good otherwise: the wing ball made, the cue ball in the window.
func TestTally_ShotsAndRunOuts(t *testing.T) {
	s := standardSetup()
	made := []drill.Pocketed{{Ball: s.WingBall(), Pocket: s.WingPocket()}}
	in, out := stopped(0, 40, drill.PathBack).Cue, stopped(0, 90, drill.PathForward).Cue
	for _, c := range []struct {
		name string
		b    drill.Break
		want breakTally
	}{
		{"no shot after a good break", drill.Break{Pocketed: made, Cue: in, Shot: drill.ShotNone}, breakTally{noShot: 1, shotKnown: 1, shotSeen: 1}},
		{"a hard one", drill.Break{Pocketed: made, Cue: in, Shot: drill.ShotHard}, breakTally{shotKnown: 1, shotSeen: 1}},
		{"an open one", drill.Break{Pocketed: made, Cue: in, Shot: drill.ShotOpen}, breakTally{shotKnown: 1, shotSeen: 1, openShot: 1}},
		{"not written down", drill.Break{Pocketed: made, Cue: in}, breakTally{}},
		{"no shot, the wing ball up", drill.Break{Cue: in, Shot: drill.ShotNone}, breakTally{shotSeen: 1}},
		{"no shot, outside the window", drill.Break{Pocketed: made, Cue: out, Shot: drill.ShotNone}, breakTally{shotSeen: 1}},
		{"a scratch", drill.Break{Pocketed: made, Cue: drill.CueEnd{How: drill.Scratched, Scratch: table.SideRight}}, breakTally{shotLost: 1}},
		{"a ball off the table", drill.Break{Pocketed: made, Cue: out, Off: []rack.Ball{2}, Shot: drill.ShotOpen}, breakTally{shotLost: 1}},
		{"run out", drill.Break{Cue: in, RanOut: drill.RanOutYes}, breakTally{ranOut: 1, runsSeen: 1}},
		{"not run out", drill.Break{Cue: in, RanOut: drill.RanOutNo}, breakTally{runsSeen: 1}},
	} {
		var n breakTally
		n.addSet(drill.Set{Breaks: []drill.Break{c.b}}, s, onNineFoot)
		got := [6]int{n.noShot, n.shotKnown, n.openShot, n.shotSeen, n.shotLost, 10*n.ranOut + n.runsSeen}
		want := [6]int{c.want.noShot, c.want.shotKnown, c.want.openShot, c.want.shotSeen, c.want.shotLost, 10*c.want.ranOut + c.want.runsSeen}
		if got != want {
			t.Errorf("%s: %v, want %v", c.name, got, want)
		}
	}
}

// The goal counts as the pages do: a foul leaves no shot; with nothing noted nothing is
// known.
func TestTally_CountOpenShots(t *testing.T) {
	seen, lost := breakTally{openShot: 4, shotSeen: 9, shotLost: 1}, breakTally{shotLost: 3}
	if open, of := seen.countOpenShots(); open != 4 || of != 10 {
		t.Errorf("%d of %d, want 4 of 10", open, of)
	}
	if open, of := lost.countOpenShots(); open != 0 || of != 0 {
		t.Errorf("nothing noted, but %d of %d", open, of)
	}
}

// The head ball went long where it came to rest across the long string, five eighths of the
// table down or more, or dropped in the far foot corner; the far side pocket is its own.
func TestTally_WhereTheHeadBallWent(t *testing.T) {
	s := standardSetup()
	rest := func(x, y table.Inches) drill.Break {
		return drill.Break{Cue: stopped(0, 40, "").Cue, Rest: []drill.RestingBall{{Ball: s.HeadBall(), Place: table.Place{X: x, Y: y}}}}
	}
	drop := func(p table.Pocket) drill.Break {
		return drill.Break{Cue: stopped(0, 40, "").Cue, Pocketed: []drill.Pocketed{{Ball: s.HeadBall(), Pocket: p}}}
	}
	for _, c := range []struct {
		name string
		b    drill.Break
		want headTally
	}{
		{"long", rest(0.5, 62.6), headTally{known: 1, long: 1}},
		{"not so far down", rest(0.5, 62.5), headTally{known: 1}},
		{"on the break side", rest(-0.5, 80), headTally{known: 1}},
		{"on the long string", rest(0, 80), headTally{known: 1}},
		{"in its pocket", drop(table.SideRight), headTally{known: 1, farSide: 1}},
		{"past it", drop(table.FootRight), headTally{known: 1, long: 1}},
		{"in the near corner", drop(table.FootLeft), headTally{known: 1}},
		{"nobody saw", drill.Break{Cue: stopped(0, 40, "").Cue}, headTally{}},
	} {
		var n breakTally
		n.addSet(drill.Set{Breaks: []drill.Break{c.b}}, s, onNineFoot)
		if n.head != c.want {
			t.Errorf("%s: %+v, want %+v", c.name, n.head, c.want)
		}
	}
}

// A ball of the rack stopped in the head half, or beyond it.
func TestTally_WhereTheBallsOfASlotStop(t *testing.T) {
	s := standardSetup()
	slot, _ := s.Order.SlotOf(s.Game, 2)
	for y, want := range map[table.Inches]slotEnds{49.9: {headHalf: 1, known: 1}, 40: {headHalf: 1, known: 1}, 50: {known: 1}, 80: {known: 1}} {
		var n breakTally
		b := drill.Break{Cue: stopped(0, 40, "").Cue, Rest: []drill.RestingBall{{Ball: 2, Place: table.Place{X: 5, Y: y}}}}
		n.addSet(drill.Set{Breaks: []drill.Break{b}}, s, onNineFoot)
		if n.slots[slot] != want {
			t.Errorf("at %v in down: %+v, want %+v", y, n.slots[slot], want)
		}
	}
}
