package drill

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"breakwright/internal/rack"
	"breakwright/internal/table"
)

func brokenWith(past *int, balls ...rack.Ball) Break {
	b := Break{PastString: past}
	for _, ball := range balls {
		b.Pocketed = append(b.Pocketed, Pocketed{ball, table.FootLeft})
	}
	return b
}

// Euro Tour regulations 1.17: at least three object balls pocketed or touching the
// head string, any mix.
func TestThreePoints(t *testing.T) {
	for name, c := range map[string]struct {
		b          Break
		met, known bool
	}{
		"three pocketed":                {brokenWith(nil, 2, 5, 7), true, true},
		"three past":                    {brokenWith(ObservedCount(3)), true, true},
		"one and one":                   {brokenWith(ObservedCount(1), 4), false, true},
		"dry, none past":                {brokenWith(ObservedCount(0)), false, true},
		"not counted":                   {brokenWith(nil, 4), false, false},
		"two and one, perhaps the same": {brokenWith(ObservedCount(1), 4, 5), false, false},
		"two and two, perhaps the same": {brokenWith(ObservedCount(2), 4, 5), false, false},
		"four past, one down":           {brokenWith(ObservedCount(4), 8), true, true},
	} {
		if p := c.b.ThreePoints(); p.Met != c.met || p.Known != c.known {
			t.Errorf("%s: %+v", name, p)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		past := rapid.IntRange(0, 9).Draw(t, "past")
		b := brokenWith(ObservedCount(past))
		for i := range rapid.IntRange(0, 9).Draw(t, "pocketed") {
			b.Pocketed = append(b.Pocketed, Pocketed{rack.Ball(i + 1), table.SideLeft})
		}
		p := b.ThreePoints()
		if p.Least > p.Most || p.Met && !p.Known || p != b.Mirror().ThreePoints() {
			t.Fatalf("%+v", p)
		}
		more := b
		more.PastString = ObservedCount(past + 1)
		if p.Met && !more.ThreePoints().Met {
			t.Fatal("one more ball past the string breaks the rule")
		}
	})
}

func TestBreakBox(t *testing.T) {
	k := table.NineFoot()
	s := StandardSetup(rack.NineBall, table.Left, k) // 18 in from the long string
	if s.InBox(8) || !s.InBox(0) || !s.InBox(18) || !s.Mirror().InBox(18) || s.Mirror().InBox(17.9) {
		t.Errorf("from %s: in a box of 8 %v, of 18 %v", s.Cue, s.InBox(8), s.InBox(18))
	}
	kept := s.KeepInBox(8)
	if kept.Cue != (table.Place{X: -8, Y: s.Cue.Y}) || kept.KeepInBox(8) != kept || s.KeepInBox(0) != s {
		t.Errorf("kept at %s", kept.Cue)
	}
	if s.Mirror().KeepInBox(8) != kept.Mirror() {
		t.Error("the box does not mirror")
	}
	for box, fits := range map[table.Inches]bool{0: true, 8: true, 9: true, 1: false, 40: false, -8: false} {
		if err := (HouseRules{BreakBox: box}).CheckBox(k); (err == nil) != fits {
			t.Errorf("a box of %s: %v", box, err)
		}
	}
}

func TestHouseRules_Broken(t *testing.T) {
	s := StandardSetup(rack.NineBall, table.Right, table.NineFoot())
	b := brokenWith(ObservedCount(1), 4)
	if got := (HouseRules{}).Broken(s, b); got != nil {
		t.Errorf("without rules: %v", got)
	}
	got := HouseRules{ThreePoints: true, BreakBox: 8}.Broken(s, b)
	if want := "broken from 18 inches off the long string, outside the box of 8|2 of the three points: balls pocketed or past the head string"; strings.Join(got, "|") != want {
		t.Errorf("%q", got)
	}
	if got := (HouseRules{ThreePoints: true}).Broken(s, brokenWith(nil, 4)); got != nil {
		t.Errorf("not known, but said: %v", got)
	}
}
