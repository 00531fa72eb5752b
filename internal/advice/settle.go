package advice

import (
	"breakwright/internal/drill"
	"breakwright/internal/evidence"
)

// goodEnough is how sure both targets must be met before the aim is raised,
// and goodBreaks on how many breaks.
const (
	goodEnough  = 0.8
	goodBreaks  = 20
	levelBreaks = 40
)

// patience says how far ahead the number of breaks still needed is looked for:
// in whole sets, until an answer is as likely as not, at most four sets.
var patience = evidence.Patience{Chance: 0.5, Step: drill.UsualBreaks, Most: 4 * drill.UsualBreaks}

// settle says what no change means: the setup is good, many breaks have left
// it near the target, or it is too early to tell.
func (l *lesson) settle(d *decision) {
	breaks := l.seen().breaks
	wing, window := d.sights[FactWing], d.sights[FactWindow]
	d.good = breaks >= goodBreaks && wing.certainty >= goodEnough && window.certainty >= goodEnough &&
		d.sights[RuleDanger].certainty < 0.5
	if d.good || d.stuck != nil && breaks >= goodBreaks {
		d.level = !d.good
		return
	}
	d.needed, d.likely = l.breaksToSettle(d)
	d.level = breaks >= levelBreaks && !d.likely
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
		question = evidence.Question{Line: l.targets.Wing, Certainty: goodEnough}
	}
	breaks, likely = question.BreaksToSettle(lead.belief(), patience)
	return max(breaks, drill.UsualBreaks), likely
}
