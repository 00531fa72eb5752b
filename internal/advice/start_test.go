package advice

import (
	"strings"
	"testing"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
)

func onSeven(side table.Side) Conditions {
	return Conditions{Table: "Bar", Kind: table.SevenFoot(), Side: side, Game: rack.NineBall}
}

func TestStart_CarriesTheBestOverAsAFractionOfTheWidth(t *testing.T) {
	poor := scripted(t, setupAtDistance(10), "ssssssssmm", "w")
	best := scripted(t, setupAtDistance(20), "mmmmmmmfss", "w")
	begin := SuggestStart(numberSets(poor, best), onSeven(table.Left), Brief{})
	if got, want := begin.Setup.Cue.X, table.Inches(-20*39.0/50); got != want {
		t.Errorf("starts at %s, want %s", got, want)
	}
	if begin.From != "North" || !strings.Contains(plainText(begin.Said), "in proportion to the table: about 1½ diamonds from the middle, 20 in there and 15.6 in here.") {
		t.Errorf("from %q: %s", begin.From, plainText(begin.Said))
	}
	right := SuggestStart(numberSets(poor, best), onSeven(table.Right), Brief{})
	if right.Setup != begin.Setup.Mirror() {
		t.Errorf("from the right: %+v, want the mirror of %+v", right.Setup, begin.Setup)
	}
}

func TestStart_PrefersTheNearestKindOfTable(t *testing.T) {
	nine := scripted(t, setupAtDistance(20), "mmmmmmmmms", "w")
	near := drill.Set{Student: "Odile", Name: "b1", Table: "Cellar", Kind: table.SevenFoot()}
	near.Setup = drill.StandardSetup(rack.NineBall, table.Left, near.Kind)
	near.Breaks = scripted(t, standardSetup(), "mmmmmsssff", "w").Breaks
	begin := SuggestStart([]drill.Set{nine, near}, onSeven(table.Left), Brief{})
	if begin.From != "Cellar" || begin.Setup != near.Setup {
		t.Errorf("from %q at %+v, want the other 7-foot table", begin.From, begin.Setup)
	}
}

func TestStart_StandardWhenNothingIsKnown(t *testing.T) {
	for _, side := range []table.Side{table.Left, table.Right} {
		begin := SuggestStart(nil, onSeven(side), Brief{})
		if begin.Setup != drill.StandardSetup(rack.NineBall, side, table.SevenFoot()) || begin.From != "" || plainText(begin.Said) == "" {
			t.Errorf("%s: %+v", side, begin)
		}
	}
}

func TestStart_TightPocketsLowerTheTargetNotThePlace(t *testing.T) {
	best := numberSets(scripted(t, setupAtDistance(20), "mmmmmmmfss", "w"))
	tight := table.NineFoot()
	tight.CornerMouth = 4
	begin := SuggestStart(best, Conditions{Table: "Tight", Kind: tight, Side: table.Left, Game: rack.NineBall}, Brief{})
	if begin.Setup.Cue.X != -20 || begin.Targets.Wing >= drill.StandardTargets(tight).Wing {
		t.Errorf("starts at %s with a target of %v", begin.Setup.Cue.X, begin.Targets.Wing)
	}
}
