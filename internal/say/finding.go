package say

// findingWords say what was counted, and nothing more: what stands before
// the count, and after it, without a full stop.
var findingWords = map[string][2]string{
	"wing-ball":           {"The wing ball fell in ", ""},
	"cue-ball-window":     {"The cue ball stopped in the window in ", ""},
	"open-shot":           {"There was an open shot on the lowest ball in ", ""},
	"ran-out":             {"The table was run out in ", ""},
	"balls-off-table":     {"A ball left the table in ", ""},
	"weak-break":          {"Weak breaks: ", " pocketed nothing and sent fewer than four balls to a rail"},
	"side-scratch":        {"The cue ball scratched in a side pocket in ", ""},
	"cue-ball-wide":       {"The cue ball went wide on the far side in ", ""},
	"head-corner-scratch": {"The cue ball scratched in a head corner in ", ""},
	"foot-corner-scratch": {"The cue ball scratched in a foot corner in ", ""},
	"cue-ball-forward":    {"The cue ball went on past the window in ", ""},
	"cue-ball-back":       {"The cue ball came back past the window in ", ""},
	"wing-misses-unseen":  {"The wing ball fell in ", ", and too few of its misses were recorded"},
	"unsteady":            {"In ", " neither the wing ball nor the cue ball came good"},
	"no-shot":             {"No shot on the lowest ball after ", " good breaks"},
	"head-ball-path":      {"The head ball went past the far side pocket in ", ""},
	"dry-break":           {"Nothing fell in ", ""},
}

// finding is a sentence without its full stop, so that a reason can go on from it.
func (s Statement) finding() string {
	if s.Of == 0 {
		return "Nothing recorded yet"
	}
	count := InLetters(s.Count, s.Of)
	switch {
	case s.Kind == SoftFinding:
		return "With so little speed nothing fell in " + count
	case s.Kind == UnaimedFinding:
		return "The wing ball fell in " + count + "; with the money ball on the foot spot its misses do not say which way, so makes alone lead"
	case s.About == "outside-limits":
		return "The setup lies beyond what is taught on this table"
	case s.About == "wing-miss-balance":
		side := "met the foot rail first, or were kissed by another ball"
		if s.Way > 0 {
			side = "met the side rail first"
		}
		return Capitalize(InLettersOfThe(s.Count, s.Of, "misses that were noted")) + " " + side
	}
	around := findingWords[s.About]
	return around[0] + count + around[1]
}
