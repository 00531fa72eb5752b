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
	return []SetupPart{
		{"Break from", "the " + string(s.Side)},
		{"Cue ball", picture.CuePlaceWords(s.Cue, k, u)},
		{"Contact", picture.ContactWords(s.Contact, u) + " on the head ball"},
		{"Tip", TipHeightWords(s.Tip) + spinWords(s.Spin)},
		{"Speed", SpeedWords(s.Speed, u)},
		{"Rack", s.Game.Words() + ", " + spotWords(s)},
		{"Order", s.Order.String()},
		{"Wing ball", "the " + s.WingBall().String() + ", to " + s.WingPocket().Words()},
	}
}

// TipHeightWords says how high the tip strikes: "about a quarter of a tip below centre
// (0.1 of the radius)".
func TipHeightWords(tip drill.RadiusFraction) string {
	if isOnCentre(tip) {
		return "centre ball"
	}
	return "about " + say.TipHeight(float64(tip)) + " (" + radiusWords(tip) + ")"
}

func spinWords(spin drill.RadiusFraction) string {
	if isOnCentre(spin) {
		return ""
	}
	side := "right"
	if spin < 0 {
		side = "left"
	}
	return ", about " + say.Tips(float64(spin)) + " to the " + side + " (" + radiusWords(spin) + ")"
}

// isOnCentre reports whether a height or side is the centre of the ball, to the hundredth
// of the radius that is said of it.
func isOnCentre(f drill.RadiusFraction) bool { return math.Round(float64(f)*100) == 0 }

func radiusWords(f drill.RadiusFraction) string {
	return say.Hundredths(math.Abs(float64(f))) + " of the radius"
}

// SpeedWords says the speed, or that it is the student's own.
func SpeedWords(v table.Mph, u say.Units) string {
	if v == 0 {
		return "own controlled speed"
	}
	return u.Speed(v)
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
// "cue ball: 18 inches left of the long string, on the head string → 16 …".
func ChangeWords(from, to drill.Setup, k table.Kind, u say.Units) []string {
	before, after := ListSetupParts(from, k, u), ListSetupParts(to, k, u)
	var changes []string
	for i := range after {
		if before[i].Words != after[i].Words {
			changes = append(changes, strings.ToLower(after[i].Name)+": "+before[i].Words+" → "+after[i].Words)
		}
	}
	return changes
}
