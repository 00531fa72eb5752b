package whatif

import (
	"fmt"
	"maps"
	"net/url"
	"slices"
	"strconv"

	"github.com/a-h/templ"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
	"breakwright/web/page"
	"breakwright/web/picture"
	"breakwright/web/sheet"
)

// answer is the page's first line.
func (v view) answer() string {
	switch {
	case !v.Form.OK():
		return "Not computed: something in the setting cannot be."
	case v.Busy:
		return "Not computed yet: too many questions wait."
	case v.Progress != nil:
		return "Being computed."
	case v.Seen != nil:
		return v.Seen.Answer
	}
	return "Try a setting before a student does."
}

func waitingWords(before int) string {
	if before == 1 {
		return "One question is before this one; it is next."
	}
	return fmt.Sprintf("%d questions are before this one.", before)
}

func (v view) table() picture.TableView {
	q := v.Ask.Now
	t := picture.SetupTable("look-table", q.Setup, q.Kind)
	t.Window = &q.Window
	if was := v.Ask.Was; was != nil && was.Kind == q.Kind && was.Setup.Cue != q.Setup.Cue {
		t.Before = &picture.CueBall{Place: was.Setup.Cue}
	}
	return t
}

// scale says to the script where the cue ball may go.
func (v view) scale() templ.Attributes {
	q := v.Ask.Now
	return templ.Attributes{
		"data-units-per-inch": strconv.Itoa(picture.UnitsPerInch), "data-side": string(q.Setup.Side),
		"data-head-string": q.Kind.HeadString().String(), "data-outermost": drill.OutermostCue(q.Kind).String(),
		"data-furthest": drill.FurthestBehind.String(),
	}
}

// hiddenField is a field that no input shows.
type hiddenField struct{ Name, Value string }

// hidden are all fields of what is asked, for a button that stands alone.
func (v view) hidden() []hiddenField { return sorted(v.Ask.values()) }

// carried are the fields of the form that no input shows.
func (v view) carried() []hiddenField {
	shownAs := fill(v.Ask.Now)
	all := url.Values{}
	for name, from := range map[string]string{fieldWindow: fieldWindow, shownGame: fieldGame, shownSide: fieldSide, shownFeet: fieldFeet} {
		all.Set(name, shownAs.Get(from))
	}
	if v.Ask.Was != nil {
		all.Set(fieldWas, v.Ask.values().Get(fieldWas))
	}
	return sorted(all)
}

// sorted lists fields by name, so that a page is the same twice.
func sorted(values url.Values) []hiddenField {
	var all []hiddenField
	for _, name := range slices.Sorted(maps.Keys(values)) {
		all = append(all, hiddenField{name, values.Get(name)})
	}
	return all
}

// wrongIn says whether a fold must be open, since a sentence is in it.
func (v view) wrongIn(names ...string) bool {
	return slices.ContainsFunc(names, func(name string) bool { return v.Form.Error(name) != "" })
}

// handsWords, rackWords and tableWords say what is in a fold.
func (v view) handsWords() string {
	return wordsOf(hands(), v.Form.Text(fieldHands)) + ", rack " + wordsOf(rackings(), v.Form.Text(fieldRack))
}

// scatterWords says table and hands in numbers.
func (v view) scatterWords() string {
	q, s := v.Ask.Now, v.Ask.Now.Scatter
	return fmt.Sprintf("%s. Hands: the aim varies by %s degrees, the speed by %s mph, the tip by %s of the radius, the place by %s inches; gaps in the rack %s inches.",
		q.Kind, number(s.Aim), number(s.Speed), number(s.Tip), number(s.Place), number(s.Gap))
}

func wordsOf(levels []level, name string) string {
	for _, l := range levels {
		if l.Name == name {
			return lower(l.Words)
		}
	}
	return "own numbers"
}

func lower(s string) string { return string(s[0]|0x20) + s[1:] }

func (v view) rackWords() string {
	s := v.Ask.Now.Setup
	return s.Game.Words() + ", the " + s.WingBall().String() + " at the wing"
}

func (v view) tableWords() string {
	k := v.Ask.Now.Kind
	return fmt.Sprintf("%d-foot, corners %s inches", k.Feet, k.CornerMouth)
}

func acrossHint(v view) string {
	return "from the long string, 0 to " + drill.OutermostCue(v.Ask.Now.Kind).String()
}

// typedFields lists the fields beside which a sentence may have to stand.
func typedFields() []string {
	return []string{
		fieldAcross, fieldBehind, fieldTouch, fieldTip, fieldSpin, fieldSpeed, fieldOrder, fieldCorner, fieldMiddle,
		fieldAim, fieldPace, fieldHeight, fieldStand, fieldGap,
	}
}

func sideOptions() []page.Option {
	return []page.Option{{Value: string(table.Left), Words: "the left"}, {Value: string(table.Right), Words: "the right"}}
}

func feetOptions() []page.Option {
	return []page.Option{{Value: "9", Words: "9-foot"}, {Value: "8", Words: "8-foot"}, {Value: "7", Words: "7-foot"}}
}

func gameOptions() []page.Option {
	var all []page.Option
	for _, g := range rack.Games() {
		all = append(all, page.Option{Value: string(g), Words: sheet.Capital(g.Words())})
	}
	return all
}

func spotOptions(g rack.Game) []page.Option {
	var all []page.Option
	for _, spot := range g.Spots() {
		words := "The head ball"
		if spot == rack.CentreOnSpot {
			words = "The centre ball"
		}
		all = append(all, page.Option{Value: string(spot), Words: words})
	}
	return all
}

func wingOptions(s drill.Setup) []page.Option {
	near, far := s.Game.Wing(s.Side), s.Game.Wing(s.Side.Mirror())
	return []page.Option{
		{Value: string(near), Words: "On the break side, slot " + string(near)},
		{Value: string(far), Words: "On the far side, slot " + string(far)},
	}
}

func orderHint(g rack.Game) string {
	words := "The head first, each row from left to right:"
	for _, slot := range g.Slots() {
		words += " " + string(slot)
	}
	return words
}

// numberOptions offers how many breaks; what else the address asked for is
// offered too.
func numberOptions(now int) []page.Option {
	offered := []int{100, 300, 1000, 3000}
	if now >= 1 && !slices.Contains(offered, now) {
		offered = append(offered, now)
		slices.Sort(offered)
	}
	var all []page.Option
	for _, n := range offered {
		all = append(all, page.Option{Value: strconv.Itoa(n), Words: strconv.Itoa(n) + " breaks"})
	}
	return all
}

// unitWords writes "1", a ratio, as nothing.
func unitWords(unit string) string {
	if unit == "1" {
		return ""
	}
	return unit
}

// outOfBand tells htmx to put an element in the place of the one with its id.
func outOfBand(apart bool) templ.Attributes {
	if !apart {
		return nil
	}
	return templ.Attributes{"hx-swap-oob": "true"}
}
