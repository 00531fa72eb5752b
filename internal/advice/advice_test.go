package advice

import (
	"math"
	"testing"
)

func TestCauses_AreTheWhole(t *testing.T) {
	causes, sum := Judge(kissedAndForward(t), Brief{}).Causes, 0.0
	for _, c := range causes {
		sum += c.Share
	}
	if len(causes) == 0 || math.Abs(sum-1) > 1e-9 {
		t.Errorf("%v sum to %v", causes, sum)
	}
}
