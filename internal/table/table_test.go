package table

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// WPA table and equipment specification, effective November 2001: s.5 (sizes),
// s.6 (sights), s.8.1 of the rules of play (spots). The 7-foot row is common
// practice, no source.
func TestKind_PublishedSizesAndSpots(t *testing.T) {
	for _, want := range []struct {
		kind                                          Kind
		length, width, diamond, headString, footSpotY Inches
	}{
		{NineFoot(), 100, 50, 12.5, 25, 75},
		{EightFoot(), 92, 46, 11.5, 23, 69},
		{SevenFoot(), 78, 39, 9.75, 19.5, 58.5},
	} {
		k := want.kind
		got := []Inches{k.Length(), k.Width(), k.DiamondSpacing(), k.HeadString(), k.FootSpot().Y}
		wanted := []Inches{want.length, want.width, want.diamond, want.headString, want.footSpotY}
		for i := range got {
			if got[i] != wanted[i] {
				t.Errorf("%d ft: measure %d is %s in, want %s in", k.Feet, i, got[i], wanted[i])
			}
		}
	}
}

// Every size is found again by its name, and no two are as long. The small surfaces,
// 38 by 76 and 44 by 88 inches, are common practice, no source.
func TestSizes_ByTheirNames(t *testing.T) {
	want := map[string]Inches{"small 7": 76, "7": 78, "small 8": 88, "8": 92, "9": 100}
	for _, k := range Sizes() {
		got, err := ParseSize(k.Size())
		if err != nil || got != k || k.Length() != want[k.Size()] || k.Width() != k.Length()/2 {
			t.Errorf("%s ft: %s by %s in, read as %v, %v", k.Size(), k.Width(), k.Length(), got, err)
		}
		for _, other := range Sizes() {
			if k.SameSize(other) != (k.Length() == other.Length()) {
				t.Errorf("%v and %v: the same size is %t", k, other, k.SameSize(other))
			}
		}
		delete(want, k.Size())
	}
	if len(want) > 0 {
		t.Errorf("no tables of %v", want)
	}
	for _, bad := range []string{"", "small 9", "10", "8 ft", "small"} {
		if k, err := ParseSize(bad); err == nil {
			t.Errorf("%q is %v", bad, k)
		}
	}
}

// WPA equipment specification s.5: a 9-foot surface is 2540 by 1270 mm, an
// 8-foot one 2336.8 by 1168.4 mm; s.16: a ball is 57.15 mm across.
func TestInches_PublishedMetricSizes(t *testing.T) {
	for _, c := range []struct {
		inches Inches
		mm     float64
	}{
		{NineFoot().Length(), 2540}, {NineFoot().Width(), 1270},
		{EightFoot().Length(), 2336.8}, {EightFoot().Width(), 1168.4},
		{BallDiameter, 57.15},
	} {
		if got := c.inches.Centimetres() * 10; math.Abs(got-c.mm) > 1e-9 {
			t.Errorf("%s in = %g mm, want %g mm", c.inches, got, c.mm)
		}
	}
}

// Exact by definition: 1 mph = 0.44704 m/s = 1.609344 km/h.
func TestMph_Exact(t *testing.T) {
	if got := Mph(25).MetresPerSecond(); got != 25*0.44704 {
		t.Errorf("25 mph = %g m/s", got)
	}
	if got := Mph(1).KilometresPerHour(); math.Abs(got-1.609344) > 1e-12 {
		t.Errorf("1 mph = %g km/h", got)
	}
}

// WPA equipment specification s.9: corner mouths of 4.5 to 4.625 in and side
// mouths of 5 to 5.125 in, nose tip to nose tip.
func TestJaws_AreTheMouthApart(t *testing.T) {
	for _, k := range []Kind{SevenFoot(), EightFoot(), NineFoot(), {9, false, 4.625, 5.125}, {9, false, 4, 4.5}} {
		for _, p := range Pockets() {
			want := k.CornerMouth
			if p.IsSide() {
				want = k.SideMouth
			}
			a, b := k.JawTips(p)
			if got := a.Distance(b); math.Abs(float64(got-want)) > 1e-9 {
				t.Errorf("%v %s: jaws %v %v are %s in apart, want %s", k, p, a, b, got, want)
			}
			if !k.OnCloth(a) || !k.OnCloth(b) {
				t.Errorf("%v %s: jaws %v %v lie off the nose lines", k, p, a, b)
			}
		}
	}
}

