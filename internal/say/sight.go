package say

// sightWords say what was seen of a break, by the adviser's name for it.
var sightWords = map[string]string{
	"wing fell":           "the wing ball fell",
	"wing side rail":      "met the side rail first",
	"wing foot rail":      "met the foot rail first",
	"wing kissed":         "were kissed by another ball",
	"wing jaws":           "rattled in the jaws",
	"cue back":            "the cue ball came straight back",
	"cue head rail":       "the cue ball came off the head rail",
	"cue forward":         "the cue ball ran on into the rack end",
	"cue hit":             "another ball moved the cue ball",
	"cue head corner":     "the cue ball scratched in a head corner",
	"cue near side":       "the cue ball scratched in the near side pocket",
	"cue far side":        "the cue ball scratched in the far side pocket",
	"cue foot corner":     "the cue ball scratched in a foot corner",
	"cue off table":       "the cue ball left the table",
	"none fell":           "no other ball fell",
	"another fell":        "another ball fell",
	"head ball far side":  "the head ball fell in the far side pocket",
	"head ball came back": "the head ball came back up the table",
	"head ball stayed":    "the head ball stayed at the foot end",
	"few rails":           "fewer than six balls met a rail",
	"many rails":          "six or more balls met a rail",
	"few crossed":         "at most one ball crossed the head string",
	"many crossed":        "three or more balls crossed the head string",
}

// IsSightOfMisses reports whether a sight is one of the wing ball's misses.
func IsSightOfMisses(sight string) bool {
	switch sight {
	case "wing side rail", "wing foot rail", "wing kissed", "wing jaws":
		return true
	}
	return false
}

func (s Statement) sight() string {
	if IsSightOfMisses(s.About) {
		return InLettersOfThe(s.Count, s.Of, "misses that were watched") + " " + sightWords[s.About]
	}
	return sightWords[s.About] + " in " + InLetters(s.Count, s.Of)
}
