package advice

import (
	"breakwright/internal/evidence"
	"breakwright/internal/rack"
	"breakwright/internal/say"
)

// Finding is a pattern looked at in a stint, with its counts.
type Finding struct {
	Rule RuleName `json:"rule"`
	// Count of Of breaks (or misses) show the pattern.
	Count int `json:"count"`
	Of    int `json:"of"`
	// Rate is Count/Of; Low and High its 95 % Jeffreys interval. All 0, 0, 1
	// when Of is 0.
	Rate float64 `json:"rate"`
	Low  float64 `json:"low"`
	High float64 `json:"high"`
	// Certainty is the posterior probability that the true rate is beyond the
	// rule's line.
	Certainty float64 `json:"certainty"`
	// Fired says that the pattern is sure enough for a change.
	Fired bool   `json:"fired"`
	Says  string `json:"says"`
	// Statement is Says as data.
	Statement say.Statement `json:"-"`
}

// observation is what a rule saw: a pattern in Count of Of.
type observation struct {
	count, of int
	// line is the rate in question.
	line float64
	// certainty that the true rate is beyond line, and of whatever else the
	// rule asks for: the smallest of them.
	certainty float64
	// towards tells the two ways of a two-sided pattern apart, left frame.
	towards direction
	// open says that more breaks of the same could settle the pattern.
	canSettle bool
	// seen is what is told of a pattern whose count is weighed; nil where count of of
	// is what was seen.
	seen *seenCount
}

// seenCount counts what was seen, each once.
type seenCount struct{ count, of int }

// countSeen returns what is told of the pattern.
func (s observation) countSeen() (count, of int) {
	if s.seen != nil {
		return s.seen.count, s.seen.of
	}
	return s.count, s.of
}

// direction is which way a two-sided pattern points.
type direction int

const (
	noDirection direction = 0
	outward     direction = 1  // toward the side rail; for other parts: more
	inward      direction = -1 // toward the head spot; for other parts: less
)

// rateBelief is what is believed of the pattern's rate.
func (s observation) rateBelief() evidence.Beta {
	return evidence.BetaFromCounts(s.count, s.of, evidence.JeffreysPrior())
}

// observeShare counts a pattern and asks how sure its rate is above the line. With
// nothing observed the certainty is 0: an empty cell is no evidence.
func observeShare(count, of int, line float64) observation {
	s := observation{count: count, of: of, line: line}
	if of > 0 {
		s.certainty = s.rateBelief().ProbAbove(line)
		s.canSettle = true
	}
	return s
}

// certaintyBelow asks how sure the rate is below the line.
func certaintyBelow(count, of int, line float64) float64 {
	if of == 0 {
		return 0
	}
	return evidence.BetaFromCounts(count, of, evidence.JeffreysPrior()).ProbBelow(line)
}

// limitCertainty lowers the certainty to that of a second condition.
func (s observation) limitCertainty(certainty float64) observation {
	s.certainty = min(s.certainty, certainty)
	return s
}

// intervalLevel is how probable it is that a rate lies within a range that is shown.
const intervalLevel = 0.95

// toFinding is the observation as it is shown.
func (s observation) toFinding(name RuleName) Finding {
	count, of := s.countSeen()
	f := Finding{Rule: name, Count: count, Of: of, High: 1, Certainty: s.certainty}
	if of > 0 {
		f.Rate = float64(count) / float64(of)
		i := evidence.JeffreysInterval(count, of, intervalLevel)
		f.Low, f.High = i.Low, i.High
	}
	return f
}

// newFinding is what an observation shows, in numbers and in words.
func (l *analysis) newFinding(name RuleName, s observation) Finding {
	f := s.toFinding(name)
	f.Statement = findingStatement(name, s, l)
	f.Says = plainText(f.Statement)
	return f
}

// findingStatement says what was counted, and nothing more.
func findingStatement(name RuleName, s observation, l *analysis) say.Statement {
	count, of := s.countSeen()
	finding := say.Statement{Kind: say.Finding, About: string(name), Count: count, Of: of}
	switch {
	case name == RuleWeak && l.isSoftAndUncounted():
		finding.Kind = say.SoftFinding
	case name == RuleMissBalance:
		finding.Way = int(s.towards)
	case name == RuleWingUnseen && l.currentSetup().Spot == rack.CentreOnSpot:
		finding.Kind = say.UnaimedFinding
	}
	return finding
}
