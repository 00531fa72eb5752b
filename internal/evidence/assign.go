package evidence

import (
	"errors"
	"fmt"
	"math"
)

// Assign gives every row one column of its own so that the costs add up to the
// least possible (Kuhn 1955, in the shortest-path form with potentials of Jonker
// and Volgenant 1987). columns[row] is the column of a row and total the sum of
// costs. When several assignments are equally cheap the same one is always
// returned.
//
// It refuses rows of different length, more rows than columns, and costs that are
// not finite: forbid a pair by a cost larger than all others together. No rows is
// an empty assignment.
func Assign(cost [][]float64) (columns []int, total float64, err error) {
	if err := checkCosts(cost); err != nil {
		return nil, 0, err
	}
	if len(cost) == 0 {
		return []int{}, 0, nil
	}
	search := newAssignment(cost)
	for row := range cost {
		search.place(row)
	}
	columns = make([]int, len(cost))
	for column, row := range search.rowOf[:len(cost[0])] {
		if row >= 0 {
			columns[row] = column
			total += cost[row][column]
		}
	}
	return columns, total, nil
}

// AssignMost is Assign for gains: it makes the sum the largest possible.
func AssignMost(gain [][]float64) (columns []int, total float64, err error) {
	cost := make([][]float64, len(gain))
	for i, row := range gain {
		cost[i] = make([]float64, len(row))
		for j, g := range row {
			cost[i][j] = -g
		}
	}
	columns, total, err = Assign(cost)
	return columns, 0 - total, err
}

func checkCosts(cost [][]float64) error {
	for _, row := range cost {
		if len(row) != len(cost[0]) {
			return errors.New("assignment: every row needs the same number of columns")
		}
		if len(row) < len(cost) {
			return fmt.Errorf("assignment: %d rows cannot share %d columns", len(cost), len(row))
		}
		for _, c := range row {
			if math.IsNaN(c - c) {
				return errors.New("assignment: every cost must be a finite number")
			}
		}
	}
	return nil
}

// assignment is the state between rows: potentials under which every reduced cost
// is at least 0, and 0 for the pairs in use.
type assignment struct {
	cost            [][]float64
	ofRow, ofColumn []float64 // potentials
	rowOf           []int     // row of each column, -1 when free; the last is a column at the root of the search
	from            []int     // column before each one on the shortest path
	distance        []float64
	done            []bool
}

func newAssignment(cost [][]float64) *assignment {
	n := len(cost[0])
	a := &assignment{
		cost: cost, ofRow: make([]float64, len(cost)), ofColumn: make([]float64, n+1),
		rowOf: make([]int, n+1), from: make([]int, n+1), distance: make([]float64, n+1), done: make([]bool, n+1),
	}
	for column := range a.rowOf {
		a.rowOf[column] = -1
	}
	return a
}

// place adds a row: the cheapest chain of moves that frees a column for it.
func (a *assignment) place(row int) {
	root := len(a.rowOf) - 1
	for column := range a.distance {
		a.distance[column], a.done[column] = math.Inf(1), false
	}
	a.rowOf[root] = row
	at := root
	for a.rowOf[at] >= 0 {
		at = a.advance(at)
	}
	for at != root {
		a.rowOf[at] = a.rowOf[a.from[at]]
		at = a.from[at]
	}
	a.rowOf[root] = -1
}

// advance closes a column, shortens the paths through its row, and returns the
// nearest open column after moving the potentials so that it is at distance 0.
func (a *assignment) advance(at int) int {
	a.done[at] = true
	row, next, step := a.rowOf[at], -1, math.Inf(1)
	for column := range len(a.rowOf) - 1 {
		if a.done[column] {
			continue
		}
		reduced := a.cost[row][column] - a.ofRow[row] - a.ofColumn[column]
		if reduced < a.distance[column] {
			a.distance[column], a.from[column] = reduced, at
		}
		if a.distance[column] < step {
			next, step = column, a.distance[column]
		}
	}
	for column, done := range a.done {
		if done {
			a.ofRow[a.rowOf[column]] += step
			a.ofColumn[column] -= step
		} else {
			a.distance[column] -= step
		}
	}
	return next
}
