package whatif

import (
	"math"
	"testing"
)

// The range of a difference covers the true one about as often as it says, for
// every split of changed breaks: exact, over all outcomes of the trinomial.
func TestMatched_Covers(t *testing.T) {
	const n = 60
	for _, c := range []struct{ gain, loss float64 }{
		{0.05, 0.05}, {0.2, 0.05}, {0.3, 0.3}, {0.02, 0.02}, {0.1, 0.0}, {0.5, 0.1},
	} {
		covered := 0.0
		for gained := range n + 1 {
			for lost := range n + 1 - gained {
				p := trinomial(gained, lost, n, c.gain, c.loss)
				d := matchedDifference(gained, lost, n)
				if truth := c.gain - c.loss; d.Low <= truth && truth <= d.High {
					covered += p
				}
			}
		}
		if covered < 0.92 || covered > 1 {
			t.Errorf("gain %g, loss %g: covered in %.3f", c.gain, c.loss, covered)
		}
	}
}

func trinomial(a, b, n int, pa, pb float64) float64 {
	l := func(k int) float64 { v, _ := math.Lgamma(float64(k) + 1); return v }
	power := func(p float64, k int) float64 {
		if k == 0 {
			return 0
		}
		return float64(k) * math.Log(p)
	}
	c := n - a - b
	return math.Exp(l(n) - l(a) - l(b) - l(c) + power(pa, a) + power(pb, b) + power(1-pa-pb, c))
}

func TestCompare_OfTheSameIsNothing(t *testing.T) {
	a := run(t, question(30))
	d := CompareAnswers(a, a, WingMade)
	if d.Share != 0 || d.ExcludesZero() || d.Low >= 0 || d.High <= 0 {
		t.Errorf("%+v", d)
	}
	forth := question(30)
	forth.Setup.Cue.X = -8
	b := run(t, forth)
	one, other := CompareAnswers(a, b, WingMade), CompareAnswers(b, a, WingMade)
	if one.Share != -other.Share || math.Abs(one.Low+other.High) > 1e-15 {
		t.Errorf("there %+v, back %+v", one, other)
	}
	want := float64(b.CountEvent(WingMade).Made-a.CountEvent(WingMade).Made) / 30
	if math.Abs(one.Share-want) > 1e-15 {
		t.Errorf("share %g, by the counts %g", one.Share, want)
	}
	if none := CompareAnswers(Answer{}, a, WingMade); none.ExcludesZero() {
		t.Errorf("without breaks: %+v", none)
	}
}

// Moving in by ten inches makes fewer wing balls (common practice, no source);
// a few dozen breaks are enough to see it, since both meet the same luck.
func TestCompare_SeesAFarMove(t *testing.T) {
	q := question(80)
	near := q
	near.Setup.Cue.X = -6
	d := CompareAnswers(run(t, q), run(t, near), WingMade)
	if d.High >= 0 {
		t.Errorf("from 18 to 6 inches out: %+v", d)
	}
}
