package rehearsal

import (
	"testing"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// Each fact is taken out and nothing else is; the history itself stays as it was.
func TestRuleAdviser_ForgetsOneFact(t *testing.T) {
	full := drill.Break{
		Number: 1, Speed: 18, WingMiss: drill.MissKissed, CuePath: drill.PathBack, Shot: drill.ShotOpen,
		Cue:   drill.CueEnd{How: drill.Stopped, Place: table.Place{Y: 40}},
		Rails: drill.ObservedCount(6), PastString: drill.ObservedCount(2),
		Rest: []drill.RestingBall{{Ball: 1, Place: table.Place{X: 3, Y: 30}}},
	}
	k := table.NineFoot()
	history := []drill.Set{{Kind: k, Setup: drill.StandardSetup(rack.NineBall, table.Left, k), Breaks: []drill.Break{full}}}
	known := func(b drill.Break) map[Fact]bool {
		return map[Fact]bool{
			FactMisses: b.WingMiss == drill.MissKissed, FactPath: b.CuePath == drill.PathBack, FactRails: b.Rails != nil && b.PastString != nil,
			FactRests: len(b.Rest) == 1, FactShots: b.Shot == drill.ShotOpen, FactSpeed: b.Speed == 18,
		}
	}
	for _, forgotten := range Facts() {
		seen := ruleAdviser{forget: forgetters[forgotten]}.withoutForgotten(history)[0].Breaks[0]
		for fact, is := range known(seen) {
			if is != (fact != forgotten) {
				t.Errorf("without %s: %s is known: %v", forgotten, fact, is)
			}
		}
		if seen.Cue != full.Cue || seen.Number != 1 {
			t.Errorf("without %s: %+v", forgotten, seen)
		}
	}
	if !known(history[0].Breaks[0])[FactMisses] {
		t.Error("the history itself was changed")
	}
}
