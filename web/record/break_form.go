package record

import (
	"errors"
	"net/http"
	"strconv"
	"strings"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/say"
	"breakwright/internal/store"
	"breakwright/internal/table"
	"breakwright/web/component"
	"breakwright/web/page"
	"breakwright/web/picture"
)

// Answers of the field "wing".
const (
	wingMade   = "made"   // in its own corner
	wingStayed = "stayed" // on the cloth
	wingOther  = "other"  // wing_other says where
	// wingNotWatched says that nobody watched it: where it went, if that is known, is
	// said as of the other balls.
	wingNotWatched = string(drill.NotWatched)
)

// offTable is the answer for an object ball that left the table, beside the
// pockets' names.
const offTable = "off"

// ballFieldName and restFieldName name the fields of one object ball.
func ballFieldName(b rack.Ball) string { return "ball_" + b.String() }
func restFieldName(b rack.Ball) string { return "rest_" + b.String() }

// applyTap reads the pixel that the picture sends as a button, and reports whether
// there was one.
func (v recordView) applyTap() bool {
	px, errX := strconv.Atoi(v.Form.Text("tap.x"))
	py, errY := strconv.Atoi(v.Form.Text("tap.y"))
	if errX != nil || errY != nil {
		return false
	}
	width, height := tapPictureSize(v.kind())
	if at, ok := picture.PlaceFromPixels(px, py, width, height, v.kind()); ok {
		at = v.kind().SettleBall(at)
		v.Form.Values.Set("cue_x", v.Form.Units.Number(say.Place, float64(at.X)))
		v.Form.Values.Set("cue_y", v.Form.Units.Number(say.Place, float64(at.Y)))
		v.Form.Values.Set("cue", string(drill.Stopped))
	}
	return true
}

// readBreak makes a break of what was typed under a setup. What is missing or
// cannot be read is refused beside its field; whether the break can have
// happened is drill's to say.
func readBreak(f *page.Form, s drill.Setup, number int) drill.Break {
	b := drill.Break{
		Number:   number,
		WingMiss: drill.WingMiss(f.Text("wing_miss")),
		CuePath:  drill.CuePath(f.Text("cue_path")),
		Shot:     drill.Shot(f.Text("shot")),
		RanOut:   drill.RanOut(f.Text("ran_out")),
		Racked:   drill.Racked(f.Text("racked")),
		Note:     strings.ReplaceAll(f.Text("note"), "\r\n", "\n"),
	}
	readWingBall(f, s, &b)
	for _, ball := range otherBalls(s, b.IsWatched()) {
		addBallFate(f, &b, ball, f.Text(ballFieldName(ball)))
	}
	b.Cue = readCueEnd(f)
	if b.Cue.How != drill.Stopped {
		b.CuePath = ""
	}
	b.Rest = readRestPlaces(f, s)
	b.Rails = readBallCount(f, "rails")
	b.PastString = readBallCount(f, "past_string")
	b.Speed = table.Mph(f.MeasureOrDefault("speed", say.Speed, 0, "the speed is a number of "+f.Units.Long(say.Speed)+", for example "+f.Units.Number(say.Speed, float64(drill.UsualSpeed))))
	return b
}

func readWingBall(f *page.Form, s drill.Setup, b *drill.Break) {
	wing := s.WingBall()
	switch f.Text("wing") {
	case wingMade:
		b.Pocketed = append(b.Pocketed, drill.Pocketed{Ball: wing, Pocket: s.WingPocket()})
		b.WingMiss = ""
	case wingStayed:
	case wingNotWatched:
		b.WingMiss = drill.NotWatched
	case wingOther:
		b.WingMiss = ""
		where := f.Text("wing_other")
		if where == "" {
			f.Reject("wing_other", "say which pocket the wing ball went in, or that it left the table")
			return
		}
		addBallFate(f, b, wing, where)
	default:
		f.Reject("wing", "say whether the wing ball, the "+wing.String()+", dropped")
	}
}

// addBallFate notes a ball that is no longer on the cloth.
func addBallFate(f *page.Form, b *drill.Break, ball rack.Ball, where string) {
	switch where {
	case "":
	case offTable:
		b.Off = append(b.Off, ball)
	default:
		pocket, err := table.ParsePocket(where)
		if err != nil {
			f.Reject("pocketed", err.Error())
			return
		}
		b.Pocketed = append(b.Pocketed, drill.Pocketed{Ball: ball, Pocket: pocket})
	}
}

func readCueEnd(f *page.Form) drill.CueEnd {
	switch how := drill.CueOutcome(f.Text("cue")); how {
	case drill.Stopped:
		if f.Text("cue_x") == "" && f.Text("cue_y") == "" {
			f.Reject("cue", "tap the table where the cue ball stopped, or type its place")
			return drill.CueEnd{}
		}
		return drill.CueEnd{How: how, Place: table.Place{
			X: table.Inches(f.Measure("cue_x", say.Place, "type the "+f.Units.Long(say.Place)+" across as a number, for example "+f.Units.Typed(say.Place, -3.5))),
			Y: table.Inches(f.Measure("cue_y", say.Place, "type the "+f.Units.Long(say.Place)+" from the head rail as a number, for example "+f.Units.Number(say.Place, 41))),
		}}
	case drill.Scratched:
		return drill.CueEnd{How: how, Scratch: table.Pocket(f.Text("cue_pocket"))}
	default:
		return drill.CueEnd{How: how}
	}
}

