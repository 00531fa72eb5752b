package picture

import (
	"fmt"
	"math"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/say"
	"breakwright/internal/table"
)

// FaceRadius is the cue ball's radius in the pictures of tip and contact, in
// user units: what is moved there is read by it.
const FaceRadius = 100

// miscueLimit is how far from the centre a tip can be trusted to hold: half the
// radius advised (Alciatore, Technical Proof 2.1).
const miscueLimit = 0.5

// formatFace is a coordinate on the ball's face; up is negative.
func formatFace(f drill.RadiusFraction) string { return formatUnits(float64(f) * FaceRadius) }

// TipWords says where the tip strikes: "0.1 of the radius below centre, no side".
func TipWords(tip, spin drill.RadiusFraction) string {
	return tipHeightWords(tip) + ", " + sideWords(spin)
}

func tipHeightWords(tip drill.RadiusFraction) string {
	tenths := math.Round(float64(tip) * 100)
	if tenths == 0 {
		return "centre"
	}
	way := "above centre"
	if tenths < 0 {
		way = "below centre"
	}
	return radiusWords(tip) + " " + way
}

func sideWords(spin drill.RadiusFraction) string {
	hundredths := math.Round(float64(spin) * 100)
	switch {
	case hundredths == 0:
		return "no side"
	case hundredths < 0:
		return formatFraction(spin) + " left side"
	}
	return formatFraction(spin) + " right side"
}

// radiusWords writes a fraction of the radius: "0.1 of the radius".
func radiusWords(f drill.RadiusFraction) string { return formatFraction(f) + " of the radius" }

func formatFraction(f drill.RadiusFraction) string {
	return fmt.Sprintf("%g", math.Round(math.Abs(float64(f))*100)/100)
}

// DescribeTip says where on the cue ball the tip strikes.
func DescribeTip(t TipView) string {
	words := "The cue ball as the breaker sees it. Strike " + TipWords(t.Tip, t.Spin) + "."
	if t.Before != nil {
		words += " Before the change: " + TipWords(t.Before.Tip, t.Before.Spin) + "."
	}
	if math.Hypot(float64(t.Tip), float64(t.Spin)) > miscueLimit {
		words += " That is outside the dashed circle: a miscue is likely."
	}
	return words
}

// TipLegend lists the marks of the tip picture.
func TipLegend(t TipView) []LegendItem {
	key := []LegendItem{{MarkTip, "where the tip strikes"}}
	if t.Before != nil {
		key = append(key, LegendItem{MarkTipBefore, "before the change"})
	}
	return append(key, LegendItem{MarkLimit, "half the radius: further out is a miscue"})
}

// HitFullness is the part of the head ball's width that the cue ball covers: 1 for
// a full hit, 0 for a graze.
func HitFullness(contact table.Inches) float64 {
	return max(0, 1-math.Abs(float64(contact/table.BallDiameter)))
}

// DescribeContact says how full the hit is and to which side.
func DescribeContact(c ContactView, u say.Units) string {
	if math.Round(float64(c.Contact)*100) == 0 {
		return fmt.Sprintf("Cue ball and the %s in line: a full hit.", c.headBall())
	}
	side := string(table.SideOf(c.Contact))
	return fmt.Sprintf("The cue ball meets the %s %s; it covers %.0f percent of its width, on the %s.",
		c.headBall(), ContactWords(c.Contact, u), 100*HitFullness(c.Contact), side)
}

func (c ContactView) headBall() rack.Ball {
	if c.Head == 0 {
		return 1
	}
	return c.Head
}

// cueBallShift is how far right of the head ball the cue ball is drawn.
func (c ContactView) cueBallShift() float64 {
	return float64(c.Contact/table.BallRadius) * FaceRadius
}

// offsetPath is a solid line through the cue ball's centre, and below the balls
// a stroke from the head ball's centre line to it.
func (c ContactView) offsetPath() string {
	x := formatUnits(c.cueBallShift())
	return "M" + x + " -110v240M0 124H" + x
}

// ContactLegend lists the marks of the contact picture.
func ContactLegend(c ContactView) []LegendItem {
	return []LegendItem{
		{MarkFront, "cue ball, in front"},
		{MarkCentre, "middle of the " + c.headBall().String()},
	}
}
