package say

import (
	"strings"
	"testing"
	"time"

	"breakwright/internal/table"
)

func TestCounts(t *testing.T) {
	for got, want := range map[string]string{
		Number(0): "none", Number(1): "one", Number(10): "ten", Number(11): "11", Number(-1): "-1",
		Count(0, "set", "sets"): "0 sets", Count(1, "set", "sets"): "1 set", Count(2, "set", "sets"): "2 sets",
		CountOrNo(0, "student", "students"): "no students", CountOrNo(1, "student", "students"): "1 student", CountOrNo(3, "student", "students"): "3 students",
		CountFromOne(1, "break", "breaks"): "one break", CountFromOne(0, "break", "breaks"): "0 breaks", CountFromOne(50_000, "break", "breaks"): "50,000 breaks",
		Thousands(999): "999", Thousands(1000): "1,000", Thousands(1_234_567): "1,234,567", Thousands(-100): "-100", Thousands(-123_456): "-123,456",
		OfTotal(3, 10): "3 of 10",
		Times(0):       "never", Times(1): "once", Times(2): "twice", Times(3): "3 times",
	} {
		if got != want {
			t.Errorf("%q is written, want %q", got, want)
		}
	}
}

func TestPhrases(t *testing.T) {
	day := time.Date(2026, 3, 1, 23, 30, 0, 0, time.UTC)
	for got, want := range map[string]string{
		Capitalize("one set"): "One set", Capitalize("émile"): "Émile", Capitalize("8-foot"): "8-foot",
		Decapitalize("One set"): "one set",
		Sentence("it fell"):     "It fell.",
		Join([]string{"a"}):     "a", Join([]string{"a", "b"}): "a and b", Join([]string{"a", "b", "c"}): "a, b and c",
		Day(day): "1 March 2026", Day(day.In(time.FixedZone("east", 3600))): "2 March 2026",
	} {
		if got != want {
			t.Errorf("%q is written, want %q", got, want)
		}
	}
	if of := Capitalize("") + Decapitalize("") + Sentence("") + Join(nil); of != "" {
		t.Errorf("of nothing comes %q", of)
	}
}

func TestMeasures(t *testing.T) {
	for got, want := range map[string]string{
		Inches(18): "18 inches", Inches(1): "1 inch", Inches(0.96): "1 inch", Inches(0.34): "0.3 inches", Inches(0): "0 inches", Inches(-2.04): "-2 inches",
		// One mile an hour is 1.609344 km/h (the international mile of 1959).
		Speed(18): "18 mph (29 km/h)", Speed(17.55): "17.6 mph (28 km/h)",
	} {
		if got != want {
			t.Errorf("%q is written, want %q", got, want)
		}
	}
	if near := Inches(table.Inches(-0.01)); strings.HasPrefix(near, "-") {
		t.Errorf("next to nothing is written %q", near)
	}
}
