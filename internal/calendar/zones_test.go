package calendar

import (
	"slices"
	"testing"
	"time"
)

func TestZones_AllAreKnown(t *testing.T) {
	names := Zones()
	for _, name := range names {
		if _, err := time.LoadLocation(name); err != nil || name == "" {
			t.Errorf("%q: %v", name, err)
		}
	}
	if len(names) < 300 || names[0] != "UTC" || !slices.IsSorted(names[1:]) || !slices.Contains(names, "Europe/Lisbon") {
		t.Errorf("%d zones, the first %v", len(names), names[:3])
	}
}
