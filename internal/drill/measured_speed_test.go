package drill

import (
	"testing"

	"breakwright/internal/table"
)

func TestMedianSpeed(t *testing.T) {
	for _, c := range []struct {
		measured []table.Mph
		want     table.Mph
		of       int
	}{
		{nil, 0, 0}, {[]table.Mph{0, 0}, 0, 0}, {[]table.Mph{18, 0, 16}, 17, 2},
		{[]table.Mph{20, 16.24, 17}, 17, 3}, {[]table.Mph{16.24}, 16.2, 1},
	} {
		var breaks []Break
		for _, speed := range c.measured {
			breaks = append(breaks, Break{Speed: speed})
		}
		if got, of := MedianSpeed(breaks); got != c.want || of != c.of {
			t.Errorf("median of %v is %s of %d breaks, want %s of %d", c.measured, got, of, c.want, c.of)
		}
	}
}
