package evidence

import (
	"fmt"
	"math/big"
	"testing"

	"pgregory.net/rapid"
)

func TestFisher_PublishedTables(t *testing.T) {
	cases := []struct {
		source        string
		first, second Count
		greater, both float64 // greater is left out where 0
		tol           float64
	}{
		{"R fisher.test, tea; Agresti 2002 p. 91", Count{3, 4}, Count{1, 4}, 17.0 / 70, .4857143, digits(7)},
		{"Fisher 1935, chapter 2", Count{4, 4}, Count{0, 4}, 1.0 / 70, .0285714, digits(7)},
		{"R fisher.test, twins, rows turned", Count{10, 13}, Count{2, 17}, .0004651809, .0005367241, digits(10)},
		{"scipy fisher_exact example", Count{8, 10}, Count{1, 6}, 0, .0349650, digits(7)},
		{"textbook example", Count{1, 10}, Count{11, 14}, 0, .0027594562, digits(10)},
		{"computed independently", Count{4, 10}, Count{6, 10}, 0, .656282, digits(6)},
		{"computed independently", Count{4, 10}, Count{8, 10}, 0, .169802, digits(6)},
		{"computed independently", Count{4, 10}, Count{9, 10}, 0, .057276, digits(6)},
	}
	for _, c := range cases {
		got := Fisher(c.first, c.second)
		near(t, c.source+": two-sided", got.TwoSided, c.both, c.tol)
		if c.greater > 0 {
			near(t, c.source+": greater", got.Greater, c.greater, c.tol)
		}
	}
}

// Computed independently: the chance, without any change, of so good a second set.
func TestFisher_OneSided(t *testing.T) {
	cases := []struct {
		first, second Count
		want          float64
	}{
		{Count{3, 10}, Count{6, 10}, .184925}, {Count{4, 10}, Count{5, 10}, .500000}, {Count{4, 10}, Count{6, 10}, .328141},
		{Count{4, 10}, Count{8, 10}, .084901}, {Count{8, 20}, Count{12, 20}, .171534}, {Count{12, 30}, Count{18, 30}, .098181},
		{Count{16, 40}, Count{24, 40}, .058500}, {Count{24, 60}, Count{30, 60}, .179486}, {Count{0, 10}, Count{1, 10}, .500000},
	}
	for _, c := range cases {
		near(t, fmt.Sprintf("%v then %v", c.first, c.second), Fisher(c.first, c.second).Less, c.want, digits(6))
	}
}

// The tail in whole numbers, and the two directions against each other.
func TestFisher_Properties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		made1, tried1 := drawCount(t, 60, "first")
		made2, tried2 := drawCount(t, 60, "second")
		first, second := Count{made1, tried1}, Count{made2, tried2}
		got, back := Fisher(first, second), Fisher(second, first)
		near(t, "turned round", back.Greater, got.Less, 1e-11)
		near(t, "two-sided turned round", back.TwoSided, got.TwoSided, 1e-11)
		near(t, "exact tail", got.Greater, exactHypergeometric(first, second), 1e-11)
		if got.Less+got.Greater < 1-1e-11 {
			t.Fatalf("tails %+v do not overlap", got)
		}
	})
}

func exactHypergeometric(first, second Count) float64 {
	made, ways := first.Made+second.Made, new(big.Int)
	for k := first.Made; k <= min(made, first.Tried); k++ {
		term := new(big.Int).Binomial(int64(first.Tried), int64(k))
		ways.Add(ways, term.Mul(term, new(big.Int).Binomial(int64(second.Tried), int64(made-k))))
	}
	all := new(big.Int).Binomial(int64(first.Tried+second.Tried), int64(made))
	value, _ := new(big.Rat).SetFrac(ways, all).Float64()
	return value
}

func TestBinomialTest_PublishedValues(t *testing.T) {
	got := BinomialTest(Count{20, 100}, .25) // R 3.6.2 binom.test
	near(t, "two-sided", got.TwoSided, .2983720970, digits(10))
	near(t, "less", got.Less, .1488310504, digits(10))
	mendel := BinomialTest(Count{682, 925}, .75) // R binom.test example
	near(t, "Mendel", mendel.TwoSided, .3825, digits(4))
	// NIST/SEMATECH e-Handbook 7.2.4.
	near(t, "z", ScoreZ(Count{26, 200}, .10), 1.414214, digits(6))
}

func TestExactTests_NothingKnown(t *testing.T) {
	if got := Fisher(Count{11, 10}, Count{3, 10}); got != noVerdict {
		t.Errorf("impossible first count: %+v", got)
	}
	near(t, "nothing tried", Fisher(Count{}, Count{}).TwoSided, 1, 1e-12)
	if got := BinomialTest(Count{3, 2}, .5); got != noVerdict {
		t.Errorf("impossible count: %+v", got)
	}
	near(t, "certain line", BinomialTest(Count{9, 10}, 1).Less, 0, 0)
	near(t, "no line", ScoreZ(Count{3, 10}, 0), 0, 0)
}
