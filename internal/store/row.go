package store

import (
	"encoding/json"
	"fmt"
	"time"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/store/internal/query"
	"breakwright/internal/table"
)

// ballRecord is where an object ball went, as the column balls has it.
type ballRecord struct {
	Ball   rack.Ball     `json:"ball"`
	Fate   ballFate      `json:"fate"`
	Pocket table.Pocket  `json:"pocket,omitempty"`
	X      *table.Inches `json:"x,omitempty"`
	Y      *table.Inches `json:"y,omitempty"`
}

type ballFate string

const (
	ballPocketed ballFate = "pocketed"
	ballOffTable ballFate = "off"
	ballAtRest   ballFate = "rest"
)

// breakRow writes a break as its row has it: times to the microsecond.
func breakRow(b drill.Break) query.Break {
	row := query.Break{
		Number: b.Number, Speed: pointerOrNil(float64(b.Speed)), CueHow: string(b.Cue.How),
		WingMiss: string(b.WingMiss), CuePath: string(b.CuePath), Rails: b.Rails, PastString: b.PastString,
		Shot: string(b.Shot), RanOut: string(b.RanOut), Racked: string(b.Racked), Note: b.Note, Balls: encodeBalls(b),
	}
	if !b.At.IsZero() {
		at := b.At.UTC().Truncate(time.Microsecond)
		row.At = &at
	}
	switch b.Cue.How {
	case drill.Stopped:
		x, y := float64(b.Cue.Place.X), float64(b.Cue.Place.Y)
		row.CueX, row.CueY = &x, &y
	case drill.Scratched:
		row.CuePocket = string(b.Cue.Scratch)
	}
	return row
}

// upsertBreakRow is the row as it is written by this revision of it.
func upsertBreakRow(r query.Break) query.UpsertBreakParams {
	return query.UpsertBreakParams{
		ClubID: r.ClubID, ID: r.ID, SetID: r.SetID, StudentID: r.StudentID,
		Number: r.Number, At: r.At, Speed: r.Speed, CueHow: r.CueHow, CueX: r.CueX, CueY: r.CueY,
		CuePocket: r.CuePocket, WingMiss: r.WingMiss, CuePath: r.CuePath, Rails: r.Rails, PastString: r.PastString,
		Shot: r.Shot, RanOut: r.RanOut, Racked: r.Racked, Note: r.Note, Balls: r.Balls,
		Revision: r.Revision, EditedBy: r.EditedBy,
	}
}

// importedBreakRow is the row as it is brought in from a log.
func importedBreakRow(r query.Break) query.InsertImportedBreakParams {
	return query.InsertImportedBreakParams{
		ClubID: r.ClubID, ID: r.ID, SetID: r.SetID, StudentID: r.StudentID,
		Number: r.Number, At: r.At, Speed: r.Speed, CueHow: r.CueHow, CueX: r.CueX, CueY: r.CueY,
		CuePocket: r.CuePocket, WingMiss: r.WingMiss, CuePath: r.CuePath, Rails: r.Rails, PastString: r.PastString,
		Shot: r.Shot, RanOut: r.RanOut, Racked: r.Racked, Note: r.Note, Balls: r.Balls,
	}
}

func encodeBalls(b drill.Break) []byte {
	balls := []ballRecord{}
	for _, p := range b.Pocketed {
		balls = append(balls, ballRecord{Ball: p.Ball, Fate: ballPocketed, Pocket: p.Pocket})
	}
	for _, n := range b.Off {
		balls = append(balls, ballRecord{Ball: n, Fate: ballOffTable})
	}
	for _, r := range b.Rest {
		balls = append(balls, ballRecord{Ball: r.Ball, Fate: ballAtRest, X: &r.Place.X, Y: &r.Place.Y})
	}
	text, err := json.Marshal(balls)
	if err != nil {
		panic("store: balls that do not marshal, though they were checked: " + err.Error())
	}
	return text
}

// drillBreak is the inverse of breakRow.
func drillBreak(row query.Break) (drill.Break, error) {
	b := drill.Break{
		Number: row.Number, At: utcOrZero(row.At), Speed: table.Mph(valueOrZero(row.Speed)),
		Cue: drill.CueEnd{
			How:     drill.CueOutcome(row.CueHow),
			Place:   table.Place{X: table.Inches(valueOrZero(row.CueX)), Y: table.Inches(valueOrZero(row.CueY))},
			Scratch: table.Pocket(row.CuePocket),
		},
		WingMiss: drill.WingMiss(row.WingMiss), CuePath: drill.CuePath(row.CuePath),
		Rails: row.Rails, PastString: row.PastString,
		Shot: drill.Shot(row.Shot), RanOut: drill.RanOut(row.RanOut), Racked: drill.Racked(row.Racked), Note: row.Note,
	}
	if string(row.Balls) == "[]" { // most breaks of a class's picture
		return b, nil
	}
	var balls []ballRecord
	if err := json.Unmarshal(row.Balls, &balls); err != nil {
		return drill.Break{}, fmt.Errorf("break %s: %w", row.ID, err)
	}
	for _, n := range balls {
		switch n.Fate {
		case ballPocketed:
			b.Pocketed = append(b.Pocketed, drill.Pocketed{Ball: n.Ball, Pocket: n.Pocket})
		case ballOffTable:
			b.Off = append(b.Off, n.Ball)
		case ballAtRest:
			b.Rest = append(b.Rest, drill.RestingBall{Ball: n.Ball, Place: table.Place{X: valueOrZero(n.X), Y: valueOrZero(n.Y)}})
		}
	}
	return b, nil
}

