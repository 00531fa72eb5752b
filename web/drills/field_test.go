package drills

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"
	"unicode"

	"pgregory.net/rapid"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/say"
	"breakwright/internal/table"
	"breakwright/web/page"
)

// anyDrill draws a drill that a coach may write, at the grain of the form.
func anyDrill(t *rapid.T) drill.Drill {
	hundredths := func(name string, low, high float64) float64 {
		return float64(rapid.IntRange(int(low*100), int(high*100)).Draw(t, name)) / 100
	}
	k := rapid.SampledFrom(table.Sizes()).Draw(t, "size")
	k.CornerMouth, k.SideMouth = table.Inches(hundredths("corner", 3.5, 6.5)), table.Inches(hundredths("middle", 3.5, 6.5))
	g := rapid.SampledFrom(rack.Games()).Draw(t, "game")
	side := rapid.SampledFrom([]table.Side{table.Left, table.Right}).Draw(t, "side")
	letters := rapid.StringOfN(rapid.RuneFrom([]rune("<>&\"'🎱-"), unicode.Letter, unicode.Number), 1, drill.MaxName, -1)
	left, head := hundredths("left", -19, 10), hundredths("head", 0, 58)
	d := drill.Drill{
		Name: letters.Draw(t, "name"), Watch: letters.Draw(t, "watch") + "\n" + letters.Draw(t, "more"), Kind: k,
		Breaks: rapid.IntRange(1, drill.MaxBreaks).Draw(t, "breaks"),
		Setup: drill.Setup{
			Game: g, Spot: rapid.SampledFrom(g.Spots()).Draw(t, "spot"), Side: side,
			Order: rack.ShuffleOrder(g, rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 3))),
			Wing:  g.WingSlot(rapid.SampledFrom([]table.Side{table.Left, table.Right}).Draw(t, "wing")),
			Cue: table.Place{
				X: side.Sign() * table.Inches(hundredths("across", 0, float64(drill.OutermostCue(k)))),
				Y: k.HeadString() - table.Inches(hundredths("behind", 0, 10)),
			},
			Contact: table.Inches(hundredths("contact", -0.5, 0.5)), Tip: drill.RadiusFraction(hundredths("tip", -0.5, 0.5)),
			Spin: drill.RadiusFraction(hundredths("spin", -0.3, 0.3)), Speed: table.Mph(hundredths("speed", 14, 24)),
		}.Rounded(),
		Window: table.Window{
			Left: table.Inches(left), Right: roundHundredth(left + hundredths("wide", 3, 9)),
			Head: table.Inches(head), Foot: roundHundredth(head + hundredths("long", 3, 18)),
		},
		Targets: drill.Targets{
			Wing:   float64(rapid.IntRange(1, 1000).Draw(t, "wings")) / 1000,
			Window: float64(rapid.IntRange(1, 1000).Draw(t, "stops")) / 1000,
			Shot:   float64(rapid.IntRange(0, 1000).Draw(t, "shots")) / 1000,
			RanOut: float64(rapid.IntRange(0, 1000).Draw(t, "runs")) / 1000,
		},
		WatchList: drill.WatchList{WingPath: rapid.Bool().Draw(t, "ask wing"), CuePath: rapid.Bool().Draw(t, "ask path")},
		House:     drill.HouseRules{ThreePoints: rapid.Bool().Draw(t, "three points")},
	}
	if rapid.Bool().Draw(t, "box") {
		d.House.BreakBox = table.Inches(hundredths("break box", 2.25, 15))
		d.Setup = d.Setup.KeepInBox(d.House.BreakBox)
	}
	if rapid.Bool().Draw(t, "own speed") {
		d.Setup.Speed = 0
	}
	if err := d.Check(); err != nil {
		t.Fatalf("the drawn drill is no good: %v", err)
	}
	return d
}

// roundHundredth takes the tail off a sum.
func roundHundredth(v float64) table.Inches { return table.Inches(math.Round(v*100) / 100) }

// shown fills the form as a page does.
func shown(d drill.Drill) *page.Form {
	f := fillDrillForm(d, say.InchesAndMiles)
	rememberShown(f, d)
	return f
}

func TestReadDrill_GivesBackWhatWasFilled(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := anyDrill(t)
		f := shown(d)
		if did := followChoices(f); len(did) > 0 {
			t.Fatalf("nothing was chosen, and yet %q", did)
		}
		if got := readDrill(f); got != d || !f.IsValid() {
			t.Fatalf("%+v came back as %+v (%v)", d, got, f.Problems)
		}
		if drawn := drawableDrill(d, rack.Order{}); drawn != d {
			t.Fatalf("a good drill %+v is drawn as %+v", d, drawn)
		}
	})
}

