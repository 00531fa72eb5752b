package advice

import "breakwright/internal/say"

// startStatement says where the first setup on a table comes from.
func startStatement(c candidate, on Conditions) say.Statement {
	said := say.Statement{Kind: say.StartHere, Count: c.made, Of: c.tried}
	if c.table == on.Table && c.kind == on.Kind {
		return said
	}
	said.Kind, said.About, said.Yes = say.StartFrom, c.table, c.kind.Feet != on.Kind.Feet
	if c.kind.CornerMouth > on.Kind.CornerMouth {
		said.Way = 1
	}
	return said
}