func storedBreak(row query.Break) (Break, error) {
	b, err := drillBreak(row)
	return Break{ID: BreakID{row.ID}, Revision: row.Revision, Break: b, EditedBy: idOrZero[PersonID](row.EditedBy)}, err
}

func tallyFromRow(r query.SetTally) Tally {
	return Tally{
		Breaks: r.Breaks, Watched: r.Watched, WingMade: r.WingMade, MissSide: r.MissSide, MissFoot: r.MissFoot,
		MissKissed: r.MissKissed, MissJaws: r.MissJaws, InWindow: r.InWindow,
		ScratchHead: r.ScratchHead, ScratchSide: r.ScratchSide, ScratchFoot: r.ScratchFoot,
		CueOff: r.CueOff, BallsOff: r.BallsOff, Dry: r.Dry, Weak: r.Weak, WeakKnown: r.WeakKnown,
	}
}

func tallyFromStint(r query.Stint) Tally {
	return Tally{
		Breaks: r.Breaks, Watched: r.Watched, WingMade: r.WingMade, MissSide: r.MissSide, MissFoot: r.MissFoot,
		MissKissed: r.MissKissed, MissJaws: r.MissJaws, InWindow: r.InWindow,
		ScratchHead: r.ScratchHead, ScratchSide: r.ScratchSide, ScratchFoot: r.ScratchFoot,
		CueOff: r.CueOff, BallsOff: r.BallsOff, Dry: r.Dry, Weak: r.Weak, WeakKnown: r.WeakKnown,
	}
}

func windowFromRow(r query.SetTally) table.Window {
	return table.Window{
		Left: table.Inches(r.WindowLeft), Right: table.Inches(r.WindowRight),
		Head: table.Inches(r.WindowHead), Foot: table.Inches(r.WindowFoot),
	}
}

// setupRow writes a setup at the grain in which setups are told apart.
func setupRow(s drill.Setup) query.Setup {
	s = s.Rounded()
	return query.Setup{
		Game: string(s.Game), Spot: string(s.Spot), Rack: s.Order.String(), Side: string(s.Side), Wing: string(s.Wing),
		CueX: float64(s.Cue.X), CueY: float64(s.Cue.Y), Contact: float64(s.Contact),
		Tip: float64(s.Tip), Spin: float64(s.Spin), Speed: pointerOrNil(float64(s.Speed)),
	}
}

func setupFromRow(row query.Setup) (drill.Setup, error) {
	s := drill.Setup{
		Game: rack.Game(row.Game), Spot: rack.Spot(row.Spot),
		Side: table.Side(row.Side), Wing: rack.Slot(row.Wing),
		Cue:     table.Place{X: table.Inches(row.CueX), Y: table.Inches(row.CueY)},
		Contact: table.Inches(row.Contact), Tip: drill.RadiusFraction(row.Tip), Spin: drill.RadiusFraction(row.Spin),
		Speed: table.Mph(valueOrZero(row.Speed)),
	}
	var err error
	if s.Order, err = rack.ParseOrder(s.Game, row.Rack); err != nil {
		return drill.Setup{}, fmt.Errorf("setup %s: %w", row.ID, err)
	}
	return s, nil
}

func kindFromRow(row query.PoolTable) table.Kind {
	return table.Kind{Feet: row.Feet, Small: row.Small, CornerMouth: table.Inches(row.CornerIn), SideMouth: table.Inches(row.SideIn)}
}

// valueOrZero is how an optional column comes back.
func valueOrZero[T any](v *T) T {
	if v == nil {
		var zero T
		return zero
	}
	return *v
}

// pointerOrNil is how an optional value is stored: the zero value is null.
func pointerOrNil[T comparable](v T) *T {
	var zero T
	if v == zero {
		return nil
	}
	return &v
}

// utcOrZero is how an optional time comes back; the zero time is none.
func utcOrZero(at *time.Time) time.Time { return valueOrZero(at).UTC() }

// mapRows maps rows to nouns.
func mapRows[Row, Noun any](rows []Row, noun func(Row) Noun) []Noun {
	nouns := make([]Noun, len(rows))
	for i, row := range rows {
		nouns[i] = noun(row)
	}
	return nouns
}
