package advice

import (
	"breakwright/internal/drill"
	"breakwright/internal/evidence"
)

// shortCertainty is how sure a target must be missed, with no pattern in sight,
// before a coach is asked to look.
const shortCertainty = 0.9

// levelBreaks is how many breaks without a pattern are enough to stop looking.
const levelBreaks = 40

// patience says how far ahead the number of breaks still needed is looked for:
// in whole sets, at most four.
func (l *lesson) patience() evidence.Patience {
	return evidence.Patience{
		Chance: l.rules.of(tooEarlyRule).Line,
		Step:   drill.UsualBreaks, Most: 4 * drill.UsualBreaks,
	}
}

// settle says what no change means: the setup is good, many breaks have left
// it near the target, or it is too early to tell.
func (l *lesson) settle(d *decision) {
	breaks := l.seen().breaks
	wing, window := d.sights[FactWing], d.sights[FactWindow]
	n := l.rules.of(progressRule)
	d.good = n.On && breaks >= n.MinBreaks && d.sights[RuleDanger].certainty < 0.5 &&
		wing.certainty >= n.Certainty && window.certainty >= n.Certainty
	if d.good || d.stuck != nil && breaks >= n.MinBreaks {
		d.level = !d.good
		return
	}
	d.needed, d.likely = l.breaksToSettle(d)
	d.short = breaks >= levelBreaks-drill.UsualBreaks &&
		max(1-wing.certainty, 1-window.certainty) >= shortCertainty
	d.level = breaks >= levelBreaks && !d.likely && !d.short
}

// breaksToSettle asks the pattern nearest to its certainty how many more breaks
// would likely settle it; with no pattern in sight, the wing ball's target.
func (l *lesson) breaksToSettle(d *decision) (breaks int, likely bool) {
	if short := fewest - l.seen().breaks; short > 0 {
		return drill.UsualBreaks, true
	}
	lead, question := sight{}, evidence.Question{}
	for i := range rules {
		r := &rules[i]
		s, looked := d.sights[r.Name]
		if looked && r.answer != nil && s.open && s.certainty >= 0.6 && s.certainty > lead.certainty && !l.silenced(r.Name) {
			lead, question = s, evidence.Question{Line: s.line, Certainty: l.rules.of(r.Rule).Certainty}
		}
	}
	if lead.of == 0 {
		lead = d.sights[FactWing]
		question = evidence.Question{Line: l.targets.Wing, Certainty: l.rules.of(progressRule).Certainty}
	}
	breaks, likely = question.BreaksToSettle(lead.belief(), l.patience())
	return max(breaks, drill.UsualBreaks), likely
}
