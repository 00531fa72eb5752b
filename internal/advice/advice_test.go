package advice

import (
	"math"
	"testing"

	"breakwright/internal/belief"
)

// Shares as they are told still add up to one, and none is told surer than the
// rehearsal bears out.
func TestCause_SharesAreToldWithCaution(t *testing.T) {
	sum := 0.0
	for i := range belief.Causes() {
		c := Cause{Share: 0}
		if i == 0 {
			c.Share = 1
			if got := c.CautiousShare(); got > 0.75 {
				t.Errorf("a sure cause is told with %.2f", got)
			}
		}
		sum += c.CautiousShare()
	}
	if math.Abs(sum-1) > 1e-9 {
		t.Errorf("the shares add up to %v", sum)
	}
}
