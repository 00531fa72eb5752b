package evidence

import (
	"math"

	"pgregory.net/rapid"
)

// near fails the test unless got is within tol of want. A NaN is never near.
func near(t rapid.TB, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %.10g, want %.10g (tolerance %g)", what, got, want, tol)
	}
}

// digits is half a unit in the n-th decimal, with a hair for rounding.
func digits(n int) float64 {
	return 0.5001 * math.Pow(10, -float64(n))
}

// drawCount draws a count that can happen, of at most the given number.
func drawCount(t *rapid.T, most int, label string) (made, tried int) {
	tried = rapid.IntRange(0, most).Draw(t, label+" tried")
	return rapid.IntRange(0, tried).Draw(t, label+" made"), tried
}
