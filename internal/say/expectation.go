package say

func (s Statement) expectation(r Reader) string {
	switch s.Kind {
	case ExpectBefore:
		return "Look for " + r.choose("what you had before", "what there was before", "what there was before") + ": " + s.About + " " + InLetters(s.Count, s.Of) + "."
	case ExpectOf:
		return s.expectOf(r)
	case ExpectRate:
		return "Look for " + s.expectRate() + s.soFar() + "."
	case ExpectSteadier:
		return "Look for steadier breaks; no one count should change much in ten."
	case AimHigher:
		return "Make it harder: a higher target, another table, tighter pockets, a shuffled rack, or the other side."
	}
	return "Look for the same again; practise it, and raise the target when it holds."
}

// expectOf says what a rule's change should bring.
func (s Statement) expectOf(r Reader) string {
	switch s.About {
	case "balls-off-table":
		return "Look for every ball to stay on the table in the next ten."
	case "outside-limits":
		return "Look for " + r.choose("a break you control", "a break under control", "a break under control") + "; the next ten begin from there."
	case "weak-break":
		return "Look for four balls to a rail, or one pocketed, in nearly all of the next ten."
	case "scratch":
		return "Look for at most one scratch in the next ten."
	case "unsteady":
		return "Look for the cue ball to stop closer together in the next ten; the wing ball comes after."
	case "no-shot":
		return "Look for a shot on the lowest ball after more of " + r.choose("your", "the", "the") + " good breaks."
	case "head-ball-path":
		return "Look for the head ball at the far side pocket, and the wing ball as before."
	}
	return ""
}

// expectRate says a part of a break with how often it should come.
func (s Statement) expectRate() string {
	switch s.About {
	case "window":
		return "the cue ball in the window in " + inNextTen(s.Rate)
	case "ball down":
		return "a ball down and no scratch in " + inNextTen(s.Rate)
	case "scratch":
		return fewScratches(s.Rate) + " in the next ten"
	case "weak break":
		return "four balls to a rail, or one pocketed, in " + inNextTen(1-s.Rate)
	case "middle":
		return "the cue ball between the head string and the centre in " + inNextTen(s.Rate)
	case "open shot":
		return "an open shot on the lowest ball in " + inNextTen(s.Rate)
	}
	return "the wing ball in " + inNextTen(s.Rate)
}

// soFar says what there was, where it was counted.
func (s Statement) soFar() string {
	switch {
	case s.Of == 0:
		return ""
	case s.About == "weak break":
		return "; so far " + InLetters(s.Of-s.Count, s.Of)
	}
	return "; so far " + InLetters(s.Count, s.Of)
}

// fewScratches says how many scratches there may be, to the nearest whole.
func fewScratches(rate float64) string {
	switch n := int(rate*10 + 0.5); n {
	case 0:
		return "no scratch"
	case 1:
		return "at most one scratch"
	default:
		return "at most " + Number(n) + " scratches"
	}
}

// inNextTen writes a rate as what to look for.
func inNextTen(rate float64) string {
	switch k := int(rate*10 + 0.5); {
	case k <= 1:
		return "one or two of the next ten"
	case k == 5:
		return "about half of the next ten"
	case k >= 9:
		return "nearly all of the next ten"
	default:
		return "about " + Number(k) + " of the next ten"
	}
}

// caution is the safety line where force or height is involved.
func (s Statement) caution(r Reader) string {
	switch s.About {
	case "third time":
		return "This is the third time: stop power breaks for today and speak with " + r.choose("your coach", "the student", "the coach") + "."
	case "balls fly":
		return "Level the cue, tip no higher than centre, and nobody at the foot end."
	case "more speed":
		return "More speed makes balls fly: a level cue, and nobody at the foot end."
	case "low tip":
		return "Keep the cue as level as the rail allows: a low tip under a raised cue makes the cue ball jump."
	case "outside the box":
		return "This place is outside the room's break box, which reaches " + r.Units.WithShort(Place, s.To) + " to each side of the long string: it is for practice only."
	case "three points":
		return "The room plays the three-point rule: at a lower speed fewer balls pass the head string, so count them."
	}
	return ""
}

// followed says how a change turned out.
func (s Statement) followed() string {
	outcome := "Not enough to tell: luck alone can do that."
	if len(s.Others) > 0 && followedWords[s.Others[0]] != "" {
		outcome = followedWords[s.Others[0]]
	}
	return Capitalize(s.About) + ": " + InLetters(s.Count, s.Of) + " before the change, " + InLetters(s.Since, s.OfSince) + " since. " + outcome
}

var followedWords = map[string]string{
	"helped":        "It helped, as far as these breaks can tell.",
	"hurt":          "It got worse.",
	"no difference": "No real difference: most likely less than one and a half of ten.",
	"too early":     "Too early to tell.",
}

// bestPlace says what the places tried tell.
func (s Statement) bestPlace(r Reader) string {
	text, place := "Of the places tried, ", r.lengthInLetters(s.To)+" from the long string"
	if s.Way > 0 {
		text = "Between the places tried, "
		place = "about " + place
	}
	if s.Diamond != 0 {
		place = s.out(r, s.To)
	}
	switch { // nothing looks good or bad of a place where nothing was broken
	case s.About != "" && s.Yes:
		text = "A place " + s.About + " than any tried may do a little better: " + place + "."
	case s.About != "":
		text = "A place " + s.About + " than any tried promises most: " + place + "."
	default:
		text += place + " looks best so far."
	}
	if s.Yes {
		text += " Searching further can win little."
	}
	return text
}

// checkWords say what to record, or to check, in the next set.
var checkWords = map[string]string{
	"ball flew":         "A ball has left the table: a level cue, no more force than stays under control, and nobody at the foot end.",
	"record misses":     "When the wing ball stays up, record what it met first: side rail, foot rail, another ball, or the jaws.",
	"watch cue ball":    "Watch how the cue ball comes to the foot end: on through the rack, or back off the head rail. More draw answers one and makes the other worse.",
	"record low balls":  "Record where the low balls stop, so that the rack can be planned.",
	"rack after dry":    "Check the rack is tight, the head ball on its spot, balls and cloth clean.",
	"rack after weak":   "Check that the rack is tight before each break.",
	"rack may be loose": "Check the rack before every break, and note it: a gap that can hardly be seen costs more than half of the wing balls.",
	"misses balanced":   "The misses are balanced: the place is right. Work on a square hit.",
}
