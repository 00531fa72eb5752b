package drill

import (
	"errors"
	"strings"
	"testing"

	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// refuses reports whether an error has something to say of a field.
func refuses(err error, field string) bool {
	var p Problems
	return errors.As(err, &p) && p.MessageFor(field) != ""
}

// Each limit is taken itself, and what is past it by a little is not.
func TestSetup_Limits(t *testing.T) {
	k := table.NineFoot() // 50 inches wide: the cue ball's centre is at most a ball's width from the nose
	for _, c := range []struct {
		field  string
		taken  bool
		change func(*Setup)
	}{
		{"cue_x", true, func(s *Setup) { s.Cue.X = -22.75 }},
		{"cue_x", false, func(s *Setup) { s.Cue.X = -22.8 }},
		{"cue_x", true, func(s *Setup) { s.Cue.X = 0 }},
		{"cue_x", true, func(s *Setup) { *s = s.Mirror(); s.Cue.X = 22.75 }},
		{"cue_x", false, func(s *Setup) { *s = s.Mirror(); s.Cue.X = 22.8 }},
		{"cue_x", false, func(s *Setup) { s.Cue.X = 0.5 }},
		{"cue_x", true, func(s *Setup) { s.Cue.X = -0.5 }},
		{"cue_y", true, func(s *Setup) { s.Cue.Y = 15 }},
		{"cue_y", false, func(s *Setup) { s.Cue.Y = 14.9 }},
		{"cue_y", false, func(s *Setup) { s.Cue.Y = 25.1 }},
		{"tip", true, func(s *Setup) { s.Tip = 0.5 }},
		{"tip", true, func(s *Setup) { s.Tip = -0.5 }},
		{"tip", false, func(s *Setup) { s.Tip = -0.51 }},
		{"spin", true, func(s *Setup) { s.Spin = 0.3 }},
		{"spin", false, func(s *Setup) { s.Spin = 0.31 }},
		{"contact", true, func(s *Setup) { s.Contact = -0.5 }},
		{"contact", false, func(s *Setup) { s.Contact = -0.51 }},
		{"speed", true, func(s *Setup) { s.Speed = 14 }},
		{"speed", false, func(s *Setup) { s.Speed = 13.9 }},
		{"speed", true, func(s *Setup) { s.Speed = 24 }},
		{"speed", false, func(s *Setup) { s.Speed = 24.1 }},
		{"speed", true, func(s *Setup) { s.Speed = 0 }},
	} {
		s := leftSetup()
		c.change(&s)
		if refuses(s.Check(k), c.field) == c.taken {
			t.Errorf("%s of %+v: %v; want it taken: %v", c.field, s, s.Check(k), c.taken)
		}
	}
}

// A record of the past is held to what can be, not to what is taught.
func TestSetup_LimitsOfThePast(t *testing.T) {
	k := table.NineFoot()
	for _, c := range []struct {
		field  string
		taken  bool
		change func(*Setup)
	}{
		{"cue_y", true, func(s *Setup) { s.Cue.Y = k.HeadString() }},
		{"cue_y", false, func(s *Setup) { s.Cue.Y = k.HeadString() + 0.1 }},
		{"cue_y", true, func(s *Setup) { s.Cue.X = -25 }}, // its base at the nose
		{"cue_y", false, func(s *Setup) { s.Cue.X = -25.1 }},
		{"tip", true, func(s *Setup) { s.Tip = 1 }},
		{"tip", false, func(s *Setup) { s.Tip = 1.1 }},
		{"spin", true, func(s *Setup) { s.Spin = -1 }},
		{"spin", false, func(s *Setup) { s.Spin = -1.1 }},
		{"contact", true, func(s *Setup) { s.Contact = table.BallDiameter }},
		{"contact", false, func(s *Setup) { s.Contact = table.BallDiameter + 0.1 }},
		{"speed", true, func(s *Setup) { s.Speed = 0.5 }},
		{"speed", true, func(s *Setup) { s.Speed = 40 }},
		{"speed", false, func(s *Setup) { s.Speed = 40.1 }},
		{"speed", false, func(s *Setup) { s.Speed = -1 }},
		{"speed", true, func(s *Setup) { s.Speed = 0 }},
	} {
		s := leftSetup()
		c.change(&s)
		if refuses(s.CheckPossible(k), c.field) == c.taken {
			t.Errorf("%s of %+v: %v; want it taken: %v", c.field, s, s.CheckPossible(k), c.taken)
		}
	}
	outside := leftSetup()
	outside.Cue.X = -30
	if err := outside.CheckPossible(k); err == nil || !strings.Contains(err.Error(), "x within 25, y from 0 to 25") {
		t.Errorf("the words do not say where the cue ball can be: %v", err)
	}
}

// The sentence beside the field names the limit of the rack that is broken.
func TestSetup_SaysWhichContactIsTaught(t *testing.T) {
	for spot, want := range map[rack.Spot]string{rack.HeadOnSpot: "half an inch from full", rack.CentreOnSpot: "at most 1.1 inches"} {
		s := leftSetup()
		s.Spot, s.Contact = spot, 1.2
		var p Problems
		if err := s.Check(table.NineFoot()); !errors.As(err, &p) || !strings.Contains(p.MessageFor("contact"), want) {
			t.Errorf("%s: %v, want %q", spot, err, want)
		}
	}
}

func TestStandardSetup_StrikesALittleLow(t *testing.T) {
	if s := leftSetup(); s.Tip != -0.1 || s.Speed != 18 || s.Contact != 0 || s.Spin != 0 {
		t.Errorf("the usual stroke is %+v", s)
	}
}

// Half a notch apart is the same setup, with room for rounding; a notch is 1 mph.
func TestSetup_SameAsWithinHalfANotch(t *testing.T) {
	for speed, same := range map[table.Mph]bool{18.5: true, 17.5: true, 18.7: false, 17.3: false, 0: true} { // 0 is not known
		other := leftSetup()
		other.Speed = speed
		if leftSetup().SameAs(other) != same || other.SameAs(leftSetup()) != same {
			t.Errorf("18 and %s mph: the same is %v, want %v", speed, !same, same)
		}
	}
}

// Every ball of a rack may drop, the last one of eight-ball too, and no other.
func TestBreak_BallsOfTheRack(t *testing.T) {
	for game, last := range map[rack.Game]rack.Ball{rack.NineBall: 9, rack.TenBall: 10, rack.EightBall: 15} {
		s := StandardSetup(game, table.Left, table.NineFoot())
		for ball, refused := range map[rack.Ball]bool{last: false, last + 1: true} {
			b := Break{Pocketed: []Pocketed{{Ball: ball, Pocket: table.FootLeft}}, Cue: stoppedAt(0, 50)}
			if got := refuses(b.Check(s, table.NineFoot()), "pocketed"); got != refused {
				t.Errorf("%s, ball %s: refused is %v", game, ball, got)
			}
		}
	}
}

func TestBreak_Limits(t *testing.T) {
	s, k := leftSetup(), table.NineFoot()
	for _, c := range []struct {
		field  string
		taken  bool
		change func(*Break)
	}{
		{"break", true, func(b *Break) { b.Number = 1 }},
		{"break", false, func(b *Break) { b.Number = 0 }},
		{"speed", true, func(b *Break) { b.Speed = 40 }},
		{"speed", false, func(b *Break) { b.Speed = 40.1 }},
		{"speed", true, func(b *Break) { b.Speed = 0.5 }},
		{"speed", false, func(b *Break) { b.Speed = -0.5 }},
		{"note", true, func(b *Break) { b.Note = strings.Repeat("n", 2000) }},
		{"note", false, func(b *Break) { b.Note = strings.Repeat("n", 2001) }},
		{"ran_out", true, func(b *Break) { b.RanOut = RanOutYes }},
		{"ran_out", true, func(b *Break) { b.RanOut = RanOutNo }},
		{"ran_out", false, func(b *Break) { b.RanOut = "nearly" }},
		{"racked", true, func(b *Break) { b.Racked = RackedTight }},
		{"racked", true, func(b *Break) { b.Racked = RackedLoose }},
		{"racked", false, func(b *Break) { b.Racked = "crooked" }},
		{"rails", true, func(b *Break) { b.Rails = ObservedCount(0) }},
		{"rails", true, func(b *Break) { b.Rails = ObservedCount(9) }},
		{"rails", false, func(b *Break) { b.Rails = ObservedCount(10) }},
		{"rails", false, func(b *Break) { b.Rails = ObservedCount(-1) }},
		{"past_string", false, func(b *Break) { b.PastString = ObservedCount(10) }},
		{"wing_miss", true, func(b *Break) { b.WingMiss = WingMisses()[0] }},
		{"wing_miss", false, func(b *Break) { b.WingMiss = "wide" }},
		{"wing_miss", true, func(b *Break) { b.WingMiss = NotWatched }},
		{"wing_miss", true, func(b *Break) {
			b.WingMiss, b.Pocketed = NotWatched, []Pocketed{{Ball: s.WingBall(), Pocket: s.WingPocket()}}
		}},
		{"cue_path", true, func(b *Break) { b.CuePath = PathHit }},
		{"cue_path", false, func(b *Break) { b.CuePath = "round" }},
		{"shot", true, func(b *Break) { b.Shot = ShotHard }},
		{"shot", false, func(b *Break) { b.Shot = "some" }},
	} {
		b := Break{Number: 1, Cue: stoppedAt(0, 50)}
		c.change(&b)
		if refuses(b.Check(s, k), c.field) == c.taken {
			t.Errorf("%s of %+v: %v; want it taken: %v", c.field, b, b.Check(s, k), c.taken)
		}
	}
}

// Of a break in which nobody watched the balls nothing is said of them, whatever
// was tapped.
func TestBreak_NotWatched(t *testing.T) {
	s := leftSetup()
	for _, down := range [][]Pocketed{nil, {{Ball: s.WingBall(), Pocket: s.WingPocket()}}} {
		b := Break{Number: 1, Cue: stoppedAt(0, 50), WingMiss: NotWatched, Pocketed: down, Rails: ObservedCount(2), PastString: ObservedCount(0)}
		_, weakIsKnown := b.IsWeak()
		if b.WingMade(s) || b.IsDry() || weakIsKnown || b.ThreePoints().Known {
			t.Errorf("%+v: made %v, dry %v, weak known %v, points %+v", b, b.WingMade(s), b.IsDry(), weakIsKnown, b.ThreePoints())
		}
	}
}

// A ball that went twice is named with both ways, or as there twice.
func TestBreak_ABallGoesOnce(t *testing.T) {
	s, k := leftSetup(), table.NineFoot()
	for want, b := range map[string]Break{
		"the 3 is there twice": {Number: 1, Cue: stoppedAt(0, 50), Off: []rack.Ball{3, 3}},
		"the 3 cannot be pocketed and off the table": {
			Number: 1, Cue: stoppedAt(0, 50), Off: []rack.Ball{3}, Pocketed: []Pocketed{{Ball: 3, Pocket: table.FootLeft}},
		},
	} {
		if err := b.Check(s, k); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%v, want %q", err, want)
		}
	}
}

