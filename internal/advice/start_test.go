package advice

import (
	"math"
	"strings"
	"testing"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/say"
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
	if begin.From != "North" || !strings.Contains(plainText(begin.Statement), "in proportion to the table: about 1½ diamonds from the middle, 20 in there and 15.6 in here.") {
		t.Errorf("from %q: %s", begin.From, plainText(begin.Statement))
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
		if begin.Setup != drill.StandardSetup(rack.NineBall, side, table.SevenFoot()) || begin.From != "" || plainText(begin.Statement) == "" {
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

// Another length of table counts most, then the pockets, then the other side, then another
// table of the same kind.
func TestTableDistance_WhatCountsMost(t *testing.T) {
	on := Conditions{Table: "North", Kind: table.NineFoot(), Side: table.Left}
	same := poolKey{table: "North", kind: table.NineFoot(), side: table.Left}
	another, other, tight, small, eight := same, same, same, same, same
	another.table = "South"
	other.side = table.Right
	tight.kind.CornerMouth--
	eight.kind = table.EightFoot()
	small.kind.Small = !small.kind.Small
	order := []poolKey{same, another, other, tight, small, eight}
	for i, g := range order[1:] {
		if nearer := order[i]; !(tableDistance(nearer, on) < tableDistance(g, on)) {
			t.Errorf("%+v is at %v, and %+v at %v", nearer, tableDistance(nearer, on), g, tableDistance(g, on))
		}
	}
	if got := tableDistance(same, on); got != 0 {
		t.Errorf("the same table is at %v", got)
	}
	both := another
	both.side = table.Right
	if !(tableDistance(both, on) < tableDistance(tight, on)) {
		t.Errorf("the other side of another table is at %v, tighter pockets at %v", tableDistance(both, on), tableDistance(tight, on))
	}
}

// A tenth of the breaks less is good for every half inch that the corners are tighter, down
// to a fifth of them (common practice, no source).
func TestStandardTargetsFor_TightCorners(t *testing.T) {
	for tighter, want := range map[table.Inches]float64{-0.5: 0.5, 0: 0.5, 0.5: 0.4, 1: 0.3, 2: 0.2} {
		k := table.NineFoot()
		k.CornerMouth = table.StandardCornerMouth - tighter
		if got := standardTargetsFor(k).Wing; math.Abs(got-want) > 1e-9 {
			t.Errorf("%v in tighter: a target of %v, want %v", tighter, got, want)
		}
	}
}

// Only sets of the same game in which somebody broke say where to begin; between tables as
// near as each other the better rate does.
func TestStart_OfTheSameGameAndTheBetterRate(t *testing.T) {
	good, poor := scripted(t, setupAtDistance(20), "mmmmmmmmms", "w"), scripted(t, setupAtDistance(10), "mmmmssssss", "w")
	here := Conditions{Table: "North", Kind: table.NineFoot(), Side: table.Left, Game: rack.NineBall}
	for _, history := range [][]drill.Set{{good, poor}, {poor, good}} {
		if begin := SuggestStart(numberSets(history...), here, Brief{}); begin.Setup.Cue.X != -20 || begin.From != "North" {
			t.Errorf("from %q at %v", begin.From, begin.Setup.Cue.X)
		}
	}
	ten := here
	ten.Game = rack.TenBall
	if begin := SuggestStart(numberSets(good), ten, Brief{}); begin.From != "" {
		t.Errorf("ten-ball begins from nine-ball on %q", begin.From)
	}
	one := scripted(t, setupAtDistance(20), "m", "w")
	rules := DefaultRules()
	n := rules.Numbers[RuleNewTable]
	n.MinBreaks = 1
	rules.Numbers[RuleNewTable] = n
	if begin := SuggestStart(numberSets(one), here, Brief{Rules: rules}); begin.From != "North" {
		t.Error("a club that begins from one break is not heard")
	}
}

// Where a setup comes from is said: from here, from another table, and what a table of
// another size or with tighter pockets does to it.
func TestStartStatement_SaysWhatIsDifferent(t *testing.T) {
	on := Conditions{Table: "North", Kind: table.NineFoot(), Side: table.Left, Game: rack.NineBall}
	from := func(name string, k table.Kind, x table.Inches) candidate {
		s := drill.StandardSetup(rack.NineBall, table.Left, k)
		s.Cue.X = x
		return candidate{table: name, kind: k, setup: s, made: 6, tried: 10}
	}
	wide := table.NineFoot()
	wide.CornerMouth += 0.5
	for _, c := range []struct {
		name     string
		from     candidate
		kind     say.StatementKind
		resized  bool
		to       float64
		tighter  int
		diamonds bool
	}{
		{"here", from("North", table.NineFoot(), -18), say.StartHere, false, 0, 0, false},
		{"here, before its pockets were measured", from("North", wide, -18), say.StartFrom, false, 0, 1, false},
		{"another of the same kind", from("South", table.NineFoot(), -18), say.StartFrom, false, 0, 0, false},
		{"another with wider pockets", from("South", wide, -18), say.StartFrom, false, 0, 1, false},
		{"a seven-foot table", from("Bar", table.SevenFoot(), -14), say.StartFrom, true, 14 * 50.0 / 39, 0, true},
		{"one that is beyond what is taught here", from("Bar", table.SevenFoot(), -18.5), say.StartFrom, true, float64(drill.OutermostCue(table.NineFoot())), 0, false},
		{"its long string", from("Bar", table.SevenFoot(), 0), say.StartFrom, true, 0, 0, false},
	} {
		got := startStatement(c.from, on)
		if got.Kind != c.kind || got.Yes != c.resized || math.Abs(got.To-c.to) > 0.01 || got.Way != c.tighter || (got.Diamond != 0) != c.diamonds || got.Count != 6 || got.Of != 10 {
			t.Errorf("%s: %+v", c.name, got)
		}
	}
}
