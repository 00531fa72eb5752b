package rackplan

import "breakwright/internal/table"

// Cells of the cloth: four across, eight along, on every size of table. They are
// counted row by row from the head end, each row from the left.
const (
	CellsAcross = 4
	CellsAlong  = 8
	Cells       = CellsAcross * CellsAlong
)

// CellOf returns the cell of a place.
func CellOf(k table.Kind, p table.Place) int {
	across := int((p.X/k.Width() + 0.5) * CellsAcross)
	along := int(p.Y / k.Length() * CellsAlong)
	return min(max(along, 0), CellsAlong-1)*CellsAcross + min(max(across, 0), CellsAcross-1)
}
