package picture

import (
	"slices"
	"strconv"

	"github.com/a-h/templ"

	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// rackScale is the scale of the rack seen from close up: user units to an inch.
const rackScale = 40

// rackMargin is the room around the outermost balls, in user units.
const rackMargin = 38

// rackSeat is a slot as it is drawn.
type rackSeat struct {
	slot                          rack.Slot
	ball                          rack.Ball
	x, y                          float64 // user units, the head ball at 0,0
	wing, money, target, selected bool
	fixed                         bool
	left                          bool // the wing slot on the left
	href, label                   string
}

func (r RackView) listSeats() []rackSeat {
	k := table.NineFoot() // a rack is as large on any table
	head := r.Game.HeadBallPlace(rack.HeadOnSpot, k)
	var all []rackSeat
	for _, slot := range r.Game.Slots() {
		ball, racked := r.Order.BallAt(r.Game, slot)
		p, known := r.Game.SlotPlace(slot, rack.HeadOnSpot, k)
		if !racked || !known {
			continue
		}
		_, fixed := r.Game.FixedBall(slot)
		s := rackSeat{
			slot: slot, ball: ball, fixed: fixed,
			x: float64(p.X-head.X) * rackScale, y: -float64(p.Y-head.Y) * rackScale,
			wing: slot == r.Wing, left: slot == r.Game.WingSlot(table.Left),
			money: fixed && slot != rack.HeadSlot, target: slot == r.Target,
			selected: slices.Contains(r.Selected, slot),
		}
		s.label = s.seatWords()
		if r.Link != nil {
			s.href = r.Link(slot)
		}
		all = append(all, s)
	}
	return all
}

// seatWords says what stands in the slot: "slot 3L, the 8, wing ball".
func (s rackSeat) seatWords() string {
	words := "slot " + string(s.slot) + ", the " + s.ball.String()
	switch {
	case s.slot == rack.HeadSlot:
		words += ", head ball"
	case s.money:
		words += ", money ball"
	case s.wing:
		words += ", wing ball"
	}
	return words
}

func (s rackSeat) transform() string {
	return "translate(" + formatUnits(s.x) + " " + formatUnits(s.y) + ")"
}

// buttonAttributes makes the slot a button for a script.
func (s rackSeat) buttonAttributes(r RackView) templ.Attributes {
	if !r.Editable {
		return nil
	}
	a := templ.Attributes{
		"role": "button", "tabindex": "0", "aria-label": s.label,
		"aria-pressed": strconv.FormatBool(s.selected),
	}
	if s.fixed {
		a["data-fixed"] = ""
	}
	return a
}

// raisedAttributes hides the mark of a chosen slot until a script, or the next page,
// sets aria-pressed.
func (s rackSeat) raisedAttributes() templ.Attributes {
	if s.selected {
		return nil
	}
	return templ.Attributes{"visibility": "hidden"}
}

// ariaRole of the whole: one image, unless its slots can be used.
func (r RackView) ariaRole() string {
	if r.Editable || r.Link != nil {
		return "group"
	}
	return "img"
}

// boundingBox is the rectangle around the balls with its margin.
func (r RackView) boundingBox() (left, top, width, height float64) {
	const ball = float64(table.BallRadius) * rackScale
	var right, bottom float64
	for i, s := range r.listSeats() {
		if i == 0 {
			left, right, top, bottom = s.x, s.x, s.y, s.y
		}
		left, right = min(left, s.x), max(right, s.x)
		top, bottom = min(top, s.y), max(bottom, s.y)
	}
	around := ball + rackMargin
	return left - around, top - around, right - left + 2*around, bottom - top + 2*around
}

func (r RackView) viewBox() string {
	x, y, w, h := r.boundingBox()
	return formatUnits(x) + " " + formatUnits(y) + " " + formatUnits(w) + " " + formatUnits(h)
}

func (r RackView) clothBox() templ.Attributes {
	x, y, w, h := r.boundingBox()
	return templ.Attributes{"x": formatUnits(x), "y": formatUnits(y), "width": formatUnits(w), "height": formatUnits(h)}
}

// ballSize leaves room for the slot's name below the number.
func (r RackView) ballSize() ballSize {
	s := rackBallSize
	if r.SlotNames {
		s.numberShift = -5
	}
	return s
}

// headMark is an arrow head below the head ball, as the cue ball comes.
const headMark = "M0 51l11 26-11-6-11 6z"

// wingTurn turns an arrow head above the wing ball outwards, about the way its
// corner lies from the foot spot.
func (s rackSeat) wingTurn() string {
	if s.left {
		return "rotate(-50)"
	}
	return "rotate(50)"
}

// moneyMark is a star above the number.
const moneyMark = "M0-43l2.4 5 5.6.7-4.1 3.8 1.1 5.5-5-2.7-5 2.7 1.1-5.5-4.1-3.8 5.6-.7z"

// readableColour is a colour that can be read on the lower part of the ball.
func (s rackSeat) readableColour() string {
	if s.ball.IsStriped() || s.ball == 1 || s.ball == 5 {
		return ink
	}
	return ivory
}