func TestBreak_WhatCounts(t *testing.T) {
	s := leftSetup()
	own := Break{Pocketed: []Pocketed{{Ball: s.WingBall(), Pocket: s.WingPocket()}}}
	other := Break{Pocketed: []Pocketed{{Ball: s.WingBall(), Pocket: table.FootRight}}}
	if !own.WingMade(s) || other.WingMade(s) || (Break{}).WingMade(s) {
		t.Error("the wing ball counts in its own corner, and nowhere else")
	}
	if (Break{Cue: stoppedAt(0, 50)}).HasBallsOff() || !(Break{Cue: CueEnd{How: OffTable}}).HasBallsOff() || !(Break{Cue: stoppedAt(0, 50), Off: []rack.Ball{3}}).HasBallsOff() {
		t.Error("balls are off when the cue ball is, or another")
	}
	w := table.Window{Left: -5, Right: 5, Head: 45, Foot: 55}
	scratched := Break{Cue: CueEnd{How: Scratched, Place: table.Place{X: 0, Y: 50}, Scratch: table.FootLeft}}
	if !(Break{Cue: stoppedAt(0, 50)}).InWindow(w) || (Break{Cue: stoppedAt(9, 50)}).InWindow(w) || scratched.InWindow(w) {
		t.Error("a cue ball is in the window when it stopped there")
	}
}

