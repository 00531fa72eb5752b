package leave

import (
	"math"
	"slices"
	"testing"

	"breakwright/internal/drill"
	"breakwright/internal/table"
)

// Aim error to cut for two balls in a line, centres d apart: sin c = d sin a / 2R
// (geometry; d = 50 in gives 5.564, 11.182 and 22.820 degrees for errors of 0.25,
// 0.5 and 1 degree).
func TestObjectTurn_AimErrorToCut(t *testing.T) {
	for a, want := range map[float64]float64{0.25: 5.564, 0.5: 11.182, 1: 22.820} {
		turned := objectTurn(a*math.Pi/180, 50)
		near(t, "cut", a-turned*180/math.Pi, want, 0.001)
		near(t, "back", cueTurn(turned, 50)*180/math.Pi, a, 1e-9)
	}
}

// Hit fraction and cut angle: arcsin(1-f), so a half-ball hit cuts by 30 degrees
// and a quarter ball by 48.590 (geometry, no throw). The cue ball stands so that
// its line, sent at the edge of the ball, is off its centre by (1-f) of a ball.
func TestShot_CutByFraction(t *testing.T) {
	for f, want := range map[float64]float64{1: 0, 0.75: 14.478, 0.5: 30, 0.25: 48.590} {
		off := (1 - f) * diameter
		apart := 30.0
		turned := objectTurn(math.Asin(off/apart), apart)
		near(t, "cut", math.Asin(off/apart)*180/math.Pi-turned*180/math.Pi, want, 0.001)
	}
}

// A ball straight in front of a corner at 36 in of a 4.5-in mouth has a room of
// ±1.790 degrees when the pocket is a gap whose edges the ball must not touch
// (geometry: atan((mouth-D)/2/dist)). Jaws that turn balls in give more: at least
// that, and no more than if only the ball's middle had to get in (3.58 degrees).
func TestMouthSpan_StraightInFrontOfACorner(t *testing.T) {
	k := table.NineFoot()
	m := k.PocketMouth(table.FootRight)
	for dist, clean := range map[float64]float64{12: 5.356, 24: 2.684, 36: 1.790} {
		_, s := mouthSpan(m.Middle.MovedBy(m.In.ScaledBy(-dist)), m)
		half := s.width() / 2 * 180 / math.Pi
		most := math.Atan(2.25/dist) * 180 / math.Pi
		if !(half >= clean && half < most) {
			t.Errorf("at %g in the room is ±%.3f°, want from %.3f to %.3f", dist, half, clean, most)
		}
	}
}

// Of all straight shots with the same way from cue ball to pocket the one with
// the ball halfway is the hardest (Alciatore, technical proof on straight shots;
// restated in the manual of an open-source billiards simulator). The way is
// counted to where the ball must pass, and between centres less a ball.
func TestShot_StraightIsHardestHalfway(t *testing.T) {
	m := table.NineFoot().PocketMouth(table.FootRight)
	at := func(d float64) table.Place { return m.Middle.MovedBy(m.In.ScaledBy(-d)) }
	const whole = 50.0
	worst, where := math.Inf(1), 0.0
	for d := 6.0; d <= 44; d += 0.5 {
		s := into(t, lie(at(whole), at(d)), Club, table.FootRight)
		if w := float64(s.Window); w < worst {
			worst, where = w, d
		}
	}
	near(t, "the hardest distance to the pocket", where, (whole-diameter)/2, 1.5)
}

// "The side pocket is typically larger than the corner pocket", and "at slow
// speeds and certain angles the corner pocket's effective target is larger than
// the side's" (Alciatore, "Just how big are the pockets, anyway?", part I).
func TestMouthSpan_SideAgainstCorner(t *testing.T) {
	k := table.NineFoot()
	width := func(p table.Pocket, fromSquare float64) float64 {
		m := k.PocketMouth(p)
		on := m.Middle.MovedBy(m.In.TurnedBy(fromSquare * math.Pi / 180).ScaledBy(-24))
		line, s := mouthSpan(on, m)
		return brushed(k, on, m, line, s).width()
	}
	if s, c := width(table.SideRight, 0), width(table.FootRight, 0); s <= c {
		t.Errorf("square to the mouth the side is %.4f wide, the corner %.4f", s, c)
	}
	if s, c := width(table.SideRight, 40), width(table.FootRight, 40); s >= c {
		t.Errorf("at 40° the side is %.4f wide, the corner %.4f", s, c)
	}
	if w := width(table.SideRight, 72); w > 0 {
		t.Errorf("a side pocket at 72° is still %.4f wide", w)
	}
}

