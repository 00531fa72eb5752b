package advice

import (
	"fmt"

	"breakwright/internal/drill"
	"breakwright/internal/say"
)

// Check says what in a club's numbers cannot be worked with: one sentence a
// field, named "rule.number" as in "wing-miss-balance.certainty".
func (r Rules) Check() error {
	var p drill.Problems
	known := make(map[RuleName]Rule)
	for _, rule := range EverySetting() {
		known[rule.Name] = rule
		if n, set := r.Numbers[rule.Name]; set {
			n.checkAgainst(rule, &p)
		}
	}
	for name := range r.Numbers {
		if _, ok := known[name]; !ok {
			p.Add(string(name), "there is no rule of this name")
		}
	}
	return p.Err()
}

// CheckNumbers is Check of one rule's.
func (r Rule) CheckNumbers(n Numbers) error {
	var p drill.Problems
	n.checkAgainst(r, &p)
	return p.Err()
}

func (n Numbers) checkAgainst(r Rule, p *drill.Problems) {
	field := func(number string) string { return string(r.Name) + "." + number }
	if !(n.Line >= 0 && n.Line < 1) {
		p.Add(field("line"), "a line is a share, from 0 to 100 percent")
	}
	if !(n.Certainty > 0.5 && n.Certainty < 1 || n.Certainty == r.Numbers.Certainty) {
		p.Add(field("certainty"), "a certainty lies above 50 and below 100 percent")
	}
	if !(n.Onward > 0.5 && n.Onward <= max(n.Certainty, r.Numbers.Onward) || n.Onward == r.Numbers.Onward) {
		p.Add(field("onward"), "going on takes more than 50 percent, and no more than beginning does")
	}
	if most := 3 * r.Numbers.Step; r.StepUnit != "" && !(n.Step > 0 && n.Step <= most) {
		what := "a step is"
		if r.StepUnit == WorthUnit {
			what = "it counts"
		}
		p.Add(field("step"), fmt.Sprintf("%s above 0 and at most %s %s", what, say.Hundredths(most), r.StepUnit))
	}
	if n.MinBreaks < 0 || n.MinBreaks > 10*drill.MaxBreaks {
		p.Add(field("min_breaks"), "the fewest breaks lie from 0 to 500")
	}
}
