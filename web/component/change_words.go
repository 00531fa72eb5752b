package component

import (
	"fmt"
	"math"
	"strconv"
	"strings"

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

// roundedNumber says a number with one place at most after the point: what a
// coach would say. A difference that would vanish is said with two.
func roundedNumber(v, other float64) string {
	places := 10.0
	if v != other && math.Round(v*places) == math.Round(other*places) {
		places = 100
	}
	return strconv.FormatFloat(math.Round(math.Abs(v)*places)/places, 'f', -1, 64)
}

// sayPart says a part of a setup; other is the setup at the other end of the
// change.
func sayPart(part coaching.Part, s, other drill.Setup, k table.Kind) partValue {
	switch part {
	case coaching.Place:
		return partValue{roundedNumber(float64(s.Cue.X), float64(other.Cue.X)), "in out"}
	case coaching.Behind:
		behind := float64(k.HeadString() - s.Cue.Y)
		return sayDistance(behind, float64(k.HeadString()-other.Cue.Y), "on the head string", "in behind the head string", "")
	case coaching.Contact:
		return sayDistance(float64(s.Contact), float64(other.Contact), "full", "in right of full", "in left of full")
	case coaching.Tip:
		return sayDistance(float64(s.Tip), float64(other.Tip), "centre ball", "of the radius above centre", "of the radius below centre")
	case coaching.Spin:
		return sayDistance(float64(s.Spin), float64(other.Spin), "no side spin", "of the radius to the right", "of the radius to the left")
	case coaching.Speed:
		if s.Speed == 0 {
			return partValue{words: "own controlled speed"}
		}
		return partValue{roundedNumber(float64(s.Speed), float64(other.Speed)), "mph"}
	}
	return partValue{words: s.Order.String()}
}

func sayDistance(v, other float64, none, plus, minus string) partValue {
	switch {
	case math.Round(v*100) == 0:
		return partValue{words: none}
	case v < 0:
		return partValue{roundedNumber(v, other), minus}
	}
	return partValue{roundedNumber(v, other), plus}
}

// ArrowWords says a change shortly, for a tag or a line of the history: "speed
// 18 → 16 mph", "cue ball 18 → 16 in out".
func ArrowWords(before, after drill.Setup, k table.Kind) string {
	return joinParts(before, after, func(part coaching.Part) string {
		from, to := sayPart(part, before.ForSide(after.Side), after, k), sayPart(part, after, before.ForSide(after.Side), k)
		if part == coaching.Rack {
			return "rack order " + to.words
		}
		if from.number != "" && from.words == to.words {
			return partNames[part] + " " + from.number + " → " + to.String()
		}
		return partNames[part] + " " + from.String() + " → " + to.String()
	})
}

// InsteadWords says a change as one is told to do it: "16 mph instead of 18".
func InsteadWords(before, after drill.Setup, k table.Kind) string {
	return joinParts(before, after, func(part coaching.Part) string {
		from, to := sayPart(part, before.ForSide(after.Side), after, k), sayPart(part, after, before.ForSide(after.Side), k)
		name := partNames[part] + " "
		switch part {
		case coaching.Speed:
			name = ""
		case coaching.Rack:
			return "rack " + to.words
		}
		if from.number != "" && from.words == to.words {
			return name + to.String() + " instead of " + from.number
		}
		return name + to.String() + " instead of " + from.String()
	})
}

func joinParts(before, after drill.Setup, say func(coaching.Part) string) string {
	parts := coaching.ChangedParts(before, after)
	if len(parts) == 0 {
		return "the setup as it was"
	}
	words := make([]string, len(parts))
	for i, part := range parts {
		words[i] = say(part)
	}
	return strings.Join(words, ", ")
}

// becauseOf are the facts that ask for a change, by rule; %s is "2 of 10".
var becauseOf = map[string]string{
	"balls-off-table":     "because a ball left the table in %s breaks",
	"weak-break":          "because %s breaks were weak",
	"side-scratch":        "because the cue ball scratched in the side in %s breaks",
	"cue-ball-wide":       "because the cue ball ran wide in %s breaks",
	"head-corner-scratch": "because the cue ball scratched in a head corner in %s breaks",
	"foot-corner-scratch": "because the cue ball scratched in a foot corner in %s breaks",
	"cue-ball-forward":    "because the cue ball ran on forward in %s breaks",
	"cue-ball-back":       "because the cue ball came back too far in %s breaks",
	"wing-miss-balance":   "because %s misses of the wing ball went the same way",
	"wing-misses-unseen":  "because the wing ball stayed up in %s breaks",
	"no-shot":             "because there was no shot in %s breaks",
}

// BecauseWords says the fact that asks for a change: "because a ball left the
// table in 2 of 10 breaks"; "" where there is no count to tell.
func BecauseWords(c coaching.Change) string {
	if c.Rule == "follow-up" {
		return "because it was better before" // the last change, or an earlier one
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
func WhyWords(c coaching.Change, coach string) string {
	if words := ProposalWords(c, coach); words != "" {
		return words
	}
	if c.Proposed == (drill.Setup{}) {
		return "Set by " + coach + "."
	}
	return "Proposed: " + WithBecause(ArrowWords(c.Before, c.Proposed, c.Kind), c) + "."
}

// ProposalWords says what the rules proposed where the coach set something else:
// "the rules proposed 18 → 22; the coach set 18 → 14". It is "" where nothing
// differs.
func ProposalWords(c coaching.Change, coach string) string {
	if c.Proposed == (drill.Setup{}) {
		return ""
	}
	proposed := "The rules proposed " + ArrowWords(c.Before, c.Proposed, c.Kind)
	switch c.Decision {
	case coaching.Changed:
		return proposed + "; " + coach + " set " + ArrowWords(c.Before, c.Chosen, c.Kind) + "."
	case coaching.Declined:
		return proposed + "; " + coach + " left the setup as it was."
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

// CountsWords compares what was counted before a change and since: "Wing ball: 2
// of 10 before, 11 of 20 since."; "" before anything was.
func CountsWords(n coaching.Counts) string {
	if n.Measure == "" {
		return ""
	}
	return say.Capitalize(n.Measure) + ": " + say.OfTotal(n.Before, n.OfBefore) + " before, " + say.OfTotal(n.Since, n.OfSince) + " since."
}

// SupersededWords says why a change was not gone on with.
func SupersededWords(because coaching.SupersededBy) string {
	switch because {
	case coaching.NewerSet:
		return "a newer set has its own say"
	case coaching.AnotherSetup:
		return "left for another setup"
	case coaching.AnotherTable:
		return "left for another table"
	case coaching.CoachWaits:
		return "not put forward: a decision of the coach waited to be played"
	}
	return "a newer change took its place"
}

// StateTag says in a word or two how far a change has come, for a tag beside the
// student's set.
func StateTag(s coaching.State) string {
	switch s {
	case coaching.Proposed:
		return "a change is proposed"
	case coaching.Approved, coaching.Changed, coaching.Own:
		return "a change is next"
	case coaching.Declined:
		return "no change"
	case coaching.Superseded:
		return "change left"
	case coaching.InTrial:
		return "change in trial"
	}
	return OutcomeWords(s)
}

// DecidedWords says what a coach decided, and what had been proposed where that
// was something else.
func DecidedWords(c coaching.Change, coach string) string {
	if words := ProposalWords(c, coach); words != "" {
		return words
	}
	words := say.Capitalize(ArrowWords(c.Before, c.After(), c.Kind))
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
		return "being tried"
	case coaching.Approved, coaching.Changed, coaching.Own:
		return "not played yet"
	}
	return OutcomeWords(c.State)
}
