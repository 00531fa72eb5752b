//go:build !quick

package record_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
	"breakwright/web/browser"
	"breakwright/web/webtest"
)

// The taps of ten kinds of break; the README's table is this test's log.
func TestTable_Taps(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	h := newPhoneUser(t, site, site.URL, 0, browser.SmallPhone)
	h.start()
	rows := []string{"| break | taps |", "| --- | --- |"}
	for i, c := range tapsOfBreaks(h) {
		h.taps = 0
		c.enter()
		if words := h.shown("#summary"); !strings.Contains(words, "8") || browser.Evaluate[bool](h.Window, `!document.querySelector("#summary").classList.contains("ready")`) {
			t.Errorf("%s: before it is saved the page says %q", c.name, words)
		}
		h.save()
		if h.taps > c.most {
			t.Errorf("%s takes %d taps, more than %d", c.name, h.taps, c.most)
		}
		rows = append(rows, fmt.Sprintf("| %s | %d |", c.name, h.taps))
		got := h.entered(i + 1)
		if got.WingMiss != c.want.WingMiss || !slices.Equal(got.Pocketed, c.want.Pocketed) || !slices.Equal(got.Off, c.want.Off) ||
			got.CuePath != c.want.CuePath || (c.want.Cue.How != "" && got.Cue != c.want.Cue) || (c.want.Cue.How == "" && got.Cue.How != drill.Stopped) {
			t.Errorf("%s: recorded %+v", c.name, got)
		}
	}
	t.Log("\n" + strings.Join(rows, "\n"))
}

// tappedBreak is a kind of break, the most taps that it may take with saving, and
// what is recorded; the zero cue ball stopped anywhere.
type tappedBreak struct {
	name  string
	most  int
	enter func()
	want  drill.Break
}

func tapsOfBreaks(h *phoneUser) []tappedBreak {
	made := []drill.Pocketed{{Ball: 8, Pocket: table.FootLeft}}
	scratch := func(p table.Pocket) drill.CueEnd { return drill.CueEnd{How: drill.Scratched, Scratch: p} }
	return []tappedBreak{
		{"wing ball made, cue ball stopped in the open", 3, func() { h.wing("made"); h.tapAt(-3, 41) }, drill.Break{Pocketed: made}},
		{"dry break, wing ball off the side rail", 3, func() { h.wing("side-rail"); h.tapAt(9, 63) }, drill.Break{WingMiss: drill.MissSideRail}},
		{"scratch, tapped in the pocket", 3, func() { h.wing("foot-rail"); h.tapAt(26, 50) },
			drill.Break{WingMiss: drill.MissFootRail, Cue: scratch(table.SideRight)}},
		{"wing ball kissed away", 3, func() { h.wing("kissed"); h.tapAt(2, 40) }, drill.Break{WingMiss: drill.MissKissed}},
		{"cue ball off the table", 3, func() { h.wing("unknown"); h.touch("#off-table") },
			drill.Break{WingMiss: drill.MissUnknown, Cue: drill.CueEnd{How: drill.OffTable}}},
		{"scratch, by the button", 6, func() { h.touch("#scratch"); h.touch(`[data-pocket-key="head-left"]`); h.wing("made") },
			drill.Break{Pocketed: made, Cue: scratch(table.HeadLeft)}},
		{"scratch, tapped near the pocket", 6, func() { h.wing("jaws"); h.tapAt(19, 96); h.touch("#near-in") },
			drill.Break{WingMiss: drill.MissJaws, Cue: scratch(table.FootRight)}},
		{"wing ball in another pocket", 6, func() { h.wing("else"); h.tapAt(26, 50); h.tapAt(0, 40) },
			drill.Break{Pocketed: []drill.Pocketed{{Ball: 8, Pocket: table.SideRight}}}},
		{"another ball down as well", 6, func() {
			h.wing("made")
			h.tapAt(0, 40)
			h.touch("#open-balls")
			h.touch(`[data-ball="2"]`)
			h.tapAt(-26, 50)
		},
			drill.Break{Pocketed: []drill.Pocketed{{Ball: 2, Pocket: table.SideLeft}, made[0]}}},
		{"a ball off the table", 6, func() {
			h.wing("jaws")
			h.tapAt(0, 40)
			h.touch("#open-balls")
			h.touch(`[data-ball="3"]`)
			h.touch("#off-table")
		},
			drill.Break{WingMiss: drill.MissJaws, Off: []rack.Ball{3}}},
	}
}

