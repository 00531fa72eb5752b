package leave

import (
	"reflect"
	"testing"

	"pgregory.net/rapid"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
)

func TestFindShots_Mirror(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := anyLeave().Draw(t, "leave")
		l.Hand = rapid.SampledFrom([]CueBallHand{InPlay, InPlay, Anywhere, Kitchen}).Draw(t, "hand")
		a, b := FindShots(l, PlayerAt(Club)), FindShots(l.Mirror(), PlayerAt(Club))
		for i := range b.Shots {
			b.Shots[i] = b.Shots[i].mirror()
		}
		if l.needsMirror() == l.Mirror().needsMirror() {
			return // the same in the mirror: left and right are the same shot
		}
		if !reflect.DeepEqual(a, b) {
			t.Fatalf("%+v\nmirrored is\n%+v", a, b)
		}
	})
}

// What is looked at in the mirror comes out as it would without: the formulas
// themselves do not know left from right.
func TestShots_FormulasMirror(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := anyLeave().Draw(t, "leave")
		if len(l.Placed) == 0 {
			return
		}
		on := l.Placed[0].Place
		chances := map[table.Pocket]Shot{}
		for _, s := range newSearch(l, 1, on, Club).findDirect(l.Cue, nil) {
			chances[s.Pocket] = s
		}
		m := l.Mirror()
		for _, s := range newSearch(m, 1, on.Mirror(), Club).findDirect(m.Cue, nil) {
			was, there := chances[s.Pocket.Mirror()]
			if !there || was.Chance != s.Chance || was.Cut != s.Cut || was.Ghost != s.Ghost.Mirror() {
				t.Fatalf("%+v\nmirrored is\n%+v", was, s)
			}
			delete(chances, s.Pocket.Mirror())
		}
		if len(chances) > 0 {
			t.Fatalf("not in the mirror: %v", chances)
		}
	})
}

// key tells a ball's shots apart.
type key struct {
	pocket table.Pocket
	way    Way
	rail   table.Rail
}

func byKey(shots []Shot) map[key]float64 {
	chances := map[key]float64{}
	for _, s := range shots {
		chances[key{s.Pocket, s.Way, s.Rail}] = s.Chance
	}
	return chances
}

// rank orders the answers.
func rank(s drill.Shot) int {
	return map[drill.Shot]int{drill.ShotNone: 0, drill.ShotHard: 1, drill.ShotOpen: 2}[s]
}

// A ball taken off the table, or moved to where it is in no shot's way, never
// takes a shot away or makes one harder.
func TestFindShots_MovingABlockerOffTheLineNeverCloses(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := anyLeave().Draw(t, "leave")
		l.Game = rack.NineBall
		if len(l.Placed) < 2 {
			return
		}
		before := FindShots(l, PlayerAt(Club))
		moved := l
		last := len(l.Placed) - 1
		moved.Placed = append([]drill.RestingBall(nil), l.Placed...)
		gone := l
		gone.Placed = l.Placed[:last]
		if rapid.Bool().Draw(t, "take it off") {
			moved = gone
		} else {
			moved.Placed[last].Place = anyPlace(l.Kind).Draw(t, "to")
			clean := byKey(FindShots(gone, PlayerAt(Club)).Shots)
			for k, c := range byKey(FindShots(moved, PlayerAt(Club)).Shots) {
				if c != clean[k] {
					return // it is on a line again
				}
			}
			if len(clean) != len(FindShots(moved, PlayerAt(Club)).Shots) {
				return
			}
		}
		after := FindShots(moved, PlayerAt(Club))
		if rank(after.Shot) < rank(before.Shot) {
			t.Fatalf("%s became %s", before.Shot, after.Shot)
		}
		now := byKey(after.Shots)
		for k, c := range byKey(before.Shots) {
			if now[k] < c-1e-9 {
				t.Fatalf("%v: %g became %g", k, c, now[k])
			}
		}
	})
}

// A ball that moves straight away from the line of a direct shot, short of the
// pocket (in the mouth there may be room on its other side), gives it more
// and more room.
func TestFindShots_FurtherFromTheLineIsNeverWorse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k := rapid.SampledFrom(kinds).Draw(t, "kind")
		l := Leave{Kind: k, Game: rack.NineBall, Cue: anyPlace(k).Draw(t, "cue"),
			Placed: []drill.RestingBall{{Ball: 1, Place: anyPlace(k).Draw(t, "on")}}}
		if l.Cue.Distance(l.Placed[0].Place) < table.BallDiameter {
			return
		}
		shots := newSearch(l, 1, l.Placed[0].Place, Club).findDirect(l.Cue, nil)
		if len(shots) == 0 {
			return
		}
		s := rapid.SampledFrom(shots).Draw(t, "shot")
		if s.ToBall < table.BallDiameter {
			return // nearly frozen: aimed anywhere, so that no line stands out
		}
		from, to := s.Cue, s.Ghost
		otherFrom, otherTo := l.Placed[0].Place, s.Target
		if rapid.Bool().Draw(t, "on the way to the pocket") {
			from, to, otherFrom, otherTo = otherFrom, otherTo, from, to
		}
		way := from.VectorTo(to)
		at := from.MovedBy(way.ScaledBy(rapid.Float64Range(0, 0.8).Draw(t, "share")))
		across := table.Vector{X: -way.Y, Y: way.X}.UnitVector()
		if rapid.Bool().Draw(t, "to the right") {
			across = across.ScaledBy(-1)
		}
		last := 0.0
		for off := 0.0; off < 6; off += 0.25 {
			two := at.MovedBy(across.ScaledBy(off))
			if two.Distance(l.Placed[0].Place) < table.BallDiameter || two.Distance(l.Cue) < table.BallDiameter {
				continue
			}
			if besides(two, otherFrom, otherTo) < 2*table.BallDiameter {
				return // it would come in the other ball's way
			}
			with := l
			with.Placed = append([]drill.RestingBall{{Ball: 2, Place: two}}, l.Placed...)
			for _, now := range newSearch(with, 1, l.Placed[0].Place, Club).findDirect(l.Cue, nil) {
				if now.Pocket != s.Pocket {
					continue
				}
				if now.Chance < last-1e-9 {
					t.Fatalf("%g in off the line the chance falls from %g to %g", off, last, now.Chance)
				}
				last = now.Chance
			}
		}
	})
}

