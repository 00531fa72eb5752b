package progress

import (
	"fmt"
	"strings"

	"breakwright/internal/advice"
	"breakwright/internal/evidence"
	"breakwright/internal/store"
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

func outOfWords(made, of int) string { return fmt.Sprintf("%d of %d", made, of) }

// variableChangeWords names a change shortly: "cue ball 18 → 16 in". Places are out from
// the long string on both sides.
func variableChangeWords(variable, from, to, unit string) string {
	name := map[advice.Variable]string{
		advice.VaryPlace: "cue ball", advice.VaryContact: "contact", advice.VaryTip: "tip", advice.VarySpin: "side spin",
		advice.VarySpeed: "speed", advice.VaryRack: "rack order",
	}[advice.Variable(variable)]
	if name == "" {
		name = variable
	}
	switch advice.Variable(variable) {
	case advice.VaryRack:
		return name
	case advice.VaryPlace:
		from, to = strings.TrimPrefix(from, "-"), strings.TrimPrefix(to, "-")
	}
	minus := strings.NewReplacer("-", "−")
	words := name + " " + minus.Replace(from) + " → " + minus.Replace(to)
	switch unit {
	case "radius":
		return words + " of the radius"
	case "":
		return words
	}
	return words + " " + unit
}

// prescriptionStateWords says what became of a prescription, and the class of its tag.
func prescriptionStateWords(p store.Prescription) (words, mark string) {
	switch p.State {
	case store.Proposed:
		if !p.Superseded.IsZero() {
			return "replaced by a newer one", ""
		}
		return "proposed, not decided", "ask"
	case store.Approved:
		return "approved, not tried yet", ""
	case store.Changed:
		return "changed by the coach, not tried yet", ""
	case store.Helped:
		return "helped", "good"
	case store.NoDifference:
		return "no real difference", ""
	case store.Hurt:
		return "hurt", "warn"
	case store.InTrial:
		return "being tried out", "ask"
	}
	return string(p.State), ""
}

func adviceVerdictWords(verdict string) string {
	switch advice.Verdict(verdict) {
	case advice.More:
		return "Too early to say: the same again."
	case advice.Keep:
		return "Nothing to change."
	case advice.Change:
		return "A change was proposed."
	}
	return ""
}