func TestDrill_Limits(t *testing.T) {
	for _, c := range []struct {
		field  string
		taken  bool
		change func(*Drill)
	}{
		{"breaks", true, func(d *Drill) { d.Breaks = 1 }},
		{"breaks", false, func(d *Drill) { d.Breaks = 0 }},
		{"breaks", true, func(d *Drill) { d.Breaks = 50 }},
		{"breaks", false, func(d *Drill) { d.Breaks = 51 }},
		{"name", true, func(d *Drill) { d.Name = strings.Repeat("ü", 120) }},
		{"name", false, func(d *Drill) { d.Name = strings.Repeat("ü", 121) }},
		{"name", false, func(d *Drill) { d.Name = "ten\x7f" }},
		{"watch", true, func(d *Drill) { d.Watch = strings.Repeat("ü", 500) }},
		{"watch", false, func(d *Drill) { d.Watch = strings.Repeat("ü", 501) }},
		{"target_wing", true, func(d *Drill) { d.Targets.Wing = 1 }},
		{"target_wing", false, func(d *Drill) { d.Targets.Wing = 1.01 }},
		{"target_wing", false, func(d *Drill) { d.Targets.Wing = 0 }},
		{"target_window", false, func(d *Drill) { d.Targets.Window = 1.01 }},
		{"target_shot", true, func(d *Drill) { d.Targets.Shot = 0 }},
		{"target_shot", true, func(d *Drill) { d.Targets.Shot = 1 }},
		{"target_shot", false, func(d *Drill) { d.Targets.Shot = 1.01 }},
		{"target_ran_out", false, func(d *Drill) { d.Targets.RanOut = -0.1 }},
		{"break_box", true, func(d *Drill) { d.House.BreakBox = 22.75 }},
		{"break_box", false, func(d *Drill) { d.House.BreakBox = 22.8 }},
		{"break_box", true, func(d *Drill) { d.House.BreakBox = table.BallDiameter }},
		{"break_box", false, func(d *Drill) { d.House.BreakBox = 2.2 }},
		{"watch_cue_only", true, func(d *Drill) { d.WatchList.CueOnly = true }},
		{"watch_cue_only", true, func(d *Drill) { d.WatchList.WingPath = true }},
		{"watch_cue_only", false, func(d *Drill) { d.WatchList.CueOnly, d.WatchList.WingPath = true, true }},
	} {
		d := Drill{
			Name: "Ten from the left", Setup: leftSetup(), Kind: table.NineFoot(), Breaks: 10,
			Window: table.Window{Left: -5, Right: 5, Head: 45, Foot: 55}, Targets: StandardTargets(table.NineFoot()),
		}
		c.change(&d)
		if refuses(d.Check(), c.field) == c.taken {
			t.Errorf("%s: %v; want it taken: %v", c.field, d.Check(), c.taken)
		}
	}
}

