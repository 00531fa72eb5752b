package picture_test

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/a-h/templ"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
	"breakwright/web/picture"
	"breakwright/web/picture/plate"
)

var update = flag.Bool("update", false, "write the golden pictures anew")

// The golden pictures: look at them in a browser after -update.
func TestWriteSVG_Golden(t *testing.T) {
	for _, view := range plate.ListTableViews() {
		var got bytes.Buffer
		if err := picture.WriteSVG(&got, view); err != nil {
			t.Fatal(err)
		}
		compareGolden(t, view.ID+".svg", got.Bytes())
	}
	var got bytes.Buffer
	view := picture.RackView{ID: "rack", Game: rack.NineBall, Order: rack.NineBall.PracticeOrder(table.Left), Wing: "3L", SlotNames: true}
	if err := picture.RackSVG(view).Render(t.Context(), &got); err != nil {
		t.Fatal(err)
	}
	compareGolden(t, "rack.svg", got.Bytes())
}

func compareGolden(t *testing.T, name string, got []byte) {
	t.Helper()
	path := filepath.Join("testdata", name)
	if *update {
		if err := os.WriteFile(path, got, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatalf("%v; make it with -update and look at it", err)
	}
	if !bytes.Equal(got, want) {
		t.Errorf("%s is drawn differently; if that is meant, run with -update and look at it", name)
	}
}

// Every picture is whole XML, named and described, without a style or a script
// of its own, and its ids begin with its ID and are there once.
func TestEveryPicture(t *testing.T) {
	ids := map[string]string{}
	for _, p := range plate.ListPlates() {
		source, root := draw(t, p.Picture)
		for _, svg := range root.find("svg", "") {
			if svg.attr["role"] == "" {
				continue // a part of a picture, or a mark of a key
			}
			title, desc := svg.find("title", ""), svg.find("desc", "")
			if len(title) != 1 || len(desc) != 1 || title[0].text == "" || len(desc[0].text) < 20 {
				t.Errorf("%s: no title or description", p.Name)
				continue
			}
			if want := title[0].attr["id"] + " " + desc[0].attr["id"]; svg.attr["aria-labelledby"] != want {
				t.Errorf("%s: labelled by %q, want %q", p.Name, svg.attr["aria-labelledby"], want)
			}
		}
		root.all(func(n *node) {
			if n.name == "style" || n.name == "script" || n.attr["style"] != "" {
				t.Errorf("%s: <%s style=%q> is not allowed by the content security policy", p.Name, n.name, n.attr["style"])
			}
			for name := range n.attr {
				if strings.HasPrefix(name, "on") {
					t.Errorf("%s: <%s> has a handler %s", p.Name, n.name, name)
				}
			}
			if id := n.attr["id"]; id != "" {
				if other, taken := ids[id]; taken {
					t.Errorf("%s: id %q is taken by %s", p.Name, id, other)
				}
				ids[id] = p.Name
			}
			for class := range strings.FieldsSeq(n.attr["class"]) {
				if !strings.HasPrefix(class, "pic") {
					t.Errorf("%s: class %q", p.Name, class)
				}
			}
		})
		if strings.Contains(source, "NaN") || strings.Contains(source, "Inf") {
			t.Errorf("%s: a number that is none", p.Name)
		}
	}
	if len(ids) < 40 {
		t.Errorf("only %d ids seen", len(ids))
	}
}

func TestTable_IsSmall(t *testing.T) {
	for _, c := range []struct {
		view picture.TableView
		most int
	}{
		{picture.TableView{ID: "table", Kind: table.NineFoot()}, 4 << 10},
		{tenBreaks(), 8 << 10},
		{setupView(), 10 << 10},
	} {
		source, _ := draw(t, picture.TableSVG(c.view))
		if len(source) > c.most {
			t.Errorf("%s: %d bytes, at most %d", c.view.ID, len(source), c.most)
		}
	}
}

func tenBreaks() picture.TableView {
	for _, v := range plate.ListTableViews() {
		if v.ID == "ten-breaks" {
			return v
		}
	}
	panic("no plate of ten breaks")
}

func TestEveryWordIsEscaped(t *testing.T) {
	const hostile = `</title><script>alert("x")</script>'&`
	k := table.NineFoot()
	rate := picture.RateView{ID: "r", Label: hostile, Made: 1, Of: 2}
	for name, c := range map[string]templ.Component{
		"table": picture.TableFigure(picture.TableView{ID: "t", Kind: k, Title: hostile}),
		"id":    picture.TableFigure(picture.TableView{ID: `"><script>`, Kind: k}),
		"rack":  picture.RackFigure(picture.RackView{ID: "k", Title: hostile, Game: rack.NineBall, Order: rack.NineBall.PracticeOrder(table.Left)}),
		"rate":  picture.RateFigure(rate),
		"pair":  picture.PairFigure(picture.PairView{ID: "p", Title: hostile, Before: rate, After: rate}),
		"spark": picture.SparkSVG(picture.SparkView{ID: "s", Label: hostile}),
		"curve": picture.CurveFigure(picture.CurveView{ID: "c", Label: hostile, Kind: k}),
		"key":   picture.Legend([]picture.LegendItem{{Mark: picture.MarkCue, Words: hostile}}),
		"link": picture.RackFigure(picture.RackView{ID: "l", Game: rack.NineBall, Order: rack.NineBall.PracticeOrder(table.Left),
			Link: func(rack.Slot) string { return `javascript:alert("x")` }}),
	} {
		source, root := draw(t, c)
		if len(root.find("script", "")) > 0 || strings.Contains(source, "javascript:") {
			t.Errorf("%s: the hostile text became markup:\n%s", name, source)
		}
	}
}

func TestTable_TappableSaysItsScale(t *testing.T) {
	view := picture.TableView{ID: "t", Kind: table.EightFoot(), Tappable: true, Off: []int{3}}
	_, root := draw(t, picture.TableSVG(view))
	svg := root.one(t, "svg", "pic-tap")
	for name, want := range map[string]string{
		"data-inches-per-unit": "0.1", "data-feet": "8", "data-width": "46", "data-length": "92",
		"viewBox": picture.ExtentOf(view.Kind).ViewBox(),
	} {
		if got := svg.attr[name]; got != want {
			t.Errorf("%s is %q, want %q", name, got, want)
		}
	}
	targets := map[string]int{}
	svg.all(func(n *node) { targets[n.attr["data-pocket"]]++ })
	for _, p := range table.Pockets() {
		if targets[string(p)] != 2 { // the hole, and the larger place to tap
			t.Errorf("%s: %d elements to tap", p, targets[string(p)])
		}
	}
}

func TestRack_SlotsCanBeChosen(t *testing.T) {
	game, order := rack.NineBall, rack.NineBall.PracticeOrder(table.Right)
	_, root := draw(t, picture.RackSVG(picture.RackView{ID: "e", Game: game, Order: order,
		Editable: true, Selected: []rack.Slot{"4R"}}))
	slots := root.find("g", "pic-slot")
	if len(slots) != 9 {
		t.Fatalf("%d slots", len(slots))
	}
	for _, s := range slots {
		slot := rack.Slot(s.attr["data-slot"])
		ball, _ := order.BallAt(game, slot)
		_, fixed := game.FixedBall(slot)
		_, saysFixed := s.attr["data-fixed"]
		pressed := s.attr["aria-pressed"] == "true"
		if s.attr["id"] != "e-slot-"+string(slot) || s.attr["data-ball"] != ball.String() ||
			s.attr["role"] != "button" || saysFixed != fixed || pressed != (slot == "4R") {
			t.Errorf("slot %s: %v", slot, s.attr)
		}
	}
	if role := root.one(t, "svg", "").attr["role"]; role != "group" {
		t.Errorf("role %q hides the slots", role)
	}
}

func TestRack_SlotsCanBeLinks(t *testing.T) {
	_, root := draw(t, picture.RackSVG(picture.RackView{ID: "l", Game: rack.TenBall,
		Order: rack.TenBall.PracticeOrder(table.Left), Link: func(s rack.Slot) string {
			if s == rack.HeadSlot {
				return ""
			}
			return "/racks/7/swap?first=" + string(s)
		}}))
	links := root.find("a", "")
	if len(links) != 9 {
		t.Fatalf("%d links, want one for each slot but the head", len(links))
	}
	for _, a := range links {
		slot := a.one(t, "g", "pic-slot").attr["data-slot"]
		if a.attr["href"] != "/racks/7/swap?first="+slot || !strings.Contains(a.attr["aria-label"], "slot "+slot) {
			t.Errorf("slot %s: %v", slot, a.attr)
		}
	}
}

func TestTip_IsDrawnWhereItStrikes(t *testing.T) {
	_, root := draw(t, picture.TipSVG(picture.TipView{ID: "t", Tip: -0.2, Spin: 0.1}))
	ball, tip := root.one(t, "circle", "pic-cue"), root.one(t, "circle", "pic-tip")
	if tip.attr["cx"] != "10" || tip.attr["cy"] != "20" || ball.attr["r"] != "99" {
		t.Errorf("a tenth right and a fifth low of a ball of 100 is drawn at %s,%s", tip.attr["cx"], tip.attr["cy"])
	}
	if r := root.one(t, "circle", "pic-limit").attr["r"]; r != "50" {
		t.Errorf("half the radius is drawn as %s", r)
	}
}

func TestContact_ShiftsTheCueBall(t *testing.T) {
	for contact, want := range map[table.Inches]string{0: "0", 0.5625: "50", -0.225: "-20"} {
		_, root := draw(t, picture.ContactSVG(picture.ContactView{ID: "c", Contact: contact}))
		if got := root.one(t, "circle", "pic-cue-front").attr["cx"]; got != want {
			t.Errorf("%v in off full is drawn at %s of a radius of 100, want %s", contact, got, want)
		}
	}
}

func TestBreaksTable_EveryBreakIsDrawnOnce(t *testing.T) {
	k := table.NineFoot()
	breaks := []drill.Break{
		{Number: 1, Cue: drill.CueEnd{How: drill.Stopped, Place: table.Place{X: 1, Y: 30}}},
		{Number: 2, Cue: drill.CueEnd{How: drill.Scratched, Scratch: table.HeadLeft}},
		{Number: 3, Cue: drill.CueEnd{How: drill.OffTable}},
		{Number: 4, Cue: drill.CueEnd{How: drill.Stopped, Place: table.Place{X: 1, Y: 30}}},
	}
	_, root := draw(t, picture.TableSVG(picture.BreaksTable("b", breaks, k.StandardWindow(), k)))
	var seen []string
	for _, class := range []string{"pic-stop", "pic-lost"} {
		for _, n := range root.one(t, "g", class).find("text", "") {
			seen = append(seen, n.text)
		}
	}
	if got := strings.Join(seen, " "); got != "1 4 2 3" {
		t.Errorf("numbers drawn: %s", got)
	}
}

// Each custom property in the stylesheet is one that it also defines.
func TestStylesheet_DefinesWhatItUses(t *testing.T) {
	sheet := stylesheet(t)
	for _, m := range regexp.MustCompile(`var\((--pic-[a-z-]+)\)`).FindAllStringSubmatch(sheet, -1) {
		if n := strings.Count(sheet, m[1]+":"); n != 4 {
			t.Errorf("%s is defined %d times, want for light, dark twice and print", m[1], n)
		}
	}
}

func stylesheet(t *testing.T) string {
	t.Helper()
	sheet, err := os.ReadFile(filepath.Join("..", "..", "static", "css", "picture.css"))
	if err != nil {
		t.Fatal(err)
	}
	return string(sheet)
}
