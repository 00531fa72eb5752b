package component

import (
	"fmt"
	"math"
	"strings"

	"breakwright/internal/advice"
	"breakwright/internal/coaching"
	"breakwright/internal/drill"
	"breakwright/internal/say"
	"breakwright/internal/table"
)

// partValue is a part of a setup as it is said: "16" and "mph". Number is ""
// where there is only a word, as "full".
type partValue struct{ number, words string }

func (v partValue) String() string {
	if v.number == "" {
		return v.words
	}
	return v.number + " " + v.words
}

// partNames are how a change names the part.
var partNames = map[coaching.Part]string{
	coaching.Place: "cue ball", coaching.Behind: "cue ball", coaching.Contact: "contact", coaching.Tip: "tip",
	coaching.Spin: "side spin", coaching.Speed: "speed", coaching.Rack: "rack order",
}

// sayPart says a part of a setup; other is the setup at the other end of the
// change.
func sayPart(part coaching.Part, s, other drill.Setup, k table.Kind, u say.Units) partValue {
	switch part {
	case coaching.Place:
		return partValue{u.NumberBeside(say.Place, math.Abs(float64(s.Cue.X)), math.Abs(float64(other.Cue.X))), u.Short(say.Place) + " out"}
	case coaching.Behind:
		behind := float64(k.HeadString() - s.Cue.Y)
		number := u.NumberBeside(say.Place, behind, float64(k.HeadString()-other.Cue.Y))
		return sayDistance(behind, number, "on the head string", u.Short(say.Place)+" behind the head string", "")
	case coaching.Contact:
		number := u.NumberBeside(say.Contact, math.Abs(float64(s.Contact)), math.Abs(float64(other.Contact)))
		return sayDistance(float64(s.Contact), number, "full", u.Short(say.Contact)+" right of full", u.Short(say.Contact)+" left of full")
	case coaching.Tip:
		return sayDistance(float64(s.Tip), onFace(s.Tip, other.Tip), "centre ball", "above centre", "below centre")
	case coaching.Spin:
		return sayDistance(float64(s.Spin), onFace(s.Spin, other.Spin), "no side spin", "to the right", "to the left")
	case coaching.Speed:
		if s.Speed == 0 {
			return partValue{words: "own controlled speed"}
		}
		return partValue{u.NumberBeside(say.Speed, float64(s.Speed), float64(other.Speed)), u.Short(say.Speed)}
	}
	return partValue{words: s.Order.String()}
}

func sayDistance(v float64, number, none, plus, minus string) partValue {
	switch {
	case math.Round(v*100) == 0:
		return partValue{words: none}
	case v < 0:
		return partValue{number, minus}
	}
	return partValue{number, plus}
}

// ArrowWords says a change shortly, for a tag or a line of the history: "speed
// 18 → 16 mph", "cue ball 18 → 16 in out (about 1¼ diamonds)".
func ArrowWords(before, after drill.Setup, k table.Kind, u say.Units) string {
	return joinParts(before, after, func(part coaching.Part) string {
		from, to := sayPart(part, before.ForSide(after.Side), after, k, u), sayPart(part, after, before.ForSide(after.Side), k, u)
		if part == coaching.Rack {
			return "rack order " + to.words
		}
		was := from.String()
		if from.number != "" && from.words == to.words {
			was = from.number
		}
		return partNames[part] + " " + was + " → " + to.String() + inOtherUnit(part, after, before, k)
	})
}

// onFace says a distance on the cue ball's face in tips, or as a part of the radius where
// in tips it would be that of the other end, too.
func onFace(f, other drill.RadiusFraction) string {
	tips := say.Tips(float64(f))
	if f*other > 0 && tips == say.Tips(float64(other)) {
		return radiusWords(f)
	}
	return tips
}

// inOtherUnit adds to a part the other unit that it is known by: " (about 1¼ diamonds)"
// to a length, " (0.1 of the radius)", as forms ask for it, to tips. other is the setup at
// the other end of the change.
func inOtherUnit(part coaching.Part, s, other drill.Setup, k table.Kind) string {
	var words string
	switch part {
	case coaching.Place:
		words = diamondsBeside(s.Cue.X, other.Cue.X, k)
	case coaching.Behind:
		words = diamondsBeside(k.HeadString()-s.Cue.Y, k.HeadString()-other.Cue.Y, k)
	case coaching.Tip:
		words = radiusBesideTips(s.Tip, other.Tip)
	case coaching.Spin:
		words = radiusBesideTips(s.Spin, other.Spin)
	}
	if words == "" {
		return ""
	}
	return " (" + words + ")"
}