// The words beside the field name the usual number (common practice, no source).
func TestDrill_SaysHowManyBreaksAreUsual(t *testing.T) {
	var p Problems
	if err := (Drill{Setup: leftSetup(), Kind: table.NineFoot()}).Check(); !errors.As(err, &p) || p.MessageFor("breaks") != "a set has from 1 to 50 breaks; 10 is usual" {
		t.Errorf("no breaks: %v", err)
	}
}

// Common practice, no source: half on a 9-foot table, more on smaller ones.
func TestStandardTargets_BySize(t *testing.T) {
	for k, wing := range map[table.Kind]float64{table.NineFoot(): 0.5, table.EightFoot(): 0.55, table.SevenFoot(): 0.6} {
		if got := StandardTargets(k); got != (Targets{Wing: wing, Window: 0.5}) {
			t.Errorf("%s: %+v, want %g for the wing ball and a half for the window", k, got, wing)
		}
	}
	for watched, targets := range map[bool][]Targets{true: {{Shot: 0.1}, {RanOut: 0.1}}, false: {{}, {Wing: 0.5, Window: 0.5}}} {
		for _, one := range targets {
			if one.WatchLeave() != watched {
				t.Errorf("%+v watches the leave: %v", one, !watched)
			}
		}
	}
}

func TestDrill_ForSide(t *testing.T) {
	d := Drill{Setup: leftSetup(), Window: table.Window{Left: -5, Right: 1, Head: 45, Foot: 55}}
	if got := d.ForSide(table.Left); got != d {
		t.Errorf("on its own side it is %+v", got)
	}
	if got := d.ForSide(table.Right); got.Setup != d.Setup.Mirror() || got.Window != d.Window.Mirror() {
		t.Errorf("on the other side it is %+v", got)
	}
}

func TestSet_Check(t *testing.T) {
	good := Set{Setup: leftSetup(), Kind: table.NineFoot(), Breaks: []Break{{Number: 1, Cue: stoppedAt(0, 50)}, {Number: 2, Cue: stoppedAt(0, 50)}}}
	if err := good.Check(); err != nil {
		t.Errorf("a good set: %v", err)
	}
	for field, spoil := range map[string]func(*Set){
		"speed":    func(s *Set) { s.Setup.Speed = 60 },
		"break":    func(s *Set) { s.Breaks = []Break{{Number: 2, Cue: stoppedAt(0, 50)}} },
		"cue_path": func(s *Set) { s.Breaks = []Break{{Number: 1, Cue: stoppedAt(0, 50), CuePath: "round"}} },
	} {
		bad := good
		spoil(&bad)
		if !refuses(bad.Check(), field) {
			t.Errorf("%s spoilt: %v", field, bad.Check())
		}
	}
}
