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
func ListSetupParts(s drill.Setup, k table.Kind) []SetupPart {
	return []SetupPart{
		{"Break from", "the " + string(s.Side)},
		{"Cue ball", picture.CuePlaceWords(s.Cue, k)},
		{"Contact", picture.ContactWords(s.Contact) + " on the head ball"},
		{"Tip", TipHeightWords(s.Tip) + spinWords(s.Spin)},
		{"Speed", SpeedWords(s.Speed)},
		{"Rack", s.Game.Words() + ", " + spotWords(s)},
		{"Order", s.Order.String()},
		{"Wing ball", "the " + s.WingBall().String() + ", to " + s.WingPocket().Words()},
	}
}

// TipHeightWords says how high the tip strikes: "0.1 of the radius below centre".
func TipHeightWords(tip drill.RadiusFraction) string {
	if math.Round(float64(tip)*100) == 0 {
		return "centre ball"
	}
	where := " above centre"
	if tip < 0 {
		where = " below centre"
	}
	return radiusWords(tip) + where
}

func spinWords(spin drill.RadiusFraction) string {
	if math.Round(float64(spin)*100) == 0 {
		return ""
	}
	side := "right"
	if spin < 0 {
		side = "left"
	}
	return ", " + radiusWords(spin) + " to the " + side
}

func radiusWords(f drill.RadiusFraction) string {
	return say.Hundredths(math.Abs(float64(f))) + " of the radius"
}

// SpeedWords says the speed in both units, or that it is the student's own.
func SpeedWords(v table.Mph) string {
	if v == 0 {
		return "own controlled speed"
	}
	return say.Speed(v)
}

func spotWords(s drill.Setup) string {
	if s.Spot == rack.CentreOnSpot {
		return "the money ball on the foot spot"
	}
	return "the head ball on the foot spot"
}

// ChangeWords says what differs from one setup to another, a phrase a part:
// "cue ball: 18 inches left of the long string, on the head string → 16 …".
func ChangeWords(from, to drill.Setup, k table.Kind) []string {
	before, after := ListSetupParts(from, k), ListSetupParts(to, k)
	var changes []string
	for i := range after {
		if before[i].Words != after[i].Words {
			changes = append(changes, strings.ToLower(after[i].Name)+": "+before[i].Words+" → "+after[i].Words)
		}
	}
	return changes
}
