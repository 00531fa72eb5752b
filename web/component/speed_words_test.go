package component

import (
	"testing"

	"breakwright/internal/drill"
	"breakwright/internal/say"
	"breakwright/internal/table"
)

// What was played stands beside what was set, where they differ.
func TestMeasuredSpeedWords(t *testing.T) {
	for _, c := range []struct {
		instructed table.Mph
		measured   []table.Mph
		want       string
	}{
		{18, []table.Mph{0, 0}, ""},
		{18, []table.Mph{15, 0, 15.2, 14}, "Speed: measured in 3 of 4, the middle one 15 mph; the setup says 18 mph."},
		{18, []table.Mph{17.5, 18.1}, "Speed: measured in 2 of 2, the middle one 17.8 mph."},
		{0, []table.Mph{16}, "Speed: measured in 1 of 1, the middle one 16 mph."},
	} {
		var breaks []drill.Break
		for _, speed := range c.measured {
			breaks = append(breaks, drill.Break{Speed: speed})
		}
		if says := MeasuredSpeedWords(drill.Setup{Speed: c.instructed}, breaks, say.InchesAndMiles); says != c.want {
			t.Errorf("%v under %v: %q, want %q", c.measured, c.instructed, says, c.want)
		}
	}
}