// targets are the boxes of all that can be tapped and seen.
const targets = `Array.from(document.querySelectorAll("#table button, #table a, #table select, #table input, #table summary"))
	.filter((e) => e.checkVisibility() && !e.closest("dialog")).map((e) => {
		const b = e.getBoundingClientRect();
		return { Name: e.id || e.dataset.wing || e.textContent, Chip: e.classList.contains("chip"), Left: b.left, Top: b.top, Right: b.right, Bottom: b.bottom };
	})`

type box struct {
	Name                     string
	Chip                     bool
	Left, Top, Right, Bottom float64
}

func TestTable_FitsTheSmallestPhone(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	h := newPhoneUser(t, site, site.URL, 0, browser.SmallPhone)
	h.start()
	for state, enter := range map[string]func(){
		"before a break": func() {},
		"ready to save":  func() { h.wing("side-rail"); h.tapAt(-20, 60) },
		"other balls":    func() { h.touch("#open-balls") },
	} {
		enter()
		h.fits(state)
		h.back()
	}
}

// fits fails the test unless all of the page is in sight, every target large enough
// and apart from the next, and no button higher than a thumb needs.
func (h *phoneUser) fits(state string) {
	h.t.Helper()
	size := browser.Evaluate[[2]float64](h.Window, `[document.documentElement.scrollHeight - innerHeight, document.documentElement.scrollWidth - innerWidth]`)
	if size[0] > 0 || size[1] > 0 {
		h.t.Errorf("%s: the page is %v px too high and %v too wide", state, size[0], size[1])
	}
	boxes := browser.Evaluate[[]box](h.Window, targets)
	if len(boxes) < 8 {
		h.t.Fatalf("%s: only %d targets", state, len(boxes))
	}
	for i, a := range boxes {
		if a.Right-a.Left < 47.5 || a.Bottom-a.Top < 47.5 {
			h.t.Errorf("%s: %q is %.0f by %.0f", state, a.Name, a.Right-a.Left, a.Bottom-a.Top)
		}
		if a.Chip && a.Bottom-a.Top > 2*48 {
			h.t.Errorf("%s: %q is %.0f px high", state, a.Name, a.Bottom-a.Top)
		}
		for _, b := range boxes[i+1:] {
			if apart := math.Max(math.Max(b.Left-a.Right, a.Left-b.Right), math.Max(b.Top-a.Bottom, a.Top-b.Bottom)); apart < 7.5 {
				h.t.Errorf("%s: %q and %q are %.1f px apart", state, a.Name, b.Name, apart)
			}
		}
	}
}

// With text twice as large nothing is cut off: the page scrolls one way only.
func TestTable_TextTwiceAsLarge(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	h := newPhoneUser(t, site, site.URL, 0, browser.SmallPhone)
	h.start()
	larger := func() {
		browser.Evaluate[bool](h.Window, `(document.documentElement.style.fontSize = "200%", dispatchEvent(new Event("resize")))`)
	}
	wide := func(where string) {
		if over := browser.Evaluate[float64](h.Window, `document.documentElement.scrollWidth - innerWidth`); over > 0 {
			t.Errorf("%s is %v px too wide", where, over)
		}
		h.SaveScreenshot("large-" + where)
	}
	larger()
	wide("entry")
	h.touch("#open-balls")
	wide("balls")
	h.touch("#close-balls")
	h.breaks(10)
	wide("review")
}

// What a tap on the picture means.
func TestTable_WhatATapMeans(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	h := newPhoneUser(t, site, site.URL, 0, browser.SmallPhone)
	h.start()
	h.wing("made")
	for _, c := range []struct {
		x, y  table.Inches
		words string
	}{
		{0, 30, "between the head string and the centre, middle"},
		{-16, 90, "foot end, left side"},
		{0, 102, "on the foot rail, middle"}, // on the cushion: frozen to it
		{-24, 2, "scratch in the left head corner"},
		{26, 102, "scratch in the right foot corner"}, // on the wood, a thumb's width off
		{-27, 50, "scratch in the left side pocket"},
		{0, -7, "Beside the table"}, // and the scratch stays
		{19, 96, "Near the right foot corner"},
	} {
		h.tapAt(c.x, c.y)
		if got := h.shown("#summary"); !strings.Contains(got, c.words) {
			t.Errorf("a tap at %v,%v: %q, want %q", c.x, c.y, got, c.words)
		}
	}
	h.touch("#near-by")
	h.says("#summary", "the cue ball foot end, right side")
	h.touch("#off-table")
	h.says("#summary", "the cue ball off the table")
}

