package advice

import (
	"math"
	"testing"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/response"
	"breakwright/internal/table"
)

// By hand from the definition (Kullback and Leibler 1951, Annals of Mathematical Statistics
// 22), in decibans: ten times the logarithm to base ten. A share against none, or all, is
// taken against one in a hundred.
func TestDivergence_WorkedByHand(t *testing.T) {
	for _, c := range []struct{ share, against, want float64 }{
		{0.5, 0.5, 0}, {1, 0.5, 3.0103}, {0, 0.5, 3.0103}, {0.5, 0.25, 0.6247}, {1, 0, 20}, {0, 1, 20},
	} {
		if got := divergence(c.share, c.against); !(math.Abs(got-c.want) <= 1e-3) {
			t.Errorf("%v against %v: %.4f decibans, want %v", c.share, c.against, got, c.want)
		}
	}
}

// A sign of misses is a share of the misses that somebody saw, any other of all breaks;
// where no miss is to be expected it is none.
func TestSign_ShareIn(t *testing.T) {
	shares := make([]float64, response.Width)
	put := func(outcome int, share float64) { shares[response.Index(response.Wing, outcome)] = share }
	made, side := signs[0], signs[1]
	put(response.WingMade, 1)
	if got := [2]float64{made.shareIn(shares), side.shareIn(shares)}; got != [2]float64{1, 0} {
		t.Errorf("where the wing ball always falls: %v", got)
	}
	put(response.WingMade, 0.6)
	put(response.WingSideRail, 0.1)
	put(response.WingFootRail, 0.2)
	put(response.WingJaws, 0.1)
	if got := [2]float64{made.shareIn(shares), side.shareIn(shares)}; math.Abs(got[0]-0.6) > 1e-9 || math.Abs(got[1]-0.25) > 1e-9 {
		t.Errorf("one miss in four on the side rail: %v", got)
	}
}

// A break shows a sign, does not, or could not have: a miss that nobody saw is neither.
func TestSign_CountedWhereItCouldBeSeen(t *testing.T) {
	l := analysisOf(scripted(t, standardSetup(), "mssf-uk", "wwfbxoS"))
	for name, want := range map[string][2]int{
		"wing fell": {1, 7}, "wing side rail": {2, 4}, "wing foot rail": {1, 4}, "wing kissed": {1, 4},
		"cue scratch": {1, 7}, "cue off table": {1, 7}, "few rails": {0, 7},
	} {
		for _, s := range signs {
			if s.name != name {
				continue
			}
			if shown, of := l.countSign(s); [2]int{shown, of} != want {
				t.Errorf("%s: %d of %d, want %v", name, shown, of, want)
			}
		}
	}
}

// A break without power sends few balls to a rail, few past the head string, and drops none
// besides the wing ball.
func TestSigns_OfABreakWithoutPower(t *testing.T) {
	for _, c := range []struct {
		name        string
		rails, past int
		dropped     int
		want        [3]bool // few rails, few crossed, none fell
	}{
		{"none at all", 0, 0, 0, [3]bool{true, true, true}},
		{"one past the string", 3, 1, 1, [3]bool{true, true, false}},
		{"two past it", 8, 2, 2, [3]bool{false, false, false}},
	} {
		set := scripted(t, standardSetup(), "u", "w")
		b := &set.Breaks[0]
		b.Rails, b.PastString, b.Pocketed = drill.ObservedCount(c.rails), drill.ObservedCount(c.past), nil
		for i := range c.dropped {
			b.Pocketed = append(b.Pocketed, drill.Pocketed{Ball: rack.Ball(6 + i), Pocket: table.FootLeft})
		}
		l := analysisOf(set)
		for i, name := range []string{"few rails", "few crossed", "none fell"} {
			for _, s := range signs {
				if shown, of := l.countSign(s); s.name == name && (of != 1 || (shown == 1) != c.want[i]) {
					t.Errorf("%s: %s is shown in %d of %d", c.name, name, shown, of)
				}
			}
		}
	}
}

// A sign speaks for a cause that explains it, from a difference on that can be seen: one
// break in eight, and the more the more often it was looked for. What is seen too seldom
// speaks as what is seen too often does.
func TestWeighCount_ADifferenceThatTheCauseExplains(t *testing.T) {
	often, seldom := sign{}, sign{fewer: true}
	for _, c := range []struct {
		name                string
		sign                sign
		shown, of           int
		explained, ordinary float64
		want                float64
	}{
		{"twice as often", often, 10, 20, 0.5, 0.25, 20 * divergence(0.5, 0.25)},
		{"one more in eight", often, 7, 20, 0.5, 0.225, 20 * divergence(0.35, 0.225)},
		{"less than one more in nine", often, 7, 20, 0.5, 0.24, 0},
		{"as the cause does not explain", often, 10, 20, 0.25, 0.25, 0},
		{"more often, enough for its number", often, 5, 12, 0.5, 0.25, 12 * divergence(5.0/12, 0.25)},
		{"more often, too little for its number", often, 6, 16, 0.5, 0.25, 0},
		{"the one time that it could be seen", often, 1, 1, 0.5, 0.25, divergence(1, 0.25)},
		{"never looked for", often, 0, 0, 0.5, 0.25, 0},
		{"too seldom", seldom, 4, 20, 0.3, 0.5, 20 * divergence(0.2, 0.5)},
		{"too seldom, as the cause does not explain", seldom, 4, 20, 0.6, 0.5, 0},
		{"not too seldom", seldom, 10, 20, 0.3, 0.25, 0},
	} {
		if got := c.sign.weighCount(c.shown, c.of, c.explained, c.ordinary); !(math.Abs(got-c.want) < 1e-9) {
			t.Errorf("%s: %v decibans, want %v", c.name, got, c.want)
		}
	}
}

// How the cue ball came to rest is counted of the breaks in which it did not, and of those
// in which somebody saw how.
func TestSign_ThePathOfACueBall(t *testing.T) {
	head := scripted(t, standardSetup(), "mmmmmm", "wwfboS")
	head.Breaks[5].Cue.Scratch = table.HeadLeft
	head.Breaks[0].CuePath = drill.PathUnknown
	for _, s := range signs {
		want := map[string]int{"cue back": 1, "cue head rail": 1, "cue forward": 1}[s.name]
		if shown, of := analysisOf(head).countSign(s); s.group == "path" && (shown != want || of != 5) {
			t.Errorf("%s: %d of %d, want %d of 5", s.name, shown, of, want)
		}
	}
}
