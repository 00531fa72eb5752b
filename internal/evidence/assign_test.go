package evidence

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

func TestAssign_PublishedMatrices(t *testing.T) {
	cases := []struct {
		source  string
		cost    [][]float64
		columns []int // nil where two assignments are equally good
		total   float64
	}{
		{"scipy linear_sum_assignment example", [][]float64{{4, 1, 3}, {2, 0, 5}, {3, 2, 2}}, []int{1, 0, 2}, 5},
		{"scipy tests", [][]float64{{400, 150, 400}, {400, 450, 600}, {300, 225, 300}}, []int{1, 0, 2}, 850},
		{"scipy tests", [][]float64{{400, 150, 400, 1}, {400, 450, 600, 2}, {300, 225, 300, 3}}, nil, 452},
		{"scipy tests", [][]float64{{10, 10, 8}, {9, 8, 1}, {9, 7, 4}}, []int{0, 2, 1}, 18},
		{"scipy tests", [][]float64{{10, 10, 8, 11}, {9, 8, 1, 1}, {9, 7, 4, 10}}, nil, 15},
		{"Winston, machines and jobs", [][]float64{{14, 5, 8, 7}, {2, 12, 6, 5}, {7, 8, 3, 9}, {2, 4, 6, 10}}, []int{1, 3, 2, 0}, 15},
		{"Taha", [][]float64{{15, 10, 9}, {9, 15, 10}, {10, 12, 8}}, []int{1, 0, 2}, 27},
		{"common tutorial", [][]float64{{82, 83, 69, 92}, {77, 37, 49, 92}, {11, 69, 5, 86}, {8, 9, 98, 23}}, []int{2, 1, 0, 3}, 140},
	}
	for _, c := range cases {
		columns, total, err := Assign(c.cost)
		if err != nil {
			t.Fatalf("%s: %v", c.source, err)
		}
		near(t, c.source, total, c.total, 1e-12)
		if c.columns != nil && !slices.Equal(columns, c.columns) {
			t.Errorf("%s: columns %v, want %v", c.source, columns, c.columns)
		}
	}
}

func TestAssignMost_PublishedMatrices(t *testing.T) {
	cases := []struct {
		source  string
		gain    [][]float64
		columns []int
		total   float64
	}{
		{"Kuhn 1955, ratings", [][]float64{{8, 7, 9, 9}, {5, 2, 7, 8}, {6, 1, 4, 9}, {2, 3, 2, 6}}, []int{0, 2, 3, 1}, 27},
		{"scipy example, maximised", [][]float64{{4, 1, 3}, {2, 0, 5}, {3, 2, 2}}, []int{0, 2, 1}, 11},
	}
	for _, c := range cases {
		columns, total, err := AssignMost(c.gain)
		if err != nil {
			t.Fatalf("%s: %v", c.source, err)
		}
		near(t, c.source, total, c.total, 1e-12)
		if !slices.Equal(columns, c.columns) {
			t.Errorf("%s: columns %v, want %v", c.source, columns, c.columns)
		}
	}
}

// Every arrangement tried by hand against the algorithm.
func TestAssign_AgreesWithTryingAll(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rows := rapid.IntRange(1, 5).Draw(t, "rows")
		columns := rapid.IntRange(rows, 6).Draw(t, "columns")
		cost := make([][]float64, rows)
		for i := range cost {
			cost[i] = rapid.SliceOfN(rapid.Float64Range(-50, 50), columns, columns).Draw(t, "cost")
		}
		got, total, err := Assign(cost)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "total", total, cheapest(cost, 0, make([]bool, columns)), 1e-9)
		sum, used := 0.0, map[int]bool{}
		for row, column := range got {
			sum += cost[row][column]
			used[column] = true
		}
		if len(used) != rows || math.Abs(sum-total) > 1e-9 {
			t.Fatalf("columns %v cost %g, said %g", got, sum, total)
		}
	})
}

// cheapest tries every free column for a row and all rows after it.
func cheapest(cost [][]float64, row int, taken []bool) float64 {
	if row == len(cost) {
		return 0
	}
	best := math.Inf(1)
	for column, c := range cost[row] {
		if !taken[column] {
			taken[column] = true
			best = math.Min(best, c+cheapest(cost, row+1, taken))
			taken[column] = false
		}
	}
	return best
}

func TestAssign_Refuses(t *testing.T) {
	for name, cost := range map[string][][]float64{
		"ragged": {{1, 2}, {1}}, "more rows than columns": {{1}, {2}}, "not a number": {{math.NaN()}}, "endless": {{math.Inf(1)}},
	} {
		if columns, _, err := Assign(cost); err == nil || columns != nil {
			t.Errorf("%s: columns %v, no error", name, columns)
		}
	}
	if columns, total, err := Assign(nil); err != nil || len(columns) != 0 || total != 0 {
		t.Errorf("nothing to assign: %v %g %v", columns, total, err)
	}
}

func BenchmarkAssign_Nine(b *testing.B) {
	cost := make([][]float64, 9)
	for i := range cost {
		cost[i] = make([]float64, 9)
		for j := range cost[i] {
			cost[i][j] = float64((i*7 + j*j*3) % 11)
		}
	}
	for b.Loop() {
		if _, _, err := Assign(cost); err != nil {
			b.Fatal(err)
		}
	}
}
