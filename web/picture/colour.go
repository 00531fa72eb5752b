package picture

import "breakwright/internal/rack"

// Colours of a picture on paper, written as presentation attributes; the
// stylesheet has the same under the custom property named here, and others for
// dark pages and print.
const (
	cloth          = "#9db1c4" // --pic-cloth
	cushionRim     = "#8398ad" // --pic-cushion
	wood           = "#75604f" // --pic-wood
	woodEdge       = "#5c4a3c" // --pic-wood-edge
	pearl          = "#f3eee2" // --pic-pearl
	pocketHole     = "#1b2127" // --pic-hole
	ink            = "#17222d" // --pic-ink, on cloth and on white marks
	chalk          = "#ffffff" // --pic-chalk: lines and light areas on the cloth
	lostColour     = "#8a2d1c" // --pic-lost: scratched or off the table
	textColour     = "#1f2a35" // --pic-text, on the page
	quietColour    = "#5c6873" // --pic-quiet, on the page
	accentColour   = "#2b6496" // --pic-accent, the blue of chalk
	barTrackColour = "#dfe4e8" // --pic-track: the empty part of a bar
)

// Balls. The colours are the trade's and the same on every page.
const (
	ivory    = "#fdfbf5" // the cue ball, the white of stripes and of number circles
	ballEdge = "#121a22" // the ring that sets every ball off from the cloth
)

// ballColours are those of the solids 1 to 8; a stripe has the colour of the
// solid eight below it.
var ballColours = [...]string{
	1: "#f4c21d", // yellow
	2: "#184690", // blue
	3: "#cf2a22", // red
	4: "#59307c", // purple
	5: "#ef7d1a", // orange
	6: "#0b5334", // dark green
	7: "#7c1f28", // maroon
	8: "#14171b", // black
}

// BallColour returns a ball's colour as "#rrggbb"; the cue ball and anything that
// is no ball are ivory.
func BallColour(b rack.Ball) string {
	switch {
	case b >= 1 && b <= 8:
		return ballColours[b]
	case b >= 9 && b <= 15:
		return ballColours[b-8]
	}
	return ivory
}
