package progress

import (
	"breakwright/internal/evidence"
	"breakwright/internal/store"
	"breakwright/web/component"
	"breakwright/web/picture"
)

// intervalLevel is that of every interval on these pages.
const intervalLevel = 0.95

// newRate makes the bar of a count with its Jeffreys interval.
func newRate(id, label string, made, of int) picture.RateView {
	i := evidence.JeffreysInterval(made, of, intervalLevel)
	if of == 0 {
		i = evidence.Interval{}
	}
	return picture.RateView{ID: id, Label: label, Made: made, Of: of, Low: i.Low, High: i.High}
}

// withTarget draws a rate with its target.
func withTarget(target float64, r picture.RateView) picture.RateView {
	r.Target = target
	return r
}

// prescriptionStateWords says what became of a prescription, and the class of its tag.
func prescriptionStateWords(p store.Prescription) (words, mark string) {
	words = component.ProgressWords(p.Change())
	switch p.State {
	case store.Proposed:
		return "proposed, not decided", "ask"
	case store.Approved:
		return "approved, " + words, ""
	case store.Changed:
		return "changed by the coach, " + words, ""
	case store.Own:
		return "the coach’s own, " + words, ""
	case store.Helped:
		return words, "good"
	case store.Hurt:
		return words, "warn"
	case store.InTrial:
		return words, "ask"
	}
	return words, ""
}
