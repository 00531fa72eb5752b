package sync

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"time"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// breakJSON is a break on the wire: what was not observed is left out. Phone
// and server write the same break in the same bytes: the fields in this order,
// no white space, times in UTC to the millisecond.
type breakJSON struct {
	Number     int             `json:"number"`
	At         string          `json:"at,omitempty"`
	Pocketed   []pocketedJSON  `json:"pocketed,omitempty"`
	Off        []ballJSON      `json:"off,omitempty"`
	Cue        cueBallJSON     `json:"cue"`
	WingMiss   drill.WingMiss  `json:"wing_miss,omitempty"`
	CuePath    drill.CuePath   `json:"cue_path,omitempty"`
	Rest       []restPlaceJSON `json:"rest,omitempty"`
	Rails      *int            `json:"rails,omitempty"`
	PastString *int            `json:"past_string,omitempty"`
	Shot       drill.Shot      `json:"shot,omitempty"`
	RanOut     drill.RanOut    `json:"ran_out,omitempty"`
	Racked     drill.Racked    `json:"racked,omitempty"`
	Speed      table.Mph       `json:"speed,omitempty"`
	Note       string          `json:"note,omitempty"`
}

// ballJSON is a ball's number; a list of rack.Ball would be written as bytes.
type ballJSON uint16

type pocketedJSON struct {
	Ball   rack.Ball    `json:"ball"`
	Pocket table.Pocket `json:"pocket"`
}

type restPlaceJSON struct {
	Ball rack.Ball    `json:"ball"`
	X    table.Inches `json:"x"`
	Y    table.Inches `json:"y"`
}

type cueBallJSON struct {
	How    drill.CueOutcome `json:"how"`
	X      *table.Inches    `json:"x,omitempty"`
	Y      *table.Inches    `json:"y,omitempty"`
	Pocket table.Pocket     `json:"pocket,omitempty"`
}

// timeLayout is what a script's toISOString writes.
const timeLayout = "2006-01-02T15:04:05.000Z"

// ReadBreak reads a break. A field that is not known is refused: half a break
// must not be taken for a whole one. Whether it can have happened is drill's to
// say.
func ReadBreak(content []byte) (drill.Break, error) {
	var j breakJSON
	decoder := json.NewDecoder(bytes.NewReader(content))
	decoder.DisallowUnknownFields()
	if err := decoder.Decode(&j); err != nil {
		return drill.Break{}, fmt.Errorf("sync: read a break: %w", err)
	}
	b := drill.Break{
		Number: j.Number, WingMiss: j.WingMiss, CuePath: j.CuePath,
		Cue:   drill.CueEnd{How: j.Cue.How, Scratch: j.Cue.Pocket},
		Rails: j.Rails, PastString: j.PastString, Shot: j.Shot, RanOut: j.RanOut, Racked: j.Racked, Speed: j.Speed, Note: j.Note,
	}
	if j.At != "" {
		at, err := time.Parse(timeLayout, j.At)
		if err != nil {
			return drill.Break{}, fmt.Errorf("sync: read a break's time: %w", err)
		}
		b.At = at
	}
	if (j.Cue.X == nil) != (j.Cue.Y == nil) || (j.Cue.X == nil && b.Cue.How == drill.Stopped) {
		return drill.Break{}, fmt.Errorf("sync: read a break: half a place of the cue ball")
	}
	if j.Cue.X != nil {
		b.Cue.Place = table.Place{X: *j.Cue.X, Y: *j.Cue.Y}
	}
	for _, ball := range j.Off {
		if ball > math.MaxUint8 {
			return drill.Break{}, fmt.Errorf("sync: read a break: there is no ball %d", ball)
		}
		b.Off = append(b.Off, rack.Ball(ball))
	}
	for _, p := range j.Pocketed {
		b.Pocketed = append(b.Pocketed, drill.Pocketed(p))
	}
	for _, r := range j.Rest {
		b.Rest = append(b.Rest, drill.RestingBall{Ball: r.Ball, Place: table.Place{X: r.X, Y: r.Y}})
	}
	return b, nil
}

// breakToJSON is the inverse of ReadBreak.
func breakToJSON(b drill.Break) breakJSON {
	j := breakJSON{
		Number: b.Number, WingMiss: b.WingMiss, CuePath: b.CuePath,
		Cue:   cueBallJSON{How: b.Cue.How, Pocket: b.Cue.Scratch},
		Rails: b.Rails, PastString: b.PastString, Shot: b.Shot, RanOut: b.RanOut, Racked: b.Racked, Speed: b.Speed, Note: b.Note,
	}
	if !b.At.IsZero() {
		j.At = b.At.UTC().Format(timeLayout)
	}
	if b.Cue.How == drill.Stopped {
		j.Cue.X, j.Cue.Y = &b.Cue.Place.X, &b.Cue.Place.Y
	}
	for _, ball := range b.Off {
		j.Off = append(j.Off, ballJSON(ball))
	}
	for _, p := range b.Pocketed {
		j.Pocketed = append(j.Pocketed, pocketedJSON(p))
	}
	for _, r := range b.Rest {
		j.Rest = append(j.Rest, restPlaceJSON{Ball: r.Ball, X: r.Place.X, Y: r.Place.Y})
	}
	return j
}

// WriteBreak returns a break in the bytes in which phones keep it.
func WriteBreak(b drill.Break) ([]byte, error) { return encodeJSON(breakToJSON(b)) }

// encodeJSON writes JSON as a script does: no escapes for HTML, no line at the end.
func encodeJSON(content any) ([]byte, error) {
	var b bytes.Buffer
	encoder := json.NewEncoder(&b)
	encoder.SetEscapeHTML(false)
	if err := encoder.Encode(content); err != nil {
		return nil, err
	}
	return bytes.TrimSuffix(b.Bytes(), []byte("\n")), nil
}