// A ball frozen to the side rail can be sent along it, and cannot be cut off it:
// the cue ball would have to be inside the cushion.
func TestFindShots_FrozenToTheRail(t *testing.T) {
	on := table.Place{X: 23.875, Y: 70}
	along := into(t, lie(table.Place{X: 20, Y: 40}, on), Club, table.FootRight)
	if along.Chance < 0.3 {
		t.Errorf("along the rail: %+v", along)
	}
	for _, s := range FindShots(lie(table.Place{X: 22, Y: 98}, on), PlayerAt(Club)).Shots {
		if s.Way == Direct && s.Pocket == table.HeadLeft {
			t.Errorf("a frozen ball was cut off its rail: %+v", s)
		}
	}
	if off := table.Place(on.MovedBy(table.Vector{X: -1.5})); into(t, lie(table.Place{X: 22, Y: 98}, off), Club, table.HeadLeft).Chance == 0 {
		t.Error("an inch and a half off the rail it cannot be cut either")
	}
}

// Two frozen balls in line with a pocket go in wherever the first is struck
// (without throw), and out of line not at all.
func TestFindShots_CueBallFrozenToTheBall(t *testing.T) {
	m := table.NineFoot().PocketMouth(table.FootRight)
	on := m.Middle.MovedBy(m.In.ScaledBy(-20))
	if s := into(t, lie(on.MovedBy(m.In.ScaledBy(-diameter)), on), Beginner, table.FootRight); s.Chance < 0.999 {
		t.Errorf("dead in line: %+v", s)
	}
	a := FindShots(lie(on.MovedBy(m.In.TurnedBy(0.3).ScaledBy(-diameter)), on), PlayerAt(Beginner))
	for _, s := range a.Shots {
		if s.Way == Direct && s.Pocket == table.FootRight && s.Chance > 0 {
			t.Errorf("out of line: %+v", s)
		}
	}
}

func TestFindShots_BlockersAreNamed(t *testing.T) {
	m := table.NineFoot().PocketMouth(table.FootRight)
	at := func(d float64) table.Place { return m.Middle.MovedBy(m.In.ScaledBy(-d)) }
	for name, c := range map[string]struct {
		two    table.Place
		closed bool
	}{
		"between cue ball and ball": {at(30), true},
		"between ball and pocket":   {at(10), true},
		"hanging in the pocket":     {m.Middle, true},
		"behind the cue ball":       {at(50), false},
		"behind the ball's pocket":  {table.Place{X: -20, Y: 20}, false},
		"beside the line":           {at(10).MovedBy(table.Vector{X: -4, Y: 4}), false},
	} {
		s := into(t, lie(at(40), at(20), c.two), Club, table.FootRight)
		if blocked := s.Chance == 0; blocked != c.closed || blocked != slices.Contains(s.BlockedBy, 2) {
			t.Errorf("%s: chance %g, blocked by %v", name, s.Chance, s.BlockedBy)
		}
	}
	part := into(t, lie(at(40), at(20), at(10).MovedBy(table.Vector{X: -1, Y: 1}.UnitVector().ScaledBy(2.6))), Club, table.FootRight)
	whole := into(t, lie(at(40), at(20)), Club, table.FootRight)
	if !(part.Chance > 0 && part.Chance < whole.Chance) || !slices.Contains(part.BlockedBy, 2) {
		t.Errorf("partly in the way: %g of %g, by %v", part.Chance, whole.Chance, part.BlockedBy)
	}
}

