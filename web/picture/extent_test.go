package picture_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"breakwright/internal/table"
	"breakwright/web/picture"
)

// pixelsOf is the pixel that shows a place when the extent is shown whole and
// centred in width x height pixels.
func pixelsOf(e picture.Extent, p table.Place, width, height int) (px, py int) {
	w, h := float64(e.Width), float64(e.Height)
	scale := min(float64(width)/w, float64(height)/h)
	x := (float64(width)-w*scale)/2 + float64(p.X-e.Left)*scale
	y := (float64(height)-h*scale)/2 + float64(e.Top-p.Y)*scale
	return int(math.Floor(x)), int(math.Floor(y))
}

func TestPixels_RoundTripExactly(t *testing.T) {
	for _, k := range kinds() {
		for _, size := range [][2]int{{320, 578}, {390, 704}, {300, 900}, {640, 500}, {1, 1}} {
			w, h := size[0], size[1]
			for px := range w {
				for _, py := range []int{0, h / 3, h / 2, h - 1} {
					p, ok := picture.PlaceFromPixels(px, py, w, h, k)
					x, y := pixelsOf(picture.ExtentOf(k), p, w, h)
					if !ok || x != px || y != py {
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
	e := picture.ExtentOf(k)
	pixel := e.Height / 704
	for range 2000 {
		p := table.Place{X: table.Inches(rng.Float64()*50 - 25), Y: table.Inches(rng.Float64() * 100)}
		px, py := pixelsOf(e, p, 390, 704)
		q, _ := e.PlaceAtPixel(px, py, 390, 704)
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
	if got, want := picture.ExtentOf(table.NineFoot()).ViewBox(), "-310 -1060 620 1120"; got != want {
		t.Errorf("viewBox %q, want %q", got, want)
	}
}

func TestPixels_NoSizeHasNoPlaces(t *testing.T) {
	for _, size := range [][2]int{{0, 10}, {10, 0}, {-3, 4}} {
		if _, ok := picture.PlaceFromPixels(1, 1, size[0], size[1], table.NineFoot()); ok {
			t.Errorf("a picture of %v has places", size)
		}
	}
}