// diamondsBeside is a length in diamonds; "" where the other end is as many.
func diamondsBeside(length, other table.Inches, k table.Kind) string {
	if words := say.Diamonds(length, k.DiamondSpacing()); words != say.Diamonds(other, k.DiamondSpacing()) {
		return words
	}
	return ""
}

// radiusBesideTips is a distance on the face as a part of the radius, where onFace has it
// in tips; "" for none.
func radiusBesideTips(f, other drill.RadiusFraction) string {
	words := radiusWords(f)
	if isOnCentre(f) || onFace(f, other) == words {
		return ""
	}
	return words
}

// InsteadWords says a change as one is told to do it: "16 mph instead of 18", "cue
// ball 16 in out (about 1¼ diamonds) instead of 18".
func InsteadWords(before, after drill.Setup, k table.Kind, u say.Units) string {
	return joinParts(before, after, func(part coaching.Part) string {
		from, to := sayPart(part, before.ForSide(after.Side), after, k, u), sayPart(part, after, before.ForSide(after.Side), k, u)
		name := partNames[part] + " "
		switch part {
		case coaching.Speed:
			name = ""
		case coaching.Rack:
			return "rack " + to.words
		}
		was := from.String()
		if from.number != "" && from.words == to.words {
			was = from.number
		}
		return name + to.String() + inOtherUnit(part, after, before, k) + " instead of " + was
	})
}

func joinParts(before, after drill.Setup, words func(coaching.Part) string) string {
	parts := coaching.ChangedParts(before, after)
	if len(parts) == 0 {
		return "the setup as it was"
	}
	list := make([]string, len(parts))
	for i, part := range parts {
		list[i] = words(part)
	}
	return strings.Join(list, ", ")
}

// becauseOf are the facts of breaks that ask for a change, by rule; %s is "2 of 10".
var becauseOf = map[string]string{
	"balls-off-table":     "because a ball left the table in %s breaks",
	"weak-break":          "because %s breaks were weak",
	"side-scratch":        "because the cue ball scratched in the side in %s breaks",
	"cue-ball-wide":       "because the cue ball ran wide in %s breaks",
	"head-corner-scratch": "because the cue ball scratched in a head corner in %s breaks",
	"foot-corner-scratch": "because the cue ball scratched in a foot corner in %s breaks",
	"cue-ball-forward":    "because the cue ball went on past the window in %s breaks",
	"cue-ball-back":       "because the cue ball came back past the window in %s breaks",
	"wing-misses-unseen":  "because the wing ball stayed up in %s breaks",
	"no-shot":             "because there was no shot in %s breaks",
}

// BecauseWords says the fact that asks for a change: "because a ball left the
// table in 2 of 10 breaks"; "" where there is no count to tell.
func BecauseWords(c coaching.Change) string {
	if c.Rule == "follow-up" {
		return "because it was better before" // the last change, or an earlier one
	}
	if c.Rule == "wing-miss-balance" && c.Of > 0 {
		return "because " + say.InLettersOfThe(c.Count, c.Of, "misses that were noted") + " pointed the same way"
	}
	if words, known := becauseOf[c.Rule]; known && c.Of > 0 {
		return fmt.Sprintf(words, say.OfTotal(c.Count, c.Of))
	}
	return ""
}

// WithBecause adds the fact to what is to be done.
func WithBecause(words string, c coaching.Change) string {
	if because := BecauseWords(c); because != "" {
		return words + ", " + because
	}
	return words
}

// WhyWords explain a change in the history: what asked for it and, where the
// coach set something else, what had been proposed.
func WhyWords(c coaching.Change, coach string, u say.Units) string {
	if words := ProposalWords(c, coach, u); words != "" {
		return words
	}
	if c.Proposed == (drill.Setup{}) {
		return "Set by " + coach + "."
	}
	return "Proposed: " + WithBecause(ArrowWords(c.Before, c.Proposed, c.Kind, u), c) + "."
}

