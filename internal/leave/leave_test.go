package leave

import (
	"slices"
	"testing"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
)

func broken(g rack.Game, cue drill.CueEnd) (drill.Break, drill.Setup) {
	return drill.Break{Number: 1, Cue: cue}, drill.StandardSetup(g, table.Left, table.NineFoot())
}

func stopped(x, y table.Inches) drill.CueEnd {
	return drill.CueEnd{How: drill.Stopped, Place: table.Place{X: x, Y: y}}
}

func dropped(balls ...rack.Ball) []drill.Pocketed {
	var list []drill.Pocketed
	for _, b := range balls {
		list = append(list, drill.Pocketed{Ball: b, Pocket: table.FootLeft})
	}
	return list
}

// Lowest ball on the table in nine-ball and ten-ball (WPA rules of play 2016, 2;
// 2008, 9); in eight-ball the table is open after the break whatever dropped, so
// all but the 8 (WPA rules of play 2016, 3).
func TestFromBreak_Targets(t *testing.T) {
	b, s := broken(rack.NineBall, stopped(0, 40))
	b.Pocketed = dropped(1, 2, 3)
	b.Rest = []drill.RestingBall{{Ball: 5, Place: table.Place{X: 3, Y: 3}}}
	l := FromBreak(b, s, table.NineFoot())
	if got := l.Targets(); !slices.Equal(got, []rack.Ball{4}) {
		t.Errorf("nine-ball: targets %v, want the 4", got)
	}
	if !slices.Equal(l.Unplaced, []rack.Ball{4, 6, 7, 8, 9}) || l.Hand != InPlay {
		t.Errorf("unplaced %v, in hand %q", l.Unplaced, l.Hand)
	}
	b, s = broken(rack.EightBall, stopped(0, 40))
	b.Pocketed = dropped(1, 9)
	if got := FromBreak(b, s, table.NineFoot()).Targets(); len(got) != 12 || slices.Contains(got, 8) {
		t.Errorf("eight-ball: targets %v", got)
	}
}

// Cue ball in hand after a foul on the break: anywhere, in eight-ball behind the
// head string (WPA rules of play 2016, 2.7, 3.3). To drive an object ball off the
// table is a foul as well (6.5).
func TestFromBreak_Hand(t *testing.T) {
	scratch := drill.CueEnd{How: drill.Scratched, Scratch: table.SideRight}
	for g, want := range map[rack.Game]CueBallHand{rack.NineBall: Anywhere, rack.TenBall: Anywhere, rack.EightBall: Kitchen} {
		for _, end := range []drill.CueEnd{scratch, {How: drill.OffTable}} {
			b, s := broken(g, end)
			if got := FromBreak(b, s, table.NineFoot()).Hand; got != want {
				t.Errorf("%s, %s: in hand %q, want %q", g, end.How, got, want)
			}
		}
		b, s := broken(g, stopped(0, 40))
		b.Off = []rack.Ball{2}
		if l := FromBreak(b, s, table.NineFoot()); l.Hand != want || slices.Contains(l.Unplaced, 2) {
			t.Errorf("%s, the 2 off the table: in hand %q, want %q; unplaced %v", g, l.Hand, want, l.Unplaced)
		}
	}
}

// The money ball on the break: the 9 wins, unless there was a foul, and is spotted
// then; the 10 and the 8 are spotted (WPA rules of play 2016, 2.5, 2.6, 3.3; 2008,
// ch. 9).
func TestFromBreak_MoneyBall(t *testing.T) {
	b, s := broken(rack.NineBall, stopped(0, 40))
	b.Pocketed = dropped(9)
	if l := FromBreak(b, s, table.NineFoot()); !l.Won || l.Targets() != nil {
		t.Errorf("the 9 on the break: %+v", l)
	}
	b.Cue = drill.CueEnd{How: drill.OffTable}
	l := FromBreak(b, s, table.NineFoot())
	if at, known := l.Place(9); l.Won || !known || at != table.NineFoot().FootSpot() {
		t.Errorf("the 9 with a foul is at %v (%v)", at, known)
	}
	b, s = broken(rack.TenBall, stopped(1, 75.5))
	b.Pocketed = dropped(10)
	l = FromBreak(b, s, table.NineFoot())
	at, known := l.Place(10)
	if !known || at.X != 0 || at.Distance(l.Cue) < table.BallDiameter || at.Distance(l.Cue) > table.BallDiameter+1e-6 || at.Y < 75 {
		t.Errorf("the 10 is spotted at %v (%v), touching behind the cue ball at %v", at, known, l.Cue)
	}
}

