package leave

import (
	"breakwright/internal/table"
)

// ShotMap says from where the ball to shoot at of many leaves could be pocketed; in
// eight-ball any that was placed.
type ShotMap struct {
	Kind table.Kind
	// Leaves counts those whose ball was placed.
	Leaves int
	// Chance is the mean chance of a direct shot with the cue ball in the middle
	// of each cell, MapColumns by MapRows of them, row by row from the head end,
	// each row from the left.
	Chance [MapRows][MapColumns]float64
}

// The cells of a map, each half a diamond wide and half a diamond long.
const (
	MapColumns = 8
	MapRows    = 16
)

// CellMiddle returns the middle of a cell.
func (m ShotMap) CellMiddle(along, across int) table.Place {
	return table.Place{
		X: m.Kind.Width() * ((table.Inches(across)+0.5)/MapColumns - 0.5),
		Y: m.Kind.Length() * (table.Inches(along) + 0.5) / MapRows,
	}
}

// MapShots shows for each leave the chance from every cell, as if the cue ball
// had come to rest there and all else had stayed. Leaves whose ball to shoot at
// was not placed, and those of other kinds of table than the first, are passed
// over.
func MapShots(leaves []Leave, p Player) ShotMap {
	var m ShotMap
	for _, l := range leaves {
		if m.Leaves == 0 {
			m.Kind = l.Kind
		}
		searches := l.searchTargets(p.Accuracy)
		if l.Kind != m.Kind || len(searches) == 0 {
			continue
		}
		m.Leaves++
		for i := range m.Chance {
			for j := range m.Chance[i] {
				cue, best := m.CellMiddle(i, j), 0.0
				for _, s := range searches {
					if l.clear(cue) {
						best = max(best, s.chanceFrom(cue))
					}
				}
				m.Chance[i][j] += best
			}
		}
	}
	for i := range m.Chance {
		for j := range m.Chance[i] {
			m.Chance[i][j] /= float64(max(m.Leaves, 1))
		}
	}
	return m
}

// searchTargets lists the balls to shoot at that were placed.
func (l Leave) searchTargets(a Accuracy) []*search {
	var all []*search
	for _, ball := range l.Targets() {
		if on, placed := l.Place(ball); placed {
			all = append(all, newSearch(l, ball, on, a))
		}
	}
	return all
}

// MeanIn returns the mean chance over a window, each cell by how much of it lies
// inside.
func (m ShotMap) MeanIn(w table.Window) float64 {
	sum, area := 0.0, 0.0
	width, length := m.Kind.Width()/MapColumns, m.Kind.Length()/MapRows
	for i := range m.Chance {
		for j, c := range m.Chance[i] {
			mid := m.CellMiddle(i, j)
			across := min(w.Right, mid.X+width/2) - max(w.Left, mid.X-width/2)
			along := min(w.Foot, mid.Y+length/2) - max(w.Head, mid.Y-length/2)
			if across > 0 && along > 0 {
				sum, area = sum+c*float64(across*along), area+float64(across*along)
			}
		}
	}
	return sum / area
}

// FewestLeaves is how many placed leaves a window is judged on at least.
const FewestLeaves = 20

// worthMoving is the gain in mean chance below which a window is left alone.
const worthMoving = 0.05

// FindBetterWindow looks for the window, in whole cells and no smaller than the one
// now, from which the leaves give the most shots. ok is false with fewer than 20
// leaves, or when none is better by 0.05. It takes the leaves for given: where the
// cue ball comes to rest and where the other balls do are not wholly apart.
func (m ShotMap) FindBetterWindow(now table.Window) (better table.Window, gain float64, ok bool) {
	if m.Leaves < FewestLeaves {
		return now, 0, false
	}
	area := (now.Right - now.Left) * (now.Foot - now.Head)
	mean := m.MeanIn(now)
	width, length := m.Kind.Width()/MapColumns, m.Kind.Length()/MapRows
	for top := range MapRows {
		for bottom := top + 1; bottom <= MapRows; bottom++ {
			for left := range MapColumns {
				for right := left + 1; right <= MapColumns; right++ {
					w := table.Window{
						Left: width*table.Inches(left) - m.Kind.Width()/2, Right: width*table.Inches(right) - m.Kind.Width()/2,
						Head: length * table.Inches(top), Foot: length * table.Inches(bottom),
					}
					if (w.Right-w.Left)*(w.Foot-w.Head) < area-1e-9 {
						continue
					}
					if g := m.MeanIn(w) - mean; g > gain+1e-9 {
						better, gain = w, g
					}
				}
			}
		}
	}
	return better, gain, gain >= worthMoving
}

// DescribeWindowChange compares two windows as a coach would: "10 in wider, 6 in nearer the
// head rail", with lengths in the reader's words.
func DescribeWindowChange(now, better table.Window, lengthWords func(table.Inches) string) string {
	var parts []string
	add := func(by table.Inches, more, less string) {
		switch {
		case by >= 1:
			parts = append(parts, lengthWords(by)+" "+more)
		case by <= -1:
			parts = append(parts, lengthWords(-by)+" "+less)
		}
	}
	add((better.Right-better.Left)-(now.Right-now.Left), "wider", "narrower")
	add((better.Foot-better.Head)-(now.Foot-now.Head), "longer", "shorter")
	add((better.Foot+better.Head-now.Foot-now.Head)/2, "nearer the foot rail", "nearer the head rail")
	add((better.Right+better.Left-now.Right-now.Left)/2, "further right", "further left")
	if len(parts) == 0 {
		return "as it is"
	}
	text := parts[0]
	for _, p := range parts[1:] {
		text += ", " + p
	}
	return text
}
