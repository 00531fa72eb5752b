package drill

import (
	"errors"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"breakwright/internal/rack"
	"breakwright/internal/table"
)

func leftSetup() Setup { return StandardSetup(rack.NineBall, table.Left, table.NineFoot()) }

func stoppedAt(x, y table.Inches) CueEnd { return CueEnd{How: Stopped, Place: table.Place{X: x, Y: y}} }

func TestStandard_IsLegalEverywhere(t *testing.T) {
	for _, g := range rack.Games() {
		for _, k := range []table.Kind{table.SevenFoot(), table.EightFoot(), table.NineFoot()} {
			for _, side := range []table.Side{table.Left, table.Right} {
				if err := StandardSetup(g, side, k).Check(k); err != nil {
					t.Errorf("%s, %s, from the %s: %v", g, k, side, err)
				}
			}
		}
	}
	if got, want := StandardSetup(rack.NineBall, table.Right, table.NineFoot()), leftSetup().Mirror(); got != want {
		t.Errorf("the standard from the right is %+v, not the mirror of the left %+v", got, want)
	}
}

// The break log's example row: a break from the left at -18,25 plays the 8 in
// slot 3L into the left foot corner.
func TestSetup_WingOfTheExample(t *testing.T) {
	s := leftSetup()
	if s.Cue != (table.Place{X: -18, Y: 25}) || s.WingBall() != 8 || s.WingPocket() != table.FootLeft || s.HeadBall() != 1 {
		t.Errorf("cue %v, wing %s in %s, head %s", s.Cue, s.WingBall(), s.WingPocket(), s.HeadBall())
	}
	m := s.Mirror()
	if m.Cue != (table.Place{X: 18, Y: 25}) || m.WingBall() != 8 || m.WingPocket() != table.FootRight {
		t.Errorf("mirrored: cue %v, wing %s in %s", m.Cue, m.WingBall(), m.WingPocket())
	}
}

func TestSetupCheck_NamesTheField(t *testing.T) {
	k := table.NineFoot()
	for field, spoil := range map[string]func(*Setup){
		"cue_x":   func(s *Setup) { s.Cue.X = -23 },
		"cue_y":   func(s *Setup) { s.Cue.Y = 26 },
		"contact": func(s *Setup) { s.Contact = 0.6 },
		"tip":     func(s *Setup) { s.Tip = RadiusFraction(math.NaN()) },
		"spin":    func(s *Setup) { s.Spin = -0.4 },
		"speed":   func(s *Setup) { s.Speed = 30 },
		"rack":    func(s *Setup) { s.Order = rack.Order{} },
		"spot":    func(s *Setup) { s.Spot = "tail" },
		"wing":    func(s *Setup) { s.Wing = "5" },
		"side":    func(s *Setup) { s.Side = "" },
	} {
		s := leftSetup()
		spoil(&s)
		var p Problems
		if err := s.Check(k); !errors.As(err, &p) || p.MessageFor(field) == "" {
			t.Errorf("%s spoilt: %v", field, err)
		}
	}
	wrongSide := leftSetup()
	wrongSide.Cue.X = 3
	if wrongSide.Check(k) == nil {
		t.Error("a left-side break from the right of the long string was taken")
	}
	if err := wrongSide.CheckPossible(k); err != nil {
		t.Errorf("as a record of the past it is possible: %v", err)
	}
}

func TestSetup_SameAs(t *testing.T) {
	a := leftSetup()
	b := a
	b.Tip += 0.1
	b.Tip -= 0.1
	b.Speed += 0.5
	if !a.SameAs(b) {
		t.Error("rounding noise and half a notch of speed make another setup")
	}
	b.Speed = a.Speed - 1
	if a.SameAs(b) {
		t.Error("a notch of speed makes no other setup")
	}
	b.Speed = 0
	if !a.SameAs(b) {
		t.Error("an unknown speed makes another setup")
	}
	b.Cue.X++
	if a.SameAs(b) {
		t.Error("an inch makes no other setup")
	}
}