// One inch can be told from the next: with the loupe, and with the arrow keys.
func TestTable_OneInch(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	h := newPhoneUser(t, site, site.URL, 0, browser.SmallPhone)
	h.start()
	h.wing("made")
	place := func() table.Place {
		return browser.Evaluate[table.Place](h.Window, `(({x, y}) => ({X: x, Y: y}))(bw.entry.draft.entry.cue)`)
	}
	for _, want := range []table.Place{{X: 10, Y: 40}, {X: 11, Y: 40}, {X: 11, Y: 41}, {X: -23, Y: 96}} {
		h.Press(h.spot(table.Place{X: 0, Y: 60}), h.spot(table.Place{X: 5, Y: 50}), h.spot(want))
		h.WaitFor(`!document.querySelector("#loupe").hidden`)
		h.Drag(h.spot(table.Place{X: 0, Y: 60}), h.spot(table.Place{X: 5, Y: 50}), h.spot(want))
		if got := place(); got.Distance(want) > 0.5 {
			t.Errorf("dragged to %v, recorded %v", want, got)
		}
	}
	before := place()
	h.keys("#cloth", "ArrowRight", "ArrowUp", "ArrowUp")
	if got := place(); got.Distance(table.Place{X: before.X + 1, Y: 98}) > 0.11 {
		t.Errorf("one inch right and two along from %v is %v", before, got)
	}
}

// keys presses keys on an element.
func (h *phoneUser) keys(selector string, keys ...string) {
	h.t.Helper()
	for _, key := range keys {
		browser.Evaluate[bool](h.Window, fmt.Sprintf(`(() => {
			const e = document.querySelector(%s);
			e.focus();
			return document.activeElement === e && e.dispatchEvent(new KeyboardEvent("keydown", { key: %s, bubbles: true, cancelable: true })), true;
		})()`, browser.QuoteScript(selector), browser.QuoteScript(key)))
	}
}

func TestTable_BallsElsewhere(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	h := newPhoneUser(t, site, site.URL, 0, browser.Phone)
	h.start()
	h.wing("else")
	h.says("#summary", "Tap the pocket the 8 went in")
	h.tapAt(25, 50)
	h.tapAt(0, 40)
	h.touch("#open-balls")
	for ball, at := range map[string]table.Place{"1": {X: -20, Y: 31}, "2": {X: -25, Y: 0}} {
		h.touch(`[data-ball="` + ball + `"]`)
		h.tapAt(at.X, at.Y)
	}
	h.touch(`[data-ball="3"]`)
	h.touch("#off-table")
	h.touch("#close-balls")
	h.says("#summary", "The 8 in the right side pocket; also down: the 2 in the left head corner; the 3 off the table; the cue ball between")
	h.save()
	h.sent()
	h.sameBytes(h.contents())
	b := h.kept().Breaks[0]
	if len(b.Rest) != 1 || b.Rest[0].Ball != 1 || b.Rest[0].Place.Distance(table.Place{X: -20, Y: 31}) > 0.5 || len(b.Off) != 1 || b.Off[0] != 3 {
		t.Errorf("%+v", b)
	}
}

func TestTable_UndoIsOneTap(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	h := newPhoneUser(t, site, site.URL, 0, browser.Phone)
	h.start()
	h.breaks(2)
	h.wing("jaws")
	h.touch("#undo") // the tap
	h.says("#summary", "Break 2 saved")
	h.touch("#undo") // the break: it is back as an entry
	h.says("#number", "Break 2")
	h.says("#summary", "foot rail first")
	h.wing("made")
	h.save()
	h.sent()
	h.sameBytes(h.contents())
	if set := h.kept(); len(set.Breaks) != 2 || !set.Breaks[1].WingMade(set.Setup) {
		t.Errorf("%+v", set.Breaks)
	}
}

