package density

import (
	"math"
	"math/rand/v2"
	"testing"

	"breakwright/internal/table"
)

// A loop's area by the shoelace formula; positive when it runs
// counter-clockwise, with the area on its left.
func enclosed(loop []table.Place) float64 {
	sum := 0.0
	for i, p := range loop {
		q := loop[(i+1)%len(loop)]
		sum += float64(p.X*q.Y - q.X*p.Y)
	}
	return sum / 2
}

// holds reports whether a place lies within the loops (even-odd).
func holds(loops [][]table.Place, at table.Place) bool {
	inside := false
	for _, loop := range loops {
		for i, p := range loop {
			q := loop[(i+1)%len(loop)]
			if (p.Y > at.Y) != (q.Y > at.Y) && at.X < p.X+(q.X-p.X)*(at.Y-p.Y)/(q.Y-p.Y) {
				inside = !inside
			}
		}
	}
	return inside
}

func cloud(n int, at ...table.Place) []table.Place {
	rng := rand.New(rand.NewPCG(3, 4))
	k := table.NineFoot()
	places := make([]table.Place, n)
	for i := range places {
		c := at[i%len(at)]
		places[i] = k.SettleBall(table.Place{X: c.X + table.Inches(4*rng.NormFloat64()), Y: c.Y + table.Inches(4*rng.NormFloat64())})
	}
	return places
}

func TestAreas_HoldTheirShare(t *testing.T) {
	for _, places := range [][]table.Place{
		cloud(200, table.Place{X: 3, Y: 40}),
		cloud(200, table.Place{X: -15, Y: 20}, table.Place{X: 15, Y: 80}),
		cloud(200, table.Place{X: 25, Y: 0}), // in a corner
		cloud(20, table.Place{X: 0, Y: 50}),
	} {
		areas := Areas(places, table.NineFoot(), 0.9, 0.5)
		for _, a := range areas {
			n := 0
			for _, p := range places {
				if holds(a.Loops, p) {
					n++
				}
			}
			if got := float64(n) / float64(len(places)); math.Abs(got-a.Share) > 0.06 {
				t.Errorf("the area of %g holds %g", a.Share, got)
			}
			for _, loop := range a.Loops {
				for _, p := range loop {
					if !table.NineFoot().OnCloth(p) {
						t.Fatalf("the area reaches %v, off the cloth", p)
					}
				}
			}
		}
		if len(areas) != 2 {
			t.Fatalf("%d areas", len(areas))
		}
	}
}

func TestAreas_TwoCrowdsAreTwoLoops(t *testing.T) {
	places := cloud(200, table.Place{X: -15, Y: 20}, table.Place{X: 15, Y: 80})
	if a := Areas(places, table.NineFoot(), 0.5); len(a[0].Loops) != 2 {
		t.Errorf("%d loops around two crowds", len(a[0].Loops))
	}
	if a := Areas(places[:9], table.NineFoot(), 0.5); a != nil {
		t.Errorf("nine places have areas: %v", a)
	}
	same := make([]table.Place, 12)
	if a := Areas(same, table.NineFoot(), 0.5); len(a) != 1 {
		t.Errorf("twelve times the same place: %v", a)
	}
}

// A cone of height 10 at its tip, falling by 1 an inch: its contour at 4 is a
// circle of radius 6, and a ring has a hole that runs the other way.
func TestContour_OfAConeIsACircle(t *testing.T) {
	g := newDensityGrid(table.NineFoot())
	fill := func(f func(r float64) float64) {
		for j, y := range g.y {
			for i, x := range g.x {
				g.value[j][i] = f(math.Hypot(float64(x), float64(y-50)))
			}
		}
	}
	fill(func(r float64) float64 { return 10 - r })
	loops := g.traceContour(4)
	if len(loops) != 1 {
		t.Fatalf("%d loops", len(loops))
	}
	if got, want := enclosed(loops[0]), math.Pi*36; math.Abs(got-want) > 0.02*want {
		t.Errorf("the circle encloses %g, want %g", got, want)
	}
	for _, p := range loops[0] {
		if r := math.Hypot(float64(p.X), float64(p.Y-50)); math.Abs(r-6) > 0.1 {
			t.Errorf("%v lies %g from the tip", p, r)
		}
	}
	fill(func(r float64) float64 { return 5 - math.Abs(r-12) })
	loops = g.traceContour(2)
	if len(loops) != 2 {
		t.Fatalf("a ring has %d loops", len(loops))
	}
	sum := enclosed(loops[0]) + enclosed(loops[1])
	if want := math.Pi * (15*15 - 9*9); math.Abs(sum-want) > 0.02*want {
		t.Errorf("the ring encloses %g, want %g", sum, want)
	}
}

// Where only two opposite corners of a cell lie inside, the middle decides
// whether they are joined; the loops stay closed either way.
func TestContour_Saddle(t *testing.T) {
	for _, c := range []struct {
		middle float64
		loops  int
	}{{1.2, 1}, {0.8, 2}} {
		g := newDensityGrid(table.NineFoot())
		g.value[20][20], g.value[21][21] = 1.6, 1.6
		g.value[20][21], g.value[21][20] = 2*c.middle-1.6, 2*c.middle-1.6
		loops := g.traceContour(1)
		if len(loops) != c.loops {
			t.Errorf("middle %g: %d loops, want %d", c.middle, len(loops), c.loops)
		}
	}
}
