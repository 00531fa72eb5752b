package breaklog

import (
	"fmt"
	"io"
	"strings"
	"time"

	"breakwright/internal/drill"
)

// struckColumns stand behind those of the break log.
var struckColumns = []string{"became", "by", "reason", "struck_at"}

// WriteStruck writes what was struck of sets as a CSV file: the columns of the
// break log and behind them what became of each break (changed, taken-out, or put-back
// after it was taken out), by whom it was struck (student or coach), the reason and when.
// It is for reading: no log, since it cannot be taken over.
func WriteStruck(to io.Writer, sets []drill.StruckSet) error {
	text := []byte(strings.Join(columnNames[:], ",") + "," + strings.Join(struckColumns, ",") + lineEnd)
	for _, set := range sets {
		shared := writeSharedCells(set.Set)
		for _, b := range set.Struck {
			text = endRow(appendEnd(appendBreak(text, set.Set, shared, b.Break), b))
		}
	}
	if _, err := to.Write(text); err != nil {
		return fmt.Errorf("write what was struck: %w", err)
	}
	return nil
}

func appendEnd(row []byte, b drill.StruckBreak) []byte {
	became, by := "taken-out", "student"
	switch {
	case b.Changed:
		became = "changed"
	case b.PutBack:
		became = "put-back"
	}
	if b.ByCoach {
		by = "coach"
	}
	row = appendText(appendText(row, became), by)
	row = appendText(row, escapeFormula(withLineFeeds(b.Reason)))
	return append(b.At.UTC().AppendFormat(row, time.RFC3339), ',')
}
