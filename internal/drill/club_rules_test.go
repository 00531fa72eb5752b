package drill

import (
	"math"
	"slices"
	"strings"
	"testing"
)

// Each limit is taken itself, and what is past it by a little is not.
func TestCheckRuleSettings_Limits(t *testing.T) {
	for _, c := range []struct {
		field   string
		taken   bool
		setting RuleSetting
	}{
		{"line", true, RuleSetting{Line: new(0.0)}},
		{"line", true, RuleSetting{Line: new(0.999)}},
		{"line", false, RuleSetting{Line: new(1.0)}},
		{"line", false, RuleSetting{Line: new(-0.001)}},
		{"line", false, RuleSetting{Line: new(math.NaN())}},
		{"certainty", true, RuleSetting{Certainty: new(0.501)}},
		{"certainty", false, RuleSetting{Certainty: new(0.5)}},
		{"certainty", true, RuleSetting{Certainty: new(0.999)}},
		{"certainty", false, RuleSetting{Certainty: new(1.0)}},
		{"certainty", false, RuleSetting{Certainty: new(math.NaN())}},
		{"onward", true, RuleSetting{Onward: new(0.501)}},
		{"onward", false, RuleSetting{Onward: new(0.5)}},
		{"step", true, RuleSetting{Step: new(0.001)}},
		{"step", false, RuleSetting{Step: new(0.0)}},
		{"step", true, RuleSetting{Step: new(100.0)}},
		{"step", false, RuleSetting{Step: new(100.1)}},
		{"min_breaks", true, RuleSetting{MinBreaks: new(0)}},
		{"min_breaks", false, RuleSetting{MinBreaks: new(-1)}},
		{"min_breaks", true, RuleSetting{MinBreaks: new(500)}},
		{"min_breaks", false, RuleSetting{MinBreaks: new(501)}},
	} {
		c.setting.Rule = "wing_dry"
		err := CheckRuleSettings([]RuleSetting{c.setting})
		if refuses(err, "wing_dry."+c.field) == c.taken || (err == nil) != c.taken {
			t.Errorf("%s: %+v gives %v, taken should be %v", c.field, c.setting, err, c.taken)
		}
	}
}

func TestCheckRuleSettings_NamesAreThereOnce(t *testing.T) {
	for _, c := range []struct {
		names []string
		taken bool
	}{
		{[]string{"a", strings.Repeat("é", 60)}, true},
		{[]string{strings.Repeat("é", 61)}, false},
		{[]string{""}, false},
		{[]string{"a\xff"}, false},
		{[]string{"a", "b", "a"}, false},
	} {
		var settings []RuleSetting
		for _, name := range c.names {
			settings = append(settings, RuleSetting{Rule: name})
		}
		if err := CheckRuleSettings(settings); (err == nil) != c.taken {
			t.Errorf("%q: %v", c.names, err)
		}
	}
}

// Two settings are equal when the same is set to the same, wherever it is kept.
func TestRuleSetting_Equal(t *testing.T) {
	full := func() RuleSetting {
		return RuleSetting{Rule: "a", On: new(true), Line: new(0.1), Certainty: new(0.8), Onward: new(0.9), Step: new(1.0), MinBreaks: new(10)}
	}
	if !full().Equal(full()) || full().IsStandard() || !(RuleSetting{Rule: "a"}).IsStandard() {
		t.Fatal("what is the same differs, or what is set is not")
	}
	for name, change := range map[string]func(*RuleSetting){
		"rule": func(s *RuleSetting) { s.Rule = "b" }, "on": func(s *RuleSetting) { s.On = new(false) }, "no on": func(s *RuleSetting) { s.On = nil },
		"line": func(s *RuleSetting) { s.Line = new(0.2) }, "certainty": func(s *RuleSetting) { s.Certainty = nil },
		"onward": func(s *RuleSetting) { s.Onward = new(0.8) }, "step": func(s *RuleSetting) { s.Step = nil }, "min breaks": func(s *RuleSetting) { s.MinBreaks = new(11) },
	} {
		other := full()
		change(&other)
		if other.Equal(full()) || full().Equal(other) {
			t.Errorf("%s: %+v is as before", name, other)
		}
	}
}

func TestClubRules_Settings(t *testing.T) {
	rules := ClubRules{Revision: 3, Settings: []RuleSetting{{Rule: "a", Step: new(1.0)}, {Rule: "b", Step: new(2.0)}, {Rule: "c"}}}
	if got := rules.SettingOf("b"); got.Step == nil || *got.Step != 2 {
		t.Errorf("b is set to %+v", got)
	}
	if got := rules.SettingOf("d"); got.Rule != "d" || !got.IsStandard() {
		t.Errorf("d, of which nothing is set, is %+v", got)
	}
	names := func(c ClubRules) (all []string) {
		for _, s := range c.Settings {
			all = append(all, s.Rule)
		}
		return all
	}
	own := rules.WithoutStandard()
	if own.Revision != 3 || !slices.Equal(names(own), []string{"a", "b"}) {
		t.Errorf("what the club set itself is %+v", own)
	}
	other := rules.WithSetting(RuleSetting{Rule: "a", Step: new(5.0)})
	if other.Revision != 3 || !slices.Equal(names(other), []string{"b", "c", "a"}) || *other.SettingOf("a").Step != 5 {
		t.Errorf("with another a the rules are %+v", other)
	}
	if *rules.SettingOf("a").Step != 1 {
		t.Error("the rules before have changed")
	}
}
