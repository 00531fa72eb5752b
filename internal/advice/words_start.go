package advice

import (
	"math"

	"breakwright/internal/say"
)

// startStatement says where the first setup on a table comes from.
func startStatement(c candidate, on Conditions) say.Statement {
	said := say.Statement{Kind: say.StartHere, Count: c.made, Of: c.tried}
	if c.table == on.Table && c.kind == on.Kind {
		return said
	}
	said.Kind, said.About, said.Yes = say.StartFrom, c.table, !c.kind.SameSize(on.Kind)
	if said.Yes && c.setup.Cue.X != 0 {
		said.From = math.Abs(float64(c.setup.Cue.X))
		said.To = math.Abs(float64(withinLimits(c.setup.CarryToKind(c.kind, on.Kind), on.Kind).Cue.X))
	}
	if c.kind.CornerMouth > on.Kind.CornerMouth {
		said.Way = 1
	}
	return said
}
