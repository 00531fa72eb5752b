package whatif

import (
	"math"
	"net/url"
	"strconv"

	"breakwright/internal/breaksim"
	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/say"
	"breakwright/internal/table"
	"breakwright/internal/whatif"
	"breakwright/web/component"
	"breakwright/web/page"
)

// The fields of the page, in the address and in the form. Those that a setup's
// sentences speak of have its names.
const (
	fieldGame         = component.FieldGame
	fieldFeet         = "feet"
	fieldCornerMouth  = "corner_in"
	fieldSideMouth    = "side_in"
	fieldOrder        = component.FieldOrder
	fieldSpot         = component.FieldSpot
	fieldWing         = component.FieldWing
	fieldSide         = component.FieldSide
	fieldCueAcross    = component.FieldCueAcross
	fieldCueBehind    = component.FieldCueBehind
	fieldContact      = component.FieldContact
	fieldTip          = component.FieldTip
	fieldSpin         = component.FieldSpin
	fieldSpeed        = component.FieldSpeed
	fieldWindow       = "window" // carried along in inches: left, right, head, foot
	fieldBox          = "box"    // carried along in inches: the room's break box, of the drill or set that the question came from
	fieldHands        = "hands"
	fieldRack         = "racking"
	fieldScatterAim   = "scatter_aim"
	fieldScatterSpeed = "scatter_speed"
	fieldScatterTip   = "scatter_tip"
	fieldScatterPlace = "scatter_place"
	fieldScatterGap   = "scatter_gap"
	fieldBreakCount   = "number"

	fieldShow   = "show" // the break that is played, counted from 1
	fieldWas    = "was"  // the question compared with, as the query of an address
	fieldRest   = "rest" // compute nothing
	fieldButton = "do"   // a button
)

// What the page showed when it was drawn, sent along with the form.
const (
	shownGame = "shown_game"
	shownSide = "shown_side"
	shownFeet = "shown_feet"
)

// initialQuestion is the question that the page begins with.
func initialQuestion() whatif.Question {
	k := table.NineFoot()
	return whatif.Question{
		Kind: k, Setup: drill.StandardSetup(rack.NineBall, table.Left, k), Window: k.StandardWindow(),
		Scatter: usualScatter(), Breaks: 300,
	}
}

// questionValues is the inverse of readQuestion: the fields of a question, in the
// units of who types. An address holds them in inches and miles.
func questionValues(q whatif.Question, u say.Units) url.Values {
	s, w := q.Setup, q.Window
	v := url.Values{}
	for name, value := range component.SetupValues(s, q.Kind, u) {
		v.Set(name, value)
	}
	for name, value := range map[string]string{
		fieldGame: string(s.Game), fieldFeet: q.Kind.Size(),
		fieldCornerMouth: u.Typed(say.Mouth, float64(q.Kind.CornerMouth)), fieldSideMouth: u.Typed(say.Mouth, float64(q.Kind.SideMouth)),
		fieldSpot: string(s.Spot), fieldWing: string(s.Wing), fieldSide: string(s.Side),
		fieldWindow: w.Left.String() + "," + w.Right.String() + "," + w.Head.String() + "," + w.Foot.String(),
		fieldHands:  handLevelName(q.Scatter), fieldRack: rackLevelName(q.Scatter),
		fieldScatterAim: formatNumber(q.Scatter.Aim), fieldScatterSpeed: u.Typed(say.Speed, float64(q.Scatter.Speed)), fieldScatterTip: formatNumber(q.Scatter.Tip),
		fieldScatterPlace: u.Typed(say.Contact, float64(q.Scatter.Place)), fieldScatterGap: u.Typed(say.Gap, float64(q.Scatter.Gap)), fieldBreakCount: strconv.Itoa(q.Breaks),
	} {
		v.Set(name, value)
	}
	return v
}

// formatNumber writes to a thousandth.
func formatNumber[T ~float64](v T) string {
	return strconv.FormatFloat(math.Round(float64(v)*1000)/1000+0, 'f', -1, 64)
}

// pageQuery is what an address asks: a question, and perhaps one to compare it with.
type pageQuery struct {
	Now whatif.Question
	Was *whatif.Question
	// Show is the break that is played, from 0; -1 is one like most.
	Show int
	// Box is how far from the long string the cue ball may be placed; 0 is no box.
	Box table.Inches
}

// listQuestions are those to be computed, the earlier first.
func (a pageQuery) listQuestions() []whatif.Question {
	if a.Was == nil {
		return []whatif.Question{a.Now}
	}
	return []whatif.Question{*a.Was, a.Now}
}

// pageAddress is the one address of what is asked.
func (a pageQuery) pageAddress() string { return whatIfPath + "?" + a.queryValues().Encode() }

func (a pageQuery) queryValues() url.Values {
	v := questionValues(a.Now, say.InchesAndMiles)
	if a.Was != nil {
		v.Set(fieldWas, questionValues(*a.Was, say.InchesAndMiles).Encode())
	}
	if a.Show >= 0 {
		v.Set(fieldShow, strconv.Itoa(a.Show+1))
	}
	if a.Box > 0 {
		v.Set(fieldBox, a.Box.String())
	}
	return v
}

// readPageQuery reads what is asked. What was refused is in the form.
func readPageQuery(f *page.Form) pageQuery {
	a := pageQuery{Now: readQuestion(f), Show: -1}
	if n, err := strconv.Atoi(f.Text(fieldShow)); err == nil && n >= 1 && n <= a.Now.Breaks {
		a.Show = n - 1
	}
	a.Box = readBox(f, a.Now.Kind)
	component.RefuseOutsideBox(f, a.Now.Setup, a.Box)
	if f.Text(fieldWas) == "" {
		return a
	}
	values, err := url.ParseQuery(f.Text(fieldWas))
	earlier := &page.Form{Values: values}
	if err == nil {
		was := readQuestion(earlier)
		was.Breaks = a.Now.Breaks
		a.Was = &was
	}
	if err != nil || !earlier.IsValid() {
		a.Was = nil // an address cut off; the question itself still stands
	}
	return a
}

// readScatter reads the hands and the rack: a level, or own numbers.
func readScatter(f *page.Form) breaksim.StrokeScatter {
	s := breaksim.StrokeScatter{
		Aim:   breaksim.Degrees(f.NumberOrNaN(fieldScatterAim, "type the degrees, for example 0.2")),
		Speed: table.Mph(f.Measure(fieldScatterSpeed, say.Speed, "type "+f.Units.Long(say.Speed)+", for example 0.5")),
		Tip:   breaksim.RadiusFraction(f.NumberOrNaN(fieldScatterTip, "type a part of the radius, for example 0.05")),
		Place: table.Inches(f.Measure(fieldScatterPlace, say.Contact, "type "+f.Units.Long(say.Contact)+", for example "+f.Units.Typed(say.Contact, 0.2))),
		Gap:   table.Inches(f.Measure(fieldScatterGap, say.Gap, "type "+f.Units.Long(say.Gap)+", for example "+f.Units.Typed(say.Gap, 0.003))),
	}
	for _, l := range handLevels() {
		if l.Name == f.Text(fieldHands) {
			gap := s.Gap
			s = l.Scatter
			s.Gap = gap
		}
	}
	for _, l := range rackLevels() {
		if l.Name == f.Text(fieldRack) {
			s.Gap = l.Scatter.Gap
		}
	}
	return s
}
