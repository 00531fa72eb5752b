package evidence

import "math"

// linear is a small square system of equations, dense and row by row.
type linear struct {
	size  int
	rows  [][]float64
	right []float64
}

func newLinear(size int) *linear {
	room := make([]float64, size*size)
	l := &linear{size: size, rows: make([][]float64, size), right: make([]float64, size)}
	for i := range l.rows {
		l.rows[i] = room[i*size : (i+1)*size]
	}
	return l
}

// at returns a row of coefficients to write to.
func (l *linear) at(row int) []float64 {
	return l.rows[row]
}

// solve returns the solution by Gaussian elimination with partial pivoting, and
// false for a singular system. It uses up the coefficients.
func (l *linear) solve() ([]float64, bool) {
	for column := range l.size {
		if !l.pivot(column) {
			return nil, false
		}
		top := l.rows[column]
		for i := column + 1; i < l.size; i++ {
			factor := l.rows[i][column] / top[column]
			if factor == 0 {
				continue
			}
			for j := column; j < l.size; j++ {
				l.rows[i][j] -= factor * top[j]
			}
			l.right[i] -= factor * l.right[column]
		}
	}
	for i := l.size - 1; i >= 0; i-- {
		for j := i + 1; j < l.size; j++ {
			l.right[i] -= l.rows[i][j] * l.right[j]
		}
		l.right[i] /= l.rows[i][i]
	}
	return l.right, true
}

// pivot brings the largest coefficient of a column to the diagonal.
func (l *linear) pivot(column int) bool {
	best := column
	for i := column + 1; i < l.size; i++ {
		if math.Abs(l.rows[i][column]) > math.Abs(l.rows[best][column]) {
			best = i
		}
	}
	l.rows[column], l.rows[best] = l.rows[best], l.rows[column]
	l.right[column], l.right[best] = l.right[best], l.right[column]
	return math.Abs(l.rows[column][column]) > 1e-15
}

// firstLength solves for run lengths and returns the first. Beyond a million million
// the system is too near singular to be told from one without an end: infinite.
func (l *linear) firstLength() float64 {
	lengths, ok := l.solve()
	if !ok || !(lengths[0] >= 1 && lengths[0] < 1e12) {
		return math.Inf(1)
	}
	return lengths[0]
}
