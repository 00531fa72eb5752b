package rackplan

import "breakwright/internal/table"

// Cells of the cloth: four across, eight along, on every size of table. They are
// counted row by row from the head end, each row from the left.
const (
	CellsAcross = 4
	CellsAlong  = 8
	Cells       = CellsAcross * CellsAlong
)

// CellOf gives the cell of a place.
func CellOf(k table.Kind, p table.Place) int {
	across := int((p.X/k.Width() + 0.5) * CellsAcross)
	along := int(p.Y / k.Length() * CellsAlong)
	return min(max(along, 0), CellsAlong-1)*CellsAcross + min(max(across, 0), CellsAcross-1)
}

// CellMiddle gives the middle of a cell; at shares from -0.5 to 0.5 of a cell
// beside it, other places of it.
func CellMiddle(k table.Kind, cell int, right, foot float64) table.Place {
	across, along := table.Inches(cell%CellsAcross), table.Inches(cell/CellsAcross)
	return k.SettleBall(table.Place{
		X: k.Width() * ((across+0.5+table.Inches(right))/CellsAcross - 0.5),
		Y: k.Length() * (along + 0.5 + table.Inches(foot)) / CellsAlong,
	})
}