func TestMake_RefusesWhatIsNoTable(t *testing.T) {
	for _, bad := range []Kind{{6, false, 4.5, 5}, {9, true, 4.5, 5}, {9, false, 3, 5}, {8, true, 4.5, 9}, {9, false, Inches(math.NaN()), 5}, {}} {
		if k, err := bad.Checked(); err == nil {
			t.Errorf("%v was taken as %v", bad, k)
		}
	}
	if k, err := NewKind(9, 0, 0); err != nil || k != NineFoot() {
		t.Errorf("mouths left out: %v, %v; want the standard ones", k, err)
	}
}

func TestZone_Words(t *testing.T) {
	k := NineFoot()
	for place, want := range map[Place]string{
		{0, 40}:    "between the head string and the centre, middle",
		{-20, 10}:  "behind the head string, left side",
		{24, 60}:   "between the centre and the foot spot, on the right rail",
		{13, 80}:   "foot end, right side",
		{-24, 99}:  "on the foot rail, on the left rail",
		{12.5, 25}: "between the head string and the centre, middle",
	} {
		if got := k.ZoneWords(place); got != want {
			t.Errorf("%v is %q, want %q", place, got, want)
		}
	}
}

func TestStandardWindow_HeadStringToCentreMiddleHalf(t *testing.T) {
	w := NineFoot().StandardWindow()
	for place, want := range map[Place]bool{
		{0, 25}: true, {12.5, 50}: true, {-12.5, 37}: true,
		{0, 24.9}: false, {0, 50.1}: false, {12.6, 40}: false,
	} {
		if got := w.Contains(place); got != want {
			t.Errorf("%v in the window: %v, want %v", place, got, want)
		}
	}
	if err := w.Check(NineFoot()); err != nil {
		t.Error(err)
	}
	if err := (Window{-30, 0, 10, 20}).Check(NineFoot()); err == nil {
		t.Error("a window beyond the rail was taken")
	}
	if err := (Window{5, 5, 10, 20}).Check(NineFoot()); err == nil {
		t.Error("an empty window was taken")
	}
}

func TestParsePlace(t *testing.T) {
	if p, err := ParsePlace("-3.5,41"); err != nil || p != (Place{-3.5, 41}) {
		t.Errorf("%v, %v", p, err)
	}
	for _, bad := range []string{"", "3", "a,b", "1,NaN", "Inf,2", "1,2,3"} {
		if p, err := ParsePlace(bad); err == nil {
			t.Errorf("%q was read as %v", bad, p)
		}
	}
}

func TestMirror_TwiceIsTheSame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k := rapid.SampledFrom([]Kind{SevenFoot(), EightFoot(), NineFoot()}).Draw(t, "kind")
		half := float64(k.Width() / 2)
		p := Place{
			Inches(rapid.Float64Range(-half, half).Draw(t, "x")),
			Inches(rapid.Float64Range(0, float64(k.Length())).Draw(t, "y")),
		}
		if p.Mirror().Mirror() != p {
			t.Fatalf("%v mirrored twice is %v", p, p.Mirror().Mirror())
		}
		if s := p.Mirror().X.String(); s == "-0" {
			t.Fatalf("the mirror of %v prints as -0", p)
		}
		w := k.StandardWindow()
		w.Right += 2
		if w.Contains(p) != w.Mirror().Contains(p.Mirror()) {
			t.Fatalf("window and place %v disagree when mirrored", p)
		}
		if read, err := ParsePlace(p.String()); err != nil || read != p {
			t.Fatalf("%v written and read is %v (%v)", p, read, err)
		}
		if n := k.NearestOnCloth(p); !k.OnCloth(n) || k.OnCloth(p) && n != p {
			t.Fatalf("nearest to %v is %v", p, n)
		}
		if s := k.SettleBall(p); k.SettleBall(s) != s || !k.OnCloth(s) {
			t.Fatalf("%v settles at %v, which does not stay", p, s)
		}
	})
	for _, p := range Pockets() {
		if p.Mirror().Mirror() != p || p.Mirror() == p {
			t.Errorf("%s mirrors to %s", p, p.Mirror())
		}
		k := NineFoot()
		if k.CornerPoint(p).Mirror() != k.CornerPoint(p.Mirror()) {
			t.Errorf("%s: its corner does not mirror", p)
		}
	}
}
