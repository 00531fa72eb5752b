package breaklog

// column is a column of the log, in the order in which Write writes them.
type column int

const (
	colStudent column = iota
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
	colNote
	columns // how many there are
)

var columnNames = [columns]string{
	"student", "set", "break", "at", "game", "table", "table_ft", "corner_in", "side_in",
	"side", "rack", "spot", "wing", "cue_x", "cue_y", "contact", "tip", "spin", "speed",
	"pocketed", "cue", "off", "wing_miss", "cue_path", "rest", "rails", "past_string",
	"shot", "ran_out", "note",
}

// needed columns must be in the header.
var needed = []column{colStudent, colSet, colBreak, colCueX, colCueY, colPocketed, colCue}

var columnByName = func() map[string]column {
	byName := make(map[string]column, columns)
	for c, name := range columnNames {
		byName[name] = column(c)
	}
	return byName
}()

func (c column) String() string { return columnNames[c] }

// Columns lists the names of all columns in the order in which Write writes
// them.
func Columns() []string { return columnNames[:] }
