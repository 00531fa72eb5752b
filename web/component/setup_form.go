package component

import (
	"errors"
	"fmt"
	"slices"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/say"
	"breakwright/internal/table"
	"breakwright/web/page"
)

// The fields of a setup, on every form that one is typed into. They have the names
// that a setup's own sentences speak of.
const (
	FieldGame      = "game"
	FieldSide      = "side"
	FieldSpot      = "spot"
	FieldWing      = "wing"
	FieldCueAcross = "cue_x" // from the long string on the break side
	FieldCueBehind = "cue_y" // behind the head string
	FieldContact   = "contact"
	FieldTip       = "tip"
	FieldSpin      = "spin"
	FieldSpeed     = "speed" // empty for the student's own
	FieldOrder     = "rack"
)

// SetupInput is one field of a setup as every form shows it.
type SetupInput struct {
	Name, Label, Hint string
	// Mode is the on-screen keyboard: "decimal", or "" where a minus is needed.
	Mode     string
	Optional bool
	// Slider is a second way to set the number; nil for none.
	Slider *SliderRange
}

// SliderRange are the ends and the step of a slider, as typed.
type SliderRange struct{ Min, Max, Step string }

// SetupInputs are the fields of cue ball and stroke for a setup on a kind of table, in
// the units of who types.
type SetupInputs struct{ Across, Behind, Contact, Tip, Spin, Speed SetupInput }

// NewSetupInputs says how the fields look where the cue ball has to be in a break box that
// reaches so far to each side of the long string; 0 is no box.
func NewSetupInputs(s drill.Setup, k table.Kind, box table.Inches, u say.Units) SetupInputs {
	long, off := say.Capitalize(u.Long(say.Place)), u.Long(say.Contact)
	full, cut := u.Typed(say.Contact, float64(drill.MaxContact)), u.Typed(say.Contact, float64(drill.MaxCutContact))
	limit := u.Typed(say.Contact, float64(drill.ContactLimit(s.Spot)))
	return SetupInputs{
		Across: SetupInput{
			Name: FieldCueAcross, Label: long + " from the long string", Mode: "decimal",
			Hint: "On the " + string(s.Side) + "; up to " + outermostWords(k, box, u) + ".",
		},
		Behind: SetupInput{
			Name: FieldCueBehind, Label: long + " behind the head string", Mode: "decimal",
			Hint: "0 is on it; up to " + u.Typed(say.Place, float64(drill.FurthestBehind)) + " behind.",
		},
		Contact: SetupInput{
			Name: FieldContact, Label: "Contact, " + off + " from full",
			Hint:   "From −" + full + " (left) to " + full + " (right). A cut break, with the centre ball on the spot: to " + cut + ".",
			Slider: &SliderRange{"-" + limit, limit, say.Hundredths(u.Grain(say.Contact, 0.05))},
		},
		Tip: SetupInput{
			Name: FieldTip, Label: "Tip height, part of the radius", Hint: "From −0.5 (draw) to 0.5 (follow); 0 is centre.",
			Slider: &SliderRange{"-0.5", "0.5", "0.05"},
		},
		Spin: SetupInput{
			Name: FieldSpin, Label: "Side spin, part of the radius", Hint: "From −0.3 (left) to 0.3 (right); normally 0.",
			Slider: &SliderRange{"-0.3", "0.3", "0.05"},
		},
		Speed: SetupInput{
			Name: FieldSpeed, Label: "Speed in " + u.Long(say.Speed), Mode: "decimal", Optional: true,
			Hint: SpeedRangeWords(u) + " Empty: their own controlled speed.",
		},
	}
}

// SpeedRangeWords say how fast a break may be asked.
func SpeedRangeWords(u say.Units) string {
	return "From " + u.Typed(say.Speed, float64(drill.SlowestBreak)) + " to " + u.Typed(say.Speed, float64(drill.FastestBreak)) + "."
}

