package breaksim

import "math"

// polynomial holds the coefficients of a polynomial of degree four, the constant
// first.
type polynomial [5]float64

func (c *polynomial) valueAt(t float64) float64 {
	return c[0] + t*(c[1]+t*(c[2]+t*(c[3]+t*c[4])))
}

func (c *polynomial) derivative() polynomial {
	return polynomial{c[1], 2 * c[2], 3 * c[3], 4 * c[4]}
}

// firstZeroCrossing finds the first t in (0, horizon] at which the polynomial, positive
// at 0, comes down to zero. It returns false when it stays above, and also when
// it is not positive at 0: the caller decides what that means.
//
// No closed form for quartics is used, since all of them lose digits where
// contacts graze. Instead the interval is cut at the roots of the derivative,
// which are found in the same way one degree lower, so that every root is
// bracketed and none can be missed or invented.
func (c *polynomial) firstZeroCrossing(horizon float64) (float64, bool) {
	if !(horizon > 0) || !(c[0] > 0) {
		return 0, false
	}
	s := c.scaledToUnit(horizon)
	if s.staysPositive() {
		return 0, false
	}
	var cuts [4]float64
	n := s.turningPoints(&cuts)
	from := 0.0
	for i := 0; i <= n; i++ {
		to := 1.0
		if i < n {
			to = cuts[i]
		}
		if s.valueAt(to) <= 0 {
			return s.findBracketedRoot(from, to) * horizon, true
		}
		from = to
	}
	return 0, false
}

// scaledToUnit returns the polynomial of u = t/horizon, for u from 0 to 1.
func (c *polynomial) scaledToUnit(horizon float64) polynomial {
	h2 := horizon * horizon
	return polynomial{c[0], c[1] * horizon, c[2] * h2, c[3] * h2 * horizon, c[4] * h2 * h2}
}

// staysPositive is a quick test for 0 to 1: a polynomial lies within the hull of
// its Bernstein coefficients, so when all are positive it has no root there.
// False says nothing.
func (c *polynomial) staysPositive() bool {
	b1 := c[0] + c[1]/4
	b2 := c[0] + c[1]/2 + c[2]/6
	b3 := c[0] + c[1]*3/4 + c[2]/2 + c[3]/4
	b4 := c[0] + c[1] + c[2] + c[3] + c[4]
	return c[0] > 0 && b1 > 0 && b2 > 0 && b3 > 0 && b4 > 0
}

// turningPoints fills in where the slope changes sign between 0 and 1, in
// order, and says how many there are: three at most.
func (c *polynomial) turningPoints(cuts *[4]float64) int {
	d := c.derivative()
	var bends [2]float64
	m := quadraticRoots(d[1], 2*d[2], 3*d[3], &bends)
	n, from := 0, 0.0
	for i := 0; i <= m; i++ {
		to := 1.0
		if i < m {
			to = bends[i]
		}
		a, b := d.valueAt(from), d.valueAt(to)
		if a > 0 && b <= 0 {
			cuts[n] = d.findBracketedRoot(from, to)
			n++
		} else if a < 0 && b >= 0 {
			minus := polynomial{-d[0], -d[1], -d[2], -d[3]}
			cuts[n] = minus.findBracketedRoot(from, to)
			n++
		}
		from = to
	}
	return n
}

// quadraticRoots returns the roots of a + b·t + c·t² strictly between 0 and 1, in
// order. The larger root in size is computed first and the other from the
// product, so that neither loses digits.
func quadraticRoots(a, b, c float64, roots *[2]float64) int {
	disc := b*b - 4*a*c
	if !(disc >= 0) {
		return 0
	}
	q := -(b + math.Copysign(math.Sqrt(disc), b)) / 2
	first, second := math.Inf(1), math.Inf(1)
	if c != 0 {
		first = q / c
	}
	if q != 0 {
		second = a / q
	}
	if first > second {
		first, second = second, first
	}
	n := 0
	for _, r := range [2]float64{first, second} {
		if r > 0 && r < 1 {
			roots[n] = r
			n++
		}
	}
	return n
}

// findBracketedRoot finds the root between from, where the polynomial is positive, and
// to, where it is zero or less: Newton's step when it stays inside the bracket,
// halving when it does not.
func (c *polynomial) findBracketedRoot(from, to float64) float64 {
	d := c.derivative()
	t := from + (to-from)/2
	for range 80 {
		f := c.valueAt(t)
		if f > 0 {
			from = t
		} else {
			to = t
		}
		next := t - f/d.valueAt(t)
		if !(next > from && next < to) {
			next = from + (to-from)/2
		}
		if math.Abs(next-t) <= 1e-15 || next == from || next == to {
			return next
		}
		t = next
	}
	return t
}

// quadraticZeroCrossing finds where a + b·t + c·t² comes down through zero: there is one such t
// at most. It returns false when there is none or it is not after 0.
func quadraticZeroCrossing(a, b, c float64) (float64, bool) {
	disc := b*b - 4*a*c
	if !(disc >= 0) {
		return 0, false
	}
	root := math.Sqrt(disc)
	var t float64
	if b <= 0 {
		t = 2 * a / (root - b)
	} else {
		t = -(b + root) / (2 * c)
	}
	return t, t > 0 && !math.IsInf(t, 1)
}
