package say

import (
	"math"

	"breakwright/internal/table"
)

// The parts of a setup that a change is of, as the adviser names them.
const (
	partPlace   = "place"
	partContact = "contact"
	partTip     = "tip"
	partSpin    = "spin"
	partSpeed   = "speed"
	partRack    = "rack"
)

// change says what to do and how far, without a capital or a full stop.
func (s Statement) change(r Reader) string {
	switch s.Part {
	case partPlace:
		way := " in, toward the head spot"
		if s.By > 0 {
			way = " out, toward the side rail"
		}
		if s.Diamond != 0 {
			way += ": " + s.out(r, s.To)
		}
		return "move the cue ball " + r.lengthInLetters(math.Abs(s.By)) + way
	case partContact:
		if s.To == 0 {
			return "hit the head ball full again"
		}
		return "send the cue ball " + s.contactShift(r)
	case partTip:
		return "strike about " + Tips(s.By) + " " + higherOrLower(s.By) + ": at " + TipHeight(s.To)
	case partSpin:
		if s.To == 0 {
			return "use no side spin"
		}
		return "use less side spin: at most " + Tips(s.To)
	case partSpeed:
		return s.speedShift(r)
	case partRack:
		return "rack " + s.Order
	}
	return "leave the setup alone"
}

// contactShift says where the cue ball is sent at the head ball: left or right of full,
// as every page says a contact, where it is known from where the reader breaks.
func (s Statement) contactShift(r Reader) string {
	way := "toward"
	if s.By > 0 {
		way = "away from"
	}
	there := r.smallLength(math.Abs(s.To)) + " " + r.contactSide(s.To)
	if math.Abs(s.By-s.To) < 0.005 { // the way from full is the place itself
		return there
	}
	return r.smallLength(math.Abs(s.By)) + " " + way + " the break side: " + there
}

// contactSide says on which side of full a contact is that is kept as the break from
// the left has it.
func (r Reader) contactSide(contact float64) string {
	switch {
	case r.Side != "":
		return string(table.SideOf(table.Inches(contact)*-r.Side.Sign())) + " of full"
	case contact > 0:
		return "off full, on the far side"
	}
	return "off full, on the break side"
}

// littleHarder is how many miles an hour more are a little.
const littleHarder = 2

// speedShift says how hard to break.
func (s Statement) speedShift(r Reader) string {
	harder := "softer"
	switch {
	case s.By > littleHarder:
		harder = "harder"
	case s.By > 0:
		harder = "a little harder"
	}
	if s.Yes {
		return "break " + harder + " than " + r.ownOrTheirs() + " speed: about " + r.Units.WithShort(Speed, s.To)
	}
	return "break " + harder + ": " + r.Units.NumberBeside(Speed, s.To, s.From) + " " + r.Units.Short(Speed) + " instead of " + r.Units.NumberBeside(Speed, s.From, s.To)
}

// lengthInLetters writes a length: "one inch", "four inches", "2.5 inches", "15 cm".
func (r Reader) lengthInLetters(inches float64) string {
	v := roundTo(inches, 0.1)
	if r.Units == InchesAndMiles && v == math.Trunc(v) && v >= 0 && v <= 10 {
		return countInLetters(int(v), "inch", "inches")
	}
	return r.Units.Length(table.Inches(inches))
}

// smallLength writes a length below an inch: "0.2 of an inch", "5 mm".
func (r Reader) smallLength(inches float64) string {
	if r.Units == Metric {
		return r.Units.WithShort(Contact, inches)
	}
	return Hundredths(inches) + " of an inch"
}

func higherOrLower(by float64) string {
	if by > 0 {
		return "higher"
	}
	return "lower"
}

// Hundredths writes a number with two places at most after the point.
func Hundredths(v float64) string { return shortest(math.Round(v*100)/100 + 0) }