func TestSetup_OnKindKeepsTheFraction(t *testing.T) {
	s := leftSetup()
	s.Cue.Y = 21
	small := s.CarryToKind(table.NineFoot(), table.SevenFoot())
	if small.Cue != (table.Place{X: -14.04, Y: 16.38}) {
		t.Errorf("on a 7-foot table the cue ball stands at %v", small.Cue)
	}
	if err := small.Check(table.SevenFoot()); err != nil {
		t.Error(err)
	}
	far := StandardSetup(rack.NineBall, table.Left, table.SevenFoot())
	far.Cue.Y = table.SevenFoot().HeadString() - FurthestBehind
	if err := far.CarryToKind(table.SevenFoot(), table.NineFoot()).Check(table.NineFoot()); err != nil {
		t.Errorf("as far behind as is taught, on a larger table: %v", err)
	}
}

func TestBreakCheck_WhatCannotHappen(t *testing.T) {
	k, s := table.NineFoot(), leftSetup()
	good := Break{Number: 1, Cue: stoppedAt(-3.5, 41), Pocketed: []Pocketed{{8, table.FootLeft}},
		Rest: []RestingBall{{1, table.Place{X: -20, Y: 31}}}, Rails: ObservedCount(6), PastString: ObservedCount(3), Shot: ShotOpen, Note: strings.Repeat("ß", MaxNote)}
	if err := good.Check(s, k); err != nil {
		t.Fatal(err)
	}
	for name, c := range map[string]struct {
		field string
		spoil func(*Break)
	}{
		"pocketed twice":      {"pocketed", func(b *Break) { b.Pocketed = append(b.Pocketed, Pocketed{8, table.SideLeft}) }},
		"no such ball":        {"pocketed", func(b *Break) { b.Pocketed = []Pocketed{{10, table.SideLeft}} }},
		"no such pocket":      {"pocketed", func(b *Break) { b.Pocketed = []Pocketed{{2, "corner"}} }},
		"off and pocketed":    {"off", func(b *Break) { b.Off = []rack.Ball{8} }},
		"resting in a pocket": {"rest", func(b *Break) { b.Rest = []RestingBall{{8, table.Place{X: 0, Y: 50}}} }},
		"rest off the cloth":  {"rest", func(b *Break) { b.Rest = []RestingBall{{2, table.Place{X: 0, Y: 120}}} }},
		"cue off the cloth":   {"cue", func(b *Break) { b.Cue = stoppedAt(26, 40) }},
		"cue nowhere":         {"cue", func(b *Break) { b.Cue = CueEnd{} }},
		"cue at NaN":          {"cue", func(b *Break) { b.Cue = stoppedAt(table.Inches(math.NaN()), 4) }},
		"scratch nowhere":     {"cue", func(b *Break) { b.Cue = CueEnd{How: Scratched} }},
		"made and missed":     {"wing_miss", func(b *Break) { b.WingMiss = MissFootRail }},
		"odd miss":            {"wing_miss", func(b *Break) { b.WingMiss = "short" }},
		"odd path":            {"cue_path", func(b *Break) { b.CuePath = "sideways" }},
		"odd shot":            {"shot", func(b *Break) { b.Shot = "yes" }},
		"too many rails":      {"rails", func(b *Break) { b.Rails = ObservedCount(10) }},
		"negative past":       {"past_string", func(b *Break) { b.PastString = ObservedCount(-1) }},
		"number 0":            {"break", func(b *Break) { b.Number = 0 }},
		"speed of a bullet":   {"speed", func(b *Break) { b.Speed = 99 }},
		"a long note":         {"note", func(b *Break) { b.Note = strings.Repeat("ß", MaxNote+1) }},
	} {
		b := good
		c.spoil(&b)
		var p Problems
		if err := b.Check(s, k); !errors.As(err, &p) || p.MessageFor(c.field) == "" {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// WPA rules of play 2016, 2.3: pocket a ball or drive at least four object
// balls to one or more rails.
func TestBreak_Weak(t *testing.T) {
	for _, c := range []struct {
		b           Break
		weak, known bool
	}{
		{Break{Rails: ObservedCount(3)}, true, true},
		{Break{Rails: ObservedCount(4)}, false, true},
		{Break{}, false, false},
		{Break{Rails: ObservedCount(1), Pocketed: []Pocketed{{2, table.SideLeft}}}, false, true},
	} {
		if weak, known := c.b.IsWeak(); weak != c.weak || known != c.known {
			t.Errorf("%+v: weak %v, known %v", c.b, weak, known)
		}
	}
}

func TestStints_PoolSameSetupAndTableInARow(t *testing.T) {
	set := func(name, tableName string, x table.Inches) Set {
		s := leftSetup()
		s.Cue.X = x
		return Set{Name: name, Table: tableName, Kind: table.NineFoot(), Setup: s, Breaks: []Break{{Number: 1, Cue: stoppedAt(0, 40)}}}
	}
	empty := set("none", "North 2", -18)
	empty.Breaks = nil
	stints := GroupStints([]Set{set("a", "North 2", -18), empty, set("b", "North 2", -18), set("c", "North 1", -18),
		set("d", "North 1", -16), set("e", "North 1", -18)})
	var got []string
	for _, stint := range stints {
		names := ""
		for _, s := range stint.Sets {
			names += s.Name
		}
		got = append(got, names)
	}
	if strings.Join(got, " ") != "ab c d e" {
		t.Errorf("stints %v, want ab c d e", got)
	}
}

func TestDrillCheck(t *testing.T) {
	k := table.NineFoot()
	good := Drill{Name: "Find the wing ball", Kind: k, Setup: leftSetup(), Breaks: 10, Window: k.StandardWindow(), Targets: StandardTargets(k)}
	if err := good.Check(); err != nil {
		t.Fatal(err)
	}
	for field, spoil := range map[string]func(*Drill){
		"name":           func(d *Drill) { d.Name = " " },
		"breaks":         func(d *Drill) { d.Breaks = 0 },
		"window":         func(d *Drill) { d.Window.Right = 40 },
		"target_wing":    func(d *Drill) { d.Targets.Wing = 0 },
		"target_window":  func(d *Drill) { d.Targets.Window = math.NaN() },
		"target_shot":    func(d *Drill) { d.Targets.Shot = -0.1 },
		"target_ran_out": func(d *Drill) { d.Targets.RanOut = 1.1 },
		"break_box":      func(d *Drill) { d.House.BreakBox = 1 },
		"cue_x":          func(d *Drill) { d.House.BreakBox = 8 },
		"watch":          func(d *Drill) { d.Watch = strings.Repeat("x", 501) },
		"tip":            func(d *Drill) { d.Setup.Tip = 0.8 },
	} {
		d := good
		spoil(&d)
		var p Problems
		if err := d.Check(); !errors.As(err, &p) || p.MessageFor(field) == "" {
			t.Errorf("%s spoilt: %v", field, err)
		}
	}
}

func TestMirror_TwiceIsTheSame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := leftSetup()
		s.Order = rack.ShuffleOrder(s.Game, rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 2)))
		s.Contact = table.Inches(rapid.Float64Range(-0.5, 0.5).Draw(t, "contact"))
		s.Spin = RadiusFraction(rapid.Float64Range(-0.3, 0.3).Draw(t, "spin"))
		if s.Mirror().Mirror() != s || s.ForSide(table.Right) != s.Mirror() || s.ForSide(table.Left) != s {
			t.Fatalf("%+v mirrored twice is %+v", s, s.Mirror().Mirror())
		}
		pockets := table.Pockets()
		b := Break{Number: 1, Cue: stoppedAt(table.Inches(rapid.Float64Range(-25, 25).Draw(t, "x")), 40),
			Pocketed: []Pocketed{{s.WingBall(), rapid.SampledFrom(pockets).Draw(t, "pocket")}}}
		if b.WingMade(s) != b.Mirror().WingMade(s.Mirror()) {
			t.Fatalf("%+v: the wing ball is made on one side only", b)
		}
		if err := b.Mirror().Check(s.Mirror(), table.NineFoot()); err != nil {
			t.Fatalf("the mirror of a good break: %v", err)
		}
	})
}

// A cut break begins about three quarters full, which is 0.56 in off a full hit
// (ball-fraction geometry: offset = (1 - f) diameters of 2.25 in), and belongs
// to the centre ball on the spot.
func TestSetup_ContactLimitGoesByTheSpot(t *testing.T) {
	k := table.NineFoot()
	for spot, most := range map[rack.Spot]table.Inches{rack.HeadOnSpot: 0.5, rack.CentreOnSpot: 1.1} {
		s := StandardSetup(rack.NineBall, table.Left, k)
		s.Spot = spot
		for contact, good := range map[table.Inches]bool{most: true, -most: true, most + 0.01: false, -most - 0.01: false, 2.25 * (1 - 0.75): most > 0.5} {
			s.Contact = contact
			if err := s.Check(k); (err == nil) != good {
				t.Errorf("%s, contact %v: %v", spot, contact, err)
			}
		}
	}
}
