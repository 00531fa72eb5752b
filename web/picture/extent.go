package picture

import (
	"math"
	"strings"

	"breakwright/internal/table"
)

// Drawn sizes around the playing surface, from the noses outwards.
const (
	// railWidth, cushion included, is within the 4 to 7.5 in of the WPA table
	// and equipment specification, s.6.
	railWidth table.Inches = 5.5
	// borderWidth is the empty border around the rails.
	borderWidth table.Inches = 0.5
	// outsideRoom is the room above the foot rail for balls that left the table.
	outsideRoom table.Inches = 4.5
)

// Extent is the part of the room that a picture of the table shows, in inches
// of the table's own coordinates.
type Extent struct {
	Left, Top     table.Inches // x of the left edge, y of the upper (foot) edge
	Width, Height table.Inches
}

// ExtentOf returns the extent of a picture of this kind of table without balls off
// the table: the extent of every Tappable view.
func ExtentOf(k table.Kind) Extent {
	border := railWidth + borderWidth
	return Extent{
		Left: -k.Width()/2 - border, Top: k.Length() + border,
		Width: k.Width() + 2*border, Height: k.Length() + 2*border,
	}
}

// withOutside adds the room above the foot rail.
func (e Extent) withOutside() Extent {
	e.Top += outsideRoom
	e.Height += outsideRoom
	return e
}

// ViewBox writes the extent as the SVG's viewBox.
func (e Extent) ViewBox() string {
	return strings.Join([]string{formatX(e.Left), formatY(e.Top), formatX(e.Width), formatX(e.Height)}, " ")
}

// fitWithin returns pixels per inch and the empty strip left and above when the extent
// is shown whole and centred in width x height pixels, as an SVG image is.
func (e Extent) fitWithin(width, height int) (scale, left, top float64) {
	w, h := float64(e.Width), float64(e.Height)
	scale = math.Min(float64(width)/w, float64(height)/h)
	return scale, (float64(width) - w*scale) / 2, (float64(height) - h*scale) / 2
}

// PlaceAtPixel returns the place at the centre of a pixel of a picture shown at
// width x height pixels, counted from 0 at the top left. It may lie on a rail
// or outside the table; a picture without any size has no places, and gives
// false.
func (e Extent) PlaceAtPixel(px, py, width, height int) (table.Place, bool) {
	if width <= 0 || height <= 0 {
		return table.Place{}, false
	}
	scale, left, top := e.fitWithin(width, height)
	return table.Place{
		X: e.Left + table.Inches((float64(px)+0.5-left)/scale),
		Y: e.Top - table.Inches((float64(py)+0.5-top)/scale),
	}, true
}

// PlaceFromPixels turns the pixel of an image button into inches: Extent.PlaceAtPixel
// for a picture without balls off the table. See the package comment.
func PlaceFromPixels(px, py, width, height int, k table.Kind) (table.Place, bool) {
	return ExtentOf(k).PlaceAtPixel(px, py, width, height)
}

// tapReach is how near the middle of a pocket's hole a tap means the pocket:
// a finger's width on a phone.
const tapReach table.Inches = 4.5
