package advice

import (
	"encoding/json"

	"breakwright/internal/drill"
	"breakwright/internal/say"
)

// BreakCard is a student's own best-known break for one table.
type BreakCard struct {
	Table  string      `json:"table"`
	Setup  drill.Setup `json:"-"`
	Wing   Rate        `json:"wing"`
	Window Rate        `json:"window"`
	Says   string      `json:"says"`
	// Said is Says as data.
	Said say.Statement `json:"-"`
}

// Rate is a count with its share and 95 % Jeffreys interval.
type Rate struct {
	Count int     `json:"count"`
	Of    int     `json:"of"`
	Rate  float64 `json:"rate"`
	Low   float64 `json:"low"`
	High  float64 `json:"high"`
}

// MarshalJSON writes the card with its setup in the columns of the break log.
func (c BreakCard) MarshalJSON() ([]byte, error) {
	type plain BreakCard
	return json.Marshal(struct {
		plain
		Setup setupColumns `json:"setup"`
	}{plain(c), setupColumnsOf(c.Setup)})
}
