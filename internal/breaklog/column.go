package breaklog

// logColumn is a column of the log, in the order in which Write writes them.
type logColumn int

const (
	colStudent logColumn = iota
	colSet
	colBreak
	colAt
	colGame
	colTable
	colTableFt
	colCornerIn
	colSideIn
	colSide
	colRack
	colSpot
	colWing
	colCueX
	colCueY
	colContact
	colTip
	colSpin
	colSpeed
	colPocketed
	colCue
	colOff
	colWingMiss
	colCuePath
	colRest
	colRails
	colPastString
	colShot
	colRanOut
	colRacked
	colNote
	colSpeedAsked
	colWindow
	colGoals
	colHouse
	colClosed
	colDecision
	colRules
	colTablesPlay
	columnCount // how many there are
)

var columnNames = [columnCount]string{
	"student", "set", "break", "at", "game", "table", "table_ft", "corner_in", "side_in",
	"side", "rack", "spot", "wing", "cue_x", "cue_y", "contact", "tip", "spin", "speed",
	"pocketed", "cue", "off", "wing_miss", "cue_path", "rest", "rails", "past_string",
	"shot", "ran_out", "racked", "note",
	"speed_asked", "window", "goals", "house", "closed", "decision", "rules", "tables_play",
}

// neededColumns columns must be in the header.
var neededColumns = []logColumn{colStudent, colSet, colBreak, colCueX, colCueY, colPocketed, colCue}

var columnByName = func() map[string]logColumn {
	byName := make(map[string]logColumn, columnCount)
	for c, name := range columnNames {
		byName[name] = logColumn(c)
	}
	return byName
}()

func (c logColumn) String() string { return columnNames[c] }

// ColumnNames lists the names of all columns in the order in which Write writes
// them.
func ColumnNames() []string { return columnNames[:] }
