package drills

import (
	"math"
	"strconv"
	"strings"

	"breakwright/internal/drill"
	"breakwright/internal/say"
	"breakwright/internal/table"
	"breakwright/web/component"
	"breakwright/web/page"
)

// The fields of the editor. Those that the store speaks of have its names, so
// that its sentences find their place.
const (
	fieldName   = "name"
	fieldGame   = component.FieldGame
	fieldFeet   = "feet"
	fieldBreaks = "breaks"
	fieldOrder  = component.FieldOrder
	fieldSpot   = component.FieldSpot
	fieldWing   = component.FieldWing
	fieldSide   = component.FieldSide
	fieldAcross = component.FieldCueAcross
	fieldBehind = component.FieldCueBehind
	fieldTouch  = component.FieldContact
	fieldTip    = component.FieldTip
	fieldSpin   = component.FieldSpin
	fieldSpeed  = component.FieldSpeed
	fieldWindow = "window" // no input has it: it is about the four together
	fieldLeft   = "window_left"
	fieldRight  = "window_right"
	fieldHead   = "window_head"
	fieldFoot   = "window_foot"
	fieldWings  = "target_wing" // of ten breaks
	fieldStops  = "target_window"
	fieldPoints = "three_points"
	fieldBox    = "break_box" // empty is none
	fieldWatch  = "watch"
	// The questions at the table: present when asked.
	fieldAskWing = "ask_wing"
	fieldAskPath = "ask_path"
	fieldCueOnly = "watch_cue_only"
	// The pocket mouths are carried along: a drill is seldom about them.
	fieldCorner = "corner_in"
	fieldMiddle = "side_in"
)

// What the page showed when it was last drawn, sent along with the form.
const (
	shownGame  = "shown_game"
	shownSide  = "shown_side"
	shownFeet  = "shown_feet"
	shownOrder = "shown_rack"
)

// editorFields lists the fields beside which a sentence may have to stand.
func editorFields() []string {
	fields := []string{
		fieldName, fieldBreaks, fieldOrder, fieldAcross, fieldBehind, fieldTouch, fieldTip, fieldSpin, fieldSpeed,
		fieldWindow, fieldLeft, fieldRight, fieldHead, fieldFoot,
	}
	for _, kind := range drill.TargetKinds() {
		fields = append(fields, kind.Field())
	}
	return append(fields, fieldBox, fieldWatch, fieldCueOnly)
}

// fillDrillForm is the inverse of readDrill: what the form shows of a drill.
func fillDrillForm(d drill.Drill, u say.Units) *page.Form {
	s, points := d.Setup, ""
	if d.House.ThreePoints {
		points = "yes"
	}
	length := func(v table.Inches) string { return u.Typed(say.Place, float64(v)) }
	form := page.NewFormIn(u, component.SetupValues(s, d.Kind, u))
	for name, value := range map[string]string{
		fieldName: d.Name, fieldWatch: d.Watch, fieldAskWing: askValue(d.WatchList.WingPath),
		fieldAskPath: askValue(d.WatchList.CuePath), fieldCueOnly: askValue(d.WatchList.CueOnly), fieldBreaks: strconv.Itoa(d.Breaks),
		fieldGame: string(s.Game), fieldSide: string(s.Side), fieldFeet: d.Kind.Size(),
		fieldCorner: d.Kind.CornerMouth.String(), fieldMiddle: d.Kind.SideMouth.String(),
		fieldSpot: string(s.Spot), fieldWing: string(s.Wing),
		fieldLeft: length(d.Window.Left), fieldRight: length(d.Window.Right),
		fieldHead: length(d.Window.Head), fieldFoot: length(d.Window.Foot),
		fieldPoints: points, fieldBox: formatBox(d.House.BreakBox, u),
	} {
		form.Values.Set(name, value)
	}
	for _, kind := range drill.TargetKinds() {
		form.Values.Set(kind.Field(), formatTarget(kind, d.Targets))
	}
	return form
}

// askValue is what the form sends of a question that is asked.
func askValue(asked bool) string {
	if asked {
		return "yes"
	}
	return ""
}

// rememberShown notes in the form what the page now shows.
func rememberShown(f *page.Form, drawn drill.Drill) {
	f.Values.Set(shownGame, string(drawn.Setup.Game))
	f.Values.Set(shownSide, string(drawn.Setup.Side))
	f.Values.Set(shownFeet, drawn.Kind.Size())
	f.Values.Set(shownOrder, drawn.Setup.Order.String())
}

// formatOfTen writes a share as so many of ten breaks, as the pages say it: "4.5".
func formatOfTen(share float64) string {
	return strconv.FormatFloat(math.Round(share*1000)/100, 'f', -1, 64)
}

// formatTarget writes nothing for a target that the drill does not have.
func formatTarget(kind drill.TargetKind, targets drill.Targets) string {
	share := *kind.Of(&targets)
	if kind.Optional && share == 0 {
		return ""
	}
	return formatOfTen(share)
}

// formatBox writes nothing for no break box.
func formatBox(box table.Inches, u say.Units) string {
	if box == 0 {
		return ""
	}
	return u.Typed(say.Place, float64(box))
}

// readText returns a field with the line ends that are kept.
func readText(f *page.Form, name string) string {
	return strings.ReplaceAll(f.Text(name), "\r\n", "\n")
}

// peekNumber returns a field's number without refusing it.
func peekNumber(f *page.Form, name string) (float64, bool) {
	quiet := &page.Form{Values: f.Values}
	v := quiet.NumberOrNaN(name, "")
	return v, quiet.IsValid()
}
