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

// WindowFields are the names of the form's fields of the cue-ball window.
type WindowFields struct{ Left, Right, Head, Foot string }

// DrawnSetup is a setup whose pictures are handles: what is moved in them is
// written into the setup's fields of a form, which work as well when typed into.
type DrawnSetup struct {
	// ID begins the ids of the parts that follow the fields: ID-table, ID-contact, ID-tip.
	ID    string
	Setup drill.Setup
	Kind  table.Kind
	Table picture.TableView
	// Window are the fields that its edges are written into; the zero value leaves
	// the window where it is.
	Window WindowFields
	// CueStep is the grain of a drag of the cue ball; 0 is half an inch.
	CueStep table.Inches
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
	Below string  `json:"below,omitempty"`
	Above string  `json:"above,omitempty"`
	Ball  float64 `json:"ball,omitempty"` // a ball's width, as typed
}

// moving is an axis along which a handle writes one field.
func moving(field string, origin, unit, low, high, step float64) drawnAxis {
	return drawnAxis{Fields: []string{field}, Origin: origin, Unit: unit, Moves: true, Min: low, Max: high, Step: step}
}

// resting is an axis along which a handle only follows fields.
func resting(origin, unit float64, fields ...string) drawnAxis {
	return drawnAxis{Fields: fields, Origin: origin, Unit: unit}
}

// typedIn makes an axis of inches one of the units that its fields are typed in: its
// ends as they are typed, and its grain at least the finest that a coach says.
func (a drawnAxis) typedIn(u say.Units, m say.Quantity) drawnAxis {
	one := u.InOne(m)
	a.Unit /= one
	a.Min, a.Max, a.Step = a.Min*one, a.Max*one, u.Grain(m, a.Step)
	if u == say.Metric { // whole steps within what is allowed
		a.Min, a.Max = math.Ceil(a.Min/a.Step)*a.Step, math.Floor(a.Max/a.Step)*a.Step
	}
	return a
}

// movedTable is the table under its handles.
func (d DrawnSetup) movedTable() picture.TableView {
	t := d.Table
	t.CueIsMoved = true
	return t
}

func (d DrawnSetup) tableHandles(u say.Units) []drawnHandle {
	f, cueStep := d.Window, float64(d.CueStep)
	const unit, edgeStep = float64(picture.UnitsPerInch), 0.5
	if cueStep == 0 {
		cueStep = edgeStep
	}
	outermost := drill.OutermostCue(d.Kind)
	if box := d.Table.Box; box > 0 {
		outermost = min(outermost, box)
	}
	handles := []drawnHandle{{
		Label: "Cue ball", Mark: ".pic-cue",
		X: moving(FieldCueAcross, 0, float64(d.Setup.Side.Sign())*unit, 0, float64(outermost), cueStep).typedIn(u, say.Place),
		Y: moving(FieldCueBehind, -float64(d.Kind.HeadString())*unit, unit, 0, float64(drill.FurthestBehind), cueStep).typedIn(u, say.Place),
	}}
	if f == (WindowFields{}) {
		return handles
	}
	side, end := float64(d.Kind.Width()/2), float64(d.Kind.Length())
	middleX := resting(0, unit, f.Left, f.Right).typedIn(u, say.Place)
	middleY := resting(0, -unit, f.Head, f.Foot).typedIn(u, say.Place)
	edge := func(field string, unit, low, high float64, below, above string) drawnAxis {
		axis := moving(field, 0, unit, low, high, edgeStep).typedIn(u, say.Place)
		axis.Below, axis.Above, axis.Ball = below, above, float64(table.BallDiameter)*u.InOne(say.Place)
		return axis
	}
	return append(handles,
		drawnHandle{Label: "Window, left edge", X: edge(f.Left, unit, -side, side, f.Right, ""), Y: middleY},
		drawnHandle{Label: "Window, right edge", X: edge(f.Right, unit, -side, side, "", f.Left), Y: middleY},
		drawnHandle{Label: "Window, head end", X: middleX, Y: edge(f.Head, -unit, 0, end, f.Foot, "")},
		drawnHandle{Label: "Window, foot end", X: middleX, Y: edge(f.Foot, -unit, 0, end, "", f.Head)})
}

func (d DrawnSetup) contactHandles(u say.Units) []drawnHandle {
	most := float64(drill.ContactLimit(d.Setup.Spot))
	unit := picture.FaceRadius / float64(table.BallRadius)
	return []drawnHandle{{Label: "Contact", Mark: ".pic-cue-front", X: moving(FieldContact, 0, unit, -most, most, 0.05).typedIn(u, say.Contact)}}
}

func (d DrawnSetup) tipHandles() []drawnHandle {
	return []drawnHandle{{
		Label: "Tip", Mark: ".pic-tip",
		X: moving(FieldSpin, 0, picture.FaceRadius, -float64(drill.MaxSpin), float64(drill.MaxSpin), 0.05),
		Y: moving(FieldTip, 0, -picture.FaceRadius, -float64(drill.MaxTip), float64(drill.MaxTip), 0.05),
	}}
}

// handleAttributes says to the script what can be moved in a picture.
func handleAttributes(handles []drawnHandle, apart bool) templ.Attributes {
	encoded, _ := json.Marshal(handles) // numbers and names: never fails
	attributes := templ.Attributes{"data-handles": string(encoded)}
	if apart {
		attributes["hx-swap-oob"] = "true"
	}
	return attributes
}

// placeWords says the cue ball's place.
func (d DrawnSetup) placeWords(u say.Units) string {
	return "Cue ball " + picture.CuePlaceWords(d.Setup.Cue, d.Kind, u)
}

// contactWords says how full the hit is, beside its inches: "0.2 in left of full,
// 91 % of the ball".
func (d DrawnSetup) contactWords(u say.Units) string {
	words := say.Capitalize(picture.ContactWords(d.Setup.Contact, u))
	if math.Round(float64(d.Setup.Contact)*100) == 0 {
		return words
	}
	return fmt.Sprintf("%s: %.0f\u00a0%% of the ball", words, 100*picture.HitFullness(d.Setup.Contact))
}

// tipWords says where the tip strikes, with the height in tips: "0.2 of the radius
// below centre, no side: about half a tip".
func (d DrawnSetup) tipWords() string {
	words := say.Capitalize(picture.TipWords(d.Setup.Tip, d.Setup.Spin))
	if isOnCentre(d.Setup.Tip) {
		return words
	}
	return words + ": about " + say.Tips(float64(d.Setup.Tip))
}
