package drills

import (
	"bytes"
	"fmt"
	"os"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/say"
	"breakwright/internal/table"
	"breakwright/web/component"
	"breakwright/web/page"
	"breakwright/web/picture"
)

// The buttons over the rack are placed by the stylesheet, which knows the size
// of the picture and where its balls are: this holds the two together.
func TestBoard_ButtonsLieOnTheBalls(t *testing.T) {
	css, err := os.ReadFile("../../static/css/drawn.css")
	if err != nil {
		t.Fatal(err)
	}
	for _, g := range rack.Games() {
		size := regexp.MustCompile(`data-game="` + string(g) + `"\] \{ --wide: ([\d.]+); --high: ([\d.]+); \}`).FindSubmatch(css)
		if size == nil {
			t.Fatalf("the stylesheet does not know %s", g)
		}
		wide, _ := strconv.ParseFloat(string(size[1]), 64)
		high, _ := strconv.ParseFloat(string(size[2]), 64)
		v := newEditor(newDrillDefaults(), say.InchesAndMiles)
		v.Drawn.Setup = drill.StandardSetup(g, table.Left, table.NineFoot())
		var drawn bytes.Buffer
		if err := picture.RackSVG(v.rackPicture()).Render(t.Context(), &drawn); err != nil {
			t.Fatal(err)
		}
		var left, top, w, h float64
		box := regexp.MustCompile(`viewBox="([^"]+)"`).FindStringSubmatch(drawn.String())[1]
		if _, err := fmt.Sscan(box, &left, &top, &w, &h); err != nil {
			t.Fatal(err)
		}
		if !near(w, wide) || !near(h, high) {
			t.Errorf("%s is drawn %g x %g, the stylesheet says %g x %g", g, w, h, wide, high)
		}
		for _, s := range component.ListSlotButtons(v.Drawn.Setup) {
			var x, y float64
			at := regexp.MustCompile(`-slot-` + string(s.Slot) + `"[^>]*translate\(([^)]+)\)`).FindStringSubmatch(drawn.String())
			if _, err := fmt.Sscan(at[1], &x, &y); err != nil {
				t.Fatal(err)
			}
			placedX := left + w/2 + float64(s.Half)*45
			placedY := top + h - 83 - float64(s.Row)*77.94
			if !near(x, placedX) || !near(y, placedY) {
				t.Errorf("%s slot %s is drawn at %g,%g and its button at %g,%g", g, s.Slot, x, y, placedX, placedY)
			}
		}
	}
}

// near is within half a unit, an eightieth of an inch on the cloth.
func near(a, b float64) bool { return a-b < 0.5 && b-a < 0.5 }

func TestNotes_TellOfTheCutBreakAndTheRules(t *testing.T) {
	s := newDrillDefaults().Setup
	all := func() string { return strings.Join(listRackNotes(s), " ") }
	if !strings.Contains(all(), "practice") || strings.Contains(all(), "cut break") {
		t.Errorf("head ball on the spot: %q", all())
	}
	s.Spot = rack.CentreOnSpot
	if !strings.Contains(all(), "cut break") {
		t.Errorf("centre ball on the spot: %q", all())
	}
	s = drill.StandardSetup(rack.EightBall, table.Left, table.NineFoot())
	if !strings.Contains(all(), "the 8 stays in the middle") {
		t.Errorf("eight-ball: %q", all())
	}
}

func TestAffixName_KeepsWithinTheLongestName(t *testing.T) {
	for _, name := range []string{"Short", strings.Repeat("é", drill.MaxName), strings.Repeat("🎱", drill.MaxName)} {
		for _, got := range []string{affixName("Copy of ", name, ""), affixName("", name, ", from the right")} {
			if says := drill.CheckName(got); says != "" {
				t.Errorf("%q: %s", got, says)
			}
		}
	}
	if got := affixName("Copy of ", "Short", ""); got != "Copy of Short" {
		t.Errorf("a short name became %q", got)
	}
}

func TestForgiveEmptyName_OnlyThat(t *testing.T) {
	f := page.NewForm(map[string]string{})
	f.Reject(fieldName, "give it a name")
	f.Reject(fieldTip, "a miscue")
	forgiveEmptyName(f)
	if f.ErrorFor(fieldName) != "" || f.ErrorFor(fieldTip) == "" {
		t.Errorf("left: %v", f.Problems)
	}
}