// A bank and a kick go where a looking-glass says: equal angles at the line on
// which a ball's middle turns, 1.083 in off the nose.
func TestFindShots_BanksAndKicksTurnLikeLight(t *testing.T) {
	l := lie(table.Place{X: -5, Y: 40}, table.Place{X: -15, Y: 55}, table.Place{X: -17, Y: 92})
	seen := map[Way]int{}
	for _, s := range FindShots(l, PlayerAt(Expert)).Shots {
		if s.Way == Direct {
			continue
		}
		seen[s.Way]++
		_, out := l.Kind.TurningLine(s.Rail)
		on, _ := l.Place(1)
		from, to := on, l.Kind.ReflectPlace(s.Target, s.Rail)
		if s.Way == Kick {
			from, to = s.Cue, s.Ghost
		}
		in, off := from.VectorTo(s.Turn).UnitVector(), s.Turn.VectorTo(to).UnitVector()
		near(t, string(s.Way)+"'s angle off the rail", -off.Dot(out), in.Dot(out), 1e-9)
		near(t, "along the rail", off.Dot(in.WithoutPartAlong(out)), in.WithoutPartAlong(out).Dot(in), 1e-9)
		if l.Kind.SettleBall(s.Turn).Distance(s.Turn) > 0.05 {
			t.Errorf("%s turns at %v, not at a rail", s.Way, s.Turn)
		}
	}
	if seen[Bank] == 0 || seen[Kick] == 0 {
		t.Errorf("found %v", seen)
	}
}

// Snookered from a ball that hangs in the pocket there is an easy kick, and it is
// never called open.
func TestFindShots_KicksAreNeverOpen(t *testing.T) {
	m := table.NineFoot().PocketMouth(table.FootRight)
	l := lie(table.Place{X: 10, Y: 70}, m.Middle.MovedBy(m.In.ScaledBy(-1)), table.Place{X: 14.5, Y: 79})
	p := Player{Expert, Lines{Open: 0.4, Hard: 0.1}}
	a := FindShots(l, p)
	if a.Shot != drill.ShotHard || a.Shots[0].Way != Kick || a.Shots[0].Chance < p.Lines.Open {
		t.Errorf("%+v", a)
	}
	if says := a.Describe(l); says != "Only a kick on the 1 into the right foot corner, "+ChanceWords(a.Shots[0].Chance)+"." {
		t.Error(says)
	}
}

// A ball on a rail is not turned by that rail: the cue ball cannot be sent into it, and a
// banked ball comes back into the cue ball (MODEL.md). Half an inch off it both are shots.
func TestFindShots_NoTurnAtTheRailABallLiesOn(t *testing.T) {
	off := func(from, y table.Inches) table.Place { return table.Place{X: table.BallRadius - 25 + from, Y: y} }
	for name, c := range map[string]struct {
		way Way
		lie func(from table.Inches) Leave
	}{
		"kick": {Kick, func(from table.Inches) Leave { return lie(off(from, 80), table.Place{X: -22, Y: 95}) }},
		"bank": {Bank, func(from table.Inches) Leave { return lie(table.Place{X: 0, Y: 70}, off(from, 70)) }},
	} {
		found := func(from table.Inches) bool {
			return slices.ContainsFunc(FindShots(c.lie(from), PlayerAt(Expert)).Shots, func(s Shot) bool { return s.Way == c.way && s.Rail == table.LeftRail })
		}
		if found(0) || !found(0.5) {
			t.Errorf("%s: at the rail found is %v, half an inch off it %v", name, found(0), found(0.5))
		}
	}
}

// Taps are not exact: a cue ball put down a hair into the ball that it touches plays it
// along the line of centres, with no cut, and goes on after it.
func TestFindShots_BallsPutDownTooNear(t *testing.T) {
	on := table.Place{X: 0, Y: 50}
	way := on.VectorTo(table.NineFoot().PocketMouth(table.FootRight).Middle).UnitVector()
	for _, apart := range []float64{2.1, 2.2, diameter} {
		s := into(t, lie(on.MovedBy(way.ScaledBy(-apart)), on), Club, table.FootRight)
		near(t, "cut", float64(s.Cut), 0, 0.3)
		near(t, "the cue ball's line after it", s.Natural().Dot(way), 1, 1e-3)
	}
}

