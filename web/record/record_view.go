package record

import (
	"net/http"
	"slices"
	"strconv"

	"github.com/go-chi/chi/v5"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/say"
	"breakwright/internal/store"
	"breakwright/internal/table"
	"breakwright/web/component"
	"breakwright/web/page"
	"breakwright/web/picture"
	"breakwright/web/route"
	"breakwright/web/sync"
)

// recordView is the page on which one break of a set is entered. Its words are made
// where they are shown, so that a break that is kept at once costs none.
type recordView struct {
	Frame page.Frame
	Set   store.Set
	// Edited is the break that was saved before and is being changed, nil for a new one.
	Edited *store.Break
	// Number of the break in its set.
	Number int
	Form   *page.Form
	// Read is the break as it is read back before it is saved, "" before that.
	Read string
}

// findEdited finds the break of the set that the address names.
func (v *recordView) findEdited(r *http.Request) error {
	i := slices.IndexFunc(v.Set.Breaks, func(b store.Break) bool { return b.ID.String() == chi.URLParam(r, "break") })
	if i < 0 {
		return store.ErrNotFound
	}
	v.Edited, v.Number = &v.Set.Breaks[i], v.Set.Breaks[i].Number
	return nil
}

// fillForm shows the break that is being changed as it was recorded.
func (v *recordView) fillForm(u say.Units) {
	v.Form = fillBreakForm(v.Edited.Break, v.Set.Setup, u)
	v.Form.Values.Set("break_id", v.Edited.ID.String())
	v.Form.Values.Set("revision", strconv.Itoa(v.Edited.Revision+1))
}

// action is where the form goes.
func (v recordView) action() string {
	if v.Edited != nil {
		return route.OwnSetPath(v.Set.ID) + "/breaks/" + v.Edited.ID.String()
	}
	return route.OwnSetPath(v.Set.ID) + "/next"
}

func (v recordView) setup() drill.Setup { return v.Set.Setup }
func (v recordView) kind() table.Kind   { return v.Set.Table.Kind }

// watchWords say what to look for.
func (v recordView) watchWords() string {
	words, _ := sync.WatchOf(v.Set)
	return words
}

// watchList says what is asked.
func (v recordView) watchList() drill.WatchList {
	_, list := sync.WatchOf(v.Set)
	return list
}

// watchesLeave reports whether the drill watches what a break leaves.
func (v recordView) watchesLeave() bool { return v.Set.Targets.WatchLeave() }

// lastRecorded is the id of the break with the latest time, "" before the first.
func (v recordView) lastRecorded() string {
	if len(v.Set.Breaks) == 0 {
		return ""
	}
	last := v.Set.Breaks[0]
	for _, b := range v.Set.Breaks {
		if !b.At.Before(last.At) {
			last = b
		}
	}
	return last.ID.String()
}

// recordedBreakLines are the breaks recorded so far.
func (v recordView) recordedBreakLines() []component.BreakLine {
	breaks := make([]drill.Break, len(v.Set.Breaks))
	for i, b := range v.Set.Breaks {
		breaks[i] = b.Break
	}
	return component.ListBreakLines(breaks, v.setup(), v.kind(), func(i int) string {
		return route.OwnSetPath(v.Set.ID) + "/breaks/" + v.Set.Breaks[i].ID.String()
	})
}

// tapPictureSize is the size in pixels at which the picture to tap is shown: half a
// phone's width leaves room for nothing else, and an inch is six pixels.
func tapPictureSize(k table.Kind) (width, height int) {
	extent := picture.ExtentOf(k)
	width = 300
	return width, int(float64(width)*float64(extent.Height/extent.Width) + 0.5)
}

// tapPictureExtent is the part of the room that the picture to tap shows, and halfTableWidth
// the distance of its side rails from the long string.
func tapPictureExtent(k table.Kind) picture.Extent { return picture.ExtentOf(k) }
func halfTableWidth(k table.Kind) string           { return (k.Width() / 2).String() }

// tapPicture is the address of the picture to tap, with the cue ball where it
// was last said to be.
func (v recordView) tapPicture() string {
	address := route.OwnSetPath(v.Set.ID) + "/cloth.svg"
	if x, y := v.Form.Text("cue_x"), v.Form.Text("cue_y"); x != "" && y != "" {
		address += "?x=" + x + "&y=" + y
	}
	return address
}

// cuePlaceWords says where the cue ball is marked.
func (v recordView) cuePlaceWords() string {
	p, err := table.ParsePlace(v.Form.Text("cue_x") + "," + v.Form.Text("cue_y"))
	if err != nil || !v.kind().OnCloth(p) {
		return ""
	}
	return v.kind().ZoneWords(p)
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
		options = append(options, page.Option{Value: string(p), Words: say.Capitalize(p.Name())})
	}
	return options
}

// pocketKeys are the pockets as the picture has them, the foot end on top.
func pocketKeys() []page.Option {
	keys := []page.Option{}
	for _, p := range []table.Pocket{table.FootLeft, table.FootRight, table.SideLeft, table.SideRight, table.HeadLeft, table.HeadRight} {
		keys = append(keys, page.Option{Value: string(p), Words: say.Capitalize(p.ShortName())})
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
	return otherBalls(v.setup(), v.Form.Text("wing") != wingNotWatched)
}

// asksWing reports whether the form asks for the wing ball: always, unless the drill
// never minds it and nothing else was said.
func (v recordView) asksWing() bool {
	return !v.watchList().CueOnly || v.Form.Text("wing") != wingNotWatched
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
func (v recordView) asksWingPath() bool {
	return v.watchList().WingPath || v.Form.Text("wing_miss") != ""
}

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
	balls := lowBalls(v.watchesLeave())
	for n := len(balls); n < v.setup().Game.BallCount(); n++ {
		if b := rack.Ball(n + 1); v.Form.Text(restFieldName(b)) != "" {
			balls = append(balls, b)
		}
	}
	return balls
}

// hasDetails reports whether the details hold anything.
func (v recordView) hasDetails() bool {
	names := []string{"rails", "past_string", "speed", "ran_out", "note"}
	if !v.watchesLeave() {
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
	if v.Edited != nil {
		return "Change break " + strconv.Itoa(v.Number)
	}
	return "Break " + strconv.Itoa(v.Number) + " of " + strconv.Itoa(v.Set.Planned)
}

// wingCorner names the corner the wing ball goes to.
func (v recordView) wingCorner() string { return v.setup().WingPocket().Words() }

// saveButtonWords names what the button does: the first press reads the break back,
// the second saves what was read.
func (v recordView) saveButtonWords() string {
	switch {
	case v.Read == "":
		return "Read it back"
	case v.Edited != nil:
		return "Save the change"
	}
	return "Save break " + strconv.Itoa(v.Number)
}
