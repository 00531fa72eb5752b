package picture_test

import (
	"math/rand/v2"
	"testing"

	"breakwright/internal/table"
	"breakwright/web/picture"
)

func TestPixels_RoundTripExactly(t *testing.T) {
	for _, k := range kinds() {
		for _, size := range [][2]int{{320, 578}, {390, 704}, {300, 900}, {640, 500}, {1, 1}} {
			w, h := size[0], size[1]
			for px := range w {
				for _, py := range []int{0, h / 3, h / 2, h - 1} {
					p, ok := picture.PlaceFromPixels(px, py, w, h, k)
					x, y, back := picture.PixelsFromPlace(p, w, h, k)
					if !ok || !back || x != px || y != py {
						t.Fatalf("%v at %dx%d: pixel %d,%d is %v, which is pixel %d,%d", k, w, h, px, py, p, x, y)
					}
				}
			}
		}
	}
}

func TestPixels_PlaceIsFoundAgainWithinAPixel(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 11))
	k := table.NineFoot()
	f := picture.FrameOf(k)
	pixel := f.Height / 704
	for range 2000 {
		p := table.Place{X: table.Inches(rng.Float64()*50 - 25), Y: table.Inches(rng.Float64() * 100)}
		px, py, _ := f.PixelAtPlace(p, 390, 704)
		q, _ := f.PlaceAtPixel(px, py, 390, 704)
		if p.Distance(q) > pixel*0.75 {
			t.Fatalf("%v became %v, more than a pixel of %v in away", p, q, pixel)
		}
	}
}

// The viewBox of a 9-foot table begins at its upper left, the foot end, and the
// middle of the picture is the centre spot.
func TestPixels_CentreSpotIsInTheMiddle(t *testing.T) {
	for _, k := range kinds() {
		p, _ := picture.PlaceFromPixels(150, 250, 301, 501, k)
		if p.Distance(k.CentreSpot()) > 1e-9 {
			t.Errorf("%v: the middle is %v", k, p)
		}
	}
	if got, want := picture.FrameOf(table.NineFoot()).ViewBox(), "-310 -1060 620 1120"; got != want {
		t.Errorf("viewBox %q, want %q", got, want)
	}
}

func TestPixels_NoSizeHasNoPlaces(t *testing.T) {
	for _, size := range [][2]int{{0, 10}, {10, 0}, {-3, 4}} {
		if _, ok := picture.PlaceFromPixels(1, 1, size[0], size[1], table.NineFoot()); ok {
			t.Errorf("a picture of %v has places", size)
		}
		if _, _, ok := picture.PixelsFromPlace(table.Place{}, size[0], size[1], table.NineFoot()); ok {
			t.Errorf("a picture of %v has pixels", size)
		}
	}
}

func TestPocketAt_IsWhatATappablePictureOffers(t *testing.T) {
	for _, k := range kinds() {
		_, root := draw(t, picture.TableSVG(picture.TableView{ID: "t", Kind: k, Tappable: true}))
		for _, target := range root.one(t, "g", "pic-pocket-target").find("circle", "") {
			middle, reach := target.centre(t), target.inches(t, "r")
			for _, far := range []table.Inches{0, reach - 0.1, reach + 0.1} {
				p := table.Place{X: middle.X, Y: middle.Y + far}
				pocket, ok := picture.PocketAt(p, k)
				if want := far < reach; ok != want || ok && string(pocket) != target.attr["data-pocket"] {
					t.Errorf("%v, %v in from %s: %q %v", k, far, target.attr["data-pocket"], pocket, ok)
				}
			}
		}
		for _, p := range []table.Place{k.HeadSpot(), k.CentreSpot(), k.FootSpot(), {X: 0, Y: 1.125}} {
			if pocket, ok := picture.PocketAt(p, k); ok {
				t.Errorf("%v: %v is taken for %s", k, p, pocket)
			}
		}
	}
}
