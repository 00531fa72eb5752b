package component

import (
	"testing"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/say"
	"breakwright/internal/table"
)

func TestJudgeByHouse(t *testing.T) {
	k := table.NineFoot()
	s := drill.StandardSetup(rack.NineBall, table.Left, k)
	s.Cue.X = -8
	down := func(balls ...rack.Ball) (b drill.Break) {
		for _, ball := range balls {
			b.Pocketed = append(b.Pocketed, drill.Pocketed{Ball: ball, Pocket: table.FootLeft})
		}
		return b
	}
	counted := down(4)
	counted.PastString = drill.ObservedCount(1)
	breaks := []drill.Break{down(2, 5, 7), counted, down(4)} // kept, not kept, not known
	h := drill.HouseRules{ThreePoints: true, BreakBox: 8}
	lines := make([]BreakLine, len(breaks))
	JudgeByHouse(lines, breaks, s, h)
	if says := HouseCountWords(h, s, breaks); says != "House rules kept in 1 of 2. Not known of 1 of 3: the balls past the head string were not counted." {
		t.Error(says)
	}
	if lines[0].House != "" || lines[1].House != "2 of the three points: balls pocketed or past the head string" || lines[2].House != "" {
		t.Errorf("%+v", lines)
	}
	twice := down(4, 5) // the one past the string may be one of them
	twice.PastString = drill.ObservedCount(1)
	if says := HouseCountWords(h, s, append(breaks, twice)); says != "House rules kept in 1 of 2. Not known of 2 of 4: the balls past the head string were not counted, or what was counted leaves it open, as a ball that crossed the string may be one that dropped." {
		t.Error(says)
	}
	s.Cue.X = -9
	if says := HouseCountWords(h, s, breaks); says != "House rules kept in 0 of 3." {
		t.Errorf("from outside the box: %q", says)
	}
	if says := HouseRuleWords(h, say.InchesAndMiles); says != "House rules: three balls pocketed or past the head string; the cue ball at most 8 in from the long string." {
		t.Error(says)
	}
	if says := HouseRuleWords(drill.HouseRules{}, say.InchesAndMiles) + HouseCountWords(drill.HouseRules{}, s, breaks); says != "" {
		t.Error(says)
	}
}
