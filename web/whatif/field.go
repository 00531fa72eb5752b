package whatif

import (
	"math"
	"net/url"
	"strconv"

	"breakwright/internal/breaksim"
	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
	"breakwright/internal/whatif"
	"breakwright/web/page"
)

// The fields of the page, in the address and in the form. Those that a setup's
// sentences speak of have its names.
const (
	fieldGame   = "game"
	fieldFeet   = "feet"
	fieldCorner = "corner_in"
	fieldMiddle = "side_in"
	fieldOrder  = "rack"
	fieldSpot   = "spot"
	fieldWing   = "wing"
	fieldSide   = "side"
	fieldAcross = "cue_x" // inches from the long string on the break side
	fieldBehind = "cue_y" // inches behind the head string
	fieldTouch  = "contact"
	fieldTip    = "tip"
	fieldSpin   = "spin"
	fieldSpeed  = "speed"
	fieldWindow = "window" // carried along: left, right, head, foot
	fieldHands  = "hands"
	fieldRack   = "racking"
	fieldAim    = "scatter_aim"
	fieldPace   = "scatter_speed"
	fieldHeight = "scatter_tip"
	fieldStand  = "scatter_place"
	fieldGap    = "scatter_gap"
	fieldNumber = "number"

	fieldShow = "show" // the break that is played, counted from 1
	fieldWas  = "was"  // the question compared with, as the query of an address
	fieldRest = "rest" // compute nothing
	fieldDo   = "do"   // a button
)

// What the page showed when it was drawn, sent along with the form.
const (
	shownGame = "shown_game"
	shownSide = "shown_side"
	shownFeet = "shown_feet"
)

// first is the question that the page begins with.
func first() whatif.Question {
	k := table.NineFoot()
	return whatif.Question{
		Kind: k, Setup: drill.Standard(rack.NineBall, table.Left, k), Window: k.StandardWindow(),
		Scatter: usualScatter(), Breaks: 300,
	}
}

// fill is the inverse of readQuestion: the fields of a question.
func fill(q whatif.Question) url.Values {
	s, w := q.Setup, q.Window
	v := url.Values{}
	for name, value := range map[string]string{
		fieldGame: string(s.Game), fieldFeet: strconv.Itoa(q.Kind.Feet),
		fieldCorner: q.Kind.CornerMouth.String(), fieldMiddle: q.Kind.SideMouth.String(),
		fieldOrder: s.Order.String(), fieldSpot: string(s.Spot), fieldWing: string(s.Wing), fieldSide: string(s.Side),
		fieldAcross: number(s.Side.Sign() * s.Cue.X), fieldBehind: number(q.Kind.HeadString() - s.Cue.Y),
		fieldTouch: number(s.Contact), fieldTip: number(s.Tip), fieldSpin: number(s.Spin), fieldSpeed: number(s.Speed),
		fieldWindow: w.Left.String() + "," + w.Right.String() + "," + w.Head.String() + "," + w.Foot.String(),
		fieldHands:  handsOf(q.Scatter), fieldRack: rackingOf(q.Scatter),
		fieldAim: number(q.Scatter.Aim), fieldPace: number(q.Scatter.Speed), fieldHeight: number(q.Scatter.Tip),
		fieldStand: number(q.Scatter.Place), fieldGap: number(q.Scatter.Gap), fieldNumber: strconv.Itoa(q.Breaks),
	} {
		v.Set(name, value)
	}
	return v
}

// number writes to a thousandth.
func number[T ~float64](v T) string {
	return strconv.FormatFloat(math.Round(float64(v)*1000)/1000+0, 'f', -1, 64)
}

// ask is what an address asks: a question, and perhaps one to compare it with.
type ask struct {
	Now whatif.Question
	Was *whatif.Question
	// Show is the break that is played, from 0; -1 is one like most.
	Show int
}

// questions are those to be computed, the earlier first.
func (a ask) questions() []whatif.Question {
	if a.Was == nil {
		return []whatif.Question{a.Now}
	}
	return []whatif.Question{*a.Was, a.Now}
}

// address is the one address of what is asked.
func (a ask) address() string { return path + "?" + a.values().Encode() }

func (a ask) values() url.Values {
	v := fill(a.Now)
	if a.Was != nil {
		v.Set(fieldWas, fill(*a.Was).Encode())
	}
	if a.Show >= 0 {
		v.Set(fieldShow, strconv.Itoa(a.Show+1))
	}
	return v
}

// readAsk reads what is asked. What was refused is in the form.
func readAsk(f *page.Form) ask {
	a := ask{Now: readQuestion(f), Show: -1}
	if n, err := strconv.Atoi(f.Text(fieldShow)); err == nil && n >= 1 && n <= a.Now.Breaks {
		a.Show = n - 1
	}
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
	if err != nil || !earlier.OK() {
		a.Was = nil // an address cut off; the question itself still stands
	}
	return a
}

// scatterOf reads the hands and the rack: a level, or own numbers.
func scatterOf(f *page.Form) breaksim.Scatter {
	s := breaksim.Scatter{
		Aim:   breaksim.Degrees(readNumber(f, fieldAim, "type the degrees, for example 0.2")),
		Speed: table.Mph(readNumber(f, fieldPace, "type miles an hour, for example 0.5")),
		Tip:   breaksim.Fraction(readNumber(f, fieldHeight, "type a part of the radius, for example 0.05")),
		Place: table.Inches(readNumber(f, fieldStand, "type inches, for example 0.2")),
		Gap:   table.Inches(readNumber(f, fieldGap, "type inches, for example 0.003")),
	}
	for _, l := range hands() {
		if l.Name == f.Text(fieldHands) {
			gap := s.Gap
			s = l.Scatter
			s.Gap = gap
		}
	}
	for _, l := range rackings() {
		if l.Name == f.Text(fieldRack) {
			s.Gap = l.Scatter.Gap
		}
	}
	return s
}
