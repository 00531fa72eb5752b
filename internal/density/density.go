// Package density finds where most balls stop: of many places on a table the areas
// that hold half of them, or nine in ten, in inches.
package density

import (
	"math"
	"slices"

	"breakwright/internal/evidence"
	"breakwright/internal/table"
)

// Area holds a share of the places where a ball stopped, the most crowded ones.
// Loops go round it, each closed from its last place to its first; a hole is a
// loop the other way round.
type Area struct {
	Share float64
	Loops [][]table.Place
}

// cellWidth is the width of the grid on which crowds are measured.
const cellWidth table.Inches = 1

// Areas returns for each share (0 to 1) the area that holds it: the region of
// highest density (Hyndman 1996) of a Gaussian kernel estimate with Scott's
// bandwidth, standard deviation times n^(-1/6) along each axis. Fewer than ten
// places have no areas.
func Areas(places []table.Place, k table.Kind, shares ...float64) []Area {
	if len(places) < 10 {
		return nil
	}
	g := newDensityGrid(k)
	at := g.fillDensity(places)
	sorted := slices.Sorted(slices.Values(at))
	var areas []Area
	for _, share := range shares {
		out := int(math.Floor((1 - share) * float64(len(sorted))))
		level := sorted[min(max(out, 0), len(sorted)-1)]
		areas = append(areas, Area{share, g.traceContour(level)})
	}
	return areas
}

// densityGrid measures how crowded the cloth is at its nodes, one a cell, and nowhere
// outside: the outermost ring of nodes lies on the noses and is empty.
type densityGrid struct {
	x, y  []table.Inches
	value [][]float64 // by y, then x
}

func newDensityGrid(k table.Kind) *densityGrid {
	g := &densityGrid{x: gridNodes(-k.Width()/2, k.Width()/2), y: gridNodes(0, k.Length())}
	g.value = make([][]float64, len(g.y))
	for j := range g.value {
		g.value[j] = make([]float64, len(g.x))
	}
	return g
}

// gridNodes are a cell apart, and one more at either end right beside the first and
// the last.
func gridNodes(from, to table.Inches) []table.Inches {
	const beside table.Inches = 0.01
	all := []table.Inches{from}
	n := int(math.Round(float64((to - from) / cellWidth)))
	for i := range n + 1 {
		all = append(all, from+beside+(to-from-2*beside)*table.Inches(i)/table.Inches(n))
	}
	return append(all, to)
}

// fillDensity fills the grid and returns the density at each of the places.
func (g *densityGrid) fillDensity(places []table.Place) []float64 {
	points := make([]evidence.Point, len(places))
	for i, p := range places {
		points[i] = evidence.Point{X: float64(p.X), Y: float64(p.Y)}
	}
	s := evidence.ScatterOf(points)
	scott := math.Pow(float64(len(points)), -1.0/6)
	wide := math.Max(math.Sqrt(s.XX)*scott, float64(cellWidth))
	long := math.Max(math.Sqrt(s.YY)*scott, float64(cellWidth))
	for _, p := range points {
		across, along := bellHeights(g.x, p.X, wide), bellHeights(g.y, p.Y, long)
		for j := 1; j < len(g.y)-1; j++ {
			if along[j] == 0 {
				continue
			}
			for i := 1; i < len(g.x)-1; i++ {
				g.value[j][i] += along[j] * across[i]
			}
		}
	}
	at := make([]float64, len(places))
	for i, p := range places {
		at[i] = g.densityAt(p)
	}
	return at
}

// bellHeights returns the height of a Gaussian bell around a place at each node, 0
// beyond four widths.
func bellHeights(nodes []table.Inches, centre, width float64) []float64 {
	heights := make([]float64, len(nodes))
	for i, node := range nodes {
		if z := (float64(node) - centre) / width; math.Abs(z) < 4 {
			heights[i] = math.Exp(-z * z / 2)
		}
	}
	return heights
}

// densityAt returns the density at a place, between the four nodes around it.
func (g *densityGrid) densityAt(p table.Place) float64 {
	i, u := locateCell(g.x, p.X)
	j, v := locateCell(g.y, p.Y)
	row, next := g.value[j], g.value[j+1]
	return (1-v)*((1-u)*row[i]+u*row[i+1]) + v*((1-u)*next[i]+u*next[i+1])
}

// locateCell finds the cell of a coordinate, and how far along it.
func locateCell(nodes []table.Inches, at table.Inches) (index int, share float64) {
	index, _ = slices.BinarySearch(nodes, at)
	index = min(max(index-1, 0), len(nodes)-2)
	share = float64((at - nodes[index]) / (nodes[index+1] - nodes[index]))
	return index, math.Min(math.Max(share, 0), 1)
}