// In centimetres the form shows every number of a drill, and what is read of it is
// shown as the same again: nobody sees a number move that they did not type.
func TestReadDrill_InCentimetresShowsTheSameAgain(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := anyDrill(t)
		f := fillDrillForm(d, say.Metric)
		rememberShown(f, d)
		got := readDrill(f)
		if problems := f.Problems; !f.IsValid() {
			t.Fatalf("%+v is refused: %v", d, problems)
		}
		again := fillDrillForm(got, say.Metric)
		for name := range again.Values {
			if again.Text(name) != f.Text(name) {
				t.Fatalf("%s was %s and is %s", name, f.Text(name), again.Text(name))
			}
		}
	})
}

func TestFollow_SideMirrorsTheDrill(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := anyDrill(t)
		f := shown(d)
		other := d.Setup.Side.Mirror()
		f.Values.Set(fieldSide, string(other))
		followChoices(f)
		if got := readDrill(f); got != d.ForSide(other) || !f.IsValid() {
			t.Fatalf("%+v from the other side is %+v (%v)", d, got, f.Problems)
		}
	})
}

func TestFollow_EveryChoiceLeavesAGoodDrill(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := anyDrill(t)
		f := shown(d)
		f.Values.Set(fieldGame, string(rapid.SampledFrom(rack.Games()).Draw(t, "to game")))
		f.Values.Set(fieldFeet, rapid.SampledFrom(table.Sizes()).Draw(t, "to size").Size())
		f.Values.Set(fieldSide, string(rapid.SampledFrom([]table.Side{table.Left, table.Right}).Draw(t, "to side")))
		followChoices(f)
		got := readDrill(f)
		// A window that was a ball wide may be too narrow on a smaller table.
		if !f.IsValid() && (f.ErrorFor(fieldWindow) == "" || len(f.Problems) > 1) {
			t.Fatalf("%+v became %+v: %v", d, got, f.Problems)
		}
	})
}

func TestAct_LeavesALegalRack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := anyDrill(t)
		f := shown(d)
		slots := rapid.SampledFrom(append(d.Setup.Game.Slots(), "9Z", ""))
		rng := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "rng"), 4))
		for range rapid.IntRange(1, 6).Draw(t, "presses") {
			f.Values.Del(fieldPick)
			f.Values.Set(fieldAction, rapid.SampledFrom([]string{actUpdate, actSwap, actMirror, actPractice, actShuffle, actWindow, "?", ""}).Draw(t, "action"))
			f.Values.Set(fieldFrom, string(slots.Draw(t, "from")))
			f.Values.Set(fieldTo, string(slots.Draw(t, "to")))
			if rapid.Bool().Draw(t, "picks") {
				f.Values.Set(fieldPick, string(slots.Draw(t, "pick")))
			}
			before := f.RawText(fieldOrder)
			says := applyAction(f, readDrill(f), rng)
			if says.Refused && f.RawText(fieldOrder) != before {
				t.Fatalf("refused (%s), and yet %s became %s", says.Words, before, f.RawText(fieldOrder))
			}
			if says.Refused && says.Words == "" {
				t.Fatal("refused without a word")
			}
		}
		got := readDrill(f)
		if !f.IsValid() {
			t.Fatalf("%s became %s: %v", d.Setup.Order, f.RawText(fieldOrder), f.Problems)
		}
		got.Setup.Order, got.Window = d.Setup.Order, d.Window
		if got != d {
			t.Fatalf("a button changed more than rack and window: %+v is %+v", d, got)
		}
	})
}

func TestAct_PicksThenSwaps(t *testing.T) {
	d := newDrillDefaults()
	f := shown(d)
	press := func(slot string) feedback {
		f.Values.Set(fieldPick, slot)
		return applyAction(f, readDrill(f), nil)
	}
	press("2L")
	if f.Text(fieldPicked) != "2L" {
		t.Fatalf("picked %q, want 2L", f.Text(fieldPicked))
	}
	press("2R")
	if got := f.Text(fieldOrder); got != "1-2-3-8-9-5-6-4-7" || f.Text(fieldPicked) != "" {
		t.Fatalf("after the swap the order is %s, picked %q", got, f.Text(fieldPicked))
	}
	press("5")
	press("5")
	if f.Text(fieldPicked) != "" {
		t.Fatal("a ball picked twice is still in hand")
	}
	for _, fixed := range []string{"1", "3C"} {
		if says := press(fixed); !says.Refused || !strings.Contains(says.Words, "stays in slot "+fixed) {
			t.Errorf("slot %s: %+v", fixed, says)
		}
	}
}

