package drill

import (
	"slices"
	"unicode/utf8"
)

// ClubRules are what a club has set otherwise in the adviser's rules. The zero
// ClubRules are the rules as they come.
type ClubRules struct {
	// Revision counts the club's changes; 0 before the first. Advice names it,
	// so that it can be explained when the rules are others.
	Revision int
	// Settings are by the rule's name. A rule that is not among them, or whose
	// numbers are all nil, is as it comes.
	Settings []RuleSetting
}

// SettingOf returns what is set for a rule; all nil when nothing is.
func (c ClubRules) SettingOf(rule string) RuleSetting {
	for _, s := range c.Settings {
		if s.Rule == rule {
			return s
		}
	}
	return RuleSetting{Rule: rule}
}

// WithSetting returns the rules with one setting in the place of the rule's own.
func (c ClubRules) WithSetting(set RuleSetting) ClubRules {
	others := slices.DeleteFunc(slices.Clone(c.Settings), func(s RuleSetting) bool { return s.Rule == set.Rule })
	return ClubRules{Revision: c.Revision, Settings: append(others, set)}
}

// WithoutStandard leaves out the settings that set nothing.
func (c ClubRules) WithoutStandard() ClubRules {
	own := ClubRules{Revision: c.Revision}
	for _, s := range c.Settings {
		if !s.IsStandard() {
			own.Settings = append(own.Settings, s)
		}
	}
	return own
}

// RuleSetting is what a club has set for one rule. Nil is as the rule comes.
type RuleSetting struct {
	// Rule is the adviser's name for it.
	Rule string
	// On is false when the rule is switched off.
	On *bool
	// Line is a share from 0 to below 1; Certainty and Onward are from above
	// 0.5 to below 1.
	Line, Certainty, Onward *float64
	// Step is in the rule's own unit, above 0.
	Step *float64
	// MinBreaks is from 0 to 500.
	MinBreaks *int
}

// IsStandard reports whether nothing of the rule is set.
func (s RuleSetting) IsStandard() bool { return s.Equal(RuleSetting{Rule: s.Rule}) }

// Equal compares what is set.
func (s RuleSetting) Equal(o RuleSetting) bool {
	return s.Rule == o.Rule && equalPointers(s.On, o.On) && equalPointers(s.Line, o.Line) && equalPointers(s.Certainty, o.Certainty) &&
		equalPointers(s.Onward, o.Onward) && equalPointers(s.Step, o.Step) && equalPointers(s.MinBreaks, o.MinBreaks)
}

func equalPointers[T comparable](a, b *T) bool {
	return a == b || a != nil && b != nil && *a == *b
}

// CheckRuleSettings refuses what no rule can have. Fields are named "rule.number",
// as the adviser names them. Whether there is a rule of that name is not asked.
func CheckRuleSettings(settings []RuleSetting) error {
	var p Problems
	seen := map[string]bool{}
	for _, s := range settings {
		if n := utf8.RuneCountInString(s.Rule); n < 1 || n > 60 || !utf8.ValidString(s.Rule) || seen[s.Rule] {
			p.Add("rule", "each rule has its name, and is set once")
		}
		seen[s.Rule] = true
		s.addProblems(&p)
	}
	return p.Err()
}

// addProblems is written so that what is no number is refused, too.
func (s RuleSetting) addProblems(p *Problems) {
	refuse := func(number, says string) { p.Add(s.Rule+"."+number, says) }
	if s.Line != nil && !(*s.Line >= 0 && *s.Line < 1) {
		refuse("line", "a line is a share, from 0 to below 100 percent")
	}
	if s.Certainty != nil && !isCertainty(*s.Certainty) {
		refuse("certainty", "a certainty lies above 50 and below 100 percent")
	}
	if s.Onward != nil && !isCertainty(*s.Onward) {
		refuse("onward", "a certainty lies above 50 and below 100 percent")
	}
	if s.Step != nil && !(*s.Step > 0 && *s.Step <= 100) {
		refuse("step", "a step is above 0 and at most 100")
	}
	if s.MinBreaks != nil && !(*s.MinBreaks >= 0 && *s.MinBreaks <= 500) {
		refuse("min_breaks", "the fewest breaks lie from 0 to 500")
	}
}

func isCertainty(v float64) bool { return v > 0.5 && v < 1 }
