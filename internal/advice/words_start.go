package advice

const standardStart = "Start with the standard setup: nothing is known yet of this student's break."

// describeStart says where the first setup on a table comes from.
func describeStart(c candidate, on Conditions) string {
	counts := "the wing ball in " + countOfTotal(c.made, c.tried)
	if c.table == on.Table && c.kind == on.Kind {
		return "Start from the best setup on this table so far: " + counts + "."
	}
	says := "Start from the best setup on " + c.table + ", " + counts + " there"
	if c.kind.Feet != on.Kind.Feet {
		says += ", carried over as a fraction of the table's width"
	}
	says += ". Another table can differ: the first ten will tell."
	if c.kind.CornerMouth > on.Kind.CornerMouth {
		says += " The corners are tighter here, so expect fewer."
	}
	return says
}
