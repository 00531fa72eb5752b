package say

import "math"

// tipWidth is how wide a tip is in parts of the ball's radius: 13 mm, a common size of cue
// tips (common practice, no source), on a ball of 57.15 mm (World Pool-Billiard
// Association, equipment specifications, 16).
const tipWidth = 13 / (57.15 / 2)

// Tips says a distance on the cue ball's face, given in parts of its radius, as the trade
// does, to a quarter of a tip's width: "half a tip", "1¼ tips".
func Tips(radii float64) string {
	quarters := int(math.Round(math.Abs(radii) / tipWidth * 4))
	switch quarters {
	case 0:
		return "an eighth of a tip"
	case 1:
		return "a quarter of a tip"
	case 2:
		return "half a tip"
	case 3:
		return "three quarters of a tip"
	case 4:
		return "a tip"
	}
	return shortest(float64(quarters/4)) + [...]string{"", "¼", "½", "¾"}[quarters%4] + " tips"
}

// TipHeight says how high the tip strikes: "half a tip below centre".
func TipHeight(radii float64) string {
	switch hundredths := math.Round(radii * 100); {
	case hundredths < 0:
		return Tips(radii) + " below centre"
	case hundredths > 0:
		return Tips(radii) + " above centre"
	}
	return "the centre of the cue ball"
}
