//go:build !quick

package rehearsal

import (
	"bytes"
	"encoding/json"
	"reflect"
	"strings"
	"testing"
)

// Both students stand at one world, which both workers ask for at once.
func TestRun_OnPhysicalStudents(t *testing.T) {
	plan, from, err := Options{Students: 2, Sets: 1, Seed: 6, Faults: []Fault{Speed}, Model: PhysicsModel, Workers: 2}.complete()
	if err != nil {
		t.Fatal(err)
	}
	// Few breaks tell as well whether a run comes again; what is best is TestOracle's.
	from.usualBreaks, from.fineBreaks = 60, 60
	from.findBest = func(s Student, t *rateCounter) bestChange {
		return bestChange{s.Start, s.valueOf(t.fineRates(s.Start))}
	}
	together, err := plan.hold(t.Context(), from)
	if err != nil {
		t.Fatal(err)
	}
	plan.Workers = 1
	alone, err := plan.hold(t.Context(), from)
	if err != nil {
		t.Fatal(err)
	}
	if !reflect.DeepEqual(alone, together) {
		t.Errorf("with one worker %+v\nwith two %+v", alone, together)
	}
	out, err := json.Marshal(alone)
	var back struct {
		Model  string
		Margin float64
		Rows   []struct {
			Fault string
			Start map[string]float64 `json:"start_rates"`
			Gain  Mean
		}
	}
	if err == nil {
		err = json.Unmarshal(out, &back)
	}
	if err != nil || back.Model != "physics" || back.Margin != ComputedMargin || len(back.Rows) == 0 || back.Rows[0].Fault != "speed" {
		t.Fatalf("%v: %s", err, out)
	}
	if s := back.Rows[0].Start; len(s) != 10 || s["Wing"] != alone.Rows[0].StartRates.Wing || s["Wing"] <= 0 {
		t.Errorf("start %v", s)
	}
	var page bytes.Buffer
	if err := alone.WriteText(&page); err != nil || !strings.Contains(page.String(), "--model physics --students 2 --sets 1") || strings.Contains(page.String(), "NaN") {
		t.Errorf("%v\n%s", err, page.String())
	}
}
