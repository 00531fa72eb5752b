package component

import (
	"encoding/json"
	"fmt"
	"math"

	"github.com/a-h/templ"

	"breakwright/internal/drill"
	"breakwright/internal/say"
	"breakwright/internal/table"
	"breakwright/web/picture"
)

// DrawnFields are the names of the form's fields that the pictures write; an empty
// one cannot be moved.
type DrawnFields struct {
	Across, Behind    string // of the cue ball, as typed: on the break side, behind the head string
	Contact           string
	Tip, Spin         string
	Left, Right       string // edges of the window
	WindowHead        string
	WindowFoot        string
	CueStep, EdgeStep table.Inches // the grain of a drag; 0 is half an inch
}

// DrawnSetup is a setup whose pictures are handles: what is moved in them is
// written into fields of a form, which work as well when typed into.
type DrawnSetup struct {
	// ID begins the ids of the parts that follow the fields: ID-table, ID-contact, ID-tip.
	ID     string
	Setup  drill.Setup
	Kind   table.Kind
	Table  picture.TableView
	Fields DrawnFields
	// Apart renders the parts to be put in the place of those on the page.
	Apart bool
}

// drawnHandle is one handle of a picture, as its script reads it.
type drawnHandle struct {
	Label string `json:"label"`
	// Mark is what it moves in the picture, as a selector; "" moves nothing.
	Mark string    `json:"mark,omitempty"`
	X    drawnAxis `json:"x"`
	Y    drawnAxis `json:"y"`
}

// drawnAxis says where a handle stands along an axis of the picture: at Origin +
// Unit × the mean of its fields.
type drawnAxis struct {
	Fields []string `json:"fields,omitempty"`
	Origin float64  `json:"origin"`
	Unit   float64  `json:"unit"`
	// Moves says that the handle writes its one field, within Min and Max, by Step.
	Moves bool    `json:"moves,omitempty"`
	Min   float64 `json:"min"`
	Max   float64 `json:"max"`
	Step  float64 `json:"step"`
	// Below and Above are fields that the value stays a ball away from.
	Below string `json:"below,omitempty"`
	Above string `json:"above,omitempty"`
}

// moving is an axis along which a handle writes one field.
func moving(field string, origin, unit, low, high, step float64) drawnAxis {
	return drawnAxis{Fields: []string{field}, Origin: origin, Unit: unit, Moves: true, Min: low, Max: high, Step: step}
}

// resting is an axis along which a handle only follows fields.
func resting(origin, unit float64, fields ...string) drawnAxis {
	return drawnAxis{Fields: fields, Origin: origin, Unit: unit}
}

func (d DrawnSetup) tableHandles() []drawnHandle {
	f := d.Fields
	const unit = float64(picture.UnitsPerInch)
	grain := func(step table.Inches) float64 {
		if step == 0 {
			return 0.5
		}
		return float64(step)
	}
	handles := []drawnHandle{{
		Label: "Cue ball", Mark: ".pic-cue",
		X: moving(f.Across, 0, float64(d.Setup.Side.Sign())*unit, 0, float64(drill.OutermostCue(d.Kind)), grain(f.CueStep)),
		Y: moving(f.Behind, -float64(d.Kind.HeadString())*unit, unit, 0, float64(drill.FurthestBehind), grain(f.CueStep)),
	}}
	if f.Left == "" {
		return handles
	}
	side, end, step := float64(d.Kind.Width()/2), float64(d.Kind.Length()), grain(f.EdgeStep)
	middleX, middleY := resting(0, unit, f.Left, f.Right), resting(0, -unit, f.WindowHead, f.WindowFoot)
	edge := func(field string, unit, low, high float64, below, above string) drawnAxis {
		axis := moving(field, 0, unit, low, high, step)
		axis.Below, axis.Above = below, above
		return axis
	}
	return append(handles,
		drawnHandle{Label: "Window, left edge", X: edge(f.Left, unit, -side, side, f.Right, ""), Y: middleY},
		drawnHandle{Label: "Window, right edge", X: edge(f.Right, unit, -side, side, "", f.Left), Y: middleY},
		drawnHandle{Label: "Window, head end", X: middleX, Y: edge(f.WindowHead, -unit, 0, end, f.WindowFoot, "")},
		drawnHandle{Label: "Window, foot end", X: middleX, Y: edge(f.WindowFoot, -unit, 0, end, "", f.WindowHead)})
}

func (d DrawnSetup) contactHandles() []drawnHandle {
	most := float64(drill.ContactLimit(d.Setup.Spot))
	unit := picture.FaceRadius / float64(table.BallRadius)
	return []drawnHandle{{Label: "Contact", Mark: ".pic-cue-front", X: moving(d.Fields.Contact, 0, unit, -most, most, 0.05)}}
}

func (d DrawnSetup) tipHandles() []drawnHandle {
	return []drawnHandle{{
		Label: "Tip", Mark: ".pic-tip",
		X: moving(d.Fields.Spin, 0, picture.FaceRadius, -float64(drill.MaxSpin), float64(drill.MaxSpin), 0.05),
		Y: moving(d.Fields.Tip, 0, -picture.FaceRadius, -float64(drill.MaxTip), float64(drill.MaxTip), 0.05),
	}}
}

// handleAttributes says to the script what can be moved in a picture.
func handleAttributes(handles []drawnHandle, apart bool) templ.Attributes {
	said, _ := json.Marshal(handles) // numbers and names: never fails
	attributes := templ.Attributes{"data-handles": string(said)}
	if apart {
		attributes["hx-swap-oob"] = "true"
	}
	return attributes
}

// placeWords says the cue ball's place in diamonds: "1.4 diamonds left, on the
// head string".
func (d DrawnSetup) placeWords() string {
	across := math.Abs(float64(d.Setup.Cue.X))
	diamonds := math.Round(across/float64(d.Kind.DiamondSpacing())*10) / 10
	behind := math.Round(float64(d.Kind.HeadString()-d.Setup.Cue.Y)/float64(d.Kind.DiamondSpacing())*10) / 10
	words := "Cue ball " + say.CountTenths(diamonds, "diamond", "diamonds") + " " + string(d.Setup.Side) + " of the middle"
	if diamonds == 0 {
		words = "Cue ball in the middle"
	}
	if behind == 0 {
		return words + ", on the head string"
	}
	return words + ", " + say.CountTenths(behind, "diamond", "diamonds") + " behind the head string"
}

// contactWords says how full the hit is, beside its inches: "0.2 in left of full,
// 91 % of the ball".
func (d DrawnSetup) contactWords() string {
	words := say.Capitalize(picture.ContactWords(d.Setup.Contact))
	if math.Round(float64(d.Setup.Contact)*100) == 0 {
		return words
	}
	return fmt.Sprintf("%s: %.0f %% of the ball", words, 100*picture.HitFullness(d.Setup.Contact))
}

// tipWidth is how wide a tip is in parts of the ball's radius: 13 mm, a common size
// of cue tips (common practice, no source), on a ball of 57.15 mm (WPA table and
// equipment specification, s.16).
const tipWidth = 13 / (57.15 / 2)

// tipWords says where the tip strikes, with the height in tips: "0.2 of the radius
// below centre, no side: about half a tip".
func (d DrawnSetup) tipWords() string {
	words := say.Capitalize(picture.TipWords(d.Setup.Tip, d.Setup.Spin))
	quarters := int(math.Round(math.Abs(float64(d.Setup.Tip)) / tipWidth * 4))
	return words + [...]string{"", ": about a quarter of a tip", ": about half a tip", ": about three quarters of a tip", ": about a tip"}[min(quarters, 4)]
}
