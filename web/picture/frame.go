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

// Frame is the part of the room that a picture of the table shows, in inches
// of the table's own coordinates.
type Frame struct {
	Left, Top     table.Inches // x of the left edge, y of the upper (foot) edge
	Width, Height table.Inches
}

// FrameOf returns the frame of a picture of this kind of table without balls off
// the table: the frame of every Tappable view.
func FrameOf(k table.Kind) Frame {
	border := railWidth + borderWidth
	return Frame{
		Left: -k.Width()/2 - border, Top: k.Length() + border,
		Width: k.Width() + 2*border, Height: k.Length() + 2*border,
	}
}

// withOutside adds the room above the foot rail.
func (f Frame) withOutside() Frame {
	f.Top += outsideRoom
	f.Height += outsideRoom
	return f
}

// ViewBox writes the frame as the SVG's viewBox.
func (f Frame) ViewBox() string {
	return strings.Join([]string{formatX(f.Left), formatY(f.Top), formatX(f.Width), formatX(f.Height)}, " ")
}

// fitWithin returns pixels per inch and the empty strip left and above when the frame
// is shown whole and centred in width x height pixels, as an SVG image is.
func (f Frame) fitWithin(width, height int) (scale, left, top float64) {
	w, h := float64(f.Width), float64(f.Height)
	scale = math.Min(float64(width)/w, float64(height)/h)
	return scale, (float64(width) - w*scale) / 2, (float64(height) - h*scale) / 2
}

// PlaceAtPixel returns the place at the centre of a pixel of a picture shown at
// width x height pixels, counted from 0 at the top left. It may lie on a rail
// or outside the table; a picture without any size has no places, and gives
// false.
func (f Frame) PlaceAtPixel(px, py, width, height int) (table.Place, bool) {
	if width <= 0 || height <= 0 {
		return table.Place{}, false
	}
	scale, left, top := f.fitWithin(width, height)
	return table.Place{
		X: f.Left + table.Inches((float64(px)+0.5-left)/scale),
		Y: f.Top - table.Inches((float64(py)+0.5-top)/scale),
	}, true
}

// PlaceFromPixels turns the pixel of an image button into inches: Frame.Place
// for a picture without balls off the table. See the package comment.
func PlaceFromPixels(px, py, width, height int, k table.Kind) (table.Place, bool) {
	return FrameOf(k).PlaceAtPixel(px, py, width, height)
}

// tapReach is how near the middle of a pocket's hole a tap means the pocket:
// a finger's width on a phone.
const tapReach table.Inches = 4.5
