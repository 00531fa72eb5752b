package density

import "breakwright/internal/table"

// gridEdge is an edge between two neighbouring nodes: from (i, j) to the right, or
// along the table.
type gridEdge struct {
	i, j  int
	along bool
}

// traceContour goes round where the grid is at least as high as a level (marching
// squares with linear interpolation). Every loop keeps the area on its left.
func (g *densityGrid) traceContour(level float64) [][]table.Place {
	next, order := g.contourSteps(level)
	var loops [][]table.Place
	for _, start := range order {
		var loop []table.Place
		for at := start; ; {
			to, open := next[at]
			if !open {
				break
			}
			delete(next, at)
			loop = append(loop, g.crossingPlace(at, level))
			at = to
		}
		if len(loop) > 2 {
			loops = append(loops, loop)
		}
	}
	return loops
}

// contourSteps lists, for every edge through which a contour goes, the edge through
// which it goes next, and the edges in the order they were found.
func (g *densityGrid) contourSteps(level float64) (next map[gridEdge]gridEdge, order []gridEdge) {
	next = map[gridEdge]gridEdge{}
	for j := range len(g.y) - 1 {
		for i := range len(g.x) - 1 {
			leaves, enters := g.cellCrossings(i, j, level)
			joined := len(leaves) == 2 && g.cellMean(i, j) >= level
			for k, leave := range leaves {
				// Around its own corner; or, where two corners are joined through the
				// middle of the cell, on to the other's.
				to := enters[k]
				if joined {
					to = enters[(k+1)%2]
				}
				next[leave] = to
				order = append(order, leave)
			}
		}
	}
	return next, order
}

// cellCrossings goes round a cell's corners counter-clockwise and lists the edges
// on which it leaves the area, and beside each the one on which it had entered.
func (g *densityGrid) cellCrossings(i, j int, level float64) (leaves, enters []gridEdge) {
	corners := [4][2]int{{i, j}, {i + 1, j}, {i + 1, j + 1}, {i, j + 1}}
	edges := [4]gridEdge{{i, j, false}, {i + 1, j, true}, {i, j + 1, false}, {i, j, true}}
	var inside [4]bool
	for k, c := range corners {
		inside[k] = g.value[c[1]][c[0]] >= level
	}
	for k := range 4 {
		if inside[k] && !inside[(k+1)%4] {
			leaves = append(leaves, edges[k])
			back := k
			for inside[(back+3)%4] {
				back = (back + 3) % 4
			}
			enters = append(enters, edges[(back+3)%4])
		}
	}
	return leaves, enters
}

func (g *densityGrid) cellMean(i, j int) float64 {
	return (g.value[j][i] + g.value[j][i+1] + g.value[j+1][i] + g.value[j+1][i+1]) / 4
}

// crossingPlace is where on an edge the level is reached.
func (g *densityGrid) crossingPlace(s gridEdge, level float64) table.Place {
	i, j := s.i, s.j
	if s.along {
		j++
	} else {
		i++
	}
	a, b := g.value[s.j][s.i], g.value[j][i]
	share := table.Inches((level - a) / (b - a))
	return table.Place{
		X: g.x[s.i] + share*(g.x[i]-g.x[s.i]),
		Y: g.y[s.j] + share*(g.y[j]-g.y[s.j]),
	}
}
