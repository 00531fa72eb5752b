package record

import (
	"strconv"
	"strings"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/say"
	"breakwright/internal/table"
	"breakwright/web/component"
	"breakwright/web/page"
	"breakwright/web/picture"
)

// recordView is the page on which one break is entered.
type recordView struct {
	Frame page.Frame
	// Path of the set, without a slash at its end.
	Path  string
	Drill string
	Setup drill.Setup
	Kind  table.Kind
	// Change says in a line what the set tries out, "" for nothing.
	Change string
	// Watch says what to look for.
	Watch string
	// List says what is asked.
	List drill.WatchList
	// Leave says that the drill watches what a break leaves.
	Leave bool
	// Number of the break being entered, of Planned.
	Number, Planned int
	// Action is where the form goes; Edit says that the break was saved before.
	Action string
	Edit   bool
	Form   *page.Form
	// Read is the break as it is read back before it is saved, "" before that.
	Read string
	// Done are the breaks recorded so far.
	Done []component.BreakLine
	// Undo is the id of the break recorded last, "" before the first.
	Undo string
}

// tapPictureSize is the size in pixels at which the picture to tap is shown: half a
// phone's width leaves room for nothing else, and an inch is six pixels.
func tapPictureSize(k table.Kind) (width, height int) {
	frame := picture.FrameOf(k)
	width = 300
	return width, int(float64(width)*float64(frame.Height/frame.Width) + 0.5)
}

// tapPictureFrame is the part of the room that the picture to tap shows, and halfTableWidth
// the distance of its side rails from the long string.
func tapPictureFrame(k table.Kind) picture.Frame { return picture.FrameOf(k) }
func halfTableWidth(k table.Kind) string         { return (k.Width() / 2).String() }

// tapPicture is the address of the picture to tap, with the cue ball where it
// was last said to be.
func (v recordView) tapPicture() string {
	address := v.Path + "/cloth.svg"
	if x, y := v.Form.Text("cue_x"), v.Form.Text("cue_y"); x != "" && y != "" {
		address += "?x=" + x + "&y=" + y
	}
	return address
}

// cuePlaceWords says where the cue ball is marked.
func (v recordView) cuePlaceWords() string {
	p, err := table.ParsePlace(v.Form.Text("cue_x") + "," + v.Form.Text("cue_y"))
	if err != nil || !v.Kind.OnCloth(p) {
		return ""
	}
	return v.Kind.ZoneWords(p)
}

// missOptions, pathOptions, shotOptions are the answers a form offers.
func missOptions() []page.Option {
	options := []page.Option{}
	for _, m := range drill.WingMisses() {
		options = append(options, page.Option{Value: string(m), Words: say.Capitalize(component.MissWords(m))})
	}
	return options
}

func pathOptions() []page.Option {
	return []page.Option{
		{Value: string(drill.PathBack), Words: "Came back off the rack"},
		{Value: string(drill.PathHeadRail), Words: "Off the head rail"},
		{Value: string(drill.PathForward), Words: "Went on forward"},
		{Value: string(drill.PathHit), Words: "Hit by another ball"},
		{Value: string(drill.PathUnknown), Words: "Did not see"},
	}
}

func shotOptions() []page.Option {
	return []page.Option{
		{Value: string(drill.ShotOpen), Words: "Open"},
		{Value: string(drill.ShotHard), Words: "Hard"},
		{Value: string(drill.ShotNone), Words: "None"},
	}
}

// rackedOptions say how the balls stood; a gap in the rack is seen before the
// break or never.
func rackedOptions() []page.Option {
	return []page.Option{
		{Value: string(drill.RackedTight), Words: "Tight"},
		{Value: string(drill.RackedLoose), Words: "A gap"},
	}
}

func pocketOptions() []page.Option {
	options := []page.Option{}
	for _, p := range table.Pockets() {
		options = append(options, page.Option{Value: string(p), Words: say.Capitalize(strings.TrimPrefix(p.Words(), "the "))})
	}
	return options
}

// pocketKeys are the pockets as the picture has them, the foot end on top.
func pocketKeys() []page.Option {
	keys := []page.Option{}
	for _, p := range []table.Pocket{table.FootLeft, table.FootRight, table.SideLeft, table.SideRight, table.HeadLeft, table.HeadRight} {
		words := strings.TrimPrefix(p.Words(), "the ")
		keys = append(keys, page.Option{Value: string(p), Words: say.Capitalize(strings.TrimSuffix(strings.TrimSuffix(words, " corner"), " pocket"))})
	}
	return keys
}

