package picture_test

import (
	"fmt"
	"math"
	"regexp"
	"strings"
	"testing"

	"breakwright/internal/breaksim"
	"breakwright/internal/rack"
	"breakwright/internal/table"
	"breakwright/web/picture"
	"breakwright/web/picture/plate"
)

func playView() (picture.PlayView, breaksim.BreakResult) {
	k := table.NineFoot()
	r := plate.ComputeBreak(k)
	v := picture.NewPlayView("p", r, rack.NineBall.WingSlot(table.Left), k)
	v.Title, v.Stills = "One break", []float64{0, 0.2, 0.6, r.Seconds}
	return v, r
}

// Whoever evaluates the curves of data-legs sees each ball where the model has
// it, at any time.
func TestPlay_LegsAreThePath(t *testing.T) {
	v, r := playView()
	_, root := draw(t, picture.PlaySVG(v))
	balls := root.find("g", "pic-moving")
	if len(balls) != 10 {
		t.Fatalf("%d balls", len(balls))
	}
	for i, g := range balls {
		b := r.Balls[i]
		if g.attr["data-ball"] != b.Ball.String() {
			t.Fatalf("ball %d is the %s, drawn as the %s", i, b.Ball, g.attr["data-ball"])
		}
		if (g.attr["data-gone"] != "") != (b.End != breaksim.Stopped) {
			t.Errorf("the %s ended %s, data-gone is %q", b.Ball, b.End, g.attr["data-gone"])
		}
		for _, part := range strings.Split(g.attr["data-legs"], ";") {
			n := numbers(t, part)
			if len(n) != 8 {
				t.Fatalf("a leg of %d numbers: %q", len(n), part)
			}
			middle := (n[0] + n[1]) / 2000
			want, _ := b.Path.PlaceAt(middle)
			x, y := (n[2]+2*n[4]+n[6])/4, (n[3]+2*n[5]+n[7])/4
			// Times are kept to a tenth of a millisecond, in which the fastest ball
			// moves a thirtieth of an inch.
			if math.Hypot(x/10-float64(want.X), -y/10-float64(want.Y)) > 0.05 {
				t.Errorf("the %s at %g s is at %g,%g in, want %v", b.Ball, middle, x/10, -y/10, want)
			}
		}
	}
}

// A still shows each ball where it is at that moment, and none that is gone; the
// ways in it begin where those of the still before ended.
func TestPlay_StillsShowTheMoment(t *testing.T) {
	v, r := playView()
	_, root := draw(t, picture.PlayStills(v))
	stills := root.find("svg", "")
	if len(stills) != len(v.Stills) {
		t.Fatalf("%d stills", len(stills))
	}
	for i, still := range stills {
		drawn := map[string]string{}
		for _, g := range still.find("g", "") {
			if ball := g.attr["data-ball"]; ball != "" {
				drawn[ball] = g.attr["transform"]
			}
		}
		for _, b := range r.Balls {
			at, moved := b.Path.PlaceAt(v.Stills[i])
			gone := b.End != breaksim.Stopped && v.Stills[i] >= b.Path[len(b.Path)-1].End
			if !moved || gone {
				if drawn[b.Ball.String()] != "" && gone {
					t.Errorf("still %d shows the %s, which is gone", i, b.Ball)
				}
				continue
			}
			n := numbers(t, strings.Trim(strings.TrimPrefix(drawn[b.Ball.String()], "translate("), ")"))
			if len(n) != 2 || math.Hypot(n[0]/10-float64(at.X), -n[1]/10-float64(at.Y)) > 0.02 {
				t.Errorf("still %d has the %s at %v, want %v", i, b.Ball, n, at)
			}
		}
	}
	cue := r.Balls[0]
	way := stills[2].find("path", "pic-path")[0].attr["d"]
	n := numbers(t, regexp.MustCompile(`[MQ]`).ReplaceAllString(way, " "))
	from, _ := cue.Path.PlaceAt(v.Stills[1])
	to, _ := cue.Path.PlaceAt(v.Stills[2])
	for j, want := range []table.Place{from, to} {
		p := n[:2]
		if j == 1 {
			p = n[len(n)-2:]
		}
		if math.Hypot(p[0]/10-float64(want.X), -p[1]/10-float64(want.Y)) > 0.02 {
			t.Errorf("the cue ball's way has end %d at %v, want %v", j, p, want)
		}
	}
}

func TestPlay_Words(t *testing.T) {
	v, r := playView()
	words := picture.DescribePlay(v)
	for _, p := range r.Pocketed {
		if !strings.Contains(words, "the "+p.Ball.String()+" in "+p.Pocket.Words()) {
			t.Errorf("%q does not say where the %s went", words, p.Ball)
		}
	}
	if !strings.Contains(words, fmt.Sprintf("%.1f seconds", r.Seconds)) {
		t.Errorf("%q does not say how long it took", words)
	}
	if first := picture.DescribeStill(v, 0); !strings.Contains(first, "the cue ball is ") || strings.Contains(first, "down") {
		t.Errorf("before the stroke: %q", first)
	}
}

func TestCrowd_CountsInWords(t *testing.T) {
	k := table.NineFoot()
	w := k.StandardWindow()
	c := picture.CrowdView{ID: "c", Kind: k, Title: "Cue ball", Window: &w, Of: 4,
		Places: []table.Place{{X: 0, Y: 40}, {X: 20, Y: 10}, {X: 0, Y: 90}},
		Down:   []picture.PocketCount{{Pocket: table.SideRight, Count: 1}, {Pocket: table.HeadLeft}},
		Areas:  []picture.CrowdArea{{Share: 0.5, Loops: [][]table.Place{{{X: -5, Y: 30}, {X: 5, Y: 30}, {X: 0, Y: 50}}}}},
	}
	words := picture.DescribeCrowd(c)
	for _, want := range []string{"In 4 breaks", "head half twice", "foot half once", "window once", table.SideRight.Words() + " 1"} {
		if !strings.Contains(words, want) {
			t.Errorf("%q does not say %q", words, want)
		}
	}
	if strings.Contains(words, table.HeadLeft.Words()) {
		t.Errorf("%q names a pocket nothing went into", words)
	}
	_, root := draw(t, picture.CrowdSVG(c))
	if d := root.one(t, "path", "pic-area").attr["d"]; d != "M-50 -300L50 -300L0 -500z" {
		t.Errorf("the area is drawn as %q", d)
	}
	if texts := root.one(t, "g", "pic-lost").find("text", ""); len(texts) != 1 || texts[0].text != "1" {
		t.Errorf("%d counts at pockets", len(texts))
	}
}
