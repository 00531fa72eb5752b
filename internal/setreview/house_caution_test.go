package setreview

import (
	"strings"
	"testing"

	"breakwright/internal/advice"
	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/say"
	"breakwright/internal/table"
)

// A proposal that leaves the break box, or slows a three-point break, says so; what
// keeps to the rules says nothing more.
func TestAddHouseCaution(t *testing.T) {
	in := drill.StandardSetup(rack.NineBall, table.Right, table.NineFoot())
	in.Cue.X = 8
	out, slower := in, in
	out.Cue.X, slower.Speed = 9, in.Speed-1
	rules := drill.HouseRules{ThreePoints: true, BreakBox: 8}
	for name, c := range map[string]struct {
		vary advice.Variable
		next drill.Setup
		h    drill.HouseRules
		says string
	}{
		"out of the box":    {advice.VaryPlace, out, rules, "outside the room's break box, which reaches 8 in"},
		"slower":            {advice.VarySpeed, slower, rules, "three-point rule"},
		"within":            {advice.VaryPlace, in, rules, ""},
		"no rules":          {advice.VaryPlace, out, drill.HouseRules{}, ""},
		"slower, no points": {advice.VarySpeed, slower, drill.HouseRules{BreakBox: 8}, ""},
	} {
		p := advice.Prescription{Variable: c.vary, CautionStatement: say.KeptWords("Level the cue."), Caution: "Level the cue."}
		addHouseCaution(&p, in, c.next, c.h)
		if more := strings.TrimPrefix(p.Caution, "Level the cue."); (more == "") != (c.says == "") || !strings.Contains(more, c.says) {
			t.Errorf("%s: %q", name, p.Caution)
		}
	}
}