// wingOtherOptions are where else the wing ball can have gone.
func wingOtherOptions(s drill.Setup) []page.Option {
	options := []page.Option{{Value: "", Words: "Which pocket?"}}
	for _, o := range pocketOptions() {
		if o.Value != string(s.WingPocket()) {
			options = append(options, o)
		}
	}
	return append(options, page.Option{Value: offTable, Words: "Off the table"})
}

func ballOptions() []page.Option {
	options := append([]page.Option{{Value: "", Words: "stayed up"}}, pocketOptions()...)
	return append(options, page.Option{Value: offTable, Words: "Off the table"})
}

// otherBalls are those that the form lists beside the wing ball.
func (v recordView) otherBalls() []rack.Ball {
	return otherBalls(v.Setup, v.Form.Text("wing") != wingNotWatched)
}

// asksWing reports whether the form asks for the wing ball: always, unless the drill
// never minds it and nothing else was said.
func (v recordView) asksWing() bool {
	return !v.List.CueOnly || v.Form.Text("wing") != wingNotWatched
}

// wingOptions are the answers on the wing ball; that nobody watched it is only
// offered for a break that was recorded so.
func (v recordView) wingOptions() []page.Option {
	options := []page.Option{{Value: wingMade, Words: "In " + v.wingCorner()}, {Value: wingStayed, Words: "Stayed up"}, {Value: wingOther, Words: "Elsewhere"}}
	if v.Form.Text("wing") == wingNotWatched {
		options = append(options, page.Option{Value: wingNotWatched, Words: "Not watched"})
	}
	return options
}

// asksWingPath reports whether the form asks what a wing ball that stayed up met
// first: where the drill does, and where it was said.
func (v recordView) asksWingPath() bool { return v.List.WingPath || v.Form.Text("wing_miss") != "" }

// hasOtherBalls reports whether any of the other balls is said to have gone, so that
// its part of the form is open.
func (v recordView) hasOtherBalls() bool {
	for _, b := range v.otherBalls() {
		if v.Form.Text(ballFieldName(b)) != "" {
			return true
		}
	}
	return v.Form.ErrorFor("pocketed") != "" || v.Form.ErrorFor("off") != ""
}

// restBalls are the balls whose places the form asks for, and those that have one.
func (v recordView) restBalls() []rack.Ball {
	balls := lowBalls(v.Leave)
	for n := len(balls); n < v.Setup.Game.BallCount(); n++ {
		if b := rack.Ball(n + 1); v.Form.Text(restFieldName(b)) != "" {
			balls = append(balls, b)
		}
	}
	return balls
}

// hasDetails reports whether the details hold anything.
func (v recordView) hasDetails() bool {
	names := []string{"rails", "past_string", "speed", "ran_out", "note"}
	if !v.Leave {
		names = append(names, "rest")
		for _, b := range v.restBalls() {
			names = append(names, restFieldName(b))
		}
	}
	for _, name := range names {
		if v.Form.Text(name) != "" || v.Form.ErrorFor(name) != "" {
			return true
		}
	}
	return false
}

func (v recordView) pageHeading() string {
	if v.Edit {
		return "Change break " + strconv.Itoa(v.Number)
	}
	return "Break " + strconv.Itoa(v.Number) + " of " + strconv.Itoa(v.Planned)
}

// wingCorner names the corner the wing ball goes to.
func (v recordView) wingCorner() string { return v.Setup.WingPocket().Words() }

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
	b := readBreak(typed, v.Setup, v.Number)
	if !typed.IsValid() || b.Check(v.Setup, v.Kind) != nil {
		return ""
	}
	return component.AllBreakWords(b, v.Setup, v.Kind, v.Form.Units)
}

// saveButtonWords names what the button does: the first press reads the break back,
// the second saves what was read.
func (v recordView) saveButtonWords() string {
	switch {
	case v.Read == "":
		return "Read it back"
	case v.Edit:
		return "Save the change"
	}
	return "Save break " + strconv.Itoa(v.Number)
}
