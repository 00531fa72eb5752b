package component_test

import (
	"testing"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/store/storetest"
	"breakwright/internal/table"
	"breakwright/web/component"
)

// A wing ball that left the table is not said to have stayed up, and is said once.
func TestBreakWords_OffTheTable(t *testing.T) {
	setup := storetest.StandardDrill().Setup
	cue := drill.CueEnd{How: drill.Scratched, Scratch: table.SideLeft}
	for _, c := range []struct {
		off  []rack.Ball
		want string
	}{
		{[]rack.Ball{8}, "The 8 off the table; scratch in the left side pocket"},
		{[]rack.Ball{3}, "The 8 stayed up; the 3 off the table; scratch in the left side pocket"},
		{[]rack.Ball{3, 8}, "The 8 off the table; the 3 off the table; scratch in the left side pocket"},
	} {
		b := drill.Break{Number: 1, Cue: cue, Off: c.off}
		if got := component.BreakWords(b, setup, table.NineFoot()); got != c.want {
			t.Errorf("off %v: %q, want %q", c.off, got, c.want)
		}
	}
}