// outermostWords say how far from the long string the cue ball may be placed.
func outermostWords(k table.Kind, box table.Inches, u say.Units) string {
	if edge := drill.OutermostCue(k); box == 0 || box >= edge {
		return u.Typed(say.Place, float64(edge)) + ", a ball’s width off the side rail"
	}
	return u.Typed(say.Place, float64(box)) + ", the edge of the break box"
}

// List returns the fields in the order in which they are typed.
func (i SetupInputs) List() []SetupInput {
	return []SetupInput{i.Across, i.Behind, i.Contact, i.Tip, i.Spin, i.Speed}
}

// SetupValues is the inverse of ReadSetup: what the fields hold of a setup.
func SetupValues(s drill.Setup, k table.Kind, u say.Units) map[string]string {
	speed := ""
	if s.Speed != 0 {
		speed = u.Typed(say.Speed, float64(s.Speed))
	}
	return map[string]string{
		FieldCueAcross: u.Typed(say.Place, float64(s.Side.Sign()*s.Cue.X)), FieldCueBehind: u.Typed(say.Place, float64(k.HeadString()-s.Cue.Y)),
		FieldContact: u.Typed(say.Contact, float64(s.Contact)), FieldTip: say.Hundredths(float64(s.Tip)), FieldSpin: say.Hundredths(float64(s.Spin)),
		FieldSpeed: speed, FieldOrder: s.Order.String(),
	}
}

// ReadChoices reads a game and a side, as the form has them or as a page showed them,
// and the spot and the wing of the form, for ReadSetup. What is none of the choices is
// refused beside its field, and a usual one stands for it.
func ReadChoices(f *page.Form, game, side string) (base drill.Setup) {
	var err error
	if base.Game, err = rack.ParseGame(game); err != nil {
		f.Reject(FieldGame, "choose one of the games")
		base.Game = rack.NineBall
	}
	if base.Side, err = table.ParseSide(side); err != nil {
		f.Reject(FieldSide, "choose the side of the table to break from")
		base.Side = table.Left
	}
	base.Spot, base.Wing = rack.Spot(f.Text(FieldSpot)), rack.Slot(f.Text(FieldWing))
	return base
}

// ReadSetup reads a setup that was typed. Game, side, spot and wing are those of base,
// whose rack order stands for one that cannot be read. What cannot be, on this kind
// of table, is refused beside its field.
func ReadSetup(f *page.Form, base drill.Setup, k table.Kind) drill.Setup {
	s, u := base, f.Units
	order, err := rack.ParseTypedOrder(s.Game, f.Text(FieldOrder))
	if err != nil {
		f.Reject(FieldOrder, rack.ExplainRefusal(err))
	} else {
		s.Order = order
	}
	s.Cue = readCuePlace(f, base, k)
	s.Contact = table.Inches(f.MeasureBeside(FieldContact, say.Contact, float64(base.Contact),
		"type the contact in "+u.Long(say.Contact)+" from full, for example "+u.Typed(say.Contact, -0.1)+"; 0 is full"))
	limit := drill.ContactLimit(s.Spot)
	s.Contact = table.Inches(u.SettleAt(say.Contact, float64(s.Contact), -float64(limit), float64(limit)))
	if s.Contact < -limit || s.Contact > limit {
		f.Reject(FieldContact, contactRefusal(s.Spot, u))
	}
	s.Tip = drill.RadiusFraction(f.NumberOrNaN(FieldTip, "type the height as a part of the radius, for example -0.1; 0 is centre"))
	s.Spin = drill.RadiusFraction(f.NumberOrNaN(FieldSpin, "type the side spin as a part of the radius; 0 is none"))
	s.Speed = 0
	if f.Text(FieldSpeed) != "" {
		s.Speed = readSpeed(f, base.Speed)
	}
	return s.Rounded()
}