// ProposalWords says what the rules proposed where the coach set something else:
// "the rules proposed 18 → 22; the coach set 18 → 14". It is "" where nothing
// differs.
func ProposalWords(c coaching.Change, coach string, u say.Units) string {
	if c.Proposed == (drill.Setup{}) {
		return ""
	}
	proposed := "The rules proposed " + ArrowWords(c.Before, c.Proposed, c.Kind, u)
	switch c.Decision {
	case coaching.Changed:
		return proposed + "; " + coach + " set " + ArrowWords(c.Before, c.Chosen, c.Kind, u) + "."
	case coaching.Declined:
		return proposed + "; " + coach + " left the setup as it was."
	}
	return ""
}

// VerdictWords says in short what the adviser's verdict asks for, "" for none.
func VerdictWords(verdict string) string {
	switch advice.Verdict(verdict) {
	case advice.Change:
		return "one change proposed"
	case advice.Keep:
		return "leave it as it is"
	case advice.More:
		return "too early to say"
	}
	return ""
}

// OutcomeWords says what came of a change: "it helped".
func OutcomeWords(s coaching.State) string {
	switch s {
	case coaching.Helped:
		return "it helped"
	case coaching.NoDifference:
		return "no real difference"
	case coaching.Hurt:
		return "it hurt"
	case coaching.InTrial:
		return "not known yet"
	}
	return ""
}

// CountsWords compares what was counted before a change and under it: "Wing ball: 2 of
// 10 before, then 11 of 20."; "" before anything was. It does not say since: the record
// of a change that was settled counts no later breaks.
func CountsWords(n coaching.Counts) string {
	if n.Measure == "" {
		return ""
	}
	return countBeforeWords(n) + ", then " + say.OfTotal(n.Since, n.OfSince) + "."
}

// countsLaterWords compares what was counted when a change was settled with what was
// after later breaks; only the first where something else was counted then.
func countsLaterWords(settled, later coaching.Counts) string {
	if later.Measure != settled.Measure || later.Before != settled.Before || later.OfBefore != settled.OfBefore {
		return CountsWords(settled)
	}
	return countBeforeWords(settled) + ", " + say.OfTotal(settled.Since, settled.OfSince) + " when that was found, " +
		say.OfTotal(later.Since, later.OfSince) + " with these breaks."
}

func countBeforeWords(n coaching.Counts) string {
	return say.Capitalize(n.Measure) + ": " + say.OfTotal(n.Before, n.OfBefore) + " before"
}

// SupersededWords says why a change was not gone on with.
func SupersededWords(because coaching.SupersededBy) string {
	switch because {
	case coaching.SameAgain:
		return "a newer set asked for the same again"
	case coaching.NewerSet:
		return "a newer set has its own say"
	case coaching.AnotherSetup:
		return "left for another setup"
	case coaching.AnotherTable:
		return "left for another table"
	case coaching.CoachWaits:
		return "not put forward: a decision of the coach came first"
	}
	return "a newer change took its place"
}

// StateTag says in a word or two how far a change has come, for a tag beside the
// student's set that it was made from: of the change, since the set itself may have
// been another story.
func StateTag(s coaching.State) string {
	switch s {
	case coaching.Proposed:
		return "a change is proposed"
	case coaching.Approved, coaching.Changed, coaching.Own:
		return "a change is next"
	case coaching.Declined:
		return "no change"
	case coaching.Superseded:
		return "its change lapsed"
	case coaching.InTrial:
		return "its change is being tried"
	case coaching.Helped:
		return "its change helped"
	case coaching.NoDifference:
		return "its change made no real difference"
	case coaching.Hurt:
		return "its change made it worse"
	}
	return ""
}

// DecidedWords says what a coach decided, and what had been proposed where that
// was something else.
func DecidedWords(c coaching.Change, coach string, u say.Units) string {
	if words := ProposalWords(c, coach, u); words != "" {
		return words
	}
	words := say.Capitalize(ArrowWords(c.Before, c.After(), c.Kind, u))
	if c.Decision == coaching.Own {
		return words + ", set by " + coach + "."
	}
	return words + ", as proposed."
}

// ProgressWords says how far a decided change has come.
func ProgressWords(c coaching.Change) string {
	switch c.State {
	case coaching.Declined:
		return "declined"
	case coaching.Superseded:
		return SupersededWords(c.Because)
	case coaching.InTrial:
		return "being tried out"
	case coaching.Approved, coaching.Changed, coaching.Own:
		return "not played yet"
	}
	return OutcomeWords(c.State)
}
