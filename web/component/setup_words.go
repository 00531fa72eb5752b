package component

import (
	"math"
	"strings"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/say"
	"breakwright/internal/table"
	"breakwright/web/picture"
)

// SetupPart is one part of a setup in words.
type SetupPart struct{ Name, Words string }

// ListSetupParts lists a setup's parts in the order a student takes them.
func ListSetupParts(s drill.Setup, k table.Kind, u say.Units) []SetupPart {
	return listPartsBeside(s, s, k, u)
}

// listPartsBeside is ListSetupParts beside the setup at the other end of a change: what
// rounding would make alike is said more finely.
func listPartsBeside(s, other drill.Setup, k table.Kind, u say.Units) []SetupPart {
	return []SetupPart{
		{"Break from", "the " + string(s.Side)},
		{"Cue ball", picture.CuePlaceWordsBeside(s.Cue, other.Cue, k, u)},
		{"Contact", picture.ContactWordsBeside(s.Contact, other.Contact, u) + " on the head ball"},
		{"Tip", tipWordsBeside(s.Tip, other.Tip) + spinWordsBeside(s.Spin, other.Spin)},
		{"Speed", speedWordsBeside(s.Speed, other.Speed, u)},
		{"Rack", s.Game.Words() + ", " + spotWords(s)},
		{"Order", s.Order.String()},
		{"Wing ball", "the " + s.WingBall().String() + ", to " + s.WingPocket().Words()},
	}
}

// TipHeightWords says how high the tip strikes: "about a quarter of a tip below centre
// (0.1 of the radius)".
func TipHeightWords(tip drill.RadiusFraction) string { return tipWordsBeside(tip, tip) }

func tipWordsBeside(tip, other drill.RadiusFraction) string {
	if isOnCentre(tip) {
		return "centre ball"
	}
	return faceWords(tip, other, "above centre", "below centre")
}

func spinWordsBeside(spin, other drill.RadiusFraction) string {
	if isOnCentre(spin) {
		return ""
	}
	return ", " + faceWords(spin, other, "to the right", "to the left")
}

// faceWords say a place on the cue ball's face in tips and as a part of the radius; as the
// latter alone where the other end of a change is as many tips.
func faceWords(f, other drill.RadiusFraction, plus, minus string) string {
	way := plus
	if f < 0 {
		way = minus
	}
	if f != other && onFace(f, other) == radiusWords(f) {
		return radiusWords(f) + " " + way
	}
	return "about " + say.Tips(float64(f)) + " " + way + " (" + radiusWords(f) + ")"
}

// isOnCentre reports whether a height or side is the centre of the ball, to the hundredth
// of the radius that is said of it.
func isOnCentre(f drill.RadiusFraction) bool { return math.Round(float64(f)*100) == 0 }

func radiusWords(f drill.RadiusFraction) string {
	return say.Hundredths(math.Abs(float64(f))) + " of the radius"
}

// SpeedWords says the speed, or that it is the student's own.
func SpeedWords(v table.Mph, u say.Units) string { return speedWordsBeside(v, v, u) }

func speedWordsBeside(v, other table.Mph, u say.Units) string {
	if v == 0 {
		return "own controlled speed"
	}
	return u.SpeedBeside(v, other)
}

// KindWithMouths names a kind of table whole: "9 ft, corners 4.5 in, sides 5 in".
func KindWithMouths(k table.Kind, u say.Units) string {
	return k.Size() + " ft, corners " + u.WithShort(say.Mouth, float64(k.CornerMouth)) + ", sides " + u.WithShort(say.Mouth, float64(k.SideMouth))
}

func spotWords(s drill.Setup) string {
	if s.Spot == rack.CentreOnSpot {
		return "the money ball on the foot spot"
	}
	return "the head ball on the foot spot"
}

// ChangeWords says what differs from one setup to another, a phrase a part:
// "cue ball: about 1½ diamonds (18 in) left of the middle, on the head string → about 1¼ …".
func ChangeWords(from, to drill.Setup, k table.Kind, u say.Units) []string {
	before, after := listPartsBeside(from, to, k, u), listPartsBeside(to, from, k, u)
	var changes []string
	for i := range after {
		if before[i].Words != after[i].Words {
			changes = append(changes, strings.ToLower(after[i].Name)+": "+before[i].Words+" → "+after[i].Words)
		}
	}
	return changes
}
