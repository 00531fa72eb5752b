package say

import "testing"

// A tip of 13 mm (common practice, no source) on a ball of 57.15 mm (World Pool-Billiard
// Association, equipment specifications, 16): its width is 0.455 of the ball's radius.
func TestTips_OfAThirteenMillimetreTip(t *testing.T) {
	const radiusMM = 57.15 / 2
	for mm, want := range map[float64]string{
		1: "an eighth of a tip", 3.25: "a quarter of a tip", 4.8: "a quarter of a tip", 5: "half a tip", 6.5: "half a tip",
		9.75: "three quarters of a tip", 13: "a tip", 16.25: "1¼ tips", 19.5: "1½ tips", 22.75: "1¾ tips", 26: "2 tips",
	} {
		if got := Tips(mm / radiusMM); got != want {
			t.Errorf("%v mm is said as %q, want %q", mm, got, want)
		}
		if got := Tips(-mm / radiusMM); got != want {
			t.Errorf("%v mm the other way is said as %q, want %q", mm, got, want)
		}
	}
}

func TestTipHeight_SaysWhichWay(t *testing.T) {
	for height, want := range map[float64]string{
		-0.2: "half a tip below centre", 0.3: "three quarters of a tip above centre",
		0: "the centre of the cue ball", -0.004: "the centre of the cue ball",
	} {
		if got := TipHeight(height); got != want {
			t.Errorf("%v of the radius is said as %q, want %q", height, got, want)
		}
	}
}
