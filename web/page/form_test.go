package page

import (
	"math"
	"testing"
)

// Numbers are read as people write them, with the sign that a page prints, too.
func TestForm_ReadsNumbersAsWritten(t *testing.T) {
	for typed, want := range map[string]float64{"-0.1": -0.1, "−0,1": -0.1, "–0.1": -0.1, " 18 ": 18, "+2": 2} {
		f := NewForm(map[string]string{"n": typed})
		if got := f.Number("n", "no number"); got != want || !f.IsValid() {
			t.Errorf("%q is read as %v, %v", typed, got, f.Problems)
		}
	}
	for _, typed := range []string{"", "−", "1−2", "NaN", "Inf"} {
		f := NewForm(map[string]string{"n": typed})
		if got := f.Number("n", "no number"); got != 0 || f.ErrorFor("n") != "No number." {
			t.Errorf("%q is read as %v", typed, got)
		}
		if got := f.NumberOrNaN("n", "no number"); !math.IsNaN(got) {
			t.Errorf("%q is read as %v, not as what is in no range", typed, got)
		}
	}
}
