package drills

import (
	"slices"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// drawableDrill returns the drill that the pictures show while something typed cannot
// be: each such part at its limit, or as usual. A good drill is given as it is.
// shown is the rack order drawn last.
func drawableDrill(d drill.Drill, shown rack.Order) drill.Drill {
	usual := drill.StandardSetup(d.Setup.Game, d.Setup.Side, d.Kind)
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
	s.Cue.X = sign * clampOrDefault(sign*s.Cue.X, 0, drill.OutermostCue(d.Kind), sign*usual.Cue.X)
	s.Cue.Y = clampOrDefault(s.Cue.Y, head-drill.FurthestBehind, head, usual.Cue.Y)
	s.Contact = clampOrDefault(s.Contact, -drill.ContactLimit(s.Spot), drill.ContactLimit(s.Spot), 0)
	s.Tip = clampOrDefault(s.Tip, -drill.MaxTip, drill.MaxTip, 0)
	s.Spin = clampOrDefault(s.Spin, -drill.MaxSpin, drill.MaxSpin, 0)
	if s.Speed != 0 {
		s.Speed = clampOrDefault(s.Speed, drill.SlowestBreak, drill.FastestBreak, 0)
	}
	*s = s.Rounded()
	makeRestDrawable(&d)
	return d
}

// makeRestDrawable is drawable for what is not the setup.
func makeRestDrawable(d *drill.Drill) {
	if d.Window.Check(d.Kind) != nil {
		d.Window = d.Kind.StandardWindow()
	}
	if d.Breaks < 1 || d.Breaks > drill.MaxBreaks {
		d.Breaks = drill.UsualBreaks
	}
	usual := drill.StandardTargets(d.Kind)
	for _, kind := range drill.TargetKinds() {
		share, least := kind.Of(&d.Targets), 0.001
		if kind.Optional {
			least = 0
		}
		*share = clampOrDefault(*share, least, 1, *kind.Of(&usual))
	}
	if d.House.CheckBox(d.Kind) != nil {
		d.House.BreakBox = 0
	}
	d.Setup = d.Setup.KeepInBox(d.House.BreakBox)
	d.WatchList.WingPath = d.WatchList.WingPath && !d.WatchList.CueOnly
}

// clampOrDefault keeps v between two limits; what is no number becomes the usual.
func clampOrDefault[T ~float64](v, low, high, usual T) T {
	if v != v {
		return usual
	}
	return min(max(v, low), high)
}

// newDrillDefaults is what a new drill begins with.
func newDrillDefaults() drill.Drill {
	k := table.NineFoot()
	return drill.Drill{
		Kind: k, Setup: drill.StandardSetup(rack.NineBall, table.Left, k), Breaks: drill.UsualBreaks,
		Window: k.StandardWindow(), Targets: drill.StandardTargets(k),
		Watch: "The wing ball, and where the cue ball stops.", WatchList: drill.UsualWatchList(),
	}
}