func TestFindShots_SaysWhatItKnows(t *testing.T) {
	b, s := broken(rack.NineBall, stopped(-3.5, 41))
	b.Rest = []drill.RestingBall{{Ball: 1, Place: table.Place{X: -20, Y: 31}}}
	l := FromBreak(b, s, table.NineFoot())
	a := FindShots(l, PlayerAt(Club))
	if a.Shot != drill.ShotOpen || a.Certain || a.Ball != 1 {
		t.Errorf("%+v", a)
	}
	if says := a.Describe(l); says != "An open shot on the 1 into the left head corner, about 8 of 10, if nothing else lies on the line." {
		t.Error(says)
	}
	b.Rest = nil
	l = FromBreak(b, s, table.NineFoot())
	if a := FindShots(l, PlayerAt(Club)); a.Shot != "" || a.Ball != 1 || a.Describe(l) != "Not known: the 1 was not placed." {
		t.Errorf("%+v", a)
	}
	// Every direct way is shut, and more balls would not open one.
	l = lie(table.Place{X: 0, Y: 3}, table.Place{X: 8, Y: 75}, table.Place{X: 0.2, Y: 5.5}, table.Place{X: 2.3, Y: 4.5}, table.Place{X: -2.3, Y: 4.5})
	l.Unplaced = []rack.Ball{7}
	a = FindShots(l, Player{Club, Lines{Open: 0.5, Hard: 0.3}})
	if a.Shot != drill.ShotNone || !a.Certain || a.Describe(l) != "No shot on the 1: the 2 in the way." {
		t.Errorf("%s: %s %v", a.Describe(l), a.Shot, a.Certain)
	}
}

// With the cue ball in hand a ball in the open is an open shot; one that a wall of
// balls shuts off from every pocket is not.
func TestFindShots_InHand(t *testing.T) {
	l := lie(table.Place{}, table.Place{X: 10, Y: 30})
	l.Hand = Anywhere
	if a := FindShots(l, PlayerAt(Beginner)); a.Shot != drill.ShotOpen || a.Shots[0].Cut > 30 {
		t.Errorf("%+v", a)
	}
	l.Game, l.Hand = rack.EightBall, Kitchen
	l.Placed[0].Place = table.Place{X: 10, Y: 5} // behind the head string as well (WPA rules of play 2016, 6.11)
	if a := FindShots(l, PlayerAt(Beginner)); a.Shot != drill.ShotNone || len(a.Shots) != 0 {
		t.Errorf("from behind the head string at a ball behind it: %+v", a)
	}
	l.Placed[0].Place = table.Place{X: 10, Y: 35}
	shots := FindShots(l, PlayerAt(Beginner)).Shots
	if len(shots) == 0 {
		t.Error("from behind the head string there is no shot at a ball before it")
	}
	for _, s := range shots {
		if s.Cue.Y >= l.Kind.HeadString() {
			t.Errorf("played from %v, not from behind the head string", s.Cue)
		}
	}
	ring := []table.Place{{X: 0, Y: 50}}
	for i := range 6 {
		ring = append(ring, ring[0].MovedBy(table.Vector{X: diameter}.TurnedBy(float64(i)*1.0472)))
	}
	l = lie(table.Place{}, ring...)
	l.Hand = Anywhere
	if a := FindShots(l, PlayerAt(Expert)); a.Shot != drill.ShotNone {
		t.Errorf("out of a ring of balls: %+v", a)
	}
}
