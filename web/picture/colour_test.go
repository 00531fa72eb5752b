package picture_test

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"breakwright/internal/rack"
	"breakwright/web/picture"
)

// luminance and contrast are those of WCAG 2.2 (definitions of relative
// luminance and contrast ratio).
func luminance(t *testing.T, colour string) float64 {
	t.Helper()
	v, err := strconv.ParseUint(strings.TrimPrefix(colour, "#"), 16, 32)
	if err != nil || len(colour) != 7 {
		t.Fatalf("colour %q", colour)
	}
	linear := func(channel uint64) float64 {
		c := float64(channel) / 255
		if c <= 0.04045 {
			return c / 12.92
		}
		return math.Pow((c+0.055)/1.055, 2.4)
	}
	return 0.2126*linear(v>>16) + 0.7152*linear(v>>8&0xff) + 0.0722*linear(v&0xff)
}

func contrast(t *testing.T, a, b string) float64 {
	t.Helper()
	la, lb := luminance(t, a), luminance(t, b)
	return (max(la, lb) + 0.05) / (min(la, lb) + 0.05)
}

// black on white is 21 by definition, and mid grey #777777 on white 4.48, the
// well-known one that just fails 4.5.
func TestContrast_IsWCAGs(t *testing.T) {
	if got := contrast(t, "#000000", "#ffffff"); math.Abs(got-21) > 1e-9 {
		t.Errorf("black on white is %v", got)
	}
	if got := contrast(t, "#777777", "#ffffff"); math.Abs(got-4.48) > 0.005 {
		t.Errorf("#777777 on white is %v", got)
	}
}

// palettes reads the stylesheet's custom properties: light, dark (by the
// device, by the page) and print.
func palettes(t *testing.T) map[string]map[string]string {
	t.Helper()
	all := map[string]map[string]string{"light": {}, "dark": {}, "dark page": {}, "print": {}}
	order := []string{"light", "dark", "dark page", "print"}
	seen := map[string]int{}
	for _, m := range regexp.MustCompile(`--pic-([a-z-]+): (#[0-9a-f]{6});`).FindAllStringSubmatch(stylesheet(t), -1) {
		all[order[seen[m[1]]]][m[1]] = m[2]
		seen[m[1]]++
	}
	return all
}

func TestColours_DarkIsTheSameTwice(t *testing.T) {
	p := palettes(t)
	if len(p["dark"]) < 12 {
		t.Fatalf("only %d colours read", len(p["dark"]))
	}
	for name, colour := range p["dark"] {
		if p["dark page"][name] != colour {
			t.Errorf("--pic-%s is %s by the device and %s by the page", name, colour, p["dark page"][name])
		}
	}
}

// A picture without the stylesheet looks like the light page.
func TestColours_LightIsWhatIsDrawnWithoutStylesheet(t *testing.T) {
	light := palettes(t)["light"]
	_, root := draw(t, picture.TableSVG(tenBreaks()))
	for class, name := range map[string]string{"pic-cloth": "cloth", "pic-cushion": "cushion", "pic-wood": "wood",
		"pic-hole": "hole", "pic-sight": "pearl", "pic-lost": "lost", "pic-window": "chalk"} {
		if got := root.one(t, "", class).attr["fill"]; got != light[name] {
			t.Errorf("%s is drawn %s, --pic-%s is %s", class, got, name, light[name])
		}
	}
}

// Every ball stands out from the cloth: the ring around it with at least 3 to 1
// (WCAG 2.2, 1.4.11 non-text contrast), and the dark balls, dark green too, by
// their own colour with at least 2.5 to 1.
func TestColours_BallsStandOutFromTheCloth(t *testing.T) {
	_, root := draw(t, picture.TableSVG(setupView()))
	ring := root.find("circle", "pic-ring")[0].attr["stroke"]
	for theme, p := range palettes(t) {
		if got := contrast(t, ring, p["cloth"]); got < 3 {
			t.Errorf("%s: the ring has %.2f to 1", theme, got)
		}
		for _, b := range []rack.Ball{2, 4, 6, 7, 8, 10, 12, 14, 15} {
			if got := contrast(t, picture.BallColour(b), p["cloth"]); got < 2.5 {
				t.Errorf("%s: the %s has %.2f to 1", theme, b, got)
			}
		}
	}
}

// No two solids have the same colour, and a stripe has that of its solid.
func TestBallColour(t *testing.T) {
	seen := map[string]rack.Ball{}
	for b := rack.Ball(1); b <= 8; b++ {
		if other, taken := seen[picture.BallColour(b)]; taken {
			t.Errorf("the %s looks like the %s", b, other)
		}
		seen[picture.BallColour(b)] = b
	}
	for b := rack.Ball(9); b <= 15; b++ {
		if picture.BallColour(b) != picture.BallColour(b-8) {
			t.Errorf("the %s is %s", b, picture.BallColour(b))
		}
	}
}

// Text has 4.5 to 1 (WCAG 2.2, 1.4.3) and marks 3 to 1 (1.4.11) on what they
// lie on.
func TestColours_WordsAndMarksCanBeRead(t *testing.T) {
	const paper, slate, ivory = "#f7f5ef", "#1b2127", "#fdfbf5"
	for theme, p := range palettes(t) {
		page := paper
		switch {
		case strings.HasPrefix(theme, "dark"):
			page = slate
		case theme == "print":
			page = "#ffffff"
		}
		for _, c := range []struct {
			what      string
			mark, lie string
			least     float64
		}{
			{"ink on cloth", p["ink"], p["cloth"], 4.5},
			{"ink on marks", p["ink"], ivory, 4.5},
			{"number of a scratch", ivory, p["lost"], 4.5},
			{"words", p["text"], page, 4.5},
			{"quiet words", p["quiet"], page, 4.5},
			{"bars", p["accent"], page, 3},
			{"sights", p["pearl"], p["wood"], 3},
			{"holes", p["hole"], p["cloth"], 3},
		} {
			if got := contrast(t, c.mark, c.lie); got < c.least {
				t.Errorf("%s: %s has %.2f to 1, want %.1f", theme, c.what, got, c.least)
			}
		}
	}
}

// The words in a ball and the name of its slot can be read on every ball.
func TestColours_SlotNamesCanBeRead(t *testing.T) {
	for _, g := range rack.Games() {
		_, root := draw(t, picture.RackSVG(picture.RackView{ID: "r", Game: g, Order: g.PracticeOrder("left"), SlotNames: true}))
		for _, s := range root.find("g", "pic-slot") {
			n, err := strconv.Atoi(s.attr["data-ball"])
			if err != nil {
				t.Fatal(err)
			}
			under := picture.BallColour(rack.Ball(n))
			if rack.Ball(n).IsStriped() {
				under = "#fdfbf5"
			}
			if got := contrast(t, s.one(t, "text", "pic-slot-name").attr["fill"], under); got < 4.5 {
				t.Errorf("%s: the slot's name on the %d has %.2f to 1", g, n, got)
			}
		}
	}
}