// readSpeed reads a speed that is taught.
func readSpeed(f *page.Form, kept table.Mph) table.Mph {
	u := f.Units
	v := table.Mph(f.MeasureBeside(FieldSpeed, say.Speed, float64(kept), "type the speed in "+u.Long(say.Speed)+", or leave it empty"))
	if v < drill.SlowestBreak || v > drill.FastestBreak {
		low, high := u.Typed(say.Speed, float64(drill.SlowestBreak)), u.Typed(say.Speed, float64(drill.FastestBreak))
		f.Reject(FieldSpeed, fmt.Sprintf("break speeds from %s to %s %s are taught; leave it empty for your own controlled speed", low, high, u.Short(say.Speed)))
	}
	return v
}

// readCuePlace reads where the cue ball is placed, in the words of the form.
func readCuePlace(f *page.Form, base drill.Setup, k table.Kind) table.Place {
	u, side := f.Units, base.Side
	across := table.Inches(f.MeasureBeside(FieldCueAcross, say.Place, float64(side.Sign()*base.Cue.X), "type the "+u.Long(say.Place)+" from the long string, for example "+u.Number(say.Place, 18)))
	behind := table.Inches(f.MeasureBeside(FieldCueBehind, say.Place, float64(k.HeadString()-base.Cue.Y), "type the "+u.Long(say.Place)+" behind the head string; 0 is on it"))
	edge := drill.OutermostCue(k)
	across = table.Inches(u.SettleAt(say.Place, float64(across), 0, float64(edge)))
	behind = table.Inches(u.SettleAt(say.Place, float64(behind), 0, float64(drill.FurthestBehind)))
	switch {
	case across < 0:
		f.Reject(FieldCueAcross, fmt.Sprintf("a break from the %s has the cue ball on the %s of the long string: type 0 or more, or change the side", side, side))
	case across > edge:
		f.Reject(FieldCueAcross, fmt.Sprintf("at most %s %s on this table: a ball’s width off the side rail", u.Typed(say.Place, float64(edge)), u.Long(say.Place)))
	}
	if behind < 0 || behind > drill.FurthestBehind {
		f.Reject(FieldCueBehind, fmt.Sprintf("from 0, on the head string, to %s %s behind it", u.Typed(say.Place, float64(drill.FurthestBehind)), u.Long(say.Place)))
	}
	return table.Place{X: side.Sign() * across, Y: k.HeadString() - behind}
}

// RefuseOutsideBox refuses, beside its field, a cue ball outside a break box that reaches
// so far to each side of the long string, in the place of what else is said of one so far
// out; 0 is no box. One on the other side ReadSetup refuses.
func RefuseOutsideBox(f *page.Form, s drill.Setup, box table.Inches) {
	if box == 0 || s.Side.Sign()*s.Cue.X <= box {
		return
	}
	f.Problems = slices.DeleteFunc(f.Problems, func(p drill.Problem) bool { return p.Field == FieldCueAcross })
	u := f.Units
	f.Reject(FieldCueAcross, fmt.Sprintf("the break box reaches %s %s to each side of the long string: place the cue ball in it", u.Typed(say.Place, float64(box)), u.Long(say.Place)))
}

func contactRefusal(spot rack.Spot, u say.Units) string {
	most := u.Typed(say.Contact, float64(drill.ContactLimit(spot))) + " " + u.Long(say.Contact)
	cut := u.Typed(say.Contact, float64(drill.MaxCutContact)) + " " + u.Long(say.Contact)
	if spot == rack.CentreOnSpot {
		return "the contact is at most " + most + " from full, about half of the head ball"
	}
	return "the contact is at most " + most + " from full with the head ball on the spot; a cut break, up to " + cut + ", is for the centre ball on the spot"
}

// AddFieldProblems adds what the thing itself refuses, where the field has no sentence
// yet: the form's own speaks in the units that were typed.
func AddFieldProblems(f *page.Form, err error) {
	var problems drill.Problems
	if !errors.As(err, &problems) {
		return
	}
	for _, p := range problems {
		if f.ErrorFor(p.Field) == "" {
			f.Reject(p.Field, p.Message)
		}
	}
}
