package say

import "breakwright/internal/table"

// start says where the first setup on a table comes from.
func (s Statement) start(r Reader) string {
	count := "the wing ball in " + InLetters(s.Count, s.Of)
	switch s.Kind {
	case StartStandard:
		return "Start with the standard setup: nothing is known yet of " + r.choose("your", "this student’s", "this student’s") + " break."
	case StartHere:
		return "Start from the best setup on this table so far: " + count + "."
	}
	text := "Start from the best setup on " + s.About + ", " + count + " there"
	if s.Yes {
		text += ", carried over in proportion to the table"
	}
	switch {
	case s.To > 0 && s.Diamond != 0:
		text += ": " + Diamonds(table.Inches(s.From), table.Inches(s.Diamond)) + " from the middle, " + r.Units.WithShort(Place, s.From) + " there and " + r.Units.WithShort(Place, s.To) + " here"
	case s.To > 0:
		text += ": " + r.Units.WithShort(Place, s.From) + " from the long string there is " + r.Units.WithShort(Place, s.To) + " here"
	}
	text += ". Another table can differ: the first ten will tell."
	if s.Way > 0 {
		text += " The corners are tighter here, so expect fewer."
	}
	return text
}
