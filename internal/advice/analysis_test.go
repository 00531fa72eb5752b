package advice

import (
	"slices"
	"testing"

	"breakwright/internal/drill"
	"breakwright/internal/evidence"
	"breakwright/internal/table"
)

// analysisOf reads sets that were played one after another.
func analysisOf(sets ...drill.Set) *analysis { return newAnalysis(numberSets(sets...), Brief{}) }

// A share that a drill asks for counts, up to every break; what is no share means the
// table's standard.
func TestBrief_TargetsOfTheDrillOrTheTable(t *testing.T) {
	standard := drill.StandardTargets(table.NineFoot())
	for asked, counts := range map[float64]bool{0: false, -0.5: false, 0.01: true, 0.7: true, 1: true, 1.01: false} {
		want := standard
		if counts {
			want = drill.Targets{Wing: asked, Window: asked}
		}
		if got := (Brief{Targets: drill.Targets{Wing: asked, Window: asked}}).resolveTargets(table.NineFoot()); got != want {
			t.Errorf("%v asked: %+v, want %+v", asked, got, want)
		}
	}
}

// A window is the drill's own, turned for a break from the right; none, and one that lies
// off the cloth, mean the table's standard.
func TestBrief_WindowOfTheDrillOrTheTable(t *testing.T) {
	left := scripted(t, standardSetup(), "m", "w")
	right := left.Mirror()
	standard := table.NineFoot().StandardWindow()
	own := table.Window{Left: -10, Right: 4, Head: 30, Foot: 45}
	for _, c := range []struct {
		name         string
		window, want table.Window
		set          drill.Set
	}{
		{"own", own, own, left},
		{"own, from the right", own.Mirror(), own, right},
		{"none", table.Window{}, standard, left},
		{"off the cloth", table.Window{Left: -80, Right: 4, Head: 30, Foot: 45}, standard, left},
	} {
		if got := (Brief{Window: c.window}).resolveWindow(c.set); got != c.want {
			t.Errorf("%s: %+v, want %+v", c.name, got, c.want)
		}
	}
}

// Where nobody said or measured a speed, none is said in return; one number is enough to
// know it.
func TestJudge_SpeedThatNobodyKnows(t *testing.T) {
	unknown := scripted(t, setupWithSpeed(0), ordinaryWing, "w")
	if a := judgePatterns(numberSets(unknown), Brief{}); a.Next.Speed != 0 {
		t.Errorf("%v mph are asked for, where none was said", a.Next.Speed)
	}
	if a := judgePatterns(numberSets(unknown, scripted(t, setupWithSpeed(17), ordinaryWing, "w")), Brief{}); a.Next.Speed != 17 {
		t.Errorf("%v mph are asked for after 17", a.Next.Speed)
	}
}

// A decision counts in the stint it was made in, under the setup it put in place, and,
// where neither is written down, anywhere.
func TestOverride_WhereItCounts(t *testing.T) {
	here, there := setupAtDistance(12), setupAtDistance(20)
	for _, c := range []struct {
		name     string
		override Override
		counts   bool
	}{
		{"anywhere", Override{}, true},
		{"made here", Override{Under: here}, true},
		{"made elsewhere", Override{Under: there}, false},
		{"made elsewhere, put here", Override{Under: there, Instead: here}, true},
		{"made here, put elsewhere", Override{Under: here, Instead: there}, true},
		{"made and put elsewhere", Override{Under: there, Instead: there}, false},
	} {
		if got := c.override.appliesTo(here); got != c.counts {
			t.Errorf("%s: counts %v", c.name, got)
		}
	}
}

// Of nothing seen nothing is said: an empty cell is no evidence, either way.
func TestObserveShare_NothingSeenIsNoEvidence(t *testing.T) {
	none, one := observeShare(0, 0, 0.3), observeShare(1, 1, 0.3)
	if none.certainty != 0 || none.canSettle || certaintyBelow(0, 0, 0.3) != 0 {
		t.Errorf("of nothing: %+v, and below %v", none, certaintyBelow(0, 0, 0.3))
	}
	if !(one.certainty > 0.5) || !one.canSettle || !(certaintyBelow(0, 1, 0.3) > 0.5) {
		t.Errorf("of one: %+v, and below %v", one, certaintyBelow(0, 1, 0.3))
	}
	if f := none.toFinding(FactWing); f.Rate != 0 || f.Low != 0 || f.High != 1 {
		t.Errorf("of nothing: from %v to %v around %v", f.Low, f.High, f.Rate)
	}
	i := evidence.JeffreysInterval(1, 1, 0.95)
	if f := one.toFinding(FactWing); f.Rate != 1 || f.Low != i.Low || f.High != i.High {
		t.Errorf("of one: from %v to %v around %v, want %v", f.Low, f.High, f.Rate, i)
	}
}

// The latest set with a break says where the advice is for; an empty one after it says
// nothing and is in no count.
func TestSelectPool_LatestSetWithABreak(t *testing.T) {
	one := scripted(t, standardSetup(), "m", "w")
	empty := scripted(t, standardSetup(), "m", "w")
	empty.Breaks, empty.Table = nil, "South"
	for name, c := range map[string]struct {
		history []drill.Set
		used    []string
	}{
		"none":              {nil, nil},
		"nothing broken":    {[]drill.Set{empty}, nil},
		"one":               {[]drill.Set{one}, []string{"a1"}},
		"an empty one last": {[]drill.Set{one, empty}, []string{"a1"}},
		"two":               {[]drill.Set{one, one}, []string{"a1", "a2"}},
	} {
		used, leftOut := selectPool(numberSets(c.history...))
		var names []string
		for _, set := range used {
			names = append(names, set.Name)
		}
		if !slices.Equal(names, c.used) || len(leftOut) != 0 {
			t.Errorf("%s: uses %v, leaves out %v", name, names, leftOut)
		}
	}
	other := scripted(t, standardSetup(), "mm", "w")
	other.Table = "South"
	if _, leftOut := selectPool(numberSets(other, one)); len(leftOut) != 1 || leftOut[0].Breaks != 2 {
		t.Errorf("leaves out %v", leftOut)
	}
}
