package page

import (
	"slices"
	"testing"
	"time"
	_ "time/tzdata"
)

// Every zone that can be chosen is one that the program can keep days in.
func TestZoneOptions_AreKnown(t *testing.T) {
	options := ZoneOptions("")
	if len(options) < 300 {
		t.Fatalf("only %d zones", len(options))
	}
	for _, option := range options {
		if _, err := time.LoadLocation(option.Value); err != nil {
			t.Errorf("%s: %v", option.Value, err)
		}
	}
	const old = "Europe/Amsterdam" // an alias since 2022, which a club may have
	if !slices.Contains(ZoneOptions(old), Option{Value: old, Words: old}) {
		t.Error("the club's own zone is not among them")
	}
}
