package breaklog

import (
	"reflect"
	"strconv"
	"strings"

	"breakwright/internal/drill"
)

// A club's own numbers of the adviser's rules stand in one cell, only what is not as
// the rules come: "revision=7;unsteady line=0.3 min_breaks=12;dry-break on=no".

const (
	rulesRevision = "revision"
	// A rule is switched on or off.
	switchedOn, switchedOff = "yes", "no"
)

// latestRevision bounds what is read; no club changes its rules a million times.
const latestRevision = 1_000_000

// ruleNumber is one number of a rule as the cell has it.
type ruleNumber struct {
	name string
	// write returns "" for what is not set; read reports whether it could be read.
	write func(drill.RuleSetting) string
	read  func(*drill.RuleSetting, string) bool
}

var ruleNumbers = []ruleNumber{
	{"on", func(s drill.RuleSetting) string {
		switch {
		case s.On == nil:
			return ""
		case *s.On:
			return switchedOn
		}
		return switchedOff
	}, func(s *drill.RuleSetting, text string) bool {
		s.On = new(text == switchedOn)
		return *s.On || text == switchedOff
	}},
	ruleDecimal("line", func(s *drill.RuleSetting) **float64 { return &s.Line }),
	ruleDecimal("certainty", func(s *drill.RuleSetting) **float64 { return &s.Certainty }),
	ruleDecimal("onward", func(s *drill.RuleSetting) **float64 { return &s.Onward }),
	ruleDecimal("step", func(s *drill.RuleSetting) **float64 { return &s.Step }),
	{"min_breaks", func(s drill.RuleSetting) string {
		if s.MinBreaks == nil {
			return ""
		}
		return strconv.Itoa(*s.MinBreaks)
	}, func(s *drill.RuleSetting, text string) bool {
		n, err := strconv.Atoi(text)
		s.MinBreaks = &n
		return err == nil
	}},
}

func ruleDecimal(name string, of func(*drill.RuleSetting) **float64) ruleNumber {
	return ruleNumber{name, func(s drill.RuleSetting) string {
		if v := *of(&s); v != nil {
			return formatDecimal(*v)
		}
		return ""
	}, func(s *drill.RuleSetting, text string) bool {
		v, why := parseDecimal(text)
		*of(s) = &v
		return why == ""
	}}
}

// writeRules writes a club's rules; "" for the rules as they come.
func writeRules(c drill.ClubRules) string {
	var parts []string
	if c.Revision != 0 {
		parts = append(parts, rulesRevision+"="+strconv.Itoa(c.Revision))
	}
	for _, s := range c.Settings {
		part := s.Rule
		for _, number := range ruleNumbers {
			if text := number.write(s); text != "" {
				part += " " + number.name + "=" + text
			}
		}
		parts = append(parts, part)
	}
	return strings.Join(parts, ";")
}

// parseRules reads what writeRules writes. Numbers that no rule can have are refused;
// whether there is a rule of that name is the adviser's to know.
func parseRules(text string) (c drill.ClubRules, ok bool) {
	for part := range strings.SplitSeq(text, ";") {
		words := strings.Fields(part)
		if len(words) == 0 {
			continue
		}
		if revision, found := strings.CutPrefix(words[0], rulesRevision+"="); found {
			n, err := strconv.Atoi(revision)
			if err != nil || n < 1 || n > latestRevision || len(words) > 1 || c.Revision != 0 {
				return c, false
			}
			c.Revision = n
			continue
		}
		set, ok := parseRuleSetting(words)
		if !ok {
			return c, false
		}
		c.Settings = append(c.Settings, set)
	}
	return c, drill.CheckRuleSettings(c.Settings) == nil
}

func parseRuleSetting(words []string) (s drill.RuleSetting, ok bool) {
	if len(words) < 2 || !isRuleName(words[0]) {
		return s, false
	}
	s.Rule = strings.Clone(words[0])
	for _, word := range words[1:] {
		name, text, _ := strings.Cut(word, "=")
		before := s
		for _, number := range ruleNumbers {
			if number.name == name && number.write(s) == "" && !number.read(&s, text) {
				return s, false
			}
		}
		if s == before { // an unknown name, or one that was there
			return s, false
		}
	}
	return s, true
}

// canReadBack reports whether rules are read as they are written.
func canReadBack(c drill.ClubRules) bool {
	got, ok := parseRules(writeRules(c))
	return ok && reflect.DeepEqual(got, c)
}

func (r *logReader) readRules() drill.ClubRules {
	c, ok := parseRules(r.cellText(colRules))
	if !ok {
		r.rejectCell(colRules, "a club's own numbers such as “revision=7;unsteady line=0.3 min_breaks=12;dry-break on=no” are accepted: the revision of its rules, and for each rule what is not as it comes: on, line, certainty, onward, step, min_breaks")
		return drill.ClubRules{}
	}
	return c
}
