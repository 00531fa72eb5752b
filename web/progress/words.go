package progress

import (
	"breakwright/internal/advice"
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
	switch p.State {
	case store.Proposed:
		return "proposed, not decided", "ask"
	case store.Approved:
		return "approved, not played yet", ""
	case store.Changed:
		return "changed by the coach, not played yet", ""
	case store.Own:
		return "the coach’s own, not played yet", ""
	case store.Declined:
		return "declined", ""
	case store.Helped:
		return "helped", "good"
	case store.NoDifference:
		return "no real difference", ""
	case store.Hurt:
		return "hurt", "warn"
	case store.InTrial:
		return "being tried out", "ask"
	case store.Superseded:
		return component.SupersededWords(p.Because), ""
	}
	return string(p.State), ""
}

func adviceVerdictWords(verdict string) string {
	switch advice.Verdict(verdict) {
	case advice.More:
		return "The same again."
	case advice.Keep:
		return "Nothing to change."
	case advice.Change:
		return "The rules proposed a change."
	}
	return ""
}