func readRestPlaces(f *page.Form, s drill.Setup) []drill.RestingBall {
	var rest []drill.RestingBall
	for n := range s.Game.BallCount() {
		ball := rack.Ball(n + 1)
		typed := f.Text(restFieldName(ball))
		if typed == "" {
			continue
		}
		at, err := table.ParsePlace(typed)
		if err != nil {
			f.Reject(restFieldName(ball), "write the place as across,along in "+f.Units.Long(say.Place)+", for example "+typedPlace(table.Place{X: -3.5, Y: 41}, f.Units))
			continue
		}
		rest = append(rest, drill.RestingBall{Ball: ball, Place: f.Units.ReadTypedPlace(at)})
	}
	return rest
}

// typedPlace is a place as a field holds it: "-3.5,41".
func typedPlace(p table.Place, u say.Units) string {
	return u.Typed(say.Place, float64(p.X)) + "," + u.Typed(say.Place, float64(p.Y))
}

// inchSize is how long an inch is in the units of a form, for a script.
func inchSize(u say.Units) string { return strconv.FormatFloat(u.InOne(say.Place), 'f', -1, 64) }

// mileSize is a mile an hour likewise.
func mileSize(u say.Units) string { return strconv.FormatFloat(u.InOne(say.Speed), 'f', -1, 64) }

func readBallCount(f *page.Form, name string) *int {
	if f.Text(name) == "" {
		return nil
	}
	n, err := strconv.Atoi(f.Text(name))
	if err != nil {
		f.Reject(name, "type a whole number of balls, or leave it empty")
		return nil
	}
	return &n
}

// otherBalls are the racked balls in number order, but the wing ball where it is
// watched.
func otherBalls(s drill.Setup, wingIsWatched bool) []rack.Ball {
	var balls []rack.Ball
	for n := range s.Game.BallCount() {
		if b := rack.Ball(n + 1); b != s.WingBall() || !wingIsWatched {
			balls = append(balls, b)
		}
	}
	return balls
}

// lowBalls are the balls whose resting places may be written down: the lowest that
// are likely to be up after the break.
func lowBalls(drillWatchesLeave bool) []rack.Ball {
	if drillWatchesLeave {
		return []rack.Ball{1, 2, 3, 4, 5}
	}
	return []rack.Ball{1, 2, 3}
}

// readBackIsCurrent reports whether the form says of the break, as it was read back,
// what it would save.
func (v recordView) readBackIsCurrent() bool {
	words := v.readBackWords()
	// A browser sends the lines of a note with its own ends.
	return words != "" && strings.ReplaceAll(v.Form.RawText("read_back"), "\r\n", "\n") == words
}

// readBackWords says in one line all that saving the form would keep, "" while the
// form does not hold a whole break. It reads a copy, so that the form shown has no
// complaints about what is still to be typed.
func (v recordView) readBackWords() string {
	typed := page.NewFormIn(v.Form.Units, nil)
	typed.Values = v.Form.Values
	b := readBreak(typed, v.setup(), v.Number)
	if !typed.IsValid() || b.Check(v.setup(), v.kind()) != nil {
		return ""
	}
	return component.AllBreakWords(b, v.setup(), v.kind(), v.Form.Units)
}

// rejectBreak notes why the break was not kept. When somebody was quicker, the same
// form sent twice in two tabs or the number taken meanwhile, nothing typed is lost.
func (v *recordView) rejectBreak(err error) (status int, unknown error) {
	switch {
	case v.Form.AddProblems(err):
		return http.StatusUnprocessableEntity, nil
	case errors.Is(err, store.ErrClosed):
		return 0, err
	case errors.Is(err, store.ErrStale), errors.Is(err, store.ErrConflict):
		v.Form.Reject("break", "Break "+strconv.Itoa(v.Number)+" was recorded or changed in another tab meanwhile. Look at the list below: it shows what is kept")
		return http.StatusConflict, nil
	}
	return 0, err
}

// fillBreakForm is the inverse of readBreak: what the form shows of a break that
// was recorded.
func fillBreakForm(b drill.Break, s drill.Setup, u say.Units) *page.Form {
	values := map[string]string{
		"wing": wingStayed, "wing_miss": string(b.WingMiss), "cue": string(b.Cue.How),
		"cue_path": string(b.CuePath), "shot": string(b.Shot), "ran_out": string(b.RanOut), "racked": string(b.Racked), "note": b.Note,
	}
	if !b.IsWatched() {
		values["wing"], values["wing_miss"] = wingNotWatched, ""
	}
	for _, p := range b.Pocketed {
		fillBallFate(values, s, p.Ball, string(p.Pocket))
	}
	for _, ball := range b.Off {
		fillBallFate(values, s, ball, offTable)
	}
	switch b.Cue.How {
	case drill.Stopped:
		values["cue_x"], values["cue_y"] = u.Typed(say.Place, float64(b.Cue.Place.X)), u.Typed(say.Place, float64(b.Cue.Place.Y))
	case drill.Scratched:
		values["cue_pocket"] = string(b.Cue.Scratch)
	}
	for _, r := range b.Rest {
		values[restFieldName(r.Ball)] = typedPlace(r.Place, u)
	}
	if b.Rails != nil {
		values["rails"] = strconv.Itoa(*b.Rails)
	}
	if b.PastString != nil {
		values["past_string"] = strconv.Itoa(*b.PastString)
	}
	if b.Speed != 0 {
		values["speed"] = u.Typed(say.Speed, float64(b.Speed))
	}
	return page.NewFormIn(u, values)
}

func fillBallFate(values map[string]string, s drill.Setup, ball rack.Ball, where string) {
	switch {
	case ball != s.WingBall() || values["wing"] == wingNotWatched:
		values[ballFieldName(ball)] = where
	case where == string(s.WingPocket()):
		values["wing"] = wingMade
	default:
		values["wing"], values["wing_other"] = wingOther, where
	}
}
