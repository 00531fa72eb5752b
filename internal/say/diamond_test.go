package say

import (
	"testing"

	"breakwright/internal/table"
)

// A diamond is an eighth of the playing length, 12.5 in on a table of 100 in (WPA
// equipment specification s.6).
func TestDiamonds_AreAnEighthOfTheTable(t *testing.T) {
	nine, seven := table.NineFoot().DiamondSpacing(), table.SevenFoot().DiamondSpacing()
	for _, c := range []struct {
		length, spacing table.Inches
		want            string
	}{
		{12.5, nine, "1 diamond"}, {-18.75, nine, "1½ diamonds"}, {18, nine, "about 1½ diamonds"}, {16, nine, "about 1¼ diamonds"},
		{9.4, nine, "¾ diamond"}, {9.75, seven, "1 diamond"}, {14, seven, "about 1½ diamonds"}, {26, nine, "about 2 diamonds"},
		{1.5, nine, ""}, {18, 0, ""}, {0, nine, ""},
	} {
		if got := Diamonds(c.length, c.spacing); got != c.want {
			t.Errorf("%s in of %s: %q, want %q", c.length, c.spacing, got, c.want)
		}
	}
	if got := Metric.LengthInDiamonds(-18, nine); got != "about 1½ diamonds (46 cm)" {
		t.Error(got)
	}
	if got := InchesAndMiles.LengthInDiamonds(1, nine); got != "1 inch" {
		t.Error(got)
	}
}

// A place is said in diamonds and measured, once a sentence.
func TestText_PlacesInDiamonds(t *testing.T) {
	for want, statement := range map[string]Statement{
		"Move the cue ball two inches in, toward the head spot: about 1¼ diamonds (16 in) from the middle.":                                                                                                                                 {Kind: DoChange, Part: "place", From: -18, By: -2, To: -16, Diamond: 12.5},
		"Of the places tried, about 1¼ diamonds (16 in) from the middle looks best so far.":                                                                                                                                                 {Kind: BestPlace, To: 16, Diamond: 12.5},
		"Between the places tried, about 1¼ diamonds (16.4 in) from the middle looks best so far.":                                                                                                                                          {Kind: BestPlace, To: 16.4, Way: 1, Diamond: 12.5},
		"Start from the best setup on North 2, the wing ball in 12 of 20 there, carried over in proportion to the table: about 1½ diamonds from the middle, 18 in there and 14 in here. Another table can differ: the first ten will tell.": {Kind: StartFrom, About: "North 2", Count: 12, Of: 20, Yes: true, From: 18, To: 14.04, Diamond: 12.5},
	} {
		check(t, statement, Reader{}, want)
	}
}

// Both ends of a change are said so that they differ: measured alone where they are as
// many diamonds, and a tenth finer where that rounds alike, too.
func TestLengthBeside_TellsTheEndsApart(t *testing.T) {
	const nine, eight = table.Inches(12.5), table.Inches(11)
	for _, c := range []struct {
		units             Units
		from, to, spacing table.Inches
		was, is           string
	}{
		{InchesAndMiles, 18, 16, nine, "about 1½ diamonds (18 in)", "about 1¼ diamonds (16 in)"},
		{InchesAndMiles, 18, 20.3, nine, "18 inches", "20.3 inches"},
		{InchesAndMiles, -18, 18.04, nine, "18 inches", "18.04 inches"},
		{InchesAndMiles, 18, 18, nine, "about 1½ diamonds (18 in)", "about 1½ diamonds (18 in)"},
		{InchesAndMiles, 1, 3, nine, "1 inch", "about ¼ diamond (3 in)"},
		{Metric, 18, 20.3, nine, "46 cm", "52 cm"},
		{Metric, 15.75, 15.9, eight, "40 cm", "40.4 cm"},
	} {
		was, is := c.units.LengthBeside(c.from, c.to, c.spacing), c.units.LengthBeside(c.to, c.from, c.spacing)
		if was != c.was || is != c.is {
			t.Errorf("%v → %v: %q → %q, want %q → %q", c.from, c.to, was, is, c.was, c.is)
		}
	}
}