// besides is how far a place is from the stretch between two others.
func besides(p, from, to table.Place) table.Inches {
	way := from.VectorTo(to)
	share := min(max(from.VectorTo(p).Dot(way)/max(way.Dot(way), 1e-9), 0), 1)
	return p.Distance(from.MovedBy(way.ScaledBy(share)))
}

func TestFindShots_BiggerPocketNeverLowersAChance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := anyLeave().Draw(t, "leave")
		bigger := l
		bigger.Kind.CornerMouth += table.Inches(rapid.Float64Range(0, 1).Draw(t, "corner"))
		bigger.Kind.SideMouth += table.Inches(rapid.Float64Range(0, 1).Draw(t, "side"))
		for _, r := range l.Placed {
			on := r.Place
			small, big := newSearch(l, r.Ball, on, Club), newSearch(bigger, r.Ball, on, Club)
			now := byKey(big.findDirect(l.Cue, nil))
			for k, c := range byKey(small.findDirect(l.Cue, nil)) {
				if now[k] < c-1e-9 {
					t.Fatalf("%v on the %s: %g became %g", k, r.Ball, c, now[k])
				}
			}
		}
	})
}

func TestFindShots_ASteadierHandIsNeverWorse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := anyLeave().Draw(t, "leave")
		worse := Accuracy(rapid.Float64Range(0.02, 2).Draw(t, "accuracy"))
		better := worse * Accuracy(rapid.Float64Range(0.2, 1).Draw(t, "by"))
		now := byKey(FindShots(l, PlayerAt(better)).Shots)
		a := FindShots(l, PlayerAt(worse))
		if l.Game == rack.EightBall {
			return // it may choose another ball
		}
		for k, c := range byKey(a.Shots) {
			if now[k] < c-1e-12 {
				t.Fatalf("%v: %g became %g", k, c, now[k])
			}
		}
		for _, s := range a.Shots {
			if !(s.Chance >= 0 && s.Chance <= 1) || !(s.Cut >= 0 && s.Cut <= 80.001) || s.Window < 0 {
				t.Fatalf("%+v", s)
			}
		}
	})
}

// Banks and kicks turn at a nose and not in a pocket's mouth, and a kick's cue ball
// does not meet the ball on its way to the rail.
func TestFindShots_TurnsAreOnTheNose(t *testing.T) {
	seen := 0
	rapid.Check(t, func(t *rapid.T) {
		for _, l := range rapid.SliceOfN(anyLeave(), 5, 5).Draw(t, "leaves") { // many have no turn
			for _, r := range l.Placed {
				seen += checkTurns(t, l, r)
			}
		}
	})
	if seen < 50 {
		t.Fatalf("only %d banks and kicks", seen)
	}
}

// checkTurns returns how many banks and kicks there are on a ball.
func checkTurns(t *rapid.T, l Leave, on drill.RestingBall) int {
	found := []Shot{}
	s := newSearch(l, on.Ball, on.Place, Expert)
	for _, rail := range table.Rails() {
		found = s.findKicks(l.Cue, rail, s.findBanks(l.Cue, rail, found))
	}
	for _, shot := range found {
		for _, gap := range shot.Rail.OpenPockets() {
			clear := l.Kind.CornerMouth / 1.4143
			if gap.IsSide() {
				clear = l.Kind.SideMouth / 2
			}
			at, out := l.Kind.TurningLine(shot.Rail)
			along := l.Kind.CornerPoint(gap).VectorTo(shot.Turn).WithoutPartAlong(out).Length()
			if table.Inches(along) < clear-1e-6 {
				t.Fatalf("%s by the %s turns %g in from %s (line at %v)", shot.Way, shot.Rail, along, gap, at)
			}
		}
		if shot.Way == Kick && besides(on.Place, shot.Cue, shot.Turn) < table.BallDiameter-1e-6 {
			t.Fatalf("a kick meets its ball on the way to the rail: %+v", shot)
		}
	}
	return len(found)
}

// A cue ball in hand is placed where a ball fits.
func TestFindShots_InHandIsPlacedOnTheCloth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := anyLeave().Draw(t, "leave")
		l.Hand = rapid.SampledFrom([]CueBallHand{Anywhere, Kitchen}).Draw(t, "hand")
		for _, s := range FindShots(l, PlayerAt(Club)).Shots {
			if !l.clear(s.Cue) || l.Kind.SettleBall(s.Cue) != s.Cue {
				t.Fatalf("placed at %v", s.Cue)
			}
			if l.Hand == Kitchen && s.Cue.Y >= l.Kind.HeadString() {
				t.Fatalf("placed at %v, beyond the head string", s.Cue)
			}
		}
	})
}
