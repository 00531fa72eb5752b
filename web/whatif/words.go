package whatif

import (
	"fmt"
	"maps"
	"net/url"
	"slices"
	"strconv"

	"github.com/a-h/templ"

	"breakwright/internal/say"
	"breakwright/internal/table"
	"breakwright/web/component"
	"breakwright/web/page"
	"breakwright/web/picture"
)

// answerWords is the page's first line.
func (v whatIfView) answerWords() string {
	switch {
	case !v.Form.IsValid():
		return "Not computed: something in the setting cannot be."
	case v.Busy:
		return "Not computed yet: too many questions wait."
	case v.Progress != nil:
		return "Being computed."
	case v.Results != nil:
		return v.Results.Answer
	}
	return "Try a setting before a student does."
}

func waitingWords(before int) string {
	if before == 1 {
		return "One question is before this one; it is next."
	}
	return fmt.Sprintf("%d questions are before this one.", before)
}

func (v whatIfView) tableView() picture.TableView {
	q := v.Query.Now
	t := picture.SetupTable("look-table", q.Setup, q.Kind)
	t.Window, t.Box = &q.Window, v.Query.Box
	if was := v.Query.Was; was != nil && was.Kind == q.Kind && was.Setup.Cue != q.Setup.Cue {
		t.Before = &picture.CueBall{Place: was.Setup.Cue}
	}
	return t
}

// drawn are the pictures that write into the form.
func (v whatIfView) drawn(apart bool) component.DrawnSetup {
	q := v.Query.Now
	return component.DrawnSetup{
		ID: "drawn", Setup: q.Setup, Kind: q.Kind, Table: v.tableView(), Apart: apart,
		CueStep: 0.25,
	}
}

// hiddenField is a field that no input shows.
type hiddenField struct{ Name, Value string }

// hiddenFields are all fields of what is asked, for a button that stands alone.
func (v whatIfView) hiddenFields() []hiddenField { return sortedFields(v.Query.queryValues()) }

// carriedFields are the fields of the form that no input shows.
func (v whatIfView) carriedFields() []hiddenField {
	shownAs := questionValues(v.Query.Now, say.InchesAndMiles)
	all := url.Values{}
	for name, from := range map[string]string{fieldWindow: fieldWindow, shownGame: fieldGame, shownSide: fieldSide, shownFeet: fieldFeet} {
		all.Set(name, shownAs.Get(from))
	}
	asked := v.Query.queryValues()
	for _, name := range []string{fieldWas, fieldBox} {
		if asked.Has(name) {
			all.Set(name, asked.Get(name))
		}
	}
	return sortedFields(all)
}

// sortedFields lists fields by name, so that a page is the same twice.
func sortedFields(values url.Values) []hiddenField {
	var all []hiddenField
	for _, name := range slices.Sorted(maps.Keys(values)) {
		all = append(all, hiddenField{name, values.Get(name)})
	}
	return all
}

// hasErrorIn reports whether a fold must be open, since a sentence is in it.
func (v whatIfView) hasErrorIn(names ...string) bool {
	return slices.ContainsFunc(names, func(name string) bool { return v.Form.ErrorFor(name) != "" })
}

// handsWords, rackWords and tableWords say what is in a fold.
func (v whatIfView) handsWords() string {
	return levelWords(handLevels(), v.Form.Text(fieldHands)) + ", rack " + levelWords(rackLevels(), v.Form.Text(fieldRack))
}

// scatterWords says table and hands in numbers.
func (v whatIfView) scatterWords() string {
	q, s := v.Query.Now, v.Query.Now.Scatter
	u := v.Form.Units
	return fmt.Sprintf("%s. Hands: the aim varies by %s degrees, the speed by %s, the tip by %s of the radius, the place by %s; gaps in the rack %s.",
		component.KindWithMouths(q.Kind, u), formatNumber(s.Aim), u.Typed(say.Speed, float64(s.Speed))+" "+u.Short(say.Speed), formatNumber(s.Tip),
		u.Typed(say.Contact, float64(s.Place))+" "+u.Short(say.Contact), u.WithShort(say.Gap, float64(s.Gap)))
}

func levelWords(levels []scatterLevel, name string) string {
	for _, l := range levels {
		if l.Name == name {
			return say.Decapitalize(l.Words)
		}
	}
	return "own numbers"
}

func (v whatIfView) rackWords() string {
	s := v.Query.Now.Setup
	return s.Game.Words() + ", the " + s.WingBall().String() + " at the wing"
}

func (v whatIfView) tableWords() string {
	k := v.Query.Now.Kind
	return fmt.Sprintf("%s-foot, corners %s", k.Size(), v.Form.Units.WithShort(say.Mouth, float64(k.CornerMouth)))
}

// setupInputs are the fields of cue ball and stroke. The model needs a speed.
func (v whatIfView) setupInputs() []component.SetupInput {
	inputs := component.NewSetupInputs(v.Query.Now.Setup, v.Query.Now.Kind, v.Query.Box, v.Form.Units)
	inputs.Speed.Hint = component.SpeedRangeWords(v.Form.Units)
	return inputs.List()
}

// mouthHint says how wide a mouth may be, and what is usual.
func mouthHint(u say.Units, usual table.Inches) string {
	return mouthRange(u) + "; " + u.Number(say.Mouth, float64(usual)) + " is usual"
}

// typedFields lists the fields beside which a sentence may have to stand.
func typedFields() []string {
	return []string{
		fieldCueAcross, fieldCueBehind, fieldContact, fieldTip, fieldSpin, fieldSpeed, fieldOrder, fieldCornerMouth, fieldSideMouth,
		fieldScatterAim, fieldScatterSpeed, fieldScatterTip, fieldScatterPlace, fieldScatterGap,
	}
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
