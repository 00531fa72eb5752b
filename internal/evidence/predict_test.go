package evidence

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"
)

func listMakesAhead(b Beta, breaks int) []float64 {
	return b.fillMakesAhead(make([]float64, 0, breaks+1), breaks)
}

// From a flat start every number of makes is as likely as every other (Bayes
// 1763); after 3 of 10, by hand, C(2,k)·B(4+k,10-k)/B(4,8).
func TestMakesAhead_ByHand(t *testing.T) {
	for k, chance := range listMakesAhead(UniformPrior(), 10) {
		near(t, fmt.Sprintf("flat, %d of 10", k), chance, 1.0/11, 1e-14)
	}
	want := []float64{8. * 9 / (12 * 13), 2 * 4. * 8 / (12 * 13), 4. * 5 / (12 * 13)}
	for k, chance := range listMakesAhead(BetaFromCounts(3, 10, UniformPrior()), 2) {
		near(t, fmt.Sprintf("after 3/10, %d of 2", k), chance, want[k], 1e-14)
	}
}

func TestMakesAhead_Properties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		made, tried := drawCount(t, 2000, "count")
		ahead := rapid.IntRange(0, 400).Draw(t, "ahead")
		b := BetaFromCounts(made, tried, JeffreysPrior())
		sum, mean, mirror := 0.0, 0.0, listMakesAhead(b.Mirror(), ahead)
		for k, chance := range listMakesAhead(b, ahead) {
			sum += chance
			mean += chance * float64(k)
			near(t, "mirror", mirror[ahead-k], chance, 1e-10)
		}
		near(t, "sum", sum, 1, 1e-9)
		near(t, "mean", mean, float64(ahead)*b.Mean(), 1e-9*float64(1+ahead))
	})
}

func TestQuestion_Ask(t *testing.T) {
	q := LineQuestion{Line: .45, Certainty: .9}
	for _, c := range []struct {
		made, tried int
		want        LineAnswer
	}{{0, 0, Unsure}, {2, 10, Below}, {4, 10, Unsure}, {9, 10, Above}, {3, 10, Unsure}} {
		if got := q.AnswerFor(BetaFromCounts(c.made, c.tried, UniformPrior())); got != c.want {
			t.Errorf("%d/%d above .45? got %v, want %v", c.made, c.tried, got, c.want)
		}
	}
}

// The quick search for the edges against asking every outcome.
func TestChanceSettled_AgreesWithEveryOutcome(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		made, tried := drawCount(t, 60, "count")
		ahead := rapid.IntRange(0, 60).Draw(t, "ahead")
		q := LineQuestion{Line: rapid.Float64Range(.1, .9).Draw(t, "line"), Certainty: rapid.Float64Range(.4, .99).Draw(t, "certainty")}
		b, want := BetaFromCounts(made, tried, UniformPrior()), 0.0
		for k, chance := range listMakesAhead(b, ahead) {
			if q.AnswerFor(b.Observe(k, ahead)) != Unsure {
				want += chance
			}
		}
		near(t, "chance settled", q.chanceSettledInto(b, ahead, make([]float64, 0, ahead+1)), want, 1e-9)
	})
}

func TestBreaksToSettle(t *testing.T) {
	q, patience := LineQuestion{Line: .45, Certainty: .9}, SettlingLimits{Chance: .5, Step: 10, Most: 100}
	if breaks, likely := q.BreaksToSettle(BetaFromCounts(0, 10, UniformPrior()), patience); breaks != 0 || !likely {
		t.Errorf("0/10 is settled already, got %d %v", breaks, likely)
	}
	near3, _ := q.BreaksToSettle(BetaFromCounts(3, 10, UniformPrior()), patience)
	near4, _ := q.BreaksToSettle(BetaFromCounts(4, 10, UniformPrior()), patience)
	if near3 == 0 || near3 >= near4 || near3%10 != 0 {
		t.Errorf("3/10 should settle sooner than 4/10: %d and %d", near3, near4)
	}
	if breaks, likely := q.BreaksToSettle(BetaFromCounts(180, 400, UniformPrior()), patience); breaks != 100 || likely {
		t.Errorf("180/400 sits on the line: got %d %v, want 100 false", breaks, likely)
	}
}

func BenchmarkBreaksToSettle(b *testing.B) {
	q, belief := LineQuestion{Line: .45, Certainty: .9}, BetaFromCounts(180, 400, UniformPrior())
	for b.Loop() {
		q.BreaksToSettle(belief, SettlingLimits{Chance: .5, Step: 10, Most: 200})
	}
}
