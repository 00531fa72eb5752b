package evidence

import "math"

// Tails are the p-values of an exact test: how likely chance alone gives a result
// at least this far out.
type Tails struct {
	// Less: this few or fewer. Greater: this many or more. TwoSided: any
	// result no likelier than this one.
	Less, Greater, TwoSided float64
}

// noVerdict are the tails of a test without data.
var noVerdict = Tails{Less: 1, Greater: 1, TwoSided: 1}

// Fisher returns the exact test of Fisher (1935) that two counts have the same
// rate. Less is small when the first rate is lower than the second. An impossible
// count gives all ones.
func Fisher(first, second Count) Tails {
	if !possible(first.Made, first.Tried) || !possible(second.Made, second.Tried) {
		return noVerdict
	}
	made, tried := first.Made+second.Made, first.Tried+second.Tried
	low, high := max(0, made-second.Tried), min(made, first.Tried)
	// The chance of k makes in the first, all totals being what they are.
	chances := make([]float64, high-low+1)
	for i := range chances {
		k := low + i
		chances[i] = math.Exp(logChoose(first.Tried, k) + logChoose(second.Tried, made-k) - logChoose(tried, made))
	}
	return tailsAt(chances, first.Made-low)
}

// BinomialTest returns the exact test that a count comes from a known rate. Less is
// small when the true rate is below line. An impossible count gives all ones.
func BinomialTest(c Count, line float64) Tails {
	if !possible(c.Made, c.Tried) {
		return noVerdict
	}
	return tailsAt(binomial(c.Tried, line), c.Made)
}

// tailsAt adds up the chances below, above and no likelier than outcome at.
func tailsAt(chances []float64, at int) Tails {
	var t Tails
	// Equal chances differ by rounding, so a little slack, as in R.
	atMost := chances[at] * (1 + 1e-7)
	for i, chance := range chances {
		if i <= at {
			t.Less += chance
		}
		if i >= at {
			t.Greater += chance
		}
		if chance <= atMost {
			t.TwoSided += chance
		}
	}
	return Tails{Less: min(t.Less, 1), Greater: min(t.Greater, 1), TwoSided: min(t.TwoSided, 1)}
}

// ScoreZ returns how many standard errors a count lies above a known rate
// (NIST/SEMATECH e-Handbook 7.2.4). It is 0 where nothing was tried or the line is
// not between 0 and 1.
func ScoreZ(c Count, line float64) float64 {
	if !c.usable() || !(line > 0 && line < 1) {
		return 0
	}
	return (c.Rate() - line) / math.Sqrt(line*(1-line)/float64(c.Tried))
}
