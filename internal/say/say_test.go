package say

import (
	"math"
	"strconv"
	"testing"
	"time"
)

func TestCounts(t *testing.T) {
	for got, want := range map[string]string{
		Number(0): "none", Number(1): "one", Number(10): "ten", Number(11): "11", Number(-1): "-1",
		Count(0, "set", "sets"): "0 sets", Count(1, "set", "sets"): "1 set", Count(2, "set", "sets"): "2 sets",
		CountOrNo(0, "student", "students"): "no students", CountOrNo(1, "student", "students"): "1 student", CountOrNo(3, "student", "students"): "3 students",
		CountFromOne(1, "break", "breaks"): "one break", CountFromOne(0, "break", "breaks"): "0 breaks", CountFromOne(50_000, "break", "breaks"): "50,000 breaks",
		Thousands(999): "999", Thousands(1000): "1,000", Thousands(1_234_567): "1,234,567", Thousands(-100): "-100", Thousands(-123_456): "-123,456",
		OfTotal(3, 10): "3 of 10", CountOf(1, 1, "student", "students"): "1 of 1 student", CountOf(1, 2, "student", "students"): "1 of 2 students",
		Times(0): "never", Times(1): "once", Times(2): "twice", Times(3): "3 times",
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
		ShortDay(day): "1 Mar", ShortMoment(day): "1 Mar, 23:30", ShortWeekdayMoment(day): "Sun 1 Mar, 23:30",
	} {
		if got != want {
			t.Errorf("%q is written, want %q", got, want)
		}
	}
	if of := Capitalize("") + Decapitalize("") + Sentence("") + Join(nil); of != "" {
		t.Errorf("of nothing comes %q", of)
	}
}

// An inch is 2.54 cm and a mile an hour 1.609344 km/h, both exact (the yard and
// mile of 1959).
func TestUnits_SayAMeasureAsFineAsACoachWould(t *testing.T) {
	const trade = InchesAndMiles
	for got, want := range map[string]string{
		trade.Length(18): "18 inches", trade.Length(1): "1 inch", trade.Length(0.96): "1 inch", trade.Length(0.34): "0.3 inches",
		trade.Length(0): "0 inches", trade.Length(-2.04): "-2 inches", trade.Length(-0.01): "0 inches",
		trade.Contact(0.2): "0.2 inches", trade.Contact(1): "1 inch", trade.Contact(1.0 / 3): "0.33 inches",
		trade.Speed(18): "18 mph", trade.Speed(17.55): "17.6 mph", trade.WithShort(Mouth, 4.25): "4.25 in",
		Metric.Length(18): "46 cm", Metric.Contact(-0.2): "-5 mm", Metric.Speed(18): "29 km/h", Metric.WithShort(Mouth, 4.5): "11.4 cm",
		trade.NumberBeside(Place, 16.04, 16): "16.04", trade.NumberBeside(Place, 15, 18): "15", Metric.NumberBeside(Place, 18, 18.1): "45.7",
	} {
		if got != want {
			t.Errorf("%q is written, want %q", got, want)
		}
	}
}

// What a field shows and nobody types over comes back as it was kept; what somebody
// types comes back as they typed it.
func TestUnits_TypedNumbersComeBack(t *testing.T) {
	for _, m := range []Quantity{Place, Contact, Mouth, Speed} {
		for tenths := -500; tenths <= 500; tenths++ {
			kept := float64(tenths) / 10
			for _, u := range []Units{InchesAndMiles, Metric} {
				shown, _ := strconv.ParseFloat(u.Typed(m, kept), 64)
				if back := u.ReadTyped(m, shown); back != kept {
					t.Fatalf("%v is shown as %v %s and read as %v", kept, shown, u.Short(m), back)
				}
			}
			if shown := Metric.Typed(m, Metric.ReadTyped(m, kept)); shown != shortest(kept) {
				t.Fatalf("%v %s is typed and shown as %s", kept, Metric.Short(m), shown)
			}
		}
	}
	if v := Metric.ReadTyped(Place, math.NaN()); v == v {
		t.Errorf("no number is read as %v", v)
	}
}
