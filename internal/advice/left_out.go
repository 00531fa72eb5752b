package advice

// leftOutReason says why a set under other conditions is not pooled with this one.
func leftOutReason(there, here poolKey) string {
	switch {
	case there.table != here.table:
		return "played on another table"
	case there.kind != here.kind:
		return "the table's size or pockets are written down differently"
	case there.game != here.game:
		return "another game's rack"
	case there.side != here.side:
		return "broken from the other side"
	case there.spot != here.spot:
		return "another ball on the foot spot"
	}
	return "another wing ball was played"
}
