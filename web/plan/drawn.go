package plan

import (
	"slices"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// drawable gives the drill that the pictures show while something typed cannot
// be: each such part at its limit, or as usual. A good drill is given as it is.
// shown is the rack order drawn last.
func drawable(d drill.Drill, shown rack.Order) drill.Drill {
	usual := drill.Standard(d.Setup.Game, d.Setup.Side, d.Kind)
	s := &d.Setup
	for _, instead := range []rack.Order{shown, usual.Order} {
		if s.Order.Check(s.Game) != nil {
			s.Order = instead
		}
	}
	if !slices.Contains(s.Game.Spots(), s.Spot) {
		s.Spot = usual.Spot
	}
	if s.Wing != usual.Wing && s.Wing != usual.Wing.Mirror() {
		s.Wing = usual.Wing
	}
	sign, head := s.Side.Sign(), d.Kind.HeadString()
	s.Cue.X = sign * within(sign*s.Cue.X, 0, drill.OutermostCue(d.Kind), sign*usual.Cue.X)
	s.Cue.Y = within(s.Cue.Y, head-drill.FurthestBehind, head, usual.Cue.Y)
	s.Contact = within(s.Contact, -drill.MaxContact, drill.MaxContact, 0)
	s.Tip = within(s.Tip, -drill.MaxTip, drill.MaxTip, 0)
	s.Spin = within(s.Spin, -drill.MaxSpin, drill.MaxSpin, 0)
	if s.Speed != 0 {
		s.Speed = within(s.Speed, drill.SlowestBreak, drill.FastestBreak, 0)
	}
	*s = s.Rounded()
	drawnRest(&d)
	return d
}

// drawnRest is drawable for what is not the setup.
func drawnRest(d *drill.Drill) {
	if d.Window.Check(d.Kind) != nil {
		d.Window = d.Kind.StandardWindow()
	}
	if d.Breaks < 1 || d.Breaks > drill.MaxBreaks {
		d.Breaks = drill.UsualBreaks
	}
	usual := drill.StandardTargets(d.Kind)
	d.Targets.Wing = within(d.Targets.Wing, 0.001, 1, usual.Wing)
	d.Targets.Window = within(d.Targets.Window, 0.001, 1, usual.Window)
}

// within keeps v between two limits; what is no number becomes the usual.
func within[T ~float64](v, low, high, usual T) T {
	if v != v {
		return usual
	}
	return min(max(v, low), high)
}

// firstDrill is what a new drill begins with.
func firstDrill() drill.Drill {
	k := table.NineFoot()
	return drill.Drill{
		Kind: k, Setup: drill.Standard(rack.NineBall, table.Left, k), Breaks: drill.UsualBreaks,
		Window: k.StandardWindow(), Targets: drill.StandardTargets(k),
		Watch: "The wing ball, and where the cue ball stops.",
	}
}