// A shot is told for what it is: "only" a bank where no direct one counts, and an open
// leave by the direct shot that makes it open, whatever else is likelier.
func TestFoundShots_DescribeTellsNoOtherShotAway(t *testing.T) {
	shot := func(w Way, chance float64) Shot { return Shot{Ball: 1, Way: w, Pocket: table.FootLeft, Chance: chance} }
	for _, c := range []struct {
		is    drill.Shot
		shots []Shot
		want  string
	}{
		{drill.ShotHard, []Shot{shot(Bank, 0.4), shot(Direct, 0.2)}, "A bank on the 1 into the left foot corner, about 4 of 10."},
		{drill.ShotHard, []Shot{shot(Bank, 0.4), shot(Direct, 0.09)}, "Only a bank on the 1 into the left foot corner, about 4 of 10."},
		{drill.ShotHard, []Shot{shot(Direct, 0.4), shot(Bank, 0.2)}, "A hard shot on the 1 into the left foot corner, about 4 of 10."},
		{drill.ShotHard, []Shot{shot(Direct, 0.46)}, "A hard shot on the 1 into the left foot corner, just under 5 of 10."},
		{drill.ShotOpen, []Shot{shot(Direct, 0.53)}, "An open shot on the 1 into the left foot corner, about 5 of 10."},
		{drill.ShotOpen, []Shot{shot(Direct, 0.97)}, "An open shot on the 1 into the left foot corner, nearly every time."},
		{drill.ShotOpen, []Shot{shot(Kick, 0.8), shot(Direct, 0.6)}, "An open shot on the 1 into the left foot corner, about 6 of 10."},
	} {
		a := FoundShots{Ball: 1, Shot: c.is, Certain: true, Shots: c.shots}
		if says := a.Describe(Leave{}); says != c.want {
			t.Errorf("%s: %q, want %q", c.is, says, c.want)
		}
	}
}

// No chance of a shot that is called open is said as one of a shot that is called hard.
func TestChanceWords_DifferAtTheLines(t *testing.T) {
	described := map[string]drill.Shot{}
	for i := range 1001 {
		chance := float64(i) / 1000
		is := UsualLines.judge([]Shot{{Way: Direct, Chance: chance}})
		if is == drill.ShotNone {
			continue
		}
		words := ChanceWords(chance)
		if before, had := described[words]; had && before != is {
			t.Fatalf("%q is said of a shot that is %s and of one that is %s, at %v", words, before, is, chance)
		}
		described[words] = is
	}
	if len(described) != 11 {
		t.Errorf("%d ways to say it: %v", len(described), described)
	}
}

// A perfect hand still misses banks: off the rail the ball is turned by 3 degrees,
// as one standard deviation, which over the way behind the rail must stay within
// half the room of the mouth.
func TestChance_OfABankIsItsRebounds(t *testing.T) {
	k := table.NineFoot()
	m := k.PocketMouth(table.FootRight).ReflectMouth(k, table.LeftRail)
	at, out := k.TurningLine(table.LeftRail)
	on := table.Place{X: -5, Y: 40}
	before, behind := on.VectorTo(at).Dot(out), at.VectorTo(m.Middle).Dot(out)
	line, room := mouthSpan(on, m)
	l := lane{cueToBall: newCueToBall(on.MovedBy(line.ScaledBy(-20)), on), kind: k, mouth: m, line: line, open: room, way: Bank, rail: table.LeftRail, accuracy: 1e-6}
	way := float64(on.Distance(m.Middle))
	sd := way * behind / (behind + before) * 3 * math.Pi / 180
	want := math.Erf(room.width() * way / 2 / sd / math.Sqrt2)
	near(t, "chance", l.aim().chance, want, 0.01)
	if want < 0.1 || want > 0.6 {
		t.Errorf("%g is no test", want)
	}
}