// Whatever is typed, the pictures show a drill that can be broken.
func TestDrawable_IsAlwaysLegal(t *testing.T) {
	odd := rapid.SampledFrom([]string{"", "NaN", "Inf", "-Inf", "1e300", "-1e300", "1e-300", "x", "🎱", "-7", "99", "18,5",
		"−0.2", "1-2-3-4-5-6-7-8-9-10-11", "1-1-1-1-9-1-1-1-1", "left", "right", "centre", "3R", "5L", "ten-ball", "8", "<script>"})
	rapid.Check(t, func(t *rapid.T) {
		f := shown(anyDrill(t))
		for _, name := range append(editorFields(), fieldGame, fieldFeet, fieldSide, fieldSpot, fieldWing,
			fieldCorner, fieldMiddle, shownGame, shownSide, shownFeet, shownOrder, fieldPicked) {
			if rapid.Bool().Draw(t, "spoil "+name) {
				f.Values.Set(name, odd.Draw(t, name))
			}
		}
		v, _ := reopenEditor(f)
		drawn := v.Drawn
		drawn.Name, drawn.Watch = "x", ""
		if err := drawn.Check(); err != nil {
			t.Fatalf("%v is drawn as %+v: %v", f.Values, v.Drawn, err)
		}
	})
}

func TestReadDrill_RefusesBesideTheField(t *testing.T) {
	long := strings.Repeat("n", 200)
	for _, c := range []struct{ field, typed, says string }{
		{fieldName, "", "Give it a name"},
		{fieldName, long, "200 letters"},
		{fieldOrder, "1-2-3-4-9-5-6-7-8-10-11", "9 balls, not 11"},
		{fieldOrder, "1-3-2-8-5-9-6-4-7", "The 9 belongs in slot 3C"},
		{fieldOrder, "1 3 2 8 9 5 6 4 4", "twice"},
		{fieldAcross, "-5", "on the left of the long string"},
		{fieldAcross, "23", "At most 22.75 inches"},
		{fieldAcross, "NaN", "Type the inches"},
		{fieldBehind, "11", "to 10 inches behind"},
		{fieldBehind, "1e300", "to 10 inches behind"},
		{fieldTouch, "1e300", "at most 0.5 inches"},
		{fieldTouch, "full", "0 is full"},
		{fieldTip, "0.6", "miscue"},
		{fieldSpin, "-0.4", "0.3"},
		{fieldSpeed, "60", "14 to 24"},
		{fieldSpeed, "fast", "leave it empty"},
		{fieldBreaks, "99999999999999999999", "whole number"},
		{fieldBreaks, "0", "from 1 to 50"},
		{fieldLeft, "", "edge of the window"},
		{fieldLeft, "20", ""},
		{fieldWings, "14", "at most 10"},
		{fieldStops, "-1", "at most 10"},
		{fieldStops, "half", "for example 4.5"},
		{fieldWatch, strings.Repeat("w", 501), "500"},
		{fieldGame, "snooker", "one of the games"},
		{fieldSide, "up", "side of the table"},
		{fieldFeet, "12", "seven, eight or nine"},
		{fieldSpot, "tail", "on the foot spot"},
		{fieldWing, "2L", "wing slots"},
	} {
		d := newDrillDefaults()
		d.Name = "A drill"
		f := shown(d)
		f.Values.Set(c.field, c.typed)
		readDrill(f)
		where := c.field
		if c.says == "" {
			where, c.says = fieldWindow, "ball wide"
		}
		if got := f.ErrorFor(where); !strings.Contains(got, c.says) {
			t.Errorf("%s %.30q: %q, want %q", c.field, c.typed, got, c.says)
		}
		if len(f.Problems) != 1 {
			t.Errorf("%s %.30q: %d sentences, want one: %v", c.field, c.typed, len(f.Problems), f.Problems)
		}
	}
}

func TestReadDrill_TakesWhatPeopleType(t *testing.T) {
	d := newDrillDefaults()
	d.Name = "A drill"
	f := shown(d)
	f.Values.Set(fieldOrder, "1, 3, 2, 8, 9, 5, 6, 4, 7")
	f.Values.Set(fieldTip, "−0,15")
	f.Values.Set(fieldWatch, "one\r\ntwo")
	got := readDrill(f)
	if !f.IsValid() || got.Setup.Order != d.Setup.Order || got.Setup.Tip != -0.15 || got.Watch != "one\ntwo" {
		t.Errorf("read %+v (%v)", got, f.Problems)
	}
}
