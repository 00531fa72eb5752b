package say

// signWords say what was seen of a break, by the adviser's name for it.
var signWords = map[string]string{
	"wing fell":      "the wing ball fell",
	"wing side rail": "met the side rail first",
	"wing foot rail": "met the foot rail first",
	"wing kissed":    "were kissed by another ball",
	"cue back":       "the cue ball stopped on its way straight back",
	"cue head rail":  "the cue ball came off the head rail",
	"cue forward":    "the cue ball ran on into the rack end",
	"cue scratch":    "the cue ball scratched",
	"cue off table":  "the cue ball left the table",
	"none fell":      "nothing fell beside the wing ball",
	"few rails":      "fewer than six balls met a rail",
	"few crossed":    "at most one ball crossed the head string",
}

// IsSignOfMisses reports whether a sign is one of the wing ball's misses.
func IsSignOfMisses(sign string) bool {
	switch sign {
	case "wing side rail", "wing foot rail", "wing kissed":
		return true
	}
	return false
}

func (s Statement) sign() string {
	if IsSignOfMisses(s.About) {
		return InLettersOfThe(s.Count, s.Of, "misses that were noted") + " " + signWords[s.About]
	}
	if s.About == "wing fell" && s.Count > 0 { // a reason only where it is too seldom
		return signWords[s.About] + " in only " + InLetters(s.Count, s.Of)
	}
	return signWords[s.About] + " in " + InLetters(s.Count, s.Of)
}