// Any earlier break can be opened again; taking one out needs a reason, which
// the coach sees.
func TestTable_EarlierBreaks(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	h := newPhoneUser(t, site, site.URL, 0, browser.Phone)
	h.start()
	h.breaks(4)
	open := func(n int) {
		h.touch("#open-list")
		h.touch(fmt.Sprintf("#list-breaks li:nth-child(%d) button", n))
		h.says("#save", "Save the change")
	}
	open(1)
	h.wing("jaws")
	h.touch("#save")
	h.says("#number", "Break 5")
	open(2)
	h.touch("#open-details")
	h.touch("#not-counted summary")
	h.touch("#delete")
	h.says("#reason-wrong", "say why")
	browser.Evaluate[string](h.Window, `document.querySelector("#reason").value = "The rack was loose."`)
	h.touch("#delete")
	h.WaitFor(`!document.querySelector("#details").open`)
	h.says("#number", "Break 2") // the gap is filled first
	h.sent()
	set := h.kept()
	if len(set.Breaks) != 3 || set.Breaks[0].WingMiss != drill.MissJaws || set.Breaks[1].Number != 3 {
		t.Fatalf("%+v", set.Breaks)
	}
	h.sameBytes(h.contents())
	h.touch("#undo") // taking it out is undone as well
	h.says("#number", "Break 5")
	h.sent()
	if set := h.kept(); len(set.Breaks) != 4 {
		t.Errorf("after undo the server keeps %d breaks", len(set.Breaks))
	}
}

// What a keen student adds, and the speed from a video.
func TestTable_Details(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	h := newPhoneUser(t, site, site.URL, 0, browser.Phone)
	h.start()
	h.wing("made")
	h.tapAt(0, 40)
	h.touch("#open-details")
	h.touch(`#details [data-field="cue_path"][data-value="back"]`)
	h.touch(`#details [data-field="shot"][data-value="open"]`)
	for range 3 {
		h.touch(`[data-count="rails"][data-step="1"]`)
	}
	h.touch(`[data-count="past_string"][data-step="-1"]`) // none
	h.touch("#details details summary")
	browser.Evaluate[bool](h.Window, `(() => {
		const frames = document.querySelector("#frames");
		frames.value = "10";
		return frames.dispatchEvent(new Event("input"));
	})()`)
	h.says("#mph", "mph over the whole way")
	h.touch("#take-mph")
	h.touch("#details [data-close]")
	h.save()
	h.sent()
	b := h.kept().Breaks[0]
	// From 18 in left of the long string on the head string to a ball short of
	// the foot spot, in a sixth of a second; 1 mph is 17.6 in/s.
	run := math.Hypot(18, 50) - 2.25
	if want := math.Round(run*6/17.6*10) / 10; float64(b.Speed) != want {
		t.Errorf("%v mph, want %v", b.Speed, want)
	}
	if b.CuePath != drill.PathBack || b.Shot != drill.ShotOpen || b.Rails == nil || *b.Rails != 3 || b.PastString == nil || *b.PastString != 0 {
		t.Errorf("%+v", b)
	}
}

// A coach's change is not silently overwritten: the student sees both.
func TestTable_ACoachsChange(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	l := newFaultyProxy(t, site.URL)
	h := newPhoneUser(t, site, l.URL, 0, browser.Phone)
	h.start()
	h.breaks(2)
	h.sent()
	l.set(dead)
	h.touch("#open-list")
	h.touch("#list-breaks li:nth-child(1) button")
	h.wing("jaws")
	h.touch("#save")
	h.says("#number", "Break 3")
	b := h.kept().Breaks[0]
	b.Revision, b.WingMiss = 2, drill.MissKissed
	if _, err := site.Store.SaveBreak(t.Context(), site.Coach, h.kept().ID, b); err != nil {
		t.Fatal(err)
	}
	l.set(good)
	h.WaitFor(`bw.exchange().then(() => bw.state.clashes.length === 1)`)
	h.says("#word", "Break 1 is not with your coach")
	h.touch("#open-clash")
	h.says("#clash-mine", "rattled in the jaws")
	h.says("#clash-theirs", "kissed by another ball")
	h.SaveScreenshot("clash")
	h.CheckAccessibility(t)
	h.choose("mine")
	h.sent()
	h.sameBytes(h.contents())
	if b := h.kept().Breaks[0]; b.WingMiss != drill.MissJaws || b.Revision != 3 {
		t.Errorf("%+v", b)
	}
}

// choose settles a disagreement.
func (h *phoneUser) choose(which string) {
	h.t.Helper()
	h.touch(`[data-choice="` + which + `"]`)
	h.WaitFor(`bw.recount().then(() => bw.state.clashes.length === 0)`)
}
