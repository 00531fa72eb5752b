package advice

import (
	"breakwright/internal/rack"
	"breakwright/internal/say"
)

// newFinding is what an observation shows, in numbers and in words.
func (l *analysis) newFinding(name RuleName, s observation) Finding {
	f := s.toFinding(name)
	f.Said = findingStatement(name, s, l)
	f.Says = asTold(f.Said)
	return f
}

// findingStatement says what was counted, and nothing more.
func findingStatement(name RuleName, s observation, l *analysis) say.Statement {
	said := say.Statement{Kind: say.Finding, About: string(name), Count: s.count, Of: s.of}
	switch {
	case name == RuleWeak && l.isSoftAndUncounted():
		said.Kind = say.SoftFinding
	case name == RuleMissBalance:
		said.Way = int(s.towards)
	case name == RuleWingUnseen && l.currentSetup().Spot == rack.CentreOnSpot:
		said.Kind = say.UnaimedFinding
	}
	return said
}
