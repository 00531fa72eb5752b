package whatif

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

// cell is the width of the grid on which crowds are measured.
const cell table.Inches = 1

// Areas gives for each share (0 to 1) the area that holds it: the region of
// highest density (Hyndman 1996) of a Gaussian kernel estimate with Scott's
// bandwidth, standard deviation times n^(-1/6) along each axis. Fewer than ten
// places have no areas.
func Areas(places []table.Place, k table.Kind, shares ...float64) []Area {
	if len(places) < 10 {
		return nil
	}
	g := newGrid(k)
	at := g.crowd(places)
	sorted := slices.Sorted(slices.Values(at))
	var areas []Area
	for _, share := range shares {
		out := int(math.Floor((1 - share) * float64(len(sorted))))
		level := sorted[min(max(out, 0), len(sorted)-1)]
		areas = append(areas, Area{share, g.contour(level)})
	}
	return areas
}

// grid measures how crowded the cloth is at its nodes, one a cell, and nowhere
// outside: the outermost ring of nodes lies on the noses and is empty.
type grid struct {
	x, y  []table.Inches
	value [][]float64 // by y, then x
}

func newGrid(k table.Kind) *grid {
	g := &grid{x: nodes(-k.Width()/2, k.Width()/2), y: nodes(0, k.Length())}
	g.value = make([][]float64, len(g.y))
	for j := range g.value {
		g.value[j] = make([]float64, len(g.x))
	}
	return g
}

// nodes are a cell apart, and one more at either end right beside the first and
// the last.
func nodes(from, to table.Inches) []table.Inches {
	const beside table.Inches = 0.01
	all := []table.Inches{from}
	n := int(math.Round(float64((to - from) / cell)))
	for i := range n + 1 {
		all = append(all, from+beside+(to-from-2*beside)*table.Inches(i)/table.Inches(n))
	}
	return append(all, to)
}

// crowd fills the grid and gives the density at each of the places.
func (g *grid) crowd(places []table.Place) []float64 {
	points := make([]evidence.Point, len(places))
	for i, p := range places {
		points[i] = evidence.Point{X: float64(p.X), Y: float64(p.Y)}
	}
	s := evidence.ScatterOf(points)
	scott := math.Pow(float64(len(points)), -1.0/6)
	wide := math.Max(math.Sqrt(s.XX)*scott, float64(cell))
	long := math.Max(math.Sqrt(s.YY)*scott, float64(cell))
	for _, p := range points {
		across, along := bells(g.x, p.X, wide), bells(g.y, p.Y, long)
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
		at[i] = g.at(p)
	}
	return at
}

// bells gives the height of a Gaussian bell around a place at each node, 0
// beyond four widths.
func bells(nodes []table.Inches, centre, width float64) []float64 {
	heights := make([]float64, len(nodes))
	for i, node := range nodes {
		if z := (float64(node) - centre) / width; math.Abs(z) < 4 {
			heights[i] = math.Exp(-z * z / 2)
		}
	}
	return heights
}

// at gives the density at a place, between the four nodes around it.
func (g *grid) at(p table.Place) float64 {
	i, u := locate(g.x, p.X)
	j, v := locate(g.y, p.Y)
	row, next := g.value[j], g.value[j+1]
	return (1-v)*((1-u)*row[i]+u*row[i+1]) + v*((1-u)*next[i]+u*next[i+1])
}

// locate finds the cell of a coordinate, and how far along it.
func locate(nodes []table.Inches, at table.Inches) (index int, share float64) {
	index, _ = slices.BinarySearch(nodes, at)
	index = min(max(index-1, 0), len(nodes)-2)
	share = float64((at - nodes[index]) / (nodes[index+1] - nodes[index]))
	return index, math.Min(math.Max(share, 0), 1)
}
